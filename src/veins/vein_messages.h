#pragma once

#include "veins/vein_work.h"

// What is said about a vein's data. Each adds to the work's findings.
namespace selvage::veins {

// No base plane: there are no data at all, or they cannot tell an attitude.
void report_no_plane(VeinWork& work);
// `share` of the extent is steeper than 45 degrees to the base plane.
void report_steepness(VeinWork& work, double share);
// The rest, once everything is modelled: normals left out, contacts that turn over or disagree, doubtful intercepts, few data.
void report_data(VeinWork& work);

}  // namespace selvage::veins
