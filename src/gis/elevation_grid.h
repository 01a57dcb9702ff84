#pragma once

#include "gis/map_target.h"

#include <Eigen/Core>

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

// A raster of elevations as values on a regular grid, which may stand turned on the map.
namespace selvage::gis {

struct ElevationGrid {
    Eigen::Vector2d first = Eigen::Vector2d::Zero();           // the middle of the first cell on the map, m
    Eigen::Vector2d along_row = Eigen::Vector2d::UnitX();      // to the next cell of a row, m
    Eigen::Vector2d along_column = -Eigen::Vector2d::UnitY();  // to the next row, m
    std::size_t columns = 0, rows = 0;
    std::vector<float> elevations;  // m, row by row; NaN: no data

    float at(std::size_t column, std::size_t row) const { return elevations[row * columns + column]; }
};

// Elevation at a place of the map, bilinear between the middles of four cells; over the outer half of the outer cells that of
// their edge. Nothing beyond the cells, and where a cell that counts has no data.
std::optional<double> elevation_at(const ElevationGrid& grid, const Eigen::Vector2d& place);

// True of a place over one of its cells, with data or without.
bool is_within(const ElevationGrid& grid, const Eigen::Vector2d& place);

// Reads any raster that GDAL reads: the cells that touch `window`, at most 3000 each way (else every second, third ... cell).
//   band  1 for the first; a raster's scale and offset are applied
// Not north-up: kept as it stands. In another coordinate system than the wanted one: a north-up grid of the same cell size there,
// bilinear from the file's cells. No cell in the window: a grid without rows.
Read<ElevationGrid> read_elevation_grid(const std::string& file, int band, const MapTarget& target, const MapBox& window);

// True of a file that GDAL can read as a raster.
bool is_raster(const std::string& file);

}  // namespace selvage::gis
