#pragma once

#include "base/angle.h"
#include "base/random.h"
#include "support/random_field.h"

#include <Eigen/Core>

#include <cstddef>
#include <functional>

namespace selvage::made_up {

// A vein whose every point is known: a surface over a plane, thickness, grade, and where it is there at all. Metres, own axes.
struct TrueVein {
    Eigen::Vector3d centre = Eigen::Vector3d::Zero();
    Eigen::Matrix3d axes = Eigen::Matrix3d::Identity();       // rows u (along strike), v (up dip), w (upward normal)
    std::function<double(const Eigen::Vector2d&)> height;     // of the mid-surface over the plane, m
    std::function<double(const Eigen::Vector2d&)> thickness;  // along w, m
    std::function<double(const Eigen::Vector2d&)> silver_gpt;
    std::function<bool(const Eigen::Vector2d&)> present;

    Eigen::Vector3d own(const Eigen::Vector3d& world) const { return axes * (world - centre); }
    Eigen::Vector3d world(const Eigen::Vector2d& place) const {
        return centre + axes.transpose() * Eigen::Vector3d(place.x(), place.y(), height(place));
    }
    // How far a point stands over the mid-surface along w, m.
    double over(const Eigen::Vector3d& point) const;
    // Upward unit normal of the mid-surface at a place, by central differences over `step` m.
    Eigen::Vector3d normal(const Eigen::Vector2d& place, double step = 1.0) const;
};

// What core or a compass shows of a surface of this kind: a slope over 5 m where it is rough, else over 1 m.
constexpr double slope_step(std::size_t kind) { return kind % 6 == 0 ? 5.0 : 1.0; }

// Axes of a plane with this attitude.
Eigen::Matrix3d axes_of(const base::Attitude& attitude);

// Surface kinds of the calibration worlds, kind mod 6: Matern 1/2, 3/2, 5/2, infinitely smooth, a kink, nearly flat; sd
// log-uniform in 1.5-12 m, range log-uniform in 40-350 m, axes ratio up to 3, and a plane that is never quite right. `mean` is
// the holes' mean place.
std::function<double(const Eigen::Vector2d&)> drawn_surface(base::RandomStream& stream, std::size_t kind,
                                                            const Eigen::Vector2d& mean, double spacing);

}  // namespace selvage::made_up
