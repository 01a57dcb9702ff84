#include "mesh/constrained_triangulation.h"
#include "mesh/cut.h"
#include "mesh/plane_section.h"
#include "mesh/solid_check.h"

#include <algorithm>
#include <cstddef>
#include <map>
#include <utility>
#include <vector>

namespace selvage::mesh {

namespace {

using Node = PlaneSection::Node;
using Segment = PlaneSection::Segment;

// Sorts a solid's triangles to both sides of a plane, cutting those that it runs through.
class PlaneCut {
public:
    PlaneCut(const TriangleMesh& solid, const base::Plane& plane)
        : solid_(solid), section_(solid, plane), points_(solid.points) {}

    Outcome<CutSolid> parts(int label) {
        CutSolid out;
        if (!section_.any_below()) out.inside = solid_;
        if (!section_.any_above()) out.outside = solid_;
        if (!section_.any_below() || !section_.any_above()) return made(std::move(out));
        sort_triangles();
        const auto cap = cap_triangles();
        if (!cap) return refused<CutSolid>(Refusal::crossing, "the section along the plane crosses or touches itself");
        for (const auto& [a, b, c] : *cap) {
            below_.triangles.push_back({a, b, c});
            above_.triangles.push_back({a, c, b});
        }
        out.inside = part(above_, label);
        out.outside = part(below_, label);
        if (is_closed(out.inside) && is_closed(out.outside)) return made(std::move(out));
        return refused<CutSolid>(Refusal::crossing, "the section along the plane touches itself");
    }

private:
    int place_of(const Node& node) {
        if (node.low == node.high) return node.low;
        const auto [at, is_new] = crossings_.try_emplace({node.low, node.high}, static_cast<int>(points_.size()));
        if (is_new) points_.push_back(section_.place(node));
        return at->second;
    }

    void add(int side, std::size_t from, int a, int b, int c) {
        TriangleMesh& part = side < 0 ? below_ : above_;
        part.triangles.push_back({a, b, c});
        if (!solid_.labels.empty()) part.labels.push_back(solid_.labels[from]);
    }

    // a, b, c, d in order; cut along its shorter diagonal.
    void add_quadrilateral(int side, std::size_t from, const std::array<int, 4>& corners) {
        const auto& [a, b, c, d] = corners;
        const auto squared = [&](int i, int j) {
            return (points_[static_cast<std::size_t>(i)] - points_[static_cast<std::size_t>(j)]).squaredNorm();
        };
        const bool first = squared(a, c) <= squared(b, d);
        add(side, from, a, b, first ? c : d);
        add(side, from, first ? a : b, c, d);
    }

    void sort_triangles() {
        for (std::size_t t = 0; t < solid_.triangles.size(); ++t) {
            const auto& triangle = solid_.triangles[t];
            const int sides[3] = {section_.side(triangle[0]), section_.side(triangle[1]), section_.side(triangle[2])};
            const auto [least, most] = std::minmax({sides[0], sides[1], sides[2]});
            if (least < 0 && most > 0)
                divide(t);
            else if (least == 0 && most == 0)
                add(section_.looks_up(triangle) ? -1 : 1, t, triangle[0], triangle[1], triangle[2]);
            else
                add(least < 0 ? -1 : 1, t, triangle[0], triangle[1], triangle[2]);
        }
    }

    // A triangle with points on both sides, turned so that its first point is alone on its side, or is the one on the plane.
    void divide(std::size_t t) {
        std::array<int, 3> turned = solid_.triangles[t];
        const auto side = [&](std::size_t k) { return section_.side(turned[k]); };
        const bool through_point = side(0) * side(1) * side(2) == 0;
        while (through_point ? side(0) != 0 : side(1) != side(2)) std::rotate(turned.begin(), turned.begin() + 1, turned.end());
        const auto& [a, b, c] = turned;
        if (through_point) {
            const int middle = place_of(PlaneSection::node(b, c));
            add(side(1), t, a, b, middle);
            add(side(2), t, a, middle, c);
        } else {
            const int on_b = place_of(PlaneSection::node(a, b)), on_c = place_of(PlaneSection::node(a, c));
            add(side(0), t, a, on_b, on_c);
            add_quadrilateral(side(1), t, {on_b, b, c, on_c});
        }
    }

    // The face along the plane, looking up, in places of points_.
    std::optional<std::vector<std::array<int, 3>>> cap_triangles() {
        std::vector<Segment> segments;
        for (const auto& triangle : solid_.triangles)
            if (const auto segment = section_.segment(triangle)) segments.push_back(*segment);
        std::map<int, int> local;
        std::vector<int> places;
        std::vector<Eigen::Vector2d> flat;
        const auto local_of = [&](const Node& node) {
            const int place = place_of(node);
            const auto [at, is_new] = local.try_emplace(place, static_cast<int>(places.size()));
            if (is_new) {
                places.push_back(place);
                flat.push_back(section_.in_plane(points_[static_cast<std::size_t>(place)]));
            }
            return at->second;
        };
        std::vector<PlanarEdge> edges;
        for (const auto& [from, to] : without_opposites(std::move(segments))) {
            const int a = local_of(from), b = local_of(to);
            edges.push_back({a, b});
        }
        if (edges.empty()) return std::vector<std::array<int, 3>>();
        auto cap = triangles_within(flat, edges);
        if (!cap) return std::nullopt;
        for (auto& triangle : *cap)
            for (int& point : triangle) point = places[static_cast<std::size_t>(point)];
        return cap;
    }

    TriangleMesh part(const TriangleMesh& half, int label) const {
        TriangleMesh whole{points_, half.triangles, half.labels};
        if (!solid_.labels.empty()) whole.labels.resize(whole.triangles.size(), label);
        return selected(whole, std::vector<bool>(whole.triangles.size(), true));
    }

    const TriangleMesh& solid_;
    PlaneSection section_;
    std::vector<Eigen::Vector3d> points_;
    std::map<std::pair<int, int>, int> crossings_;
    TriangleMesh below_, above_;  // their points are points_
};

}  // namespace

Outcome<CutSolid> cut_by_plane(const TriangleMesh& solid, const base::Plane& plane, int label) {
    if (!is_closed(solid)) return refused<CutSolid>(Refusal::not_closed, "what should be cut is not closed");
    return PlaneCut(solid, plane).parts(label);
}

}  // namespace selvage::mesh
