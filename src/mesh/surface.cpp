#include "mesh/surface.h"

#include "mesh/constrained_triangulation.h"
#include "mesh/edges.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <numeric>
#include <utility>

namespace selvage::mesh {

namespace {

bool before_in_plan(const Eigen::Vector3d& a, const Eigen::Vector3d& b) {
    return a.x() != b.x() ? a.x() < b.x() : a.y() != b.y() ? a.y() < b.y() : a.z() < b.z();
}
bool same_in_plan(const Eigen::Vector3d& a, const Eigen::Vector3d& b) { return a.x() == b.x() && a.y() == b.y(); }

// The points in order of x, y, each place once.
Outcome<std::vector<Eigen::Vector3d>> distinct(const std::vector<Eigen::Vector3d>& points) {
    using Points = std::vector<Eigen::Vector3d>;
    std::vector<int> order(points.size());
    std::iota(order.begin(), order.end(), 0);
    const auto at = [&](int i) -> const Eigen::Vector3d& { return points[static_cast<std::size_t>(i)]; };
    for (const int i : order)
        if (!at(i).allFinite()) return refused<Points>(Refusal::bad_number, fmt::format("point {} is not finite", i), i);
    std::stable_sort(order.begin(), order.end(), [&](int a, int b) { return before_in_plan(at(a), at(b)); });
    Points out;
    for (const int i : order) {
        if (out.empty() || !same_in_plan(out.back(), at(i))) {
            out.push_back(at(i));
        } else if (out.back().z() != at(i).z()) {
            return refused<Points>(Refusal::crossing,
                                   fmt::format("two heights at one place, {:.3f} and {:.3f}", out.back().z(), at(i).z()), i);
        }
    }
    return made(std::move(out));
}

Outcome<TriangleMesh> surface_of(std::vector<Eigen::Vector3d> points) {
    std::vector<Eigen::Vector2d> plan;
    plan.reserve(points.size());
    for (const Eigen::Vector3d& point : points) plan.emplace_back(point.x(), point.y());
    TriangleMesh mesh;
    mesh.triangles = delaunay(plan);
    if (mesh.triangles.empty())
        return refused<TriangleMesh>(points.size() < 3 ? Refusal::too_few_points : Refusal::no_area,
                                     fmt::format("{} points in one line make no surface", points.size()));
    mesh.points = std::move(points);
    return made(std::move(mesh));
}

double height_of_nearest(const std::vector<Eigen::Vector3d>& points, const Eigen::Vector2d& place) {
    const auto nearest = std::min_element(points.begin(), points.end(), [&](const Eigen::Vector3d& a, const Eigen::Vector3d& b) {
        return (a.head<2>() - place).squaredNorm() < (b.head<2>() - place).squaredNorm();
    });
    return nearest->z();
}

}  // namespace

Outcome<TriangleMesh> surface_through(const std::vector<Eigen::Vector3d>& points) {
    auto once = distinct(points);
    if (!once) return refused<TriangleMesh>(once);
    return surface_of(std::move(*once));
}

Outcome<TriangleMesh> overhanging_surface(const std::vector<Eigen::Vector3d>& points, const Bounds& box, double beyond) {
    auto once = distinct(points);
    if (!once) return refused<TriangleMesh>(once);
    if (once->empty()) return refused<TriangleMesh>(Refusal::too_few_points, "no point of the surface");
    if (!(beyond > 0.0) || !box.lower.allFinite() || !box.upper.allFinite())
        return refused<TriangleMesh>(Refusal::bad_number, "the surface should reach beyond no box");
    const auto given = bounds({*once, {}, {}});
    const Eigen::Vector2d lower = box.lower.cwiseMin(given.lower).head<2>() - Eigen::Vector2d::Constant(beyond);
    const Eigen::Vector2d upper = box.upper.cwiseMax(given.upper).head<2>() + Eigen::Vector2d::Constant(beyond);
    constexpr int pieces_a_side = 16;  // heights that follow the points' along the frame
    std::vector<Eigen::Vector3d> all = *once;
    for (int i = 0; i < pieces_a_side; ++i) {
        const double part = static_cast<double>(i) / pieces_a_side;
        const Eigen::Vector2d along = part * (upper - lower);
        for (const Eigen::Vector2d& place :
             {Eigen::Vector2d(lower.x() + along.x(), lower.y()), Eigen::Vector2d(upper.x(), lower.y() + along.y()),
              Eigen::Vector2d(upper.x() - along.x(), upper.y()), Eigen::Vector2d(lower.x(), upper.y() - along.y())})
            all.emplace_back(place.x(), place.y(), height_of_nearest(*once, place));
    }
    return surface_of(std::move(all));
}

Outcome<TriangleMesh> solid_below(const TriangleMesh& surface, double base_elevation) {
    const Bounds box = bounds(surface);
    if (surface.triangles.empty()) return refused<TriangleMesh>(Refusal::too_few_points, "the surface has no triangles");
    if (!(base_elevation < box.lower.z()))
        return refused<TriangleMesh>(Refusal::walls_cross,
                                     fmt::format("the base at {:.2f} m is not below the surface, which comes down to {:.2f} m",
                                                 base_elevation, box.lower.z()));
    TriangleMesh solid = surface;
    solid.labels.resize(solid.triangles.size(), 0);
    // Under each point of the border one of the base, which needs no others.
    std::map<int, int> corner;
    std::vector<Eigen::Vector2d> plan;
    std::vector<PlanarEdge> outline;
    const int n = static_cast<int>(surface.points.size());
    const auto corner_under = [&](int point) {
        const auto [at, is_new] = corner.try_emplace(point, static_cast<int>(plan.size()));
        if (is_new) {
            const Eigen::Vector3d& above = surface.points[static_cast<std::size_t>(point)];
            plan.emplace_back(above.x(), above.y());
            solid.points.emplace_back(above.x(), above.y(), base_elevation);
        }
        return at->second;
    };
    for (const BorderEdge& edge : border_edges(surface.triangles)) {
        const int from = corner_under(edge.from), to = corner_under(edge.to);
        outline.push_back({from, to});
        solid.triangles.push_back({n + from, n + to, edge.to});
        solid.triangles.push_back({n + from, edge.to, edge.from});
    }
    const auto base = triangles_within(plan, outline);
    if (!base) return refused<TriangleMesh>(Refusal::crossing, "the border of the surface crosses or touches itself in plan");
    for (const auto& [a, b, c] : *base) solid.triangles.push_back({n + a, n + c, n + b});
    solid.labels.resize(solid.triangles.size(), rim);
    return made(std::move(solid));
}

}  // namespace selvage::mesh
