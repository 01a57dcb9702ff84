#pragma once

#include "support/made_up_project.h"

#include <cstdint>
#include <string>
#include <vector>

namespace selvage::made_up {

// A project for asking whether forecasts hold: one vein, oriented holes from two pads, then planned holes whose truth is drawn
// too.
struct ForecastWorld {
    MadeUpProject project;
    std::vector<std::string> planned;
};

// World `world` of a study: surface kind world mod 6, `drilled` holes on a 50 m lattice, angles of 30 to 75 degrees to the vein,
// stations every 15 m, `planned` more within the drilled ground or up to a spacing outside it.
ForecastWorld forecast_world(std::uint64_t world, std::size_t drilled, std::size_t planned);
// The same with a vein that is not there everywhere: barren windows, an end along a line, pinching out, lenses, one by chance.
ForecastWorld broken_forecast_world(std::uint64_t world, std::size_t drilled, std::size_t planned);

}  // namespace selvage::made_up
