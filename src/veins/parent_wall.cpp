#include "veins/parent_wall.h"

#include "mesh/cut.h"
#include "mesh/planar_mesh.h"
#include "mesh/walled_solid.h"

#include <Eigen/Geometry>

#include <algorithm>
#include <cmath>
#include <utility>

namespace selvage::veins {

namespace {

constexpr double beyond = 20.0;          // m that the solid reaches past the body
constexpr double edges_a_spacing = 6.0;  // of the solid's wall
constexpr double touching = 0.001;       // m: a body that ends at a fault does not reach beyond it
constexpr double overlap = 0.01;         // m past the fault: solids of two blocks with one face in common cut nothing cleanly
constexpr double flattest = 0.1;         // cosine of the angle between wall and its w axis

}  // namespace

ParentWall::ParentWall(std::shared_ptr<const Vein::Model> parent, const std::vector<Eigen::Vector3d>& hits)
    : parent_(std::move(parent)) {
    int over = 0;
    for (const Eigen::Vector3d& hit : hits) {
        const Located there = located(*parent_, hit);
        const double mid = mean_in(*parent_, parent_->parts[there.block], there.chart_point.head<2>()).height;
        over += there.chart_point.z() >= mid ? 1 : -1;
    }
    side_ = over >= 0 ? 1.0 : -1.0;
}

double ParentWall::wall_at(const BlockPart& part, const Eigen::Vector2d& place) const {
    const DrawnVein drawn = drawn_at(*parent_, part, place);
    return drawn.mid + side_ * drawn.thickness / 2.0;
}

faults::Blocks::Inside ParentWall::before(const Eigen::Vector3d& point) const {
    const BlockPart& part = parent_->parts[parent_->blocks.at(point)];
    const Eigen::Vector3d there = part.chart.chart_from_world(point);
    const Eigen::Vector2d place = there.head<2>();
    const Eigen::Vector3d normal = slope_row_of(mean_in(*parent_, part, place).gradient).normalized();
    faults::Blocks::Inside inside;
    inside.distance = side_ * (there.z() - wall_at(part, place)) * std::max(flattest, normal.z());
    inside.normal = side_ * (part.chart.chart_from_world_rotation.transpose() * normal);
    return inside;
}

std::vector<mesh::Outcome<mesh::TriangleMesh>> ParentWall::behind(const mesh::TriangleMesh& body) const {
    const faults::Blocks& blocks = parent_->blocks;
    if (!blocks.is_cut()) return {behind(body, 0)};
    std::vector<mesh::Outcome<mesh::TriangleMesh>> solids;
    for (std::size_t block = 0; block < blocks.count(); ++block) {
        const bool reached = std::any_of(body.points.begin(), body.points.end(), [&](const Eigen::Vector3d& point) {
            return blocks.inside(block, point).distance > touching;
        });
        if (!reached) continue;
        mesh::Outcome<mesh::TriangleMesh> solid = behind(body, block);
        for (const base::Plane& bound : blocks.bounds(block)) {
            if (!solid) break;
            const auto cut = mesh::cut_by_plane(*solid, {bound.point + overlap * bound.normal, -bound.normal}, mesh::rim);
            solid = cut ? mesh::made(cut->inside) : mesh::refused<mesh::TriangleMesh>(cut);
        }
        if (!solid || !solid->triangles.empty()) solids.push_back(std::move(solid));
    }
    return solids;
}

mesh::Outcome<mesh::TriangleMesh> ParentWall::behind(const mesh::TriangleMesh& body, std::size_t block) const {
    const BlockPart& part = parent_->parts[block];
    Eigen::AlignedBox2d box;
    double depth = 0.0;
    for (const Eigen::Vector3d& point : body.points) {
        const Eigen::Vector3d there = part.chart.chart_from_world(point);
        box.extend(there.head<2>());
        depth = std::max(depth, side_ * (wall_at(part, there.head<2>()) - there.z()));
    }
    const Eigen::Vector2d lower = box.min().array() - beyond, upper = box.max().array() + beyond;
    mesh::PlanarRegion region;
    region.loops = {{lower, {upper.x(), lower.y()}, upper, {lower.x(), upper.y()}}};
    region.longest_edge = [edge = parent_->spacing / edges_a_spacing](const Eigen::Vector2d&) { return edge; };
    const mesh::Outcome<mesh::PlanarMesh> plan = mesh::triangulate(region);
    if (!plan) return mesh::refused<mesh::TriangleMesh>(plan);
    std::vector<Eigen::Vector3d> wall, far;
    for (const Eigen::Vector2d& place : plan->points) {
        const double w = wall_at(part, place);
        wall.push_back(part.chart.world_from_chart({place.x(), place.y(), w}));
        far.push_back(part.chart.world_from_chart({place.x(), place.y(), w - side_ * (depth + beyond)}));
    }
    return side_ > 0.0 ? mesh::solid_between(*plan, wall, far, part.chart.w())
                       : mesh::solid_between(*plan, far, wall, part.chart.w());
}

}  // namespace selvage::veins
