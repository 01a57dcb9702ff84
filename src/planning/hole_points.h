#pragma once

#include "paths/path.h"

#include <Eigen/Core>

#include <vector>

namespace selvage::planning {

// A hole that is there or planned, as points along it at close steps.
struct HolePoints {
    const paths::Path* path = nullptr;
    std::vector<Eigen::Vector3d> points;  // from its start down
    Eigen::Vector3d middle = Eigen::Vector3d::Zero();
    double radius = 0.0;  // m: all lie so near to the middle
};

constexpr double hole_point_step = 5.0;  // m, or less

// Cancelled holes are left out. Keeps pointers to `paths`, which outlive it.
std::vector<HolePoints> hole_points(const std::vector<paths::Path>& paths);

// From the line through the points, m.
double distance_to(const HolePoints& hole, const Eigen::Vector3d& point);

// Collars nearer to each other than this are of one pad: their holes start side by side, m.
constexpr double one_pad = 15.0;

}  // namespace selvage::planning
