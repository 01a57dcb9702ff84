#pragma once

#include "sheets/section_content.h"
#include "sheets/section_frame.h"
#include "veins/vein.h"

#include <Eigen/Core>

#include <vector>

// A vein's trace as a section shows it.
namespace selvage::sheets {

// A place of the trace, (distance, up) in m.
struct VeinPlace {
    double along = 0.0;  // m down the mean dip's line on the section
    Eigen::Vector2d mid, hanging, foot, low80, high80;
    double sd = 0.0;  // of the drawn surface, m
    double presence = 1.0;
    double inside = 1.0;  // 1 where the cut lies within the modelled extent, 0 where it does not
};

// Where the vein is cut: on the section's own plane, and at each of its hits in the slab on the parallel plane through that hit,
// bent over evenly from one to the next. So the drawn walls pass through every contact of the slab, and are those of the section
// half-way to the next one or `reach` away. Parts in order down the dip; a part ends where the model ends or at the ground.
//   radius, step  m, as of veins::Vein::trace; hits: of this vein, in this slab; ground: what lies above it is left out
std::vector<std::vector<VeinPlace>> vein_trace(const veins::Vein& vein, const std::vector<const intercepts::Intercept*>& hits,
                                               const Section& section, const Eigen::Vector3d& middle, double radius, double step,
                                               double reach, const site::Ground& ground);

}  // namespace selvage::sheets
