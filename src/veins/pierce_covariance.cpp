#include "veins/pierce_covariance.h"

#include <algorithm>
#include <cmath>

namespace selvage::veins {

namespace {

constexpr double least_angle_sine = 0.05;  // 3 degrees: nearer to the vein's plane a straight slide says nothing

}  // namespace

// With e the path's error and h the vein's, the crossing moves by (I - t n'/n't) e + t h/n't, and its depth by (h - n'e)/n't.
Eigen::Matrix3d pierce_covariance(const paths::Path& path, double depth, const Eigen::Vector3d& normal, double depth_sd) {
    const Eigen::Vector3d hole = paths::direction_at(path, depth);
    const double sine = normal.dot(hole);
    const double across = std::copysign(std::max(std::abs(sine), least_angle_sine), sine);
    const Eigen::Matrix3d errors = paths::covariance_at(path, depth);
    const Eigen::Matrix3d slide = Eigen::Matrix3d::Identity() - hole * normal.transpose() / across;
    const double by_path = normal.dot(errors * normal) / (across * across);
    const double by_vein = std::max(0.0, depth_sd * depth_sd - by_path);
    return slide * errors * slide.transpose() + by_vein * hole * hole.transpose();
}

}  // namespace selvage::veins
