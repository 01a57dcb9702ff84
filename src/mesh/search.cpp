#include "mesh/search.h"

#include <CGAL/AABB_traits.h>
#include <CGAL/AABB_tree.h>
#include <CGAL/AABB_triangle_primitive.h>
#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <iterator>
#include <tuple>
#include <utility>

// The door to the library's search trees.
namespace selvage::mesh {

namespace {

using Kernel = CGAL::Exact_predicates_inexact_constructions_kernel;
using Point = Kernel::Point_3;
using Triangles = std::vector<Kernel::Triangle_3>;
using Primitive = CGAL::AABB_triangle_primitive<Kernel, Triangles::const_iterator>;
using LibraryTree = CGAL::AABB_tree<CGAL::AABB_traits<Kernel, Primitive>>;
using Segment = Kernel::Segment_3;

Point library_point(const Eigen::Vector3d& point) { return {point.x(), point.y(), point.z()}; }
Eigen::Vector3d our_point(const Point& point) { return {point.x(), point.y(), point.z()}; }

}  // namespace

struct MeshSearch::Tree {
    Triangles triangles;
    std::vector<int> places;  // of each of them, in the mesh: those without area are left out
    LibraryTree tree;

    int place(Triangles::const_iterator at) const { return places[static_cast<std::size_t>(at - triangles.begin())]; }
};

MeshSearch::MeshSearch(const TriangleMesh& mesh) : tree_(std::make_unique<Tree>()) {
    const auto at = [&](int point) { return library_point(mesh.points[static_cast<std::size_t>(point)]); };
    for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
        const auto& [a, b, c] = mesh.triangles[t];
        const Kernel::Triangle_3 triangle(at(a), at(b), at(c));
        if (triangle.is_degenerate()) continue;
        tree_->triangles.push_back(triangle);
        tree_->places.push_back(static_cast<int>(t));
    }
    tree_->tree.insert(tree_->triangles.cbegin(), tree_->triangles.cend());
    tree_->tree.build();
    tree_->tree.accelerate_distance_queries();
}
MeshSearch::~MeshSearch() = default;
MeshSearch::MeshSearch(MeshSearch&&) noexcept = default;
MeshSearch& MeshSearch::operator=(MeshSearch&&) noexcept = default;

NearestPoint MeshSearch::nearest(const Eigen::Vector3d& point) const {
    const auto found = tree_->tree.closest_point_and_primitive(library_point(point));
    NearestPoint out;
    out.point = our_point(found.first);
    out.distance = (out.point - point).norm();
    out.triangle = tree_->place(found.second);
    return out;
}

// Counts the triangles between the point and a place outside; another place is tried where the way runs through an edge.
Where MeshSearch::where(const Eigen::Vector3d& point) const {
    const Point from = library_point(point);
    const CGAL::Bbox_3 box = tree_->tree.bbox();
    const double reach = 2.0 * Eigen::Vector3d(box.x_span(), box.y_span(), box.z_span()).norm();
    const Eigen::Vector3d middle(box.xmin() + 0.5 * box.x_span(), box.ymin() + 0.5 * box.y_span(),
                                 box.zmin() + 0.5 * box.z_span());
    if ((point - middle).norm() > reach) return Where::outside;
    for (int attempt = 0;; ++attempt) {
        const Eigen::Vector3d direction(std::sin(1.0 + attempt), std::cos(2.0 + 1.7 * attempt), 1.5 + 0.1 * attempt);
        const Point to = library_point(point + 2.0 * reach * direction.normalized());
        std::vector<Triangles::const_iterator> met;
        tree_->tree.all_intersected_primitives(Segment(from, to), std::back_inserter(met));
        bool through_edge = false;
        for (const auto& triangle : met) {
            if (triangle->has_on(from)) return Where::on_surface;
            for (int k = 0; k < 3; ++k) through_edge |= CGAL::coplanar(from, to, triangle->vertex(k), triangle->vertex(k + 1));
        }
        if (!through_edge) return met.size() % 2 == 1 ? Where::inside : Where::outside;
    }
}

double MeshSearch::signed_distance(const Eigen::Vector3d& point) const {
    const double distance = nearest(point).distance;
    return where(point) == Where::inside ? -distance : distance;
}

std::vector<MeshHit> MeshSearch::hits(const Eigen::Vector3d& from, const Eigen::Vector3d& to) const {
    std::vector<MeshHit> out;
    if (from == to) return out;
    using Intersection = LibraryTree::Intersection_and_primitive_id<Segment>::Type;
    std::vector<Intersection> found;
    tree_->tree.all_intersections(Segment(library_point(from), library_point(to)), std::back_inserter(found));
    for (const Intersection& one : found) {
        const auto add = [&](const Point& point) {
            const Eigen::Vector3d place = our_point(point);
            out.push_back({(place - from).norm(), place, tree_->place(one.second)});
        };
        if (const auto* point = boost::get<Point>(&one.first)) add(*point);
        if (const auto* along = boost::get<Segment>(&one.first)) {  // it runs along a face
            add(along->source());
            add(along->target());
        }
    }
    std::sort(out.begin(), out.end(),
              [](const MeshHit& a, const MeshHit& b) { return std::tie(a.along, a.triangle) < std::tie(b.along, b.triangle); });
    return out;
}

std::optional<MeshHit> MeshSearch::first_hit(const Eigen::Vector3d& from, const Eigen::Vector3d& to) const {
    const std::vector<MeshHit> all = hits(from, to);
    if (all.empty()) return std::nullopt;
    return all.front();
}

}  // namespace selvage::mesh
