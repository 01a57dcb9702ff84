#include "mesh/cut.h"
#include "mesh/edges.h"
#include "mesh/solid_check.h"

#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/Polygon_mesh_processing/corefinement.h>
#include <CGAL/Polygon_mesh_processing/orientation.h>
#include <CGAL/Polygon_mesh_processing/self_intersections.h>
#include <CGAL/Surface_mesh.h>

#include <array>
#include <cstddef>
#include <exception>
#include <iterator>
#include <utility>
#include <vector>

// The door to the library's solids: whether one is sound, and what two have in common.
namespace selvage::mesh {

namespace {

using Kernel = CGAL::Exact_predicates_inexact_constructions_kernel;
using LibraryMesh = CGAL::Surface_mesh<Kernel::Point_3>;
// What a face of the library's mesh comes from.
struct FaceOrigin {
    int label = 0;
    bool divided = false;  // it is a piece of a face that was cut
};
using FaceOrigins = LibraryMesh::Property_map<LibraryMesh::Face_index, FaceOrigin>;
constexpr const char* origins_name = "f:origin";
namespace processing = CGAL::Polygon_mesh_processing;

// Of a closed mesh. Each fan round a point gets a vertex of its own, as the library's meshes want.
LibraryMesh library_mesh(const TriangleMesh& mesh) {
    LibraryMesh out;
    out.reserve(static_cast<LibraryMesh::size_type>(mesh.points.size()),
                static_cast<LibraryMesh::size_type>(3 * mesh.triangles.size() / 2),
                static_cast<LibraryMesh::size_type>(mesh.triangles.size()));
    FaceOrigins origins = out.add_property_map<LibraryMesh::Face_index, FaceOrigin>(origins_name).first;
    const std::vector<int> fan = fans(mesh.triangles);
    std::vector<LibraryMesh::Vertex_index> vertices(fan.size());
    for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
        std::array<LibraryMesh::Vertex_index, 3> face;
        for (std::size_t k = 0; k < 3; ++k) {
            const std::size_t corner = 3 * t + k, first = static_cast<std::size_t>(fan[corner]);
            if (corner == first) {
                const Eigen::Vector3d& point = mesh.points[static_cast<std::size_t>(mesh.triangles[t][k])];
                vertices[corner] = out.add_vertex({point.x(), point.y(), point.z()});
            }
            face[k] = vertices[first];
        }
        const LibraryMesh::Face_index added = out.add_face(face[0], face[1], face[2]);
        if (!mesh.labels.empty()) origins[added].label = mesh.labels[t];
    }
    return out;
}

TriangleMesh our_mesh(const LibraryMesh& mesh, bool labelled) {
    TriangleMesh out;
    const FaceOrigins origins = mesh.property_map<LibraryMesh::Face_index, FaceOrigin>(origins_name).first;
    std::vector<int> place(mesh.num_vertices() + mesh.number_of_removed_vertices(), -1);
    for (const LibraryMesh::Vertex_index vertex : mesh.vertices()) {
        place[vertex] = static_cast<int>(out.points.size());
        const Kernel::Point_3& point = mesh.point(vertex);
        out.points.emplace_back(point.x(), point.y(), point.z());
    }
    for (const LibraryMesh::Face_index face : mesh.faces()) {
        std::array<int, 3> triangle{};
        std::size_t k = 0;
        for (const LibraryMesh::Vertex_index vertex : mesh.vertices_around_face(mesh.halfedge(face)))
            triangle[k++] = place[vertex];
        out.triangles.push_back(triangle);
        if (labelled) out.labels.push_back(origins[face].label);
    }
    return in_fixed_order(out);  // the library's follows addresses in memory here and there
}

// Both inputs and both results: an array, so that their addresses, by which the library orders some of its work, are always in
// the same order.
struct Work {
    std::array<LibraryMesh, 4> meshes;  // solid, tool, inside, outside
    std::array<FaceOrigins, 4> origins;
};

// Carries the origins to the pieces of faces and to their copies.
struct OriginCarrier : processing::Corefinement::Default_visitor<LibraryMesh> {
    explicit OriginCarrier(Work& work) : work_(&work) {}

