#include "sheets/overview_names.h"

#include "drawing/clipping.h"
#include "drawing/polyline.h"
#include "paths/locate.h"
#include "sheets/section_content.h"
#include "sheets/stated_faults.h"
#include "sheets/symbols.h"
#include "sheets/vein_letters.h"

#include <algorithm>
#include <set>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr std::size_t names_in_line = 3;
constexpr int priority_vein = 6, priority_fault = 5, priority_pierce = 4, priority_planned = 4, priority_hole = 3;

NamedLabel named(const std::string& text, const drawing::TextLook& look, std::vector<Point> places, int priority) {
    NamedLabel label;
    label.label.owner = text;
    label.label.at = places.front();
    label.label.also_at.assign(places.begin() + 1, places.end());
    label.label.lines = {{text, look, {}}};
    label.label.priority = priority;
    label.label.clear_mm = 0.8;
    label.label.may_be_listed = false;
    return label;
}

// Places every so many millimetres along lines, at most `most`.
std::vector<Point> places_along(const std::vector<std::vector<Point>>& lines, std::size_t most) {
    double length = 0.0;
    for (const std::vector<Point>& line : lines) length += drawing::length_of(line);
    std::vector<Point> places;
    const double step = length / static_cast<double>(most);
    for (const std::vector<Point>& line : lines)
        for (double along = step / 2.0; along < drawing::length_of(line) && step > 0.0; along += step)
            places.push_back(drawing::point_along(line, along).at);
    return places;
}

// Collars that stand so near to one another on paper that one label names them all.
struct CollarsTogether {
    Point at;
    double reach = 0.0;  // mm, from there to the farthest
    bool planned = false;
    std::vector<std::string> holes;
};

std::vector<CollarsTogether> collars_together(const Results& results, const AxonometricView& view) {
    constexpr double together_mm = 4.0;
    std::vector<CollarsTogether> groups;
    for (const tables::Collar& collar : results.records.collars) {
        if (paths::path_of(results.paths, collar.hole) == nullptr) continue;  // a wedge's name stands at its parent's collar
        const Point at = view.seen(collar.position).at;
        const bool planned = collar_state(collar.status) != CollarState::drilled;
        const auto distance = [&](const CollarsTogether& group) {
            return drawing::length_of(group.at.x - at.x, group.at.y - at.y);
        };
        const auto group = std::find_if(groups.begin(), groups.end(), [&](const CollarsTogether& one) {
            return one.planned == planned && distance(one) < together_mm;
        });
        if (group == groups.end()) {
            groups.push_back({at, 0.0, planned, {collar.hole}});
        } else {
            group->reach = std::max(group->reach, distance(*group));
            group->holes.push_back(collar.hole);
        }
    }
    return groups;
}

}  // namespace

std::vector<std::string> letters_of(const Results& results) {
    std::vector<std::string> names;
    for (const veins::Vein& vein : results.veins) names.push_back(vein.name());
    return vein_letters(names);
}

std::vector<NamedLabel> names_of_surfaces(const Results& results, const VisibleSurface& surface,
                                          const std::vector<FaultOutline>& faults, const Box& window, const Tools& tools) {
    constexpr std::size_t most_places = 40;
    const std::vector<std::string> letters = letters_of(results);
    std::vector<NamedLabel> names;
    for (std::size_t vein = 0; vein < results.veins.size(); ++vein) {
        const auto is_vein = [&](int item) {
            return vein_number(results, results.solids[static_cast<std::size_t>(item / tones)].vein) == vein;
        };
        const std::vector<Point> places = places_along(surface.outlines(is_vein), most_places);
        if (places.empty()) continue;
        names.push_back(named(results.veins[vein].name() + " vein (" + letters[vein] + ")",
                              with_colour(tools.style.text("vein_name"), vein_colour(vein, tools)), places, priority_vein));
    }
    std::set<std::size_t> all_veins;
    for (std::size_t vein = 0; vein < results.veins.size(); ++vein) all_veins.insert(vein);
    std::set<std::string> told;
    for (const FaultOutline& fault : faults) {
        std::vector<std::vector<Point>> lines;
        for (const FaultOutline::Part& part : fault.parts)
            if (!part.seen.hidden) lines.push_back(part.seen.points);
        std::vector<Point> places = places_along(lines, most_places);
        places.erase(
            std::remove_if(places.begin(), places.end(), [&](const Point& at) { return drawing::distance(at, window) > 0.0; }),
            places.end());
        if (places.empty() || !told.insert(fault.name).second) continue;
        names.push_back(named(fault.name, tools.style.text("line_name"), places, priority_fault));
        if (const std::string older = older_words(results, fault.name, all_veins); !older.empty())
            names.back().label.lines.push_back({older, tools.style.text("line_name"), {}});
    }
    return names;
}

std::vector<NamedLabel> names_of_holes(const Results& results, const VisibleSurface& surface, const AxonometricView& view,
                                       const Tools& tools) {
    std::vector<NamedLabel> names;
    for (const CollarsTogether& group : collars_together(results, view)) {
        NamedLabel name = named(group.holes.front(), tools.style.text(group.planned ? "planned_name" : "name"), {group.at},
                                group.planned ? priority_planned : priority_hole);
        name.label.lines.clear();
        for (std::size_t i = 0; i < group.holes.size(); i += names_in_line) {
            std::string line;
            for (std::size_t k = i; k < std::min(i + names_in_line, group.holes.size()); ++k)
                line += (k > i ? ", " : "") + group.holes[k];
            name.label.lines.push_back({line, tools.style.text(group.planned ? "planned_name" : "name"), {}});
        }
        name.label.clear_mm = group.reach + tools.style.size_mm("collar") / 2.0;
        name.planned = group.planned;
        names.push_back(std::move(name));
    }
    for (const forecast::Pierce& pierce : results.pierces) {
        const SeenPoint seen = view.seen(pierce.point);
        if (surface.hides(seen)) continue;
        const bool several = results.veins.size() > 1;
        NamedLabel name = named(several ? pierce.hole + " " + pierce.vein : pierce.hole, tools.style.text("planned_text"),
                                {seen.at}, priority_pierce);
        name.label.clear_mm = tools.style.size_mm("planned_pierce") / 2.0;
        name.planned = true;
        names.push_back(std::move(name));
    }
    return names;
}

}  // namespace selvage::sheets
