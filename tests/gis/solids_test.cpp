#include "gis/solids.h"

#include "base/file.h"
#include "mesh/ply.h"
#include "mesh/solid_check.h"
#include "support/map_files.h"
#include "support/temporary_folder.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdint>
#include <cstring>

namespace selvage::gis {
namespace {

class SolidFiles : public ::testing::Test {
protected:
    std::string file(const std::string& name, const std::string& text) const {
        base::write_file(folder.path() / name, text);
        return (folder.path() / name).string();
    }
    mesh::TriangleMesh box() const { return *read_solid(file("box.off", test::off_box({0, 0, 0}, {2, 3, 4})), 1.0).value; }
    TemporaryFolder folder{"solid-files"};
};

// The box's volume is the product of its sides.
TEST_F(SolidFiles, AnOffBoxIsClosedAndHasItsVolume) {
    const mesh::TriangleMesh read = box();
    EXPECT_EQ(read.triangles.size(), 12U);
    EXPECT_TRUE(mesh::is_closed(read));
    EXPECT_NEAR(mesh::volume(read), 24.0, 1e-12);
}

TEST_F(SolidFiles, FeetBecomeMetres) {
    const auto read = read_solid(file("b.off", test::off_box({0, 0, 0}, {2, 3, 4})), 0.3048);
    EXPECT_NEAR(mesh::volume(*read.value), 24.0 * 0.3048 * 0.3048 * 0.3048, 1e-12);
}

TEST_F(SolidFiles, OurOwnPlyComesBack) {
    const auto read =
        read_solid(file("own.ply", mesh::ply_bytes(box(), {{"sd", std::vector<double>(8, 0.5)}}, {"invented"})), 1.0);
    ASSERT_TRUE(read.value) << read.failure;
    EXPECT_EQ(read.value->points, box().points);
    EXPECT_EQ(read.value->triangles, box().triangles);
}

std::string ply_head(const std::string& format) {
    return "ply\nformat " + format +
           " 1.0\ncomment made up\nelement vertex 4\nproperty float x\nproperty float y\nproperty float z\nproperty uchar red\n"
           "element face 4\nproperty list uchar int vertex_indices\nend_header\n";
}

const std::vector<std::vector<float>> corners = {{0, 0, 0}, {6, 0, 0}, {0, 6, 0}, {0, 0, 6}};
const std::vector<std::vector<std::int32_t>> faces = {{0, 2, 1}, {0, 1, 3}, {1, 2, 3}, {2, 0, 3}};

TEST_F(SolidFiles, PlyAsText) {
    std::string text = ply_head("ascii");
    for (const auto& corner : corners)
        text += std::to_string(corner[0]) + " " + std::to_string(corner[1]) + " " + std::to_string(corner[2]) + " 200\n";
    for (const auto& one : faces)
        text += "3 " + std::to_string(one[0]) + " " + std::to_string(one[1]) + " " + std::to_string(one[2]) + "\n";
    const auto read = read_solid(file("t.ply", text), 1.0);
    ASSERT_TRUE(read.value) << read.failure;
    EXPECT_NEAR(mesh::volume(*read.value), 36.0, 1e-12);
}

TEST_F(SolidFiles, PlyOfEitherByteOrder) {
    for (const bool big : {false, true}) {
        std::string bytes = ply_head(big ? "binary_big_endian" : "binary_little_endian");
        const auto put = [&](const auto& value) {
            char raw[sizeof value];
            std::memcpy(raw, &value, sizeof value);
            if (big) std::reverse(raw, raw + sizeof value);
            bytes.append(raw, sizeof value);
        };
        for (const auto& corner : corners) {
            for (const float value : corner) put(value);
            bytes += static_cast<char>(200);
        }
        for (const auto& one : faces) {
            bytes += static_cast<char>(3);
            for (const std::int32_t value : one) put(value);
        }
        const auto read = read_solid(file(big ? "b.ply" : "l.ply", bytes), 1.0);
        ASSERT_TRUE(read.value) << read.failure;
        EXPECT_NEAR(mesh::volume(*read.value), 36.0, 1e-12);
        const auto cut = read_solid(file("cut.ply", bytes.substr(0, bytes.size() - 5)), 1.0);
        EXPECT_FALSE(cut.value);
        EXPECT_NE(cut.failure.find("cut short"), std::string::npos) << cut.failure;
    }
}

TEST_F(SolidFiles, ObjCountsFromOneOrFromItsEnd) {
    const std::string text =
        "# made up\no stope\nv 0 0 0\nv 6 0 0\nv 0 6 0\nv 0 0 6\nvn 0 0 1\nf 1//1 3//1 2//1\nf 1 2 4\nf -3 -2 -1\nf 3 1 4\n";
    const auto read = read_solid(file("a.obj", text), 1.0);
    ASSERT_TRUE(read.value) << read.failure;
    EXPECT_NEAR(mesh::volume(*read.value), 36.0, 1e-12);
}

TEST_F(SolidFiles, WhatIsBrokenIsNamed) {
    const std::vector<std::pair<std::string, std::string>> broken = {
        {"a.off", "OFF\n3 1 0\n0 0 0\n1 0 0\n0 1 0\n3 0 1 7\n"},
        {"b.off", "nothing\n"},
        {"c.off", "OFF\n3 1 0\n0 0 0\n1 zero 0\n0 1 0\n3 0 1 2\n"},
        {"d.ply", "ply\nformat ascii 1.0\nelement vertex many\nend_header\n"},
        {"e.ply", "ply\nformat ascii 1.0\n"},
        {"f.obj", "v 0 0 0\n"},
        {"g.ply", ""}};
    for (const auto& [name, text] : broken) {
        const auto read = read_solid(file(name, text), 1.0);
        EXPECT_FALSE(read.value) << name;
        EXPECT_NE(read.failure.find(name), std::string::npos) << read.failure;
    }
    EXPECT_FALSE(read_solid((folder.path() / "missing.ply").string(), 1.0).value);
    EXPECT_FALSE(is_solid_file("workings.gpkg"));
    EXPECT_TRUE(is_solid_file("Workings.PLY"));
}

}  // namespace
}  // namespace selvage::gis
