#include "site/ground.h"

#include <Eigen/Cholesky>

#include <vector>

namespace selvage::site {

namespace {

constexpr double relief_sd = 5.0;  // m about the plane
constexpr double slope_sd = 0.3;   // hills of 17 degrees are common, of 35 rare

bool starts_at_surface(tables::HoleType type) { return tables::is_drill_hole(type) || type == tables::HoleType::trench; }

}  // namespace

std::vector<Eigen::Vector3d> ground_points(const tables::Records& records) {
    std::vector<Eigen::Vector3d> points;
    for (const tables::Collar& collar : records.collars) {
        if (starts_at_surface(collar.type) && !collar.parent) points.push_back(collar.position);
    }
    for (const tables::Outcrop& outcrop : records.outcrops) points.push_back(outcrop.position);
    return points;
}

std::optional<base::Plane> ground_plane(const tables::Records& records) {
    const std::vector<Eigen::Vector3d> points = ground_points(records);
    if (points.empty()) return std::nullopt;
    Eigen::Vector3d centre = Eigen::Vector3d::Zero();
    for (const Eigen::Vector3d& point : points) centre += point / static_cast<double>(points.size());
    Eigen::Matrix2d precision = Eigen::Matrix2d::Identity() / (slope_sd * slope_sd);
    Eigen::Vector2d pull = Eigen::Vector2d::Zero();
    for (const Eigen::Vector3d& point : points) {
        const Eigen::Vector3d off = point - centre;
        precision += off.head<2>() * off.head<2>().transpose() / (relief_sd * relief_sd);
        pull += off.head<2>() * off.z() / (relief_sd * relief_sd);
    }
    const Eigen::Vector2d slope = precision.llt().solve(pull);
    return base::Plane{centre, Eigen::Vector3d(-slope.x(), -slope.y(), 1.0).normalized()};
}

}  // namespace selvage::site
