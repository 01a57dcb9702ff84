#include "sheets/plan_point_labels.h"

#include "sheets/label_text.h"
#include "sheets/plan_neighbours.h"
#include "sheets/vein_ahead.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <string>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr int priority_pierce = 4, priority_vein = 2, priority_hit = 0;

// A hole and the vein ahead of it; with the depth where the hole has more than one place to meet it.
std::string name_of(const forecast::Pierce& pierce, const Results& results) {
    if (results.veins.size() < 2 && vein_ahead_of(pierce, results.pierces).pieces.size() < 2) return pierce.hole;
    const std::string name = pierce.hole + " " + pierce.vein;
    if (vein_ahead_of(pierce, results.pierces).pieces.size() < 2) return name;
    return name + " " + length_text(pierce.depth, results.records.frame, 0);
}

// Where a hole that is not there yet should meet a vein, by the hole's name.
drawing::Label pierce_label(const forecast::Pierce& pierce, const Results& results, const PaperFrame& frame, const Tools& tools) {
    drawing::Label label;
    const std::string name = name_of(pierce, results);
    label.owner = name;
    label.at = on_plan(frame, pierce.point);
    label.clear_mm = tools.style.size_mm("planned_pierce") / 2.0;
    label.not_at = signs_of_others(results, pierce.hole, frame);
    label.priority = priority_pierce;
    label.listed_text = pierce.hole + " would meet " + pierce.vein + " here";
    label.lines.push_back({name, tools.style.text("planned_text"), {}});
    return label;
}

// Holes that start near others.
std::set<std::string> holes_of_pads(const std::vector<CollarGroup>& groups) {
    constexpr double one_pad_mm = 10.0;
    std::set<std::string> holes;
    for (std::size_t i = 0; i < groups.size(); ++i) {
        bool near = groups[i].names.size() > 1;
        for (std::size_t k = 0; k < groups.size() && !near; ++k)
            near = k != i && std::hypot(groups[i].at.x - groups[k].at.x, groups[i].at.y - groups[k].at.y) < one_pad_mm;
        if (near) holes.insert(groups[i].names.begin(), groups[i].names.end());
    }
    return holes;
}

// Whose a hit or miss is, in small type, where several holes start together: beside its sign or on a leader, if there is room.
std::vector<drawing::Label> hit_labels(const Results& results, const std::vector<CollarGroup>& groups, const PaperFrame& frame,
                                       const Tools& tools) {
    constexpr double half_mm = 1.9, fair_place = 4.0;
    const std::vector<std::vector<drawing::Segment>> traces = traces_in_chords(results, frame);
    const std::set<std::string> of_pads = holes_of_pads(groups);
    std::vector<drawing::Label> labels;
    const auto name = [&](const std::string& hole, const std::string& vein, const Eigen::Vector3d& point) {
        const Point at = on_plan(frame, point);
        if (of_pads.count(hole) == 0 || !is_on_plan(frame, at)) return;
        drawing::Label label;
        label.owner = hole + " " + vein;
        label.at = at;
        label.clear_mm = half_mm;
        label.not_at = signs_of_others(results, hole, frame);
        label.not_along = traces_of_others(traces, results, hole);
        keep_near(at, label.not_along, label.not_at);
        label.foreign_weight = 8.0;
        label.worst_place = fair_place;
        label.may_be_listed = false;
        label.priority = priority_hit;
        label.lines.push_back({hole, tools.style.text("detail"), {}});
        labels.push_back(std::move(label));
    };
    for (const intercepts::Intercept& hit : results.intercepts.met) name(hit.hole, hit.vein, hit.point);
    for (const veins::Vein& vein : results.veins)
        for (const veins::NoVein& none : vein.no_vein())
            if (none.is_miss()) name(none.hole, vein.name(), none.point);
    return labels;
}

// At the window's edge, where a modelled vein leaves it.
std::vector<drawing::Label> goes_on_labels(const std::vector<VeinAtGround>& veins, const Tools& tools) {
    std::vector<drawing::Label> labels;
    for (const VeinAtGround& vein : veins)
        for (const Point& at : vein.goes_on) {
            drawing::Label label;
            label.owner = "goes on";
            label.at = at;
            label.clear_mm = 0.8;
            label.may_lead = false;
            label.may_be_listed = false;
            label.priority = priority_vein;
            label.lines.push_back({"goes on", with_colour(tools.style.text("detail"), vein_colour(vein.vein, tools)), {}});
            labels.push_back(std::move(label));
        }
    return labels;
}

}  // namespace

std::vector<drawing::Label> pierce_labels(const Results& results, PierceNames which, const PaperFrame& frame,
                                          const Tools& tools) {
    const bool within_reach = which == PierceNames::within_reach;
    std::vector<drawing::Label> labels;
    for (const forecast::Pierce& pierce : results.pierces) {
        if (is_within_reach(pierce) != within_reach || !is_on_plan(frame, on_plan(frame, pierce.point))) continue;
        labels.push_back(pierce_label(pierce, results, frame, tools));
        labels.back().may_be_listed = !within_reach;
    }
    return labels;
}

std::vector<drawing::Label> plan_point_labels(const Results& results, const std::vector<CollarGroup>& groups,
                                              const std::vector<VeinAtGround>& veins, const PaperFrame& frame,
                                              const Tools& tools) {
    std::vector<drawing::Label> labels = pierce_labels(results, PierceNames::within_reach, frame, tools);
    for (drawing::Label& label : hit_labels(results, groups, frame, tools)) labels.push_back(std::move(label));
    for (drawing::Label& label : goes_on_labels(veins, tools)) labels.push_back(std::move(label));
    return labels;
}

}  // namespace selvage::sheets
