#include "mesh/ply.h"

#include "mesh/bytes.h"

#include <fmt/format.h>

#include <cstddef>

namespace selvage::mesh {

std::string ply_bytes(const TriangleMesh& mesh, const std::vector<PointColumn>& columns,
                      const std::vector<std::string>& comments) {
    std::string out = "ply\nformat binary_little_endian 1.0\n";
    for (const std::string& comment : comments) out += "comment " + comment + "\n";
    out += fmt::format("element vertex {}\n", mesh.points.size());
    for (const char* axis : {"x", "y", "z"}) out += fmt::format("property double {}\n", axis);
    for (const PointColumn& column : columns) out += "property double " + column.name + "\n";
    out += fmt::format("element face {}\nproperty list uchar int vertex_indices\nend_header\n", mesh.triangles.size());
    out.reserve(out.size() + mesh.points.size() * 8 * (3 + columns.size()) + mesh.triangles.size() * 13);
    for (std::size_t i = 0; i < mesh.points.size(); ++i) {
        for (const double coordinate : mesh.points[i]) append_double(out, coordinate);
        for (const PointColumn& column : columns) append_double(out, column.values[i]);
    }
    for (const auto& triangle : mesh.triangles) {
        out += '\3';
        for (const int point : triangle) append_u32(out, static_cast<std::size_t>(point));
    }
    return out;
}

}  // namespace selvage::mesh
