#include "mesh/cut.h"
#include "mesh/edges.h"
#include "mesh/plane_cap.h"
#include "mesh/plane_section.h"
#include "mesh/slice.h"
#include "mesh/solid_check.h"

#include <algorithm>
#include <cstddef>
#include <map>
#include <optional>
#include <utility>
#include <vector>

namespace selvage::mesh {

namespace {

using Node = PlaneSection::Node;

// Sorts a solid's triangles to both sides of a plane, cutting those that it runs through.
class PlaneCut {
public:
    PlaneCut(const TriangleMesh& solid, const base::Plane& plane)
        : solid_(solid), section_(solid, plane), points_(solid.points) {}

    // Nothing where the section crosses itself, or a part touches itself along it.
    std::optional<CutSolid> parts(int label) {
        CutSolid out;
        if (!section_.any_below()) out.inside = solid_;
        if (!section_.any_above()) out.outside = solid_;
        if (!section_.any_below() || !section_.any_above()) return out;
        sort_triangles();
        if (!find_cap()) return std::nullopt;
        if (touches_itself(below_.triangles) || touches_itself(above_.triangles)) return std::nullopt;
        out.inside = part(above_, label);
        out.outside = part(below_, label);
        if (!is_closed(out.inside) || !is_closed(out.outside)) return std::nullopt;
        return out;
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

    // The new face closes the part below looking up, the part above looking down.
    bool find_cap() {
        auto cap = cap_along(solid_, section_, [&](const Node& node) { return place_of(node); });
        if (!cap) return false;
        cap_ = std::move(*cap);
        for (const auto& [a, b, c] : cap_.triangles) {
            below_.triangles.push_back({a, b, c});
            above_.triangles.push_back({a, c, b});
        }
        return true;
    }

    // Only points on the plane need a look: whether a part has several fans there, or touches the new face within it by a point
    // or an edge.
    bool touches_itself(const std::vector<std::array<int, 3>>& part) const {
        const auto on = [&](int point) { return point < static_cast<int>(solid_.points.size()) && section_.side(point) == 0; };
        const auto flat = [&](int point) { return section_.in_plane(points_[static_cast<std::size_t>(point)]); };
        std::vector<std::array<int, 3>> near;
        for (const auto& triangle : part)
            if (std::any_of(triangle.begin(), triangle.end(), on)) near.push_back(triangle);
        const std::vector<int> fan = fans(near);
        std::map<int, int> fan_of;
        for (std::size_t corner = 0; corner < fan.size(); ++corner) {
            const auto& triangle = near[corner / 3];
            const int point = triangle[corner % 3], next = triangle[(corner + 1) % 3], third = triangle[(corner + 2) % 3];
            if (!on(point)) continue;
            if (fan_of.try_emplace(point, fan[corner]).first->second != fan[corner]) return true;
            if (!cap_.ends_at(point) && cap_.covers(flat(point))) return true;
            if (on(next) && !on(third) && !cap_.ends_along(point, next) && cap_.covers(0.5 * (flat(point) + flat(next))))
                return true;
        }
        return false;
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
    PlaneCap cap_;
};

}  // namespace

Outcome<CutSolid> cut_by_plane(const TriangleMesh& solid, const base::Plane& plane, int label) {
    if (!is_closed(solid)) return refused<CutSolid>(Refusal::not_closed, "what should be cut is not closed");
    for (const double aside : {0.0, step_aside, -step_aside}) {
        const base::Plane moved{plane.point + aside * plane.normal, plane.normal};
        if (auto parts = PlaneCut(solid, moved).parts(label)) return made(std::move(*parts));
    }
    return refused<CutSolid>(Refusal::crossing, "the solid crosses or touches itself where it is cut");
}

}  // namespace selvage::mesh
