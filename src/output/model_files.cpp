#include "output/model_files.h"

#include "faults/fault_pieces.h"
#include "mesh/glb.h"
#include "mesh/surface.h"
#include "output/ply_files.h"

#include <Eigen/Geometry>

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace selvage::output {

namespace {

using mesh::SceneNode;

constexpr double trace_step = 10.0;          // m between points of a trace
constexpr double round_the_data = 50.0;      // m of faults and ground around everything else
constexpr double most_ground_steps = 150.0;  // each way
constexpr double see_through = 0.35;

mesh::SceneColour scene_colour(const drawing::Colour& colour, double opacity = 1.0) {
    return {colour.red / 255.0, colour.green / 255.0, colour.blue / 255.0, opacity};
}

Eigen::AlignedBox3d box_of(const Results& results) {
    Eigen::AlignedBox3d box;
    for (const paths::Path& path : results.paths) {
        box.extend(path.stations.front().position);
        box.extend(paths::position_at(path, path.end_depth));
    }
    for (const veins::VeinSolid& solid : results.solids) {
        const mesh::Bounds bounds = mesh::bounds(solid.mesh);
        box.extend(bounds.lower);
        box.extend(bounds.upper);
    }
    const Eigen::Vector3d around = Eigen::Vector3d::Constant(round_the_data);
    return {box.min() - around, box.max() + around};
}

// A piece of a fault within a box.
mesh::TriangleMesh fault_mesh(const faults::FaultPiece& piece, const Eigen::AlignedBox3d& box) {
    const std::vector<Eigen::Vector3d> polygon = faults::corners_within(piece, box);
    mesh::TriangleMesh mesh;
    mesh.points = polygon;
    for (int i = 1; i + 1 < static_cast<int>(polygon.size()); ++i) mesh.triangles.push_back({0, i, i + 1});
    return mesh;
}

SceneNode veins_node(const Results& results, const drawing::Style& style) {
    SceneNode group;
    group.name = "veins";
    for (std::size_t i = 0; i < results.veins.size(); ++i) {
        SceneNode vein;
        vein.name = results.veins[i].name();
        for (const veins::VeinSolid& solid : results.solids) {
            if (solid.vein != vein.name) continue;
            SceneNode part;
            part.name = solid.block.empty() ? solid.vein : solid.vein + " " + solid.block;
            part.shape = solid.mesh;
            part.colour = scene_colour(style.veins[i % style.veins.size()]);
            part.extras.emplace_back("volume", solid.volume);
            vein.children.push_back(std::move(part));
        }
        group.children.push_back(std::move(vein));
    }
    return group;
}

SceneNode faults_node(const Results& results, const drawing::Style& style, const Eigen::AlignedBox3d& box) {
    SceneNode group;
    group.name = "faults";
    for (const faults::Fault& fault : results.events.faults) {
        SceneNode node;
        node.name = fault.name;
        mesh::TriangleMesh pieces;
        for (const faults::FaultPiece& piece : faults::pieces_of(results.events, fault))
            pieces = mesh::joined(pieces, fault_mesh(piece, box));
        node.shape = std::move(pieces);
        node.colour = scene_colour(style.line("fault").colour, see_through);
        group.children.push_back(std::move(node));
    }
    return group;
}

SceneNode ground_node(const Results& results, const drawing::Style& style, const Eigen::AlignedBox3d& box) {
    SceneNode node;
    node.name = results.site.ground.has_given() ? "topography" : "ground, assumed";
    node.colour = scene_colour(style.colour("ground"), see_through);
    const double step = std::max(5.0, std::max(box.sizes().x(), box.sizes().y()) / most_ground_steps);
    std::vector<Eigen::Vector3d> points;
    for (double y = box.min().y(); y < box.max().y() + step; y += step)
        for (double x = box.min().x(); x < box.max().x() + step; x += step)
            if (const auto elevation = results.site.ground.elevation_at({x, y})) points.emplace_back(x, y, *elevation);
    if (const auto surface = mesh::surface_through(points)) node.shape = *surface;
    return node;
}

SceneNode traces_node(const Results& results, const drawing::Style& style) {
    SceneNode group;
    group.name = "traces";
    for (const paths::Path& path : results.paths) {
        const bool planned = path.status == tables::HoleStatus::planned;
        std::vector<Eigen::Vector3d> line;
        for (double depth = path.start_depth; depth < path.end_depth; depth += trace_step)
            line.push_back(paths::position_at(path, depth));
        line.push_back(paths::position_at(path, path.end_depth));
        SceneNode node;
        node.name = path.hole;
        node.colour = scene_colour(style.line(planned ? "trace_planned" : "trace").colour);
        if (line.size() > 1) node.shape = mesh::SceneLines{{std::move(line)}};
        group.children.push_back(std::move(node));
    }
    return group;
}

// Points by vein: of intercepts, or of forecasts.
template <typename Item, typename VeinOf>
SceneNode points_node(const char* name, const std::vector<Item>& items, const Results& results, const drawing::Colour& colour,
                      const VeinOf& vein_of) {
    SceneNode group;
    group.name = name;
    for (const veins::Vein& vein : results.veins) {
        mesh::ScenePoints points;
        for (const Item& item : items)
            if (vein_of(item) == vein.name()) points.points.push_back(item.point);
        SceneNode node;
        node.name = vein.name();
        node.colour = scene_colour(colour);
        node.shape = std::move(points);
        group.children.push_back(std::move(node));
    }
    return group;
}

}  // namespace

std::vector<PackFile> model_files(const Results& results, const drawing::Style& style) {
    std::vector<PackFile> files = ply_files(results.solids, results.records.frame);
    const Eigen::AlignedBox3d box = box_of(results);
    const std::vector<SceneNode> scene{
        veins_node(results, style),
        faults_node(results, style, box),
        ground_node(results, style, box),
        traces_node(results, style),
        points_node("intercepts", results.intercepts.met, results, style.colour("ink"), [](const auto& met) { return met.vein; }),
        points_node("forecasts", results.forecast.pierces, results, style.colour("planned"),
                    [](const auto& pierce) { return pierce.vein; })};
    const Eigen::Vector3d& origin = results.records.frame.origin;
    base::JsonArray at{origin.x(), origin.y(), origin.z()};
    files.push_back(
        {"model/model.glb", mesh::glb_bytes(scene, {{"origin", std::move(at)},
                                                    {"note",
                                                     "an interpretation from drill holes, not an estimate of a mineral resource "
                                                     "or reserve; origin: map east, north and elevation in metres"}})});
    return files;
}

}  // namespace selvage::output
