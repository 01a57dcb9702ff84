#include "sheets/plane_layout.h"

#include <Eigen/Eigenvalues>

#include <algorithm>
#include <cmath>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double pi = 3.14159265358979323846;

}  // namespace

Eigen::Vector2d PlaneLayout::layout_from_world(const Eigen::Vector3d& point) const {
    return {along.dot(point - origin), up_dip.dot(point - origin)};
}

Eigen::Vector3d PlaneLayout::world_from_layout(const Eigen::Vector2d& place) const {
    return origin + place.x() * along + place.y() * up_dip;
}

base::Azimuth PlaneLayout::right_end() const { return base::direction_of(along).azimuth; }

base::Azimuth PlaneLayout::looking() const { return base::Azimuth::degrees(right_end().degrees() - 90.0); }

bool PlaneLayout::from_hanging_wall() const { return base::unit_vector({looking(), base::Dip::degrees(0)}).dot(normal) < 0.0; }

base::Angle PlaneLayout::dip() const { return base::attitude_of_normal(normal).dip; }

PlaneLayout lay_out(const base::Plane& mean_plane) {
    PlaneLayout layout;
    layout.origin = mean_plane.point;
    layout.normal = mean_plane.normal;
    const Eigen::Vector3d strike = Eigen::Vector3d::UnitZ().cross(mean_plane.normal);
    // A level plane has no strike: it is laid with east to the right and north up.
    layout.along = strike.norm() > 1e-6 ? strike.normalized() : Eigen::Vector3d::UnitX();
    const bool points_west = layout.along.x() < -1e-9 || (std::abs(layout.along.x()) <= 1e-9 && layout.along.y() < 0.0);
    if (points_west) layout.along = -layout.along;
    layout.up_dip = mean_plane.normal.cross(layout.along);
    const bool points_down = layout.up_dip.z() < 0.0 || (layout.up_dip.z() < 1e-9 && layout.up_dip.y() < 0.0);
    if (points_down) layout.up_dip = -layout.up_dip;
    return layout;
}

bool reads_elevations_level(const PlaneLayout& layout) { return layout.rise() >= base::Angle::degrees(45.0).sin() - 1e-12; }

PlaneLayout moved_off(PlaneLayout layout, double off) {
    const Eigen::Vector3d level = Eigen::Vector3d(layout.normal.x(), layout.normal.y(), 0.0);
    layout.origin += reads_elevations_level(layout) ? Eigen::Vector3d(off * level / level.squaredNorm())
                                                    : Eigen::Vector3d(off * layout.normal);
    return layout;
}

std::vector<Eigen::Vector2d> ellipse_on_plane(const PlaneLayout& layout, const Eigen::Vector3d& centre,
                                              const Eigen::Matrix3d& covariance, double share, std::size_t count) {
    Eigen::Matrix<double, 2, 3> layout_rows;
    layout_rows << layout.along.transpose(), layout.up_dip.transpose();
    const Eigen::SelfAdjointEigenSolver<Eigen::Matrix2d> axes(layout_rows * covariance * layout_rows.transpose());
    // Of a plane normal distribution, P(d'C^-1 d < k) = 1 - exp(-k/2).
    const double scale = std::sqrt(-2.0 * std::log(1.0 - share));
    const Eigen::Vector2d half_axes = scale * axes.eigenvalues().cwiseMax(0.0).cwiseSqrt();
    const Eigen::Vector2d middle = layout.layout_from_world(centre);
    std::vector<Eigen::Vector2d> ring(count);
    for (std::size_t i = 0; i < count; ++i) {
        const double turn = 2.0 * pi * static_cast<double>(i) / static_cast<double>(count);
        ring[i] = middle + axes.eigenvectors().col(0) * (half_axes(0) * std::cos(turn)) +
                  axes.eigenvectors().col(1) * (half_axes(1) * std::sin(turn));
    }
    return ring;
}

std::vector<Eigen::Vector2d> within_planes(const PlaneLayout& layout, std::vector<Eigen::Vector2d> ring,
                                           const std::vector<base::Plane>& planes) {
    for (const base::Plane& plane : planes) {
        std::vector<Eigen::Vector2d> left;
        for (std::size_t i = 0; i < ring.size(); ++i) {
            const Eigen::Vector2d &a = ring[i], &b = ring[(i + 1) % ring.size()];
            const double out_a = base::signed_distance(plane, layout.world_from_layout(a)),
                         out_b = base::signed_distance(plane, layout.world_from_layout(b));
            if (out_a <= 0.0) left.push_back(a);
            if ((out_a <= 0.0) != (out_b <= 0.0)) left.push_back(a + (b - a) * (out_a / (out_a - out_b)));
        }
        ring = std::move(left);
    }
    return ring;
}

}  // namespace selvage::sheets
