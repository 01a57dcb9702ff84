#include "faults/fault_plane.h"

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>
#include <Eigen/Geometry>

#include <algorithm>
#include <cmath>

namespace selvage::faults {

namespace {

constexpr double least_spread = 5.0;  // m, rms off a line, for places alone to tell an attitude
constexpr double huber_corner = 1.5;  // sds of a place, from where on it counts less (Huber 1964)
constexpr int most_rounds = 50;
constexpr double least_pole_sd = 0.002;  // radians, a tenth of a degree: nobody knows an attitude better

Eigen::Vector3d middle_of(const std::vector<PlaneDatum>& places) {
    Eigen::Vector3d sum = Eigen::Vector3d::Zero();
    for (const PlaneDatum& place : places) sum += place.point / static_cast<double>(places.size());
    return sum;
}

double variance_of(const PoleDatum& pole) { return std::pow(std::max(pole.sd, least_pole_sd), 2); }

// The first guess of the normal: the poles', else the thinnest way of the places.
std::optional<Eigen::Vector3d> first_normal(const std::vector<PlaneDatum>& places, const std::vector<PoleDatum>& poles) {
    Eigen::Matrix3d scatter = Eigen::Matrix3d::Zero();
    if (!poles.empty()) {
        for (const PoleDatum& pole : poles) scatter += pole.pole * pole.pole.transpose() / variance_of(pole);
        return Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d>(scatter).eigenvectors().col(2);
    }
    if (places.size() < 3) return std::nullopt;
    const Eigen::Vector3d middle = middle_of(places);
    for (const PlaneDatum& place : places) scatter += (place.point - middle) * (place.point - middle).transpose();
    const Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> axes(scatter / static_cast<double>(places.size()));
    if (axes.eigenvalues()(1) < least_spread * least_spread) return std::nullopt;
    return axes.eigenvectors().col(0);
}

struct Normals {
    Eigen::Matrix3d matrix = Eigen::Matrix3d::Zero();
    Eigen::Vector3d right = Eigen::Vector3d::Zero();
    void add(const Eigen::Vector3d& row, double residual, double variance) {
        matrix += row * row.transpose() / variance;
        right += row * residual / variance;
    }
};

}  // namespace

std::optional<PlaneFit> fit_fault_plane(const std::vector<PlaneDatum>& places, const std::vector<PoleDatum>& poles) {
    if (places.empty()) return std::nullopt;
    const std::optional<Eigen::Vector3d> first = first_normal(places, poles);
    if (!first) return std::nullopt;
    PlaneFit fit;
    fit.plane = {middle_of(places), *first};
    for (int round = 0; round < most_rounds; ++round) {
        fit.first_axis = fit.plane.normal.unitOrthogonal();
        fit.second_axis = fit.plane.normal.cross(fit.first_axis);
        // The plane through point + o n with normal n + t1 a1 + t2 a2: a place at d lies n.d - o + t1 a1.d + t2 a2.d off it.
        Normals normals;
        for (const PlaneDatum& place : places) {
            const Eigen::Vector3d off = place.point - fit.plane.point;
            const double variance = fit.plane.normal.dot(place.covariance * fit.plane.normal) + waves_sd * waves_sd;
            const double residual = fit.plane.normal.dot(off);
            const double doubt = std::max(1.0, std::abs(residual) / (huber_corner * std::sqrt(variance)));
            normals.add({1.0, -fit.first_axis.dot(off), -fit.second_axis.dot(off)}, residual, variance * doubt);
        }
        for (const PoleDatum& pole : poles) {
            const double side = pole.pole.dot(fit.plane.normal) < 0.0 ? -1.0 : 1.0;
            normals.add(Eigen::Vector3d::UnitY(), side * pole.pole.dot(fit.first_axis), variance_of(pole));
            normals.add(Eigen::Vector3d::UnitZ(), side * pole.pole.dot(fit.second_axis), variance_of(pole));
        }
        fit.covariance = normals.matrix.ldlt().solve(Eigen::Matrix3d::Identity());
        const Eigen::Vector3d step = fit.covariance * normals.right;
        fit.plane.point += step(0) * fit.plane.normal;
        fit.plane.normal = (fit.plane.normal + step(1) * fit.first_axis + step(2) * fit.second_axis).normalized();
        if (step.norm() < 1e-9) break;
    }
    if (fit.plane.normal.z() < 0.0) fit.plane.normal = -fit.plane.normal;
    fit.first_axis = (fit.first_axis - fit.plane.normal * fit.plane.normal.dot(fit.first_axis)).normalized();
    fit.second_axis = (fit.second_axis - fit.plane.normal * fit.plane.normal.dot(fit.second_axis)).normalized();
    return fit;
}

}  // namespace selvage::faults
