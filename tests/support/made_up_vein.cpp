#include "support/made_up_vein.h"

#include <Eigen/Cholesky>

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace selvage::made_up {

namespace {

constexpr double pi = 3.14159265358979323846;
constexpr double degree = pi / 180.0;

double correlation(double nu, double r) {
    if (nu == infinitely_smooth) return std::exp(-0.5 * r * r);
    const double a = std::sqrt(2.0 * nu) * r;
    if (nu == 0.5) return std::exp(-a);
    if (nu == 1.5) return (1.0 + a) * std::exp(-a);
    return (1.0 + a + a * a / 3.0) * std::exp(-a);
}

Eigen::Vector2d mean_of(const Places& places) {
    Eigen::Vector2d sum = Eigen::Vector2d::Zero();
    for (const Eigen::Vector2d& place : places) sum += place;
    return sum / static_cast<double>(places.size());
}

Eigen::Vector2d direction(double angle) { return {std::cos(angle), std::sin(angle)}; }

double turn(const Eigen::Vector2d& a, const Eigen::Vector2d& b, const Eigen::Vector2d& c) {
    return (b - a).x() * (c - a).y() - (b - a).y() * (c - a).x();
}

// Corners of the convex hull, anticlockwise (Andrew's monotone chain).
Places hull_of(Places places) {
    std::sort(places.begin(), places.end(), [](const Eigen::Vector2d& a, const Eigen::Vector2d& b) {
        return a.x() < b.x() || (a.x() == b.x() && a.y() < b.y());
    });
    Places hull;
    for (int side = 0; side < 2; ++side) {
        const std::size_t fixed = hull.size();
        for (const Eigen::Vector2d& place : places) {
            while (hull.size() >= fixed + 2 && turn(hull[hull.size() - 2], hull.back(), place) <= 0.0) hull.pop_back();
            hull.push_back(place);
        }
        hull.pop_back();
        std::reverse(places.begin(), places.end());
    }
    return hull;
}

bool within(const Places& hull, const Eigen::Vector2d& place) {
    for (std::size_t i = 0; i < hull.size(); ++i)
        if (turn(hull[i], hull[(i + 1) % hull.size()], place) < 0.0) return false;
    return hull.size() > 2;
}

double nearest_distance(const Places& places, const Eigen::Vector2d& to) {
    double nearest = std::numeric_limits<double>::infinity();
    for (const Eigen::Vector2d& place : places) nearest = std::min(nearest, (place - to).norm());
    return nearest;
}

double lift_by_fault(const Surface& surface, const Eigen::Vector2d& place) {
    return surface.kink_direction.dot(place - surface.middle) > surface.kink_from ? surface.step : 0.0;
}

}  // namespace

Eigen::VectorXd values_of(const Field& field, const Places& places, base::RandomStream& stream) {
    const auto n = static_cast<Eigen::Index>(places.size());
    const Eigen::Vector2d along = direction(field.axis), across(-along.y(), along.x());
    const double root = std::sqrt(field.ratio);
    Eigen::MatrixXd matrix(n, n);
    for (Eigen::Index j = 0; j < n; ++j)
        for (Eigen::Index i = j; i < n; ++i) {
            const Eigen::Vector2d lag = places[static_cast<std::size_t>(i)] - places[static_cast<std::size_t>(j)];
            const double r = std::hypot(along.dot(lag) / (field.range * root), across.dot(lag) * root / field.range);
            matrix(i, j) = correlation(field.nu, r) + (i == j ? 1e-8 : 0.0);
        }
    const Eigen::LLT<Eigen::MatrixXd> factor(matrix);
    Eigen::VectorXd white(n);
    for (Eigen::Index i = 0; i < n; ++i) white(i) = stream.normal();
    return factor.matrixL() * white;
}

Places lattice_holes(std::size_t count, double spacing, base::RandomStream& stream) {
    const auto n = static_cast<double>(count);
    const double columns = std::ceil(std::sqrt(1.6 * n)), rows = std::ceil(1.25 * n / columns) + 1.0;
    Places lattice;
    for (double i = 0.0; i < columns; ++i)
        for (double j = 0.0; j < rows; ++j) lattice.emplace_back(i, j);
    const Eigen::Vector2d chosen = lattice[stream.below(lattice.size())];
    const Eigen::Vector2d centre = 0.3 * chosen + 0.7 * mean_of(lattice);
    std::vector<std::pair<double, std::size_t>> order;
    for (std::size_t i = 0; i < lattice.size(); ++i)
        order.emplace_back((lattice[i] - centre).squaredNorm() + stream.uniform(0.0, 1.5), i);
    std::sort(order.begin(), order.end());
    Places holes;
    for (std::size_t i = 0; i < count; ++i) {
        const double du = 0.22 * stream.normal(), dv = 0.22 * stream.normal();
        holes.emplace_back(spacing * (lattice[order[i].second] + Eigen::Vector2d(du, dv)));
    }
    return holes;
}

Places fence_holes(std::size_t count, double spacing, base::RandomStream& stream) {
    Places holes;
    for (std::size_t i = 0; i < count; ++i) {
        const double u = 3.0 * stream.normal(), along = static_cast<double>(i) + 0.2 * stream.normal();
        holes.emplace_back(u, spacing * along);
    }
    return holes;
}

TruthPlaces truth_places(const Places& holes, double spacing, base::RandomStream& stream) {
    constexpr int most_tries = 4000;
    constexpr std::size_t wanted = 15;
    Eigen::Vector2d low = holes[0], high = holes[0];
    for (const Eigen::Vector2d& hole : holes) {
        low = low.cwiseMin(hole);
        high = high.cwiseMax(hole);
    }
    const Places hull = hull_of(holes);
    TruthPlaces places;
    for (int count = 0; count < most_tries; ++count) {
        const double u = stream.uniform(low.x() - 2.2 * spacing, high.x() + 2.2 * spacing);
        const double v = stream.uniform(low.y() - 2.2 * spacing, high.y() + 2.2 * spacing);
        const Eigen::Vector2d place(u, v);
        const double distance = nearest_distance(holes, place) / spacing;
        Places* group = nullptr;
        if (within(hull, place))
            group = &places.inside;
        else if (distance >= 0.75 && distance <= 1.25)
            group = &places.one_out;
        else if (distance >= 1.6 && distance <= 2.1)
            group = &places.two_out;
        if (group != nullptr && group->size() < wanted) group->push_back(place);
    }
    return places;
}

Surface surface_of(SurfaceKind kind, const Places& holes, double spacing, base::RandomStream& stream) {
    Surface surface;
    surface.kind = kind;
    surface.middle = mean_of(holes);
    surface.sd = stream.log_uniform(1.5, 12.0);
    surface.field.range = stream.log_uniform(40.0, 350.0);
    surface.field.axis = stream.uniform(0.0, pi);
    surface.field.ratio = stream.log_uniform(1.0, 3.0);
    surface.shift = 2.0 * stream.normal();
    surface.tilt.x() = 0.08 * stream.normal();
    surface.tilt.y() = 0.08 * stream.normal();
    surface.kink_direction = direction(stream.uniform(0.0, 2.0 * pi));
    surface.kink_from = 0.4 * spacing * stream.normal();
    const double kink = std::tan(stream.uniform(8.0, 25.0) * degree), flat_sd = stream.uniform(0.1, 0.8);
    switch (kind) {
        case SurfaceKind::rough:
            surface.field.nu = 0.5;
            surface.sd = std::min(surface.sd, 6.0);
            surface.field.range = std::max(surface.field.range, 100.0);
            break;
        case SurfaceKind::once_smooth: surface.field.nu = 1.5; break;
        case SurfaceKind::twice_smooth: surface.field.nu = 2.5; break;
        case SurfaceKind::smooth: surface.field.nu = infinitely_smooth; break;
        case SurfaceKind::kinked:
            surface.field.nu = 1.5;
            surface.sd = std::min(surface.sd, 3.0);
            surface.kink_slope = kink;
            break;
        case SurfaceKind::flat: surface.field.nu = 2.5; break;
    }
    surface.sd = std::min(surface.sd, 0.35 * surface.field.range / 1.7);
    if (kind == SurfaceKind::flat) surface.sd = flat_sd;
    return surface;
}

Eigen::VectorXd heights_of(const Surface& surface, const Places& places, base::RandomStream& stream) {
    Eigen::VectorXd heights = surface.sd * values_of(surface.field, places, stream);
    for (std::size_t i = 0; i < places.size(); ++i) {
        const Eigen::Vector2d off = places[i] - surface.middle;
        const double beyond = std::max(0.0, surface.kink_direction.dot(off) - surface.kink_from);
        heights(static_cast<Eigen::Index>(i)) += surface.shift + surface.tilt.dot(off) + surface.kink_slope * beyond;
        heights(static_cast<Eigen::Index>(i)) += lift_by_fault(surface, places[i]);
    }
    return heights;
}

namespace {

// What is drilled of a surface: heights with an error whose sd is told, slopes of the core where it is oriented.
Vein drilled(const Surface& surface, const Places& hole_places, bool oriented, Vein world, base::RandomStream& stream) {
    const double step = world.kind == SurfaceKind::rough ? 5.0 : 1.0;  // m, over which a true slope is taken

    Places all;
    for (const Eigen::Vector2d& place : hole_places) {
        all.push_back(place);
        for (const Eigen::Vector2d& axis : {Eigen::Vector2d(0.5 * step, 0.0), Eigen::Vector2d(0.0, 0.5 * step)}) {
            all.emplace_back(place + axis);
            all.emplace_back(place - axis);
        }
    }
    for (const Places* group : {&world.places.inside, &world.places.one_out, &world.places.two_out})
        all.insert(all.end(), group->begin(), group->end());
    const Eigen::VectorXd heights = heights_of(surface, all, stream);
    Eigen::VectorXd whole = heights;  // as it was before the fault: a slope is that of one side
    for (std::size_t i = 0; i < all.size(); ++i) whole(static_cast<Eigen::Index>(i)) -= lift_by_fault(surface, all[i]);

    const double core_sd = std::hypot(stream.uniform(2.0, 5.0), stream.uniform(3.0, 8.0)) * degree;
    for (std::size_t i = 0; i < hole_places.size(); ++i) {
        const auto at = static_cast<Eigen::Index>(5 * i);
        veins::SurfaceDatum datum;
        datum.hole = "K-" + std::to_string(i + 1);
        datum.place = hole_places[i];
        const double pick = stream.uniform(0.3, 2.0);
        datum.scaled_variance = pick * pick;
        datum.height = heights(at) + std::hypot(0.15, pick) * stream.normal();
        const double along_u = std::atan((whole(at + 1) - whole(at + 2)) / step) + core_sd * stream.normal();
        const double along_v = std::atan((whole(at + 3) - whole(at + 4)) / step) + core_sd * stream.normal();
        if (oriented) datum.normal = Eigen::Vector3d(-std::tan(along_u), -std::tan(along_v), 1.0).normalized();
        world.data.push_back(datum);
    }
    const auto first = static_cast<Eigen::Index>(5 * hole_places.size());
    const auto inside = static_cast<Eigen::Index>(world.places.inside.size());
    const auto one_out = static_cast<Eigen::Index>(world.places.one_out.size());
    world.inside = heights.segment(first, inside);
    world.one_out = heights.segment(first + inside, one_out);
    world.two_out = heights.tail(heights.size() - first - inside - one_out);
    return world;
}

}  // namespace

Vein vein(std::uint64_t seed, std::size_t holes, std::uint64_t number, bool oriented, double spacing) {
    base::RandomStream stream("made-up vein", {seed, holes, number});
    Vein world;
    world.spacing = spacing;
    world.kind = static_cast<SurfaceKind>(number % 6);
    const Places hole_places = lattice_holes(holes, spacing, stream);
    world.places = truth_places(hole_places, spacing, stream);
    const Surface surface = surface_of(world.kind, hole_places, spacing, stream);
    return drilled(surface, hole_places, oriented, std::move(world), stream);
}

Vein stepped_vein(std::uint64_t seed, std::size_t holes, std::uint64_t number, double spacing) {
    base::RandomStream stream("made-up stepped vein", {seed, holes, number});
    Vein world;
    world.spacing = spacing;
    const Places hole_places = lattice_holes(holes, spacing, stream);
    world.places = truth_places(hole_places, spacing, stream);
    Surface surface = surface_of(world.kind, hole_places, spacing, stream);
    surface.sd = 2.0;
    surface.field = {150.0, 1.5, 1.0, 0.0};
    surface.kink_from = 0.0;
    surface.step = stream.uniform(6.0, 15.0);
    return drilled(surface, hole_places, true, std::move(world), stream);
}

}  // namespace selvage::made_up
