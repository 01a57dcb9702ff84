#pragma once

#include "sheets/compose.h"

#include <Eigen/Core>

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

// Holes that say nothing of a vein, though it was due in them: stopped short, core lost, faulted out, not judged.
namespace selvage::sheets {

// Lines for a side list, one for each vein and reason: "stopped short of Heron: HC-02 (due at 243 m), HC-04 (334 m)".
// wanted: whether a sheet concerns itself with the hole, or with the point where the vein was due. Depths are forecasts: not
// every style tells them.
std::vector<std::string> silent_hole_lines(const Results& results, const std::function<bool(const veins::NoVein&)>& wanted,
                                           bool depths);
// The same of all holes, without the depths; only counted where a line would name more than `names_most`.
std::vector<std::string> silent_hole_names(const Results& results, std::size_t names_most);
// "active, drilled to 150.0 m", of an active hole.
std::string active_words(const paths::Path& path, const base::MapFrame& map);
// Whether a hole was picked to meet a vein, and all its picks of it were left out for an error in the data.
bool is_left_out(const Results& results, const std::string& hole, const std::string& vein);
// "Lantern picked, left out (see the checks): HC-16", of the holes that are wanted.
std::vector<std::string> left_out_picks(const Results& results, const std::function<bool(const std::string&)>& wanted);

}  // namespace selvage::sheets
