#pragma once

#include <Eigen/Core>

#include <string>
#include <vector>

// Files that only a library writes.
namespace selvage::test {

// A GeoTIFF of one band, rows from the first; `transform` as GDAL orders it: x of the corner, steps of x along a row and a
// column, then the same of y.
void write_geotiff(const std::string& file, int columns, int rows, const std::vector<double>& transform,
                   const std::vector<float>& values, float no_data, const std::string& crs);

// A layer of one closed area with a field `name`, by a driver: "GPKG", "ESRI Shapefile".
void write_area(const std::string& file, const std::string& driver, const std::string& layer,
                const std::vector<Eigen::Vector3d>& ring, const std::string& name, const std::string& crs);

}  // namespace selvage::test
