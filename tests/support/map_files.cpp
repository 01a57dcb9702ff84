#include "support/map_files.h"

#include <fmt/format.h>

#include <array>
#include <cmath>

namespace selvage::test {

std::string ascii_grid(int columns, int rows, double left, double bottom, double cell,
                       const std::function<double(double, double)>& elevation) {
    std::string text = fmt::format("ncols {}\nnrows {}\nxllcorner {}\nyllcorner {}\ncellsize {}\nNODATA_value -9999\n", columns,
                                   rows, left, bottom, cell);
    for (int row = rows - 1; row >= 0; --row)
        for (int column = 0; column < columns; ++column) {
            const double value = elevation(left + (column + 0.5) * cell, bottom + (row + 0.5) * cell);
            text += fmt::format("{:.3f}{}", std::isnan(value) ? -9999.0 : value, column + 1 < columns ? ' ' : '\n');
        }
    return text;
}

std::string geojson_area(const std::vector<std::vector<Eigen::Vector2d>>& rings, const std::string& properties,
                         const std::string& crs) {
    std::string coordinates;
    for (const std::vector<Eigen::Vector2d>& ring : rings) {
        coordinates += coordinates.empty() ? "[" : ",[";
        for (std::size_t i = 0; i <= ring.size(); ++i)
            coordinates += fmt::format("{}[{},{}]", i == 0 ? "" : ",", ring[i % ring.size()].x(), ring[i % ring.size()].y());
        coordinates += "]";
    }
    const std::string system =
        crs.empty() ? ""
                    : fmt::format("\"crs\":{{\"type\":\"name\",\"properties\":{{\"name\":\"urn:ogc:def:crs:EPSG::{}\"}}}},",
                                  crs.substr(crs.find(':') + 1));
    return fmt::format(
        "{{\"type\":\"FeatureCollection\",{}\"features\":[{{\"type\":\"Feature\",\"properties\":{{{}}},\"geometry\":"
        "{{\"type\":\"Polygon\",\"coordinates\":[{}]}}}}]}}",
        system, properties, coordinates);
}

std::vector<Eigen::Vector2d> box_ring(double left, double bottom, double right, double top) {
    return {{left, bottom}, {right, bottom}, {right, top}, {left, top}};
}

std::string off_box(const Eigen::Vector3d& low, const Eigen::Vector3d& high) {
    std::string text = "OFF\n8 6 0\n";
    for (int i = 0; i < 8; ++i)
        text += fmt::format("{} {} {}\n", (i & 1) != 0 ? high.x() : low.x(), (i & 2) != 0 ? high.y() : low.y(),
                            (i & 4) != 0 ? high.z() : low.z());
    for (const std::array<int, 4>& face :
         {std::array<int, 4>{0, 2, 3, 1}, {4, 5, 7, 6}, {0, 1, 5, 4}, {1, 3, 7, 5}, {3, 2, 6, 7}, {2, 0, 4, 6}})
        text += fmt::format("4 {} {} {} {}\n", face[0], face[1], face[2], face[3]);
    return text;
}

}  // namespace selvage::test
