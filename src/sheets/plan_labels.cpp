#include "sheets/plan_labels.h"

#include "paths/locate.h"
#include "sheets/symbols.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double same_collar_mm = 1.6;  // nearer collars share one label
constexpr std::size_t names_a_line = 3;
constexpr int priority_planned = 4, priority_collar = 3, priority_pad = 1;

std::vector<drawing::Label> collar_labels(const std::vector<CollarGroup>& groups, const Tools& tools) {
    std::vector<drawing::Label> labels;
    for (const CollarGroup& group : groups) {
        drawing::Label label;
        label.owner = group.names.front();
        label.at = group.at;
        label.clear_mm = tools.style.size_mm("collar") / 2.0;
        label.priority = group.planned ? priority_planned : priority_collar;
        for (std::size_t i = 0; i < group.names.size(); i += names_a_line) {
            std::string line;
            for (std::size_t k = i; k < std::min(i + names_a_line, group.names.size()); ++k) line += (k > i ? ", " : "") + group.names[k];
            label.lines.push_back({line, tools.style.text(group.planned ? "planned_name" : "name"), {}});
            label.listed_text += (i == 0 ? "" : ", ") + line;
        }
        labels.push_back(std::move(label));
    }
    return labels;
}

std::vector<drawing::Label> vein_labels(const std::vector<VeinAtGround>& veins, const Results& results, const Tools& tools) {
    std::vector<drawing::Label> labels;
    for (const VeinAtGround& vein : veins) {
        const auto longest = std::max_element(vein.pieces.begin(), vein.pieces.end(), [](const auto& a, const auto& b) { return a.size() < b.size(); });
        drawing::Label label;
        label.owner = results.veins[vein.vein].name();
        label.at = (*longest)[longest->size() / 6];
        label.clear_mm = 0.8;
        label.priority = priority_planned;
        label.may_be_listed = false;
        label.lines.push_back({results.veins[vein.vein].name() + " vein", with_colour(tools.style.text("vein_name"), vein_colour(vein.vein, tools)), {}});
        labels.push_back(std::move(label));
    }
    return labels;
}

std::vector<drawing::Label> pad_labels(const Results& results, const PaperFrame& frame, const Tools& tools) {
    std::vector<drawing::Label> labels;
    for (const tables::Pad& pad : results.records.pads) {
        const Point at = on_plan(frame, pad.position);
        if (!is_on_plan(frame, at)) continue;
        drawing::Label label;
        label.owner = "pad " + pad.pad;
        label.at = at;
        label.clear_mm = pad_half_mm;
        label.priority = priority_pad;
        label.lines.push_back({pad.pad, with_colour(tools.style.text("body"), tools.style.colour("soft")), {}});
        labels.push_back(std::move(label));
    }
    return labels;
}

}  // namespace

std::vector<CollarGroup> collar_groups(const Results& results, const PaperFrame& frame) {
    std::vector<CollarGroup> groups;
    for (const tables::Collar& collar : results.records.collars) {
        if (paths::path_of(results.paths, collar.hole) == nullptr) continue;
        const Point at = on_plan(frame, collar.position);
        const bool planned = collar_state(collar.status) == CollarState::planned;
        const auto near = std::find_if(groups.begin(), groups.end(), [&](const CollarGroup& group) {
            return std::hypot(group.at.x - at.x, group.at.y - at.y) < same_collar_mm && group.planned == planned;
        });
        if (near == groups.end())
            groups.push_back({at, {collar.hole}, planned});
        else
            near->names.push_back(collar.hole);
    }
    return groups;
}

std::vector<drawing::Label> plan_labels(const Results& results, const std::vector<CollarGroup>& groups, const std::vector<VeinAtGround>& veins,
                                        const PaperFrame& frame, const Tools& tools) {
    std::vector<drawing::Label> labels = collar_labels(groups, tools);
    for (drawing::Label& label : vein_labels(veins, results, tools)) labels.push_back(std::move(label));
    for (drawing::Label& label : pad_labels(results, frame, tools)) labels.push_back(std::move(label));
    return labels;
}

}  // namespace selvage::sheets
