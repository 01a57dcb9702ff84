#include "output/ply_files.h"

#include "base/text.h"
#include "mesh/ply.h"

#include <fmt/format.h>

#include <map>
#include <utility>

namespace selvage::output {

namespace {

void append(std::vector<double>& all, const std::vector<double>& more) { all.insert(all.end(), more.begin(), more.end()); }

// The blocks' bodies side by side.
struct WholeVein {
    mesh::TriangleMesh mesh;
    std::vector<double> wall, sd, presence, thickness;

    void add(const veins::VeinSolid& solid) {
        for (const int label : mesh::labels_of_points(solid.mesh, {mesh::upper_wall, mesh::lower_wall}, mesh::rim))
            wall.push_back(label);
        append(sd, solid.figures.sd);
        append(presence, solid.figures.presence);
        append(thickness, solid.figures.thickness);
        mesh = mesh::joined(mesh, solid.mesh);
    }
};

}  // namespace

std::vector<PackFile> ply_files(const std::vector<veins::VeinSolid>& solids, const base::MapFrame& frame) {
    std::vector<std::pair<std::string, WholeVein>> veins;
    for (const veins::VeinSolid& solid : solids) {
        if (veins.empty() || veins.back().first != solid.vein) veins.emplace_back(solid.vein, WholeVein{});
        veins.back().second.add(solid);
    }
    const std::vector<std::string> comments{
        "an interpretation from drill holes, not an estimate of a mineral resource or reserve",
        fmt::format("origin east {} north {} elevation {}", base::fixed(frame.origin.x(), 3), base::fixed(frame.origin.y(), 3),
                    base::fixed(frame.origin.z(), 3)),
        "x east, y north, z elevation, metres from the origin; wall 1 hanging, -1 foot, 0 rim; sd of the mid-surface and true "
        "thickness in metres"};
    std::vector<PackFile> files;
    std::map<std::string, int> taken;  // names that differ in signs alone are numbered
    for (auto& [name, vein] : veins) {
        const std::string part = base::file_name_part(name);
        const int number = ++taken[part];
        files.push_back({"model/" + part + (number > 1 ? "-" + std::to_string(number) : std::string()) + ".ply",
                         mesh::ply_bytes(vein.mesh,
                                         {{"wall", std::move(vein.wall)},
                                          {"sd", std::move(vein.sd)},
                                          {"presence", std::move(vein.presence)},
                                          {"thickness", std::move(vein.thickness)}},
                                         comments)});
    }
    return files;
}

}  // namespace selvage::output
