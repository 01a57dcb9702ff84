#include "support/true_vein.h"

#include <Eigen/Geometry>

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace selvage::made_up {

namespace {

constexpr double pi = 3.14159265358979323846;

struct Shape {
    double sd, range, nu;
};

Shape drawn_shape(base::RandomStream& stream, std::size_t kind) {
    Shape shape{stream.log_uniform(1.5, 12.0), stream.log_uniform(40.0, 350.0), 1.5};
    if (kind == 0) {
        shape.nu = 0.5;
        shape.range = std::max(shape.range, 100.0);
    }
    if (kind == 2 || kind == 5) shape.nu = 2.5;
    if (kind == 3) shape.nu = std::numeric_limits<double>::infinity();
    shape.sd = std::min(shape.sd, 0.35 * shape.range / 1.7);
    if (kind == 0) shape.sd = std::min(shape.sd, 6.0);
    if (kind == 4) shape.sd = std::min(shape.sd, 3.0);
    if (kind == 5) shape.sd = stream.uniform(0.1, 0.8);
    return shape;
}

}  // namespace

double TrueVein::over(const Eigen::Vector3d& point) const {
    const Eigen::Vector3d p = own(point);
    return p.z() - height(p.head<2>());
}

Eigen::Vector3d TrueVein::normal(const Eigen::Vector2d& place, double step) const {
    const Eigen::Vector2d du(0.5 * step, 0.0), dv(0.0, 0.5 * step);
    const Eigen::Vector3d n(height(place - du) - height(place + du), height(place - dv) - height(place + dv), step);
    return (axes.transpose() * n).normalized();
}

Eigen::Matrix3d axes_of(const base::Attitude& attitude) {
    const Eigen::Vector3d w = base::upward_normal(attitude);
    const Eigen::Vector3d u = Eigen::Vector3d::UnitZ().cross(w).normalized();
    Eigen::Matrix3d axes;
    axes.row(0) = u;
    axes.row(1) = w.cross(u);
    axes.row(2) = w;
    return axes;
}

std::function<double(const Eigen::Vector2d&)> drawn_surface(base::RandomStream& stream, std::size_t kind,
                                                            const Eigen::Vector2d& mean, double spacing) {
    kind %= 6;
    const Shape shape = drawn_shape(stream, kind);
    const double axis = stream.uniform(0.0, pi);
    const double ratio = stream.log_uniform(1.0, 3.0);
    RandomField field(stream, shape.range, shape.nu, ratio, axis);
    const double shift = 2.0 * stream.normal();
    const Eigen::Vector2d slope(0.08 * stream.normal(), 0.08 * stream.normal());
    const double bend = kind == 4 ? std::tan(stream.uniform(8.0, 25.0) * pi / 180.0) : 0.0;
    const double across = stream.uniform(0.0, 2.0 * pi);
    const Eigen::Vector2d direction(std::cos(across), std::sin(across));
    const double line = 0.4 * stream.normal() * spacing;
    return [=, field = std::move(field)](const Eigen::Vector2d& place) {
        const Eigen::Vector2d from_mean = place - mean;
        return shape.sd * field.at(place) + shift + slope.dot(from_mean) + bend * std::max(0.0, direction.dot(from_mean) - line);
    };
}

}  // namespace selvage::made_up
