#pragma once

#include "mesh/triangle_mesh.h"

#include <Eigen/Core>

#include <memory>
#include <optional>
#include <vector>

namespace selvage::mesh {

// A place where a segment meets a mesh.
struct MeshHit {
    double along = 0.0;  // m from the segment's start
    Eigen::Vector3d point = Eigen::Vector3d::Zero();
    int triangle = 0;
};

struct NearestPoint {
    double distance = 0.0;  // m
    Eigen::Vector3d point = Eigen::Vector3d::Zero();
    int triangle = 0;
};

enum class Where { inside, outside, on_surface };

// A search tree over a mesh, built once; asking is safe from many threads. The mesh has at least one triangle.
class MeshSearch {
public:
    explicit MeshSearch(const TriangleMesh& mesh);
    ~MeshSearch();
    MeshSearch(MeshSearch&&) noexcept;
    MeshSearch& operator=(MeshSearch&&) noexcept;

    NearestPoint nearest(const Eigen::Vector3d& point) const;
    // Of a closed solid; exact.
    Where where(const Eigen::Vector3d& point) const;
    // Distance to the surface of a closed solid, m, negative inside.
    double signed_distance(const Eigen::Vector3d& point) const;
    // All places where the segment meets the mesh, nearest its start first, then by triangle. A place on an edge or point of the
    // mesh comes once for each triangle there; along a face both ends of the stretch.
    std::vector<MeshHit> hits(const Eigen::Vector3d& from, const Eigen::Vector3d& to) const;
    std::optional<MeshHit> first_hit(const Eigen::Vector3d& from, const Eigen::Vector3d& to) const;

private:
    struct Tree;
    std::unique_ptr<Tree> tree_;
};

}  // namespace selvage::mesh
