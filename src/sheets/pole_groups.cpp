#include "numerics/directions.h"
#include "orientation/core_angles.h"
#include "paths/locate.h"
#include "sheets/pole_density.h"
#include "sheets/section_content.h"
#include "sheets/stereonet.h"

#include <algorithm>
#include <map>
#include <utility>

namespace selvage::sheets {

namespace {

bool is_contact(const std::string& kind, const settings::CoreAngles& core_angles) {
    return std::find(core_angles.contact_kinds.begin(), core_angles.contact_kinds.end(), kind) != core_angles.contact_kinds.end();
}

// A set stays where its mean is denser than chance makes it.
void keep_dense_sets(PoleGroup& group, const std::vector<paths::Path>& paths) {
    if (group.sets.empty()) return;
    const WeightedPoles used = weighted_poles(group, paths);
    const std::size_t all = group.sets.size();
    group.sets.erase(std::remove_if(group.sets.begin(), group.sets.end(),
                                    [&](const orientation::StructureSet& set) {
                                        return density_at(base::upward_normal(set.attitude), used.poles, used.weights) <
                                               dense_by_chance;
                                    }),
                     group.sets.end());
    group.chance_sets = all - group.sets.size();
}

// A fault's name stands with its poles where they are logged as its own.
std::vector<const faults::Fault*> faults_shown(const PoleGroup& group, const Results& results) {
    std::vector<const faults::Fault*> shown;
    if (group.kind.find("fault") == std::string::npos) return shown;
    for (const faults::Fault& fault : results.events.faults)
        if (group.vein.empty() || group.vein == fault.name) shown.push_back(&fault);
    return shown;
}

}  // namespace

WeightedPoles weighted_poles(const PoleGroup& group, const std::vector<paths::Path>& paths) {
    WeightedPoles all;
    const paths::PathIndex index(paths);
    for (const orientation::Orientation* row : group.used) {
        const paths::Path* path = index.find(row->hole);
        if (path == nullptr) continue;
        all.poles.push_back(*row->pole);
        all.weights.push_back(
            numerics::terzaghi_weight(orientation::alpha_of(paths::direction_at(*path, row->depth), *row->pole)));
    }
    return all;
}

std::vector<PoleGroup> pole_groups(const Results& results) {
    std::map<std::pair<std::string, std::string>, PoleGroup> by_kind;
    for (const orientation::Orientation& row : results.orientations) {
        PoleGroup& group = by_kind[{row.kind, row.vein}];
        group.kind = row.kind;
        group.vein = row.vein;
        if (!row.pole)
            ++group.unoriented;
        else
            (orientation::is_trusted(row) ? group.used : group.shown_only).push_back(&row);
    }
    for (const orientation::StructureSet& set : orientation::structure_sets(results.orientations, results.paths))
        by_kind[{set.kind, set.vein}].sets.push_back(set);
    std::vector<PoleGroup> of_veins, others;
    for (auto& [key, group] : by_kind) {
        const std::size_t vein = vein_number(results, group.vein);
        const bool of_vein = is_contact(group.kind, results.project.core_angles) && vein < results.veins.size();
        if (of_vein) group.vein_number = vein;
        keep_dense_sets(group, results.paths);
        group.faults = faults_shown(group, results);
        if (of_vein && !group.used.empty())
            of_veins.push_back(std::move(group));
        else if (!of_vein && group.sets.size() + group.chance_sets > 0)
            others.push_back(std::move(group));
    }
    std::stable_sort(of_veins.begin(), of_veins.end(),
                     [](const PoleGroup& a, const PoleGroup& b) { return *a.vein_number < *b.vein_number; });
    of_veins.insert(of_veins.end(), std::make_move_iterator(others.begin()), std::make_move_iterator(others.end()));
    return of_veins;
}

}  // namespace selvage::sheets
