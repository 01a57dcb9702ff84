#include "sheets/plan_labels.h"

#include "drawing/clipping.h"
#include "drawing/polyline.h"
#include "paths/locate.h"
#include "sheets/label_text.h"
#include "sheets/plan_neighbours.h"
#include "sheets/plan_point_labels.h"
#include "sheets/symbols.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <optional>
#include <set>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double same_collar_mm = 2.4;  // nearer collars share one label
constexpr std::size_t names_a_line = 3;
constexpr int priority_planned = 4, priority_collar = 3, priority_trace = 2, priority_pad = 1, priority_hit = 0;

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
            for (std::size_t k = i; k < std::min(i + names_a_line, group.names.size()); ++k)
                line += (k > i ? ", " : "") + group.names[k];
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
        const auto longest = std::max_element(vein.pieces.begin(), vein.pieces.end(),
                                              [](const auto& a, const auto& b) { return a.size() < b.size(); });
        drawing::Label label;
        label.owner = results.veins[vein.vein].name();
        label.at = drawing::point_along(*longest, 0.16 * drawing::length_of(*longest)).at;
        for (const double share : {0.84, 0.08, 0.92, 0.28, 0.72, 0.4, 0.6})
            label.also_at.push_back(drawing::point_along(*longest, share * drawing::length_of(*longest)).at);
        label.clear_mm = 0.8;
        label.priority = priority_planned;
        label.may_be_listed = false;
        label.lines.push_back({results.veins[vein.vein].name() + " vein",
                               with_colour(tools.style.text("vein_name"), vein_colour(vein.vein, tools)),
                               {}});
        labels.push_back(std::move(label));
    }
    return labels;
}

// The foot of a trace, or a little above it where the sign of another hole hides it; nothing: hidden all along.
std::optional<Point> seen_foot(const paths::Path& path, const std::vector<Point>& others, const PaperFrame& frame) {
    for (const double share : {1.0, 0.96, 0.92, 0.88}) {
        const Point foot =
            on_plan(frame, paths::position_at(path, path.start_depth + share * (path.end_depth - path.start_depth)));
        if (std::none_of(others.begin(), others.end(), [&](const Point& sign) { return hides(foot, sign); })) return foot;
    }
    return std::nullopt;
}

// Whether another trace runs beside the lower half of a hole's, so near that they print as one, and does not only cross it.
bool runs_along(const paths::Path& path, const std::vector<drawing::Segment>& others, const PaperFrame& frame) {
    constexpr double as_one_mm = 1.0;
    int close = 0;
    for (const double share : {0.5, 0.6, 0.7, 0.8, 0.9, 1.0}) {
        const Point at = on_plan(frame, paths::position_at(path, path.start_depth + share * (path.end_depth - path.start_depth)));
        if (std::any_of(others.begin(), others.end(),
                        [&](const drawing::Segment& trace) { return drawing::distance(at, trace) < as_one_mm; }))
            ++close;
    }
    return close >= 2;
}

// Its name stands at the pierce.
bool ends_at_a_pierce(const Results& results, const std::string& hole, const PaperFrame& frame) {
    constexpr double within_mm = 10.0;
    return std::any_of(results.pierces.begin(), results.pierces.end(), [&](const forecast::Pierce& pierce) {
        return pierce.hole == hole && is_within_reach(pierce) &&
               ends_near(results, hole, on_plan(frame, pierce.point), within_mm, frame);
    });
}

