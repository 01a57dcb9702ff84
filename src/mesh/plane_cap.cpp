#include "mesh/plane_cap.h"

#include "mesh/constrained_triangulation.h"
#include "mesh/slice.h"

#include <algorithm>
#include <cstddef>

namespace selvage::mesh {

namespace {

using Segment = PlaneSection::Segment;

// Of what lies below the plane, without the faces that lie on it and look up, as those close it already.
std::vector<Segment> border_segments(const TriangleMesh& solid, const PlaneSection& section) {
    std::vector<Segment> segments;
    for (const auto& triangle : solid.triangles) {
        if (const auto segment = section.segment(triangle)) segments.push_back(*segment);
        const auto on = [&](int point) { return section.side(point) == 0; };
        if (!std::all_of(triangle.begin(), triangle.end(), on) || !section.looks_up(triangle)) continue;
        for (std::size_t k = 0; k < 3; ++k)
            segments.emplace_back(PlaneSection::node(triangle[(k + 1) % 3]), PlaneSection::node(triangle[k]));
    }
    return without_opposites(std::move(segments));
}

}  // namespace

bool PlaneCap::covers(const Eigen::Vector2d& place) const {
    return std::any_of(triangles.begin(), triangles.end(), [&](const std::array<int, 3>& triangle) {
        const auto on_the_left = [&](std::size_t k) {
            const Eigen::Vector2d from = flat.at(triangle[k]), way = flat.at(triangle[(k + 1) % 3]) - from, to = place - from;
            return way.x() * to.y() - way.y() * to.x() >= -on_plane * way.norm();
        };
        return on_the_left(0) && on_the_left(1) && on_the_left(2);
    });
}

std::optional<PlaneCap> cap_along(const TriangleMesh& solid, const PlaneSection& section,
                                  const std::function<int(const PlaneSection::Node&)>& place_of) {
    PlaneCap cap;
    std::map<int, int> local;
    std::vector<int> places;
    std::vector<Eigen::Vector2d> flat;
    std::vector<PlanarEdge> edges;
    const auto local_of = [&](const PlaneSection::Node& node) {
        const int place = place_of(node);
        const auto [at, is_new] = local.try_emplace(place, static_cast<int>(places.size()));
        if (is_new) {
            places.push_back(place);
            flat.push_back(section.in_plane(section.place(node)));
            cap.flat[place] = flat.back();
        }
        return at->second;
    };
    for (const auto& [from, to] : border_segments(solid, section)) {
        const int a = local_of(from), b = local_of(to);
        edges.push_back({a, b});
        cap.border.insert(std::minmax(places[static_cast<std::size_t>(a)], places[static_cast<std::size_t>(b)]));
    }
    if (edges.empty()) return cap;
    const auto triangles = triangles_within(flat, edges);
    if (!triangles) return std::nullopt;
    const auto place = [&](int i) { return places[static_cast<std::size_t>(i)]; };
    for (const auto& [a, b, c] : *triangles) cap.triangles.push_back({place(a), place(b), place(c)});
    return cap;
}

}  // namespace selvage::mesh
