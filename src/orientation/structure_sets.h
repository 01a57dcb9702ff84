#pragma once

#include "base/angle.h"
#include "orientation/orient.h"
#include "paths/path.h"

#include <cstddef>
#include <string>
#include <vector>

// Planes measured on oriented core, gathered into sets.
namespace selvage::orientation {

// One row of sets.csv. Poles weighted for the bias of the hole that met them (Terzaghi 1965).
struct StructureSet {
    std::string kind, vein;  // as the structures table names them; vein may be empty
    std::size_t number = 1;  // within its kind and vein, the fullest first
    std::size_t count = 0;   // poles
    base::Attitude attitude;
    double kappa = 0.0;
    base::Angle cone95;
};

// Quality 4, the poorest, is printed and not used.
inline bool is_trusted(const Orientation& row) { return row.quality < 4; }

// By kind, then vein; within each the fullest cones of 30 degrees with three poles or more, of those that are trusted.
std::vector<StructureSet> structure_sets(const std::vector<Orientation>& orientations, const std::vector<paths::Path>& paths);

}  // namespace selvage::orientation
