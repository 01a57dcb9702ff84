#include "numerics/directions.h"

#include <Eigen/Eigenvalues>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

namespace selvage::numerics {

namespace {

using Axes = std::vector<Eigen::Vector3d>;

Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> eigen_of(const Axes& axes, const std::vector<double>& weights) {
    Eigen::Matrix3d tensor = Eigen::Matrix3d::Zero();
    double sum = 0.0;
    for (std::size_t i = 0; i < axes.size(); ++i) {
        const double weight = weights.empty() ? 1.0 : weights[i];
        tensor += weight * axes[i] * axes[i].transpose();
        sum += weight;
    }
    return Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d>(tensor / sum);
}

Eigen::Vector3d on_side_of(const Eigen::Vector3d& axis, const Eigen::Vector3d& mean) {
    return axis.dot(mean) < 0.0 ? Eigen::Vector3d(-axis) : axis;
}

bool is_within(const Eigen::Vector3d& axis, const Eigen::Vector3d& mean, double least_cosine) {
    return std::abs(axis.dot(mean)) >= least_cosine;
}

// The free axes within the cone about a mean.
std::vector<std::size_t> members_of(const Axes& axes, const std::vector<int>& sets, const Eigen::Vector3d& mean,
                                    double least_cosine) {
    std::vector<std::size_t> members;
    for (std::size_t i = 0; i < axes.size(); ++i)
        if (sets[i] < 0 && is_within(axes[i], mean, least_cosine)) members.push_back(i);
    return members;
}

}  // namespace

AxisMean axis_mean(const Axes& axes, const std::vector<double>& weights) {
    assert(!axes.empty() && (weights.empty() || weights.size() == axes.size()));
    Eigen::Vector3d mean = eigen_of(axes, weights).eigenvectors().col(2);
    double weight_sum = 0.0;
    const auto count = static_cast<double>(axes.size());
    for (std::size_t i = 0; i < axes.size(); ++i) weight_sum += weights.empty() ? 1.0 : weights[i];
    Eigen::Vector3d resultant = Eigen::Vector3d::Zero();
    constexpr int rounds = 5;  // the flips settle at once but for axes square to the mean
    for (int round = 0; round < rounds; ++round) {
        resultant.setZero();
        for (std::size_t i = 0; i < axes.size(); ++i)
            resultant += (weights.empty() ? 1.0 : weights[i]) * count / weight_sum * on_side_of(axes[i], mean);
        mean = resultant.normalized();
    }
    AxisMean result;
    result.mean = mean.z() < 0.0 ? Eigen::Vector3d(-mean) : mean;
    result.resultant = resultant.norm();
    result.cone95 = base::Angle::degrees(180.0);
    const double lost = count - result.resultant;
    if (axes.size() < 2) return result;
    result.kappa = lost > 0.0 ? (count - 1.0) / lost : std::numeric_limits<double>::infinity();
    const double cosine = 1.0 - lost / result.resultant * (std::pow(20.0, 1.0 / (count - 1.0)) - 1.0);
    if (cosine > -1.0) result.cone95 = base::Angle::radians(std::acos(std::min(1.0, cosine)));
    return result;
}

AxisShape axis_shape(const Axes& axes) {
    const Eigen::Vector3d rising = eigen_of(axes, {}).eigenvalues().cwiseMax(0.0);
    AxisShape shape;
    shape.eigenvalues = rising.reverse();
    constexpr double alike = 1e-12;
    const auto log_ratio = [](double a, double b) { return b > 0.0 ? std::log(a / b) : std::numeric_limits<double>::infinity(); };
    const double first = log_ratio(shape.eigenvalues(0), shape.eigenvalues(1)),
                 second = log_ratio(shape.eigenvalues(1), shape.eigenvalues(2));
    shape.k = second > alike ? first / second : std::numeric_limits<double>::infinity();
    shape.c = log_ratio(shape.eigenvalues(0), shape.eigenvalues(2));
    return shape;
}

double terzaghi_weight(base::Angle alpha) {
    constexpr double least_alpha = 20.0;  // degrees
    return 1.0 / base::Angle::degrees(std::max(least_alpha, std::abs(alpha.degrees()))).sin();
}

std::vector<int> axis_sets(const Axes& axes, base::Angle half_angle, std::size_t least) {
    const double least_cosine = half_angle.cos();
    std::vector<int> sets(axes.size(), -1);
    for (int number = 0;; ++number) {
        std::vector<std::size_t> fullest;
        for (std::size_t i = 0; i < axes.size(); ++i) {
            if (sets[i] >= 0) continue;
            std::vector<std::size_t> members = members_of(axes, sets, axes[i], least_cosine);
            if (members.size() > fullest.size()) fullest = std::move(members);
        }
        if (fullest.size() < least || fullest.empty()) return sets;
        Axes together;
        for (const std::size_t i : fullest) together.push_back(axes[i]);
        const std::vector<std::size_t> about_mean = members_of(axes, sets, axis_mean(together).mean, least_cosine);
        for (const std::size_t i : about_mean.size() >= fullest.size() ? about_mean : fullest) sets[i] = number;
    }
}

}  // namespace selvage::numerics
