#include "base/parallel.h"
#include "veins/misses.h"
#include "veins/vein.h"
#include "veins/vein_messages.h"
#include "veins/vein_work.h"

#include <algorithm>
#include <optional>
#include <string>
#include <utility>

namespace selvage::veins {

namespace {

struct Inputs {
    const intercepts::Intercepts& intercepts;
    const std::vector<paths::Path>& paths;
    const tables::Records& records;
    const VeinSettings& settings;
    const site::Site& site;
};

// The order of decisions: plane, surface and curves from hits alone; then who missed; then presence and extent. Nothing feeds
// back. False where there is no model.
bool model_one(VeinWork& work, const Inputs& inputs) {
    work.evidence = evidence_of(*work.setting, inputs.intercepts, inputs.paths, inputs.records);
    work.model->blocks =
        faults::Blocks(inputs.settings.events.younger_than(work.setting->name), ground_of(work.evidence, inputs.paths));
    place_in_blocks(work.evidence, work.model->blocks);
    const auto plane = plane_through(work.evidence);
    if (!plane) {
        report_no_plane(work);
        return false;
    }
    Vein::Model& model = *work.model;
    model.chart = chart_of(*plane);
    part_by_faults(work);
    fit_mid_surface(work, inputs.settings);
    find_slips(work);
    find_mean_slips(work);
    lay_bands(work);
    find_parent_wall(work);
    lay_mean_plane(work);
    fit_thickness(work);
    fit_grades(work, inputs.settings.modelled_analytes);
    draw_walls(work);
    model.no_vein = holes_without(work.setting->name, model, inputs.intercepts, inputs.paths, inputs.records);
    find_presence(work);
    lay_extent(work, inputs.site);
    draw_outline(work);
    find_fit(work);
    summarise(work);
    report_data(work);
    return true;
}

std::optional<std::size_t> number_of(const std::vector<settings::VeinSetting>& veins, const std::string& name) {
    for (std::size_t i = 0; i < veins.size(); ++i)
        if (veins[i].name == name) return i;
    return std::nullopt;
}

// The veins not yet done that need not wait for the one that they splay from. All that are left where they wait for each other.
std::vector<std::size_t> next_in_line(const std::vector<settings::VeinSetting>& veins, const std::vector<char>& done) {
    std::vector<std::size_t> next, left;
    for (std::size_t i = 0; i < veins.size(); ++i) {
        if (done[i] != 0) continue;
        left.push_back(i);
        const auto parent = number_of(veins, veins[i].splay_of);
        if (!parent || done[*parent] != 0) next.push_back(i);
    }
    return next.empty() ? left : next;
}

}  // namespace

base::Checked<std::vector<Vein>> model_veins(const intercepts::Intercepts& intercepts, const std::vector<paths::Path>& paths,
                                             const tables::Records& records, const site::Site& site,
                                             const VeinSettings& settings) {
    const Inputs inputs{intercepts, paths, records, settings, site};
    std::vector<VeinWork> works(settings.veins.size());
    std::vector<char> modelled(works.size(), 0);
    std::vector<char> done(works.size(), 0);
    while (std::count(done.begin(), done.end(), 0) > 0) {
        const std::vector<std::size_t> next = next_in_line(settings.veins, done);
        base::parallel_for(next.size(), [&](std::size_t n) {
            const std::size_t i = next[n];
            works[i].setting = &settings.veins[i];
            if (const auto parent = number_of(settings.veins, settings.veins[i].splay_of))
                if (modelled[*parent] != 0) works[i].parent = works[*parent].model;
            modelled[i] = model_one(works[i], inputs) ? 1 : 0;
        });
        for (const std::size_t i : next) done[i] = 1;
    }
    base::Checked<std::vector<Vein>> veins;
    for (std::size_t i = 0; i < works.size(); ++i) {
        if (modelled[i] != 0) veins.value.emplace_back(settings.veins[i].name, works[i].model);
        base::append(veins.findings, std::move(works[i].findings));
    }
    return veins;
}

}  // namespace selvage::veins
