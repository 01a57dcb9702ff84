#pragma once

#include <Eigen/Core>

#include <array>
#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

namespace selvage::site {

// Ground through points and along breaklines, by triangles between them.
class TriangulatedRelief {
public:
    // breaklines: pairs of numbers of points that are joined by a side. Points of one place are taken once, with the mean of
    // their elevations.
    TriangulatedRelief(const std::vector<Eigen::Vector3d>& points, const std::vector<std::array<std::size_t, 2>>& breaklines);

    std::optional<double> elevation_at(const Eigen::Vector2d& place) const;
    double usual_side() const { return usual_side_; }  // median of the triangles' sides, m
    const std::vector<Eigen::Vector3d>& points() const { return points_; }
    const std::vector<std::array<std::size_t, 3>>& triangles() const { return triangles_; }

private:
    std::vector<Eigen::Vector3d> points_;
    std::vector<std::array<std::size_t, 3>> triangles_;
    double usual_side_ = 1.0;
    // Triangles by the squares that their boxes touch.
    Eigen::Vector2d low_ = Eigen::Vector2d::Zero();
    double square_ = 1.0;
    std::size_t columns_ = 0, rows_ = 0;
    std::vector<std::vector<std::size_t>> squares_;
};

}  // namespace selvage::site
