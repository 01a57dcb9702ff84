#include "sheets/off_target.h"

#include "sheets/holes_ahead.h"
#include "sheets/label_text.h"
#include "sheets/vein_ahead.h"

#include <algorithm>
#include <cmath>

namespace selvage::sheets {

namespace {

// The hole's forecasts by depth.
std::vector<const forecast::Pierce*> pierces_of(const std::string& hole, const Results& results) {
    std::vector<const forecast::Pierce*> pierces;
    for (const forecast::Pierce& pierce : results.pierces)
        if (pierce.hole == hole) pierces.push_back(&pierce);
    std::stable_sort(pierces.begin(), pierces.end(),
                     [](const forecast::Pierce* a, const forecast::Pierce* b) { return a->depth < b->depth; });
    return pierces;
}

}  // namespace

std::optional<OffTarget> off_target(const tables::Collar& collar, const Results& results) {
    if (!collar.target || !collar.target->point) return std::nullopt;
    const tables::Target& target = *collar.target;
    const std::vector<VeinAhead> veins = veins_ahead(pierces_of(collar.hole, results), results.pierces);
    const auto meant = std::find_if(veins.begin(), veins.end(),
                                    [&](const VeinAhead& ahead) { return target.vein.empty() || ahead.vein == target.vein; });
    if (meant == veins.end()) return std::nullopt;
    const forecast::Pierce& pierce = meant->likeliest();
    const Eigen::Vector3d normal = results.veins[pierce.vein_number].at(pierce.point, pierce.crossing.block_number).normal;
    const Eigen::Vector3d off = pierce.point - *target.point;
    const Eigen::Vector3d aside = off - off.dot(normal) * normal;
    return OffTarget{&target,
                     &pierce,
                     collar.status == tables::HoleStatus::active,
                     aside.norm(),
                     std::sqrt(std::max(0.0, pierce.covariance.trace())),
                     std::abs(off.dot(normal)),
                     aside,
                     target.radius && aside.norm() > *target.radius};
}

std::vector<OffTarget> targets_to_show(const Results& results) {
    if (results.ahead != nullptr) return results.ahead->targets;
    std::vector<OffTarget> shown;
    for (const tables::Collar& collar : results.records.collars) {
        if (collar.status != tables::HoleStatus::active && collar.status != tables::HoleStatus::planned) continue;
        if (const std::optional<OffTarget> off = off_target(collar, results); off && (off->active || off->outside))
            shown.push_back(*off);
    }
    return shown;
}

std::string off_target_words(const OffTarget& off, const base::MapFrame& map) {
    const auto words = [&](int decimals) {
        const std::string off_it = length_text(off.metres, map, decimals) + " off its target along " + off.pierce->vein;
        return off.target->radius ? off_it + ", " + length_text(*off.target->radius, map, decimals) + " allowed" : off_it;
    };
    const bool alike = off.target->radius && length_text(off.metres, map, 0) == length_text(*off.target->radius, map, 0);
    return words(alike ? 1 : 0);
}

}  // namespace selvage::sheets
