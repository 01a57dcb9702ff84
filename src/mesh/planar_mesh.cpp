#include "mesh/planar_mesh.h"

#include "mesh/constrained_triangulation.h"
#include "mesh/edges.h"
#include "mesh/planar_segments.h"

#include <fmt/format.h>

#include <cstddef>
#include <limits>
#include <map>
#include <utility>

namespace selvage::mesh {

namespace {

Refinement refinement_of(const PlanarRegion& region, const PlanarSegments& segments) {
    Refinement wanted;
    for (const auto& loop : segments.loops)
        for (std::size_t i = 0; i < loop.size(); ++i)
            wanted.loop_edges.push_back({loop[i].point, loop[(i + 1) % loop.size()].point});
    wanted.line_edges = segments.lines;
    wanted.most_points = region.most_points;
    return wanted;
}

// One loop's vertices in the mesh, from its first, with the region on the left. The given vertices stand among them in the
// loop's order or against it; what lies between two of them is of the edge between.
std::vector<BoundaryVertex> boundary_of(const std::vector<BoundaryVertex>& loop, const std::map<int, int>& next) {
    std::map<int, std::size_t> position;
    for (std::size_t i = 0; i < loop.size(); ++i) position[loop[i].point] = i;
    std::vector<BoundaryVertex> out;
    std::size_t at = 0, begun = 0;
    do {
        out.push_back({loop[at].point, 0});
        for (int point = next.at(loop[at].point); position.count(point) == 0; point = next.at(point)) out.push_back({point, 0});
        const std::size_t to = position.at(next.at(out.back().point));
        const bool forward = to == (at + 1) % loop.size();
        for (; begun < out.size(); ++begun) out[begun].edge = loop[forward ? at : to].edge;
        at = to;
    } while (at != 0);
    return out;
}

// Vertices that no triangle uses are left out.
void leave_out_unused(PlanarMesh& mesh) {
    std::vector<int> place(mesh.points.size(), -1);
    for (const auto& triangle : mesh.triangles)
        for (const int point : triangle) place[static_cast<std::size_t>(point)] = 0;
    std::vector<Eigen::Vector2d> points;
    for (std::size_t i = 0; i < place.size(); ++i) {
        if (place[i] < 0) continue;
        place[i] = static_cast<int>(points.size());
        points.push_back(mesh.points[i]);
    }
    mesh.points = std::move(points);
    const auto now = [&](int& point) { point = point < 0 ? -1 : place[static_cast<std::size_t>(point)]; };
    for (auto& triangle : mesh.triangles)
        for (int& point : triangle) now(point);
    for (auto& loop : mesh.boundary)
        for (BoundaryVertex& vertex : loop) now(vertex.point);
    for (int& point : mesh.required) now(point);
}

}  // namespace

Outcome<PlanarMesh> triangulate(const PlanarRegion& region) {
    const auto segments = planar_segments(region);
    if (!segments) return refused<PlanarMesh>(segments);
    Refinement wanted = refinement_of(region, *segments);
    bool sound_bound = true;
    if (region.longest_edge) {
        wanted.longest_edge = [&](const Eigen::Vector2d& place) {
            const double bound = region.longest_edge(place);
            sound_bound = sound_bound && bound >= planar_weld;
            return bound >= planar_weld ? bound : std::numeric_limits<double>::infinity();
        };
    }
    Refined refined = refined_within(segments->points, wanted);
    if (!sound_bound)
        return refused<PlanarMesh>(Refusal::bad_number,
                                   fmt::format("the longest edge wanted is not {} m or more everywhere", planar_weld));
    if (refined.too_many)
        return refused<PlanarMesh>(Refusal::too_many_points,
                                   fmt::format("more than {} vertices would be needed", region.most_points));
    if (refined.crossing) return refused<PlanarMesh>(Refusal::crossing, "lines or loops run too close to each other");
    PlanarMesh mesh;
    mesh.points = std::move(refined.points);
    mesh.triangles = std::move(refined.triangles);
    mesh.required = segments->required;
    std::map<int, int> next;
    for (const BorderEdge& edge : border_edges(mesh.triangles)) next[edge.from] = edge.to;
    for (const auto& loop : segments->loops) mesh.boundary.push_back(boundary_of(loop, next));
    leave_out_unused(mesh);
    return made(std::move(mesh));
}

}  // namespace selvage::mesh
