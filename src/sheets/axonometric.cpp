#include "sheets/axonometric.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace selvage::sheets {

namespace {

constexpr double turned = 35.0, turned_more = 60.0, fair_face = 0.3;
constexpr double steep_down = 30.0, flat_down = 45.0, flat_dip = 30.0, round_to = 5.0;  // degrees
constexpr double side_free = 16.0, sky_free = 8.0, foot_free = 7.0;                     // mm round the data

struct Axes {
    Eigen::Vector3d right, up, to_eye;
};

Axes axes_of(const ViewDirection& direction) {
    const Eigen::Vector3d level = base::unit_vector({direction.looking, base::Dip::degrees(0.0)});
    const Eigen::Vector3d z = Eigen::Vector3d::UnitZ();
    const double sine = direction.down.sin(), cosine = direction.down.cos();
    return {level.cross(z), sine * level + cosine * z, sine * z - cosine * level};
}

const veins::Vein* first_vein(const Results& results) {
    for (const veins::Vein& vein : results.veins)
        if (vein.summary().intercepts > 0) return &vein;
    return results.veins.empty() ? nullptr : &results.veins.front();
}

// How much of its face the plane seen most on edge shows, among the other veins and the faults.
double least_face(const Results& results, const veins::Vein* first, const Axes& axes) {
    double least = 1.0;
    for (const veins::Vein& vein : results.veins)
        if (&vein != first) least = std::min(least, std::abs(axes.to_eye.dot(vein.mean_plane().normal)));
    for (const faults::Fault& fault : results.events.faults)
        least = std::min(least, std::abs(axes.to_eye.dot(fault.plane.normal)));
    return least;
}

}  // namespace

ViewDirection view_direction(const Results& results) {
    ViewDirection direction;
    direction.looking = base::Azimuth::degrees(45.0);
    const veins::Vein* vein = first_vein(results);
    if (vein == nullptr) return direction;
    const base::Attitude attitude =
        vein->summary().intercepts > 0 ? vein->summary().attitude : base::attitude_of_normal(vein->mean_plane().normal);
    direction.hanging_wall_of = vein->name();
    direction.down = base::Angle::degrees(attitude.dip.degrees() < flat_dip ? flat_down : steep_down);
    std::optional<double> best;
    for (const double turn : {turned, -turned}) {
        ViewDirection tried = direction;
        const double bearing = attitude.dip_direction.degrees() + 180.0 + turn;
        tried.looking = base::Azimuth::degrees(round_to * std::floor(bearing / round_to + 0.5));
        const double face = least_face(results, vein, axes_of(tried));
        if (best && face <= *best + 1e-9) continue;
        best = face;
        direction.looking = tried.looking;
    }
    return direction;
}

std::vector<ViewDirection> view_directions(const Results& results) {
    std::vector<ViewDirection> all{view_direction(results)};
    const veins::Vein* vein = first_vein(results);
    if (vein == nullptr) return all;
    const double square = base::attitude_of_normal(vein->mean_plane().normal).dip_direction.degrees() + 180.0;
    for (const bool foot_wall : {false, true})
        for (const double turn : {turned, -turned, turned_more, -turned_more}) {
            ViewDirection tried = all.front();
            tried.foot_wall = foot_wall;
            const double bearing = square + (foot_wall ? 180.0 : 0.0) + turn;
            tried.looking = base::Azimuth::degrees(round_to * std::floor(bearing / round_to + 0.5));
            const Axes axes = axes_of(tried);
            const double own = std::abs(axes.to_eye.dot(vein->mean_plane().normal));
            if (std::min(own, least_face(results, vein, axes)) >= fair_face) all.push_back(tried);
        }
    return all;
}

AxonometricView axonometric_view(const ViewDirection& direction, const std::vector<Eigen::Vector3d>& points,
                                 const drawing::Box& window, const Scales& scales) {
    AxonometricView view;
    view.direction = direction;
    const Axes axes = axes_of(direction);
    view.right = axes.right;
    view.up = axes.up;
    view.to_eye = axes.to_eye;
    Eigen::Vector2d low(axes.right.dot(points.front()), axes.up.dot(points.front())), high = low;
    for (const Eigen::Vector3d& point : points) {
        const Eigen::Vector2d drawn(axes.right.dot(point), axes.up.dot(point));
        low = low.cwiseMin(drawn);
        high = high.cwiseMax(drawn);
    }
    const drawing::Box room{window.left + side_free, window.bottom + foot_free, window.right - side_free, window.top - sky_free};
    view.denominator = fitting_scale(high.x() - low.x(), high.y() - low.y(), room, scales);
    view.paper = {window, (low + high) / 2.0, view.denominator / 1000.0};
    return view;
}

}  // namespace selvage::sheets
