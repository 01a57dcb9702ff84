#pragma once

#include "base/angle.h"
#include "settings/project.h"

#include <optional>
#include <string>

namespace selvage::sheets {

// One azimuth from all three norths, as far as the project says where they lie.
struct ThreeNorths {
    base::Azimuth grid;
    std::optional<base::Azimuth> from_true, from_magnetic;  // nothing: not given, and never guessed
    std::string words;                                      // what they rest on, or what is missing
};

// true = grid + convergence; magnetic = true - declination. Without a stated grid_convergence neither is told.
ThreeNorths three_norths(base::Azimuth grid, const settings::North& north);

// "101.9°", three figures before the point; "not given".
std::string azimuth_figure(const std::optional<base::Azimuth>& azimuth);

}  // namespace selvage::sheets
