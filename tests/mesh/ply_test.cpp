#include "mesh/ply.h"

#include "support/made_up_solids.h"

#include <gtest/gtest.h>

#include <cstdint>
#include <cstring>
#include <string>

namespace selvage::mesh {
namespace {

template <typename T>
T figure_at(const std::string& bytes, std::size_t at) {
    T value{};
    std::memcpy(&value, bytes.data() + at, sizeof value);
    return value;
}

TEST(Ply, HeaderNamesOriginAndColumnsInTheirOrder) {
    const TriangleMesh mesh = made_up::tetrahedron();
    const std::vector<double> figures = {1, 2, 3, 4};
    const std::string bytes = ply_bytes(mesh, {{"wall", figures}, {"sd", figures}}, {"origin 577000.00 6081000.00 2000.00"});
    const std::string header =
        "ply\nformat binary_little_endian 1.0\ncomment origin 577000.00 6081000.00 2000.00\nelement vertex 4\n"
        "property double x\nproperty double y\nproperty double z\nproperty double wall\nproperty double sd\n"
        "element face 4\nproperty list uchar int vertex_indices\nend_header\n";
    EXPECT_EQ(bytes.substr(0, header.size()), header);
    EXPECT_EQ(bytes.size(), header.size() + 4U * 5U * 8U + 4U * 13U);
}

TEST(Ply, EveryFigureComesBackAsItWas) {
    const TriangleMesh mesh = made_up::walled_solid(2, 30.0).solid;
    std::vector<double> sd;
    for (std::size_t i = 0; i < mesh.points.size(); ++i) sd.push_back(0.1 * static_cast<double>(i));
    const std::string bytes = ply_bytes(mesh, {{"sd", sd}}, {});
    std::size_t at = bytes.find("end_header\n") + 11;
    for (std::size_t i = 0; i < mesh.points.size(); ++i) {
        for (int k = 0; k < 3; ++k, at += 8) EXPECT_EQ(figure_at<double>(bytes, at), mesh.points[i][k]);
        EXPECT_EQ(figure_at<double>(bytes, at), sd[i]);
        at += 8;
    }
    for (const auto& triangle : mesh.triangles) {
        EXPECT_EQ(bytes[at++], '\3');
        for (const int point : triangle) {
            EXPECT_EQ(figure_at<std::int32_t>(bytes, at), point);
            at += 4;
        }
    }
    EXPECT_EQ(at, bytes.size());
}

}  // namespace
}  // namespace selvage::mesh
