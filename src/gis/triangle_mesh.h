#pragma once

#include <Eigen/Core>

#include <array>
#include <cstddef>
#include <vector>

namespace selvage::gis {

struct TriangleMesh {
    std::vector<Eigen::Vector3d> points;                // m
    std::vector<std::array<std::size_t, 3>> triangles;  // corners, anticlockwise seen from outside
};

}  // namespace selvage::gis
