#pragma once

#include <Eigen/Core>

#include <functional>
#include <string>
#include <vector>

// Files of the map as text, for tests to write.
namespace selvage::test {

// An ESRI ASCII grid: rows from the north, cells of `cell`, the lower left corner at (left, bottom); NaN is written as no data.
std::string ascii_grid(int columns, int rows, double left, double bottom, double cell,
                       const std::function<double(double, double)>& elevation);

// A GeoJSON area with its holes; `properties` as JSON members without braces. crs: "EPSG:26911"; empty: the format's own, which
// is longitude and latitude.
std::string geojson_area(const std::vector<std::vector<Eigen::Vector2d>>& rings, const std::string& properties,
                         const std::string& crs);

// A box's corners, anticlockwise.
std::vector<Eigen::Vector2d> box_ring(double left, double bottom, double right, double top);

// The closed box as an OFF file.
std::string off_box(const Eigen::Vector3d& low, const Eigen::Vector3d& high);

}  // namespace selvage::test
