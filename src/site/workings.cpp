#include "site/workings.h"

#include "mesh/solid_check.h"
#include "mesh/walled_solid.h"

#include <algorithm>
#include <optional>
#include <utility>

namespace selvage::site {

namespace {

constexpr double finest_step = 0.25;  // m along a hole: nearer than anybody knows where old workings are

double distance_to_box(const mesh::Bounds& box, const Eigen::Vector3d& point) {
    return (point - point.cwiseMax(box.lower).cwiseMin(box.upper)).norm();
}

}  // namespace

MinedSolid::MinedSolid(mesh::TriangleMesh solid)
    : mesh(std::move(solid)), is_closed(mesh::is_closed(mesh)), box(mesh::bounds(mesh)), search(mesh) {}

double MinedSolid::distance(const Eigen::Vector3d& point, double beyond) const {
    if (const double to_box = distance_to_box(box, point); to_box > beyond) return to_box;
    return is_closed ? std::max(0.0, search.signed_distance(point)) : search.nearest(point).distance;
}

std::shared_ptr<const MinedSolid> prism(const std::vector<Ring>& rings, double bottom, double top) {
    mesh::Outcome<mesh::TriangleMesh> solid = mesh::upright_prism(rings, bottom, top);
    return solid ? std::make_shared<const MinedSolid>(std::move(*solid)) : nullptr;
}

std::vector<NearWorking> near_workings(const Workings& workings, const std::vector<Eigen::Vector3d>& line, double clearance) {
    std::vector<NearWorking> near;
    for (std::size_t number = 0; number < workings.size(); ++number) {
        if (workings[number].solid == nullptr) continue;
        const MinedSolid& solid = *workings[number].solid;
        std::optional<NearWorking> open;
        const auto look = [&](const Eigen::Vector3d& point, double along) {
            const double distance = solid.distance(point, clearance);
            if (distance <= clearance) {
                if (!open) open = NearWorking{number, along, along, distance};
                open->to = along;
                open->nearest = std::min(open->nearest, distance);
            } else if (open) {
                near.push_back(*open);
                open.reset();
            }
            return std::max(finest_step, distance - clearance);  // nothing nearer can come before
        };
        double before = 0.0;  // length of the pieces that are done
        for (std::size_t i = 1; i < line.size(); ++i) {
            const Eigen::Vector3d run = line[i] - line[i - 1];
            const double length = run.norm();
            for (double along = 0.0; along < length;) along += look(line[i - 1] + along / length * run, before + along);
            before += length;
        }
        if (!line.empty()) look(line.back(), before);
        if (open) near.push_back(*open);
    }
    return near;
}

}  // namespace selvage::site
