#pragma once

#include "site/ground.h"

#include <cmath>
#include <functional>
#include <memory>

namespace selvage::test {

// A topography on a grid of cells of `cell` m over a box, its lower left corner at (left, bottom).
inline std::shared_ptr<const site::Relief> grid_relief(double left, double bottom, int columns, int rows, double cell,
                                                       const std::function<double(double, double)>& elevation) {
    gis::ElevationGrid grid;
    grid.first = {left + cell / 2.0, bottom + (rows - 0.5) * cell};
    grid.along_row = {cell, 0.0};
    grid.along_column = {0.0, -cell};
    grid.columns = static_cast<std::size_t>(columns);
    grid.rows = static_cast<std::size_t>(rows);
    for (int row = 0; row < rows; ++row)
        for (int column = 0; column < columns; ++column)
            grid.elevations.push_back(
                static_cast<float>(elevation(left + (column + 0.5) * cell, bottom + (rows - row - 0.5) * cell)));
    return std::make_shared<const site::Relief>(site::Relief{std::move(grid)});
}

}  // namespace selvage::test