// Which trace is whose, where several start at one collar or another runs along it: the hole's name there, if there is room.
std::vector<drawing::Label> trace_labels(const Results& results, const std::vector<CollarGroup>& groups, const PaperFrame& frame,
                                         const Tools& tools) {
    constexpr double least_mm = 12.0;  // a shorter trace is told by its collar
    const std::vector<std::vector<drawing::Segment>> traces = traces_in_chords(results, frame);
    std::vector<drawing::Label> labels;
    for (const CollarGroup& group : groups)
        for (const std::string& name : group.names) {
            const paths::Path& path = *paths::path_of(results.paths, name);
            if (ends_at_a_pierce(results, name, frame)) continue;
            const Point start = on_plan(frame, paths::position_at(path, path.start_depth)),
                        end = on_plan(frame, paths::position_at(path, path.end_depth));
            if (std::hypot(end.x - start.x, end.y - start.y) < least_mm) continue;
            drawing::Label label;
            label.not_along = traces_of_others(traces, results, name);
            if (group.names.size() < 2 && !runs_along(path, label.not_along, frame)) continue;
            label.owner = name + " trace";
            label.not_at = signs_of_others(results, name, frame);
            const std::optional<Point> foot = seen_foot(path, label.not_at, frame);
            label.at = foot.value_or(end);
            keep_near(label.at, label.not_along, label.not_at);
            for (const double share : {0.9, 0.8, 0.7, 0.6, 0.5, 0.4})
                label.also_at.push_back(
                    on_plan(frame, paths::position_at(path, path.start_depth + share * (path.end_depth - path.start_depth))));
            label.may_lead = foot.has_value();
            label.foreign_weight = 8.0;
            label.clear_mm = 0.15;
            label.soft_weight = 4.0;
            label.priority = priority_trace;
            label.listed_text = name + "'s trace ends here";
            label.lines.push_back(
                {name, tools.style.text(collar_state(path.status) == CollarState::drilled ? "body" : "planned_text"), {}});
            labels.push_back(std::move(label));
        }
    return labels;
}

// The label of the collars that stand on a pad, the nearest of several; nullptr: none does.
drawing::Label* label_on_pad(std::vector<drawing::Label>& labels, const std::vector<CollarGroup>& groups, const Point& pad) {
    constexpr double on_pad_mm = 5.0;
    drawing::Label* nearest = nullptr;
    double least = on_pad_mm;
    for (std::size_t i = 0; i < groups.size(); ++i)
        for (const Point& collar : groups[i].collars)
            if (const double apart = std::hypot(collar.x - pad.x, collar.y - pad.y); apart < least) {
                least = apart;
                nearest = &labels[i];
            }
    return nearest;
}

// Names of pads: behind the names of the holes that start there, else beside the pad. `collars`: a label a group, as they come.
void add_pads(std::vector<drawing::Label>& collars, const std::vector<CollarGroup>& groups, const Results& results,
              const PaperFrame& frame, const Tools& tools) {
    const drawing::TextLook look = with_colour(tools.style.text("body"), tools.style.colour("soft"));
    std::vector<drawing::Label> alone;
    for (const tables::Pad& pad : results.records.pads) {
        const Point at = on_plan(frame, pad.position);
        if (!is_on_plan(frame, at)) continue;
        if (drawing::Label* holes = label_on_pad(collars, groups, at)) {
            holes->lines.back().rest.push_back({"  " + pad.pad, look});
            holes->listed_text += ", pad " + pad.pad;
            continue;
        }
        drawing::Label label;
        label.owner = "pad " + pad.pad;
        label.at = at;
        label.clear_mm = pad_half_mm;
        label.priority = priority_pad;
        label.listed_text = "pad " + pad.pad;
        label.lines.push_back({pad.pad, look, {}});
        alone.push_back(std::move(label));
    }
    std::move(alone.begin(), alone.end(), std::back_inserter(collars));
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
        if (near == groups.end()) {
            groups.push_back({at, {collar.hole}, {at}, planned});
        } else {
            near->names.push_back(collar.hole);
            near->collars.push_back(at);
        }
    }
    return groups;
}

std::vector<drawing::Label> plan_labels(const Results& results, const std::vector<CollarGroup>& groups,
                                        const std::vector<VeinAtGround>& veins, const PaperFrame& frame, const Tools& tools) {
    std::vector<drawing::Label> labels = collar_labels(groups, tools);
    add_pads(labels, groups, results, frame, tools);
    for (drawing::Label& label : vein_labels(veins, results, tools)) labels.push_back(std::move(label));
    for (drawing::Label& label : trace_labels(results, groups, frame, tools)) labels.push_back(std::move(label));
    for (drawing::Label& label : pierce_labels(results, PierceNames::beyond_end, frame, tools))
        labels.push_back(std::move(label));
    return labels;
}

}  // namespace selvage::sheets
