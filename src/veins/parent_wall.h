#pragma once

#include "faults/blocks.h"
#include "mesh/outcome.h"
#include "mesh/triangle_mesh.h"
#include "veins/model.h"

#include <Eigen/Core>

#include <memory>
#include <vector>

// Where a splay ends: at the near wall of the vein that it leaves.
namespace selvage::veins {

class ParentWall {
public:
    // `hits`: of the splay; most of them tell on which side of its parent it lies.
    ParentWall(std::shared_ptr<const Vein::Model> parent, const std::vector<Eigen::Vector3d>& hits);

    bool is_of(const Vein::Model& model) const { return parent_.get() == &model; }

    // How far on the splay's side of that wall a point lies, m square to it, below 0 within the parent and behind it; and the
    // wall's unit normal, towards the splay. The parent's wall is prolonged as far as need be.
    faults::Blocks::Inside before(const Eigen::Vector3d& point) const;

    // What lies behind that wall around a body, as solids that look outward: one for each block of the parent that the body
    // reaches into.
    std::vector<mesh::Outcome<mesh::TriangleMesh>> behind(const mesh::TriangleMesh& body) const;

private:
    double wall_at(const BlockPart& part, const Eigen::Vector2d& place) const;  // w, m
    mesh::Outcome<mesh::TriangleMesh> behind(const mesh::TriangleMesh& body, std::size_t block) const;

    std::shared_ptr<const Vein::Model> parent_;
    double side_ = 1.0;  // of the parent's w axis
};

}  // namespace selvage::veins
