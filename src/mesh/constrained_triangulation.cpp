#include "mesh/constrained_triangulation.h"

#include <CGAL/Constrained_Delaunay_triangulation_2.h>
#include <CGAL/Delaunay_mesh_face_base_2.h>
#include <CGAL/Delaunay_mesh_size_criteria_2.h>
#include <CGAL/Delaunay_mesh_vertex_base_2.h>
#include <CGAL/Delaunay_mesher_2.h>
#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/Triangulation_vertex_base_with_info_2.h>

#include <algorithm>
#include <limits>
#include <map>
#include <set>
#include <utility>

namespace selvage::mesh {

namespace {

using Kernel = CGAL::Exact_predicates_inexact_constructions_kernel;
// Vertices carry their place in our list; -1 for those that refinement puts in.
struct Place {
    int index = -1;
};
using VertexBase = CGAL::Delaunay_mesh_vertex_base_2<Kernel, CGAL::Triangulation_vertex_base_with_info_2<Place, Kernel>>;
using Structure = CGAL::Triangulation_data_structure_2<VertexBase, CGAL::Delaunay_mesh_face_base_2<Kernel>>;
using Triangulation = CGAL::Constrained_Delaunay_triangulation_2<Kernel, Structure, CGAL::Exact_predicates_tag>;
using Vertex = Triangulation::Vertex_handle;
using Face = Triangulation::Face_handle;

std::vector<Vertex> insert_points(Triangulation& triangulation, const std::vector<Eigen::Vector2d>& points) {
    std::vector<Vertex> vertices;
    Face hint;
    for (std::size_t i = 0; i < points.size(); ++i) {
        vertices.push_back(triangulation.insert({points[i].x(), points[i].y()}, hint));
        if (vertices.back()->info().index < 0) vertices.back()->info().index = static_cast<int>(i);
        hint = vertices.back()->face();
    }
    return vertices;
}

// False where the edge did not become one edge between two of our points: it ran through a point, or crossed another.
bool insert_edges(Triangulation& triangulation, const std::vector<Vertex>& vertices, const std::vector<PlanarEdge>& edges) {
    const std::size_t before = triangulation.number_of_vertices();
    for (const auto& [from, to] : edges) {
        const Vertex a = vertices[static_cast<std::size_t>(from)], b = vertices[static_cast<std::size_t>(to)];
        if (a == b) return false;
        triangulation.insert_constraint(a, b);
        Face face;
        int side = 0;
        if (!triangulation.is_edge(a, b, face, side) || !triangulation.is_constrained({face, side})) return false;
    }
    return triangulation.number_of_vertices() == before;
}

using EdgeSet = std::set<std::pair<int, int>>;

std::pair<int, int> key_of(int a, int b) { return {std::min(a, b), std::max(a, b)}; }

EdgeSet keys_of(const std::vector<PlanarEdge>& edges) {
    EdgeSet keys;
    for (const auto& [from, to] : edges) keys.insert(key_of(from, to));
    return keys;
}

// Marks what lies within an odd number of loops, walking from the outside: a loop's edge turns it over, a line's does not.
void mark_region(Triangulation& triangulation, const std::vector<PlanarEdge>& loop_edges) {
    const EdgeSet loops = keys_of(loop_edges);
    std::map<Face, bool> within;
    std::vector<Face> open = {triangulation.infinite_face()};
    within[open.back()] = false;
    while (!open.empty()) {
        const Face face = open.back();
        open.pop_back();
        const bool inside = within.at(face);
        face->set_in_domain(inside);
        for (int k = 0; k < 3; ++k) {
            const Face next = face->neighbor(k);
            if (within.count(next) == 1) continue;
            const int a = face->vertex(Triangulation::cw(k))->info().index, b = face->vertex(Triangulation::ccw(k))->info().index;
            const bool over_loop = face->is_constrained(k) && loops.count(key_of(a, b)) == 1;
            within[next] = inside != over_loop;
            open.push_back(next);
        }
    }
}

std::vector<std::array<int, 3>> marked_triangles(const Triangulation& triangulation) {
    std::vector<std::array<int, 3>> triangles;
    for (const Face face : triangulation.finite_face_handles()) {
        if (!face->is_in_domain()) continue;
        triangles.push_back({face->vertex(0)->info().index, face->vertex(1)->info().index, face->vertex(2)->info().index});
    }
    return triangles;
}

double squared_length(const Kernel::Point_2& a, const Kernel::Point_2& b) { return CGAL::squared_distance(a, b); }

// The library's criterion of angles, with a bound on edges that varies with place. Its quality is a pair: the squared sine of
// the smallest angle, and the squared longest edge over the squared bound.
class Criteria : public CGAL::Delaunay_mesh_size_criteria_2<Triangulation> {
public:
    using Base = CGAL::Delaunay_mesh_size_criteria_2<Triangulation>;
    explicit Criteria(const std::function<double(const Eigen::Vector2d&)>& bound) : bound_(&bound) {}

