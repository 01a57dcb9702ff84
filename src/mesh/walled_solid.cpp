#include "mesh/walled_solid.h"

#include <fmt/format.h>

#include <cstddef>
#include <utility>

namespace selvage::mesh {

Outcome<TriangleMesh> solid_between(const PlanarMesh& plan, const std::vector<Eigen::Vector3d>& upper,
                                    const std::vector<Eigen::Vector3d>& lower, const Eigen::Vector3d& up) {
    const std::size_t count = plan.points.size();
    if (plan.triangles.empty() || upper.size() != count || lower.size() != count)
        return refused<TriangleMesh>(Refusal::too_few_points, "no plan, or not a point of both walls for each of its vertices");
    for (std::size_t i = 0; i < count; ++i) {
        const double thickness = (upper[i] - lower[i]).dot(up);
        if (thickness > 0.0 && upper[i].allFinite() && lower[i].allFinite()) continue;
        return refused<TriangleMesh>(Refusal::walls_cross,
                                     fmt::format("the walls are {:.6g} m apart at vertex {} of the plan, at ({:.2f}, {:.2f})",
                                                 thickness, i, plan.points[i].x(), plan.points[i].y()),
                                     static_cast<int>(i));
    }
    TriangleMesh solid;
    solid.points = upper;
    solid.points.insert(solid.points.end(), lower.begin(), lower.end());
    const int n = static_cast<int>(count);
    const auto add = [&](int a, int b, int c, int label) {
        solid.triangles.push_back({a, b, c});
        solid.labels.push_back(label);
    };
    for (const auto& [a, b, c] : plan.triangles) add(a, b, c, upper_wall);
    for (const auto& [a, b, c] : plan.triangles) add(n + a, n + c, n + b, lower_wall);
    for (const auto& loop : plan.boundary) {
        for (std::size_t i = 0; i < loop.size(); ++i) {
            const int from = loop[i].point, to = loop[(i + 1) % loop.size()].point;
            add(n + from, n + to, to, rim);
            add(n + from, to, from, rim);
        }
    }
    if (volume(solid) < 0.0) solid = reversed(std::move(solid));
    return made(std::move(solid));
}

Outcome<TriangleMesh> upright_prism(std::vector<std::vector<Eigen::Vector2d>> loops, double bottom, double top) {
    PlanarRegion region;
    region.loops = std::move(loops);
    const Outcome<PlanarMesh> plan = triangulate(region);
    if (!plan) return refused<TriangleMesh>(plan);
    std::vector<Eigen::Vector3d> upper, lower;
    for (const Eigen::Vector2d& place : plan->points) {
        upper.emplace_back(place.x(), place.y(), top);
        lower.emplace_back(place.x(), place.y(), bottom);
    }
    return solid_between(*plan, upper, lower, Eigen::Vector3d::UnitZ());
}

}  // namespace selvage::mesh
