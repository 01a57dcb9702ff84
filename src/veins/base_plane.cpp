#include "veins/base_plane.h"

#include "numerics/median.h"

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace selvage::veins {

namespace {

constexpr double degree = 3.14159265358979323846 / 180.0;
constexpr double point_sd = 4.0, normal_sd = 10.0 * degree;  // what a vein's waves make of single data
constexpr double corner = 1.5;                               // of Huber's cost, in sds
constexpr double longest_turn = 20.0 * degree;               // of one step

// Plane as a normal and an offset along it from a fixed point amid the data.
struct Candidate {
    Eigen::Vector3d normal = Eigen::Vector3d::UnitZ();
    double offset = 0.0;
};

struct Evidence {
    Eigen::Vector3d middle = Eigen::Vector3d::Zero();
    const std::vector<PlanePoint>& points;
    const std::vector<PlaneNormal>& normals;
};

double huber(double z) { return std::abs(z) <= corner ? 0.5 * z * z : corner * (std::abs(z) - 0.5 * corner); }
double huber_weight(double z) { return std::abs(z) <= corner ? 1.0 : corner / std::abs(z); }

// The turn that brings one unit vector to another taken with the sign nearest to it, as axis times angle.
Eigen::Vector3d turn_between(const Eigen::Vector3d& from, const Eigen::Vector3d& to) {
    const Eigen::Vector3d near = from.dot(to) < 0.0 ? Eigen::Vector3d(-to) : to;
    const Eigen::Vector3d axis = from.cross(near);
    const double sine = axis.norm();
    return sine > 0.0 ? Eigen::Vector3d(axis * (std::atan2(sine, from.dot(near)) / sine)) : Eigen::Vector3d::Zero();
}

double distance_in_sds(const Evidence& evidence, const Candidate& plane, const PlanePoint& point) {
    return (plane.normal.dot(point.position - evidence.middle) - plane.offset) / std::max(point.sd, point_sd);
}

double cost_of(const Evidence& evidence, const Candidate& plane) {
    double cost = 0.0;
    for (const PlanePoint& point : evidence.points) cost += huber(distance_in_sds(evidence, plane, point));
    for (const PlaneNormal& datum : evidence.normals)
        cost += huber(turn_between(plane.normal, datum.normal).norm() / std::max(datum.sd, normal_sd));
    return cost;
}

// Two directions across the normal.
Eigen::Matrix<double, 3, 2> across(const Eigen::Vector3d& normal) {
    Eigen::Matrix<double, 3, 2> axes;
    axes.col(0) = normal.unitOrthogonal();
    axes.col(1) = normal.cross(axes.col(0));
    return axes;
}

// Step of two tilts of the normal (along the axes) and the offset, by weighted least squares of the linearised residuals.
Eigen::Vector3d step_of(const Evidence& evidence, const Candidate& plane, const Eigen::Matrix<double, 3, 2>& axes) {
    Eigen::Matrix3d normal_matrix = 1e-9 * Eigen::Matrix3d::Identity();
    Eigen::Vector3d right = Eigen::Vector3d::Zero();
    const auto add = [&](const Eigen::Vector3d& row, double residual) {
        const double weight = huber_weight(residual);
        normal_matrix += weight * row * row.transpose();
        right -= weight * residual * row;
    };
    for (const PlanePoint& point : evidence.points) {
        const Eigen::Vector2d lever = axes.transpose() * (point.position - evidence.middle);
        add(Eigen::Vector3d(lever.x(), lever.y(), -1.0) / std::max(point.sd, point_sd), distance_in_sds(evidence, plane, point));
    }
    for (const PlaneNormal& datum : evidence.normals) {
        const double sd = std::max(datum.sd, normal_sd);
        const Eigen::Vector3d turn = turn_between(plane.normal, datum.normal);
        const double angle = turn.norm() / sd;
        // Tilting towards the datum by x lessens its angle by x; both parts share the angle's weight.
        const Eigen::Vector2d towards = axes.transpose() * turn.cross(plane.normal) / sd;
        const double weight = huber_weight(angle);
        normal_matrix.diagonal().head<2>().array() += weight / (sd * sd);
        right.head<2>() += weight / sd * towards;
    }
    return normal_matrix.ldlt().solve(right);
}

Candidate refined(const Evidence& evidence, Candidate plane) {
    constexpr int most_steps = 50;
    double cost = cost_of(evidence, plane);
    for (int count = 0; count < most_steps; ++count) {
        const Eigen::Matrix<double, 3, 2> axes = across(plane.normal);
        Eigen::Vector3d step = step_of(evidence, plane, axes);
        step *= std::min(1.0, longest_turn / std::max(step.head<2>().norm(), 1e-300));
        bool fell = false;
        for (int halving = 0; halving < 12 && !fell; ++halving, step *= 0.5) {
            const Candidate next{(plane.normal + axes * step.head<2>()).normalized(), plane.offset + step.z()};
            const double next_cost = cost_of(evidence, next);
            fell = next_cost < cost;
            if (!fell) continue;
            plane = next;
            cost = next_cost;
        }
        if (!fell || step.norm() < 1e-9) break;
    }
    return plane;
}

Eigen::Matrix3d scatter_of(const Evidence& evidence) {
    Eigen::Matrix3d scatter = Eigen::Matrix3d::Zero();
    for (const PlanePoint& point : evidence.points) {
        const Eigen::Vector3d off = point.position - evidence.middle;
        scatter += off * off.transpose();
    }
    return scatter;
}

// One fence tells no attitude: the tilt about its line would be known to no better than this, were its points as near to the
// plane as single data are.
bool points_tell_attitude(const Evidence& evidence) {
    constexpr double worst_tilt = 20.0 * degree;
    if (evidence.points.size() < 3) return false;
    const Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> eigen(scatter_of(evidence));
    return point_sd / std::sqrt(std::max(eigen.eigenvalues()(1), 1e-12)) < worst_tilt;
}

std::vector<Eigen::Vector3d> starts_of(const Evidence& evidence) {
    std::vector<Eigen::Vector3d> starts;
    if (evidence.points.size() >= 3) {
        const Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> eigen(scatter_of(evidence));
        starts.emplace_back(eigen.eigenvectors().col(0));
        starts.emplace_back(eigen.eigenvectors().col(1));  // where one point lies far off the plane
    }
    Eigen::Matrix3d poles = Eigen::Matrix3d::Zero();
    for (const PlaneNormal& datum : evidence.normals) poles += datum.normal * datum.normal.transpose();
    if (!evidence.normals.empty())
        starts.emplace_back(Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d>(poles).eigenvectors().col(2));
    constexpr std::size_t most_single = 12;
    const std::size_t stride = evidence.normals.size() / most_single + 1;
    for (std::size_t i = 0; i < evidence.normals.size(); i += stride) starts.push_back(evidence.normals[i].normal.normalized());
    return starts;
}

double median_offset(const Evidence& evidence, const Eigen::Vector3d& normal) {
    std::vector<double> offsets;
    for (const PlanePoint& point : evidence.points) offsets.push_back(normal.dot(point.position - evidence.middle));
    return offsets.empty() ? 0.0 : numerics::median(std::move(offsets));
}

}  // namespace

std::optional<base::Plane> base_plane(const std::vector<PlanePoint>& points, const std::vector<PlaneNormal>& normals) {
    Evidence evidence{Eigen::Vector3d::Zero(), points, normals};
    for (const PlanePoint& point : points) evidence.middle += point.position / static_cast<double>(points.size());
    if (normals.empty() && !points_tell_attitude(evidence)) return std::nullopt;
    Candidate best;
    double least = std::numeric_limits<double>::infinity();
    for (const Eigen::Vector3d& start : starts_of(evidence)) {
        const Candidate plane = refined(evidence, {start, median_offset(evidence, start)});
        const double cost = cost_of(evidence, plane);
        if (cost >= least) continue;
        least = cost;
        best = plane;
    }
    return base::Plane{evidence.middle + best.offset * best.normal, best.normal};
}

}  // namespace selvage::veins
