#pragma once

#include "sheets/made_up_pack.h"

#include <string>
#include <vector>

namespace selvage::sheets {

// The made-up pack's results with parts of them put in the place of its own.
struct ChangedResults {
    settings::Project project;
    tables::Records records;
    std::vector<paths::Path> paths;
    intercepts::Intercepts intercepts;
    std::vector<veins::Vein> veins;
    std::vector<forecast::Pierce> pierces;
    std::vector<planning::StepOut> step_outs;
    std::vector<orientation::Orientation> orientations;
    faults::Events events;
    site::Site site;
    std::vector<veins::VeinSolid> solids;

    ChangedResults() {
        const app::Results& whole = made_up_pack().run_results;
        project = whole.project;
        records = whole.records;
        paths = whole.paths;
        intercepts = whole.intercepts;
        veins = whole.veins;
        pierces = whole.forecast.pierces;
        step_outs = whole.step_outs;
        orientations = whole.orientations;
        events = whole.events;
        site = whole.site;
        solids = whole.solids;
    }
    Results results() const {
        return {project, records, paths, orientations, events, intercepts, veins, pierces, step_outs, site, solids};
    }
    tables::Collar& collar(const std::string& hole) {
        for (tables::Collar& collar : records.collars)
            if (collar.hole == hole) return collar;
        return records.collars.front();
    }
    // A project that knows its holes and nothing of veins.
    void forget_veins() {
        veins.clear();
        solids.clear();
        pierces.clear();
        step_outs.clear();
        intercepts = {};
    }
};

// All words of a sheet, or of several, joined by blanks in the order in which they are set.
inline std::string all_words(const std::vector<drawing::Sheet>& sheets) {
    std::string words;
    for (const drawing::Sheet& sheet : sheets)
        for (const drawing::Item& item : sheet.items)
            if (const auto* text = std::get_if<drawing::Text>(&item.mark)) words += text->text + " ";
    return words;
}

inline bool holds(const std::string& words, const std::string& part) { return words.find(part) != std::string::npos; }

}  // namespace selvage::sheets
