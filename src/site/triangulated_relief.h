#pragma once

#include "mesh/outcome.h"

#include <Eigen/Core>

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

namespace selvage::site {

// Ground through points and along breaklines: flat triangles between them, out to their hull.
class TriangulatedRelief {
public:
    // Elevation linear on the triangle at a place; nothing outside all of them.
    std::optional<double> elevation_at(const Eigen::Vector2d& place) const;
    double usual_side() const { return usual_side_; }  // median of the triangles' sides, m
    const std::vector<Eigen::Vector3d>& points() const { return points_; }
    const std::vector<std::array<int, 3>>& triangles() const { return triangles_; }

private:
    friend mesh::Outcome<TriangulatedRelief> triangulated(const std::vector<Eigen::Vector3d>& points,
                                                          const std::vector<std::vector<Eigen::Vector3d>>& breaklines);
    void lay_out_squares();

    std::vector<Eigen::Vector3d> points_;
    std::vector<std::array<int, 3>> triangles_;
    double usual_side_ = 1.0;
    // Triangles by the squares that their boxes touch.
    Eigen::Vector2d low_ = Eigen::Vector2d::Zero();
    double square_ = 1.0;
    std::size_t columns_ = 0, rows_ = 0;
    std::vector<std::vector<std::size_t>> squares_;
};

// Points of one place count once, with the mean of their elevations; so do breaklines that cross. Refused where all lie on a
// line.
mesh::Outcome<TriangulatedRelief> triangulated(const std::vector<Eigen::Vector3d>& points,
                                               const std::vector<std::vector<Eigen::Vector3d>>& breaklines);

}  // namespace selvage::site