    class Is_bad : public Base::Is_bad {
    public:
        Is_bad(const Base::Is_bad& base, const std::function<double(const Eigen::Vector2d&)>* bound)
            : Base::Is_bad(base), bound_(bound) {}
        using Base::Is_bad::operator();

        CGAL::Mesh_2::Face_badness operator()(const Face& face, Quality& quality) const {
            const CGAL::Mesh_2::Face_badness shape = Base::Is_bad::operator()(face, quality);
            const auto &a = face->vertex(0)->point(), &b = face->vertex(1)->point(), &c = face->vertex(2)->point();
            const double longest = std::max({squared_length(a, b), squared_length(b, c), squared_length(c, a)});
            const double bound = (*bound_)({(a.x() + b.x() + c.x()) / 3.0, (a.y() + b.y() + c.y()) / 3.0});
            quality.second = longest / (bound * bound);
            return quality.second > 1.0 ? CGAL::Mesh_2::IMPERATIVELY_BAD : shape;
        }

    private:
        const std::function<double(const Eigen::Vector2d&)>* bound_;
    };

    Is_bad is_bad_object() const { return {Base::is_bad_object(), bound_}; }

private:
    const std::function<double(const Eigen::Vector2d&)>* bound_;
};

}  // namespace

std::vector<std::array<int, 3>> delaunay(const std::vector<Eigen::Vector2d>& points) {
    Triangulation triangulation;
    insert_points(triangulation, points);
    for (const Face face : triangulation.finite_face_handles()) face->set_in_domain(true);
    return marked_triangles(triangulation);
}

std::optional<std::vector<std::array<int, 3>>> triangles_within(const std::vector<Eigen::Vector2d>& points,
                                                                const std::vector<PlanarEdge>& loop_edges) {
    Triangulation triangulation;
    const std::vector<Vertex> vertices = insert_points(triangulation, points);
    if (!insert_edges(triangulation, vertices, loop_edges) || triangulation.dimension() < 2) return std::nullopt;
    mark_region(triangulation, loop_edges);
    return marked_triangles(triangulation);
}

Refined refined_within(const std::vector<Eigen::Vector2d>& points, const Refinement& wanted) {
    Triangulation triangulation;
    const std::vector<Vertex> vertices = insert_points(triangulation, points);
    Refined out;
    out.crossing = !insert_edges(triangulation, vertices, wanted.loop_edges) ||
                   !insert_edges(triangulation, vertices, wanted.line_edges) || triangulation.dimension() < 2;
    if (out.crossing) return out;
    mark_region(triangulation, wanted.loop_edges);
    if (wanted.longest_edge) {
        CGAL::Delaunay_mesher_2<Triangulation, Criteria> mesher(triangulation, Criteria(wanted.longest_edge));
        mesher.init(true);
        while (!mesher.is_refinement_done()) {
            if (triangulation.number_of_vertices() > wanted.most_points) {
                out.too_many = true;
                return out;
            }
            mesher.try_one_step_refine_mesh();
        }
    }
    out.points = points;
    for (const Vertex vertex : triangulation.finite_vertex_handles()) {
        if (vertex->info().index >= 0) continue;
        vertex->info().index = static_cast<int>(out.points.size());
        out.points.emplace_back(vertex->point().x(), vertex->point().y());
    }
    out.triangles = marked_triangles(triangulation);
    return out;
}

}  // namespace selvage::mesh