    FaceOrigin& origin(LibraryMesh::Face_index face, const LibraryMesh& mesh) const {
        std::size_t i = 0;
        while (&work_->meshes[i] != &mesh) ++i;
        return work_->origins[i][face];
    }
    void before_subface_creations(LibraryMesh::Face_index face, LibraryMesh& mesh) {
        origin(face, mesh).divided = true;
        divided_ = origin(face, mesh);
    }
    void after_subface_created(LibraryMesh::Face_index face, LibraryMesh& mesh) { origin(face, mesh) = divided_; }
    void after_face_copy(LibraryMesh::Face_index from, const LibraryMesh& source, LibraryMesh::Face_index to,
                         LibraryMesh& target) {
        origin(to, target) = origin(from, source);
    }

private:
    Work* work_;
    FaceOrigin divided_;
};

bool computed(Work& work) {
    std::array<boost::optional<LibraryMesh*>, 4> wanted;
    wanted[processing::Corefinement::INTERSECTION] = &work.meshes[2];
    wanted[processing::Corefinement::TM1_MINUS_TM2] = &work.meshes[3];
    const std::array<bool, 4> sound = processing::corefine_and_compute_boolean_operations(
        work.meshes[0], work.meshes[1], wanted, CGAL::parameters::visitor(OriginCarrier(work)).throw_on_self_intersection(true));
    return sound[processing::Corefinement::INTERSECTION] && sound[processing::Corefinement::TM1_MINUS_TM2];
}

// Whether rounding let pieces of faces that were cut run through each other.
bool pieces_cross(const Work& work, std::size_t i) {
    std::vector<LibraryMesh::Face_index> divided;
    for (const LibraryMesh::Face_index face : work.meshes[i].faces())
        if (work.origins[i][face].divided) divided.push_back(face);
    return processing::does_self_intersect(divided, work.meshes[i]);
}

}  // namespace

SolidCheck check_solid(const TriangleMesh& mesh) {
    SolidCheck check;
    check.closed = is_closed(mesh) && !mesh.triangles.empty();
    if (!check.closed) return check;
    const LibraryMesh library = library_mesh(mesh);
    std::vector<std::pair<LibraryMesh::Face_index, LibraryMesh::Face_index>> crossings;
    processing::self_intersections(library, std::back_inserter(crossings), CGAL::parameters::maximum_number(1));
    check.free_of_crossings = crossings.empty();
    if (!crossings.empty()) {
        check.crossing = {static_cast<int>(crossings[0].first), static_cast<int>(crossings[0].second)};
        return check;
    }
    check.outward = processing::is_outward_oriented(library);
    check.bounds_volume = processing::does_bound_a_volume(library);
    return check;
}

Outcome<CutSolid> cut_by_solid(const TriangleMesh& solid, const TriangleMesh& tool) {
    if (!is_closed(solid)) return refused<CutSolid>(Refusal::not_closed, "what should be cut is not closed");
    if (!is_closed(tool)) return refused<CutSolid>(Refusal::not_closed, "what should cut is not closed");
    if (solid.triangles.empty() || tool.triangles.empty()) return made(CutSolid{{}, solid});
    Work work;
    work.meshes[0] = library_mesh(solid);
    work.meshes[1] = library_mesh(tool);
    for (const std::size_t i : {0U, 1U}) {
        if (!processing::is_outward_oriented(work.meshes[i]))
            return refused<CutSolid>(Refusal::inside_out,
                                     i == 0 ? "what should be cut looks inward" : "what should cut looks inward");
    }
    for (std::size_t i = 0; i < 4; ++i)
        work.origins[i] = work.meshes[i].add_property_map<LibraryMesh::Face_index, FaceOrigin>(origins_name).first;
    try {
        if (!computed(work) || pieces_cross(work, 2) || pieces_cross(work, 3))
            return refused<CutSolid>(Refusal::no_intersection, "the parts would cross or touch themselves along the cut");
    } catch (const processing::Corefinement::Self_intersection_exception&) {
        return refused<CutSolid>(Refusal::crossing, "walls cross or touch each other where they are cut");
    } catch (const std::exception& failure) {
        return refused<CutSolid>(Refusal::no_intersection, std::string("the cut could not be computed: ") + failure.what());
    }
    const bool labelled = !solid.labels.empty();
    CutSolid out{our_mesh(work.meshes[2], labelled), our_mesh(work.meshes[3], labelled)};
    if (is_closed(out.inside) && is_closed(out.outside)) return made(std::move(out));
    return refused<CutSolid>(Refusal::no_intersection, "the parts are not closed");
}

}  // namespace selvage::mesh
