#include "paths/locate.h"
#include "veins/model.h"
#include "veins/vein.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>

namespace selvage::veins {

namespace {

constexpr double near_pick = 0.5;         // m either side of a pick, within which a contact is the vein's
constexpr double least_cosine = 0.01745;  // of alpha: within 1 degree of a right-angle hit alpha no longer turns with the normal

// The vein whose wall a measured contact is: the named one, else the one whose pick it lies in or beside.
std::string vein_of(const orientation::Orientation& row, const intercepts::Intercepts& intercepts) {
    if (!row.vein.empty()) return row.vein;
    for (const intercepts::Intercept& met : intercepts.met) {
        if (met.hole == row.hole && row.depth >= met.from - near_pick && row.depth <= met.to + near_pick) return met.vein;
    }
    return {};
}

bool is_contact(const orientation::Orientation& row, const settings::CoreAngles& core_angles) {
    return std::find(core_angles.contact_kinds.begin(), core_angles.contact_kinds.end(), row.kind) !=
           core_angles.contact_kinds.end();
}

// sin(alpha) = |n.t|: turning n or t by a small angle in their common plane changes alpha by as much. core_sd: of a slope
// measured on core, small waves of the surface included.
AlphaTest tested(const orientation::Orientation& row, const paths::Path& path, const std::string& vein,
                 const intercepts::LocalNormal& model, double core_sd) {
    const Eigen::Vector3d hole = paths::direction_at(path, row.depth);
    const double sine = std::min(1.0, std::abs(model.normal.dot(hole)));
    const double cosine = std::max(least_cosine, std::sqrt(1.0 - sine * sine));
    double variance = std::pow(model.sd.radians(), 2) + core_sd * core_sd;
    for (const paths::SourceEffect& effect : paths::effects_at(path, row.depth)) {
        const double turned = effect.rotation.cross(hole).dot(model.normal) / cosine;
        variance += std::pow(turned * effect.source.sd, 2);
    }
    return {
        row.hole, vein, row.depth, *row.alpha, base::Angle::radians(std::asin(sine)), base::Angle::radians(std::sqrt(variance))};
}

}  // namespace

std::vector<AlphaTest> alpha_tests(const std::vector<orientation::Orientation>& orientations,
                                   const intercepts::Intercepts& intercepts, const std::vector<paths::Path>& paths,
                                   const std::vector<Vein>& veins, const settings::CoreAngles& core_angles) {
    std::vector<std::optional<AlphaTest>> rows(orientations.size());
    for (const Vein& vein : veins) {
        std::vector<std::size_t> own;
        std::vector<Eigen::Vector3d> points;
        for (std::size_t i = 0; i < orientations.size(); ++i) {
            const orientation::Orientation& row = orientations[i];
            if (!row.alpha || row.pole || !is_contact(row, core_angles) || vein_of(row, intercepts) != vein.name()) continue;
            own.push_back(i);
            points.push_back(row.position);
        }
        const std::vector<intercepts::LocalNormal> normals = vein.normals_at(points);
        const double core_sd = parameters_of(*vein.model().surface).core_sd;
        for (std::size_t k = 0; k < own.size(); ++k) {
            const orientation::Orientation& row = orientations[own[k]];
            const paths::Path* path = paths::path_of(paths, row.hole);
            if (path != nullptr) rows[own[k]] = tested(row, *path, vein.name(), normals[k], core_sd);
        }
    }
    std::vector<AlphaTest> all;
    for (std::optional<AlphaTest>& row : rows) {
        if (row) all.push_back(std::move(*row));
    }
    return all;
}

}  // namespace selvage::veins
