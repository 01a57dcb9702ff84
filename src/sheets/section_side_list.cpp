#include "sheets/section_side_list.h"

#include "paths/locate.h"
#include "sheets/emptiest_place.h"
#include "sheets/label_text.h"
#include "sheets/side_list.h"
#include "sheets/silent_holes.h"
#include "sheets/vein_ahead.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr std::size_t most_single_lines = 6;

// Something of a hole that lies in another slab.
struct Elsewhere {
    std::string hole, what, where, sheet;  // "HC-16", "Sorrel hit", "34 m behind", "S13"
};

std::vector<Elsewhere> elsewhere(const SectionDrawing& drawing, const std::string& hole) {
    std::vector<Elsewhere> found;
    const auto add = [&](const std::string& what, const Eigen::Vector3d& point) {
        if (slab_number(drawing.set, point) == drawing.section.number) return;
        const double offset = drawing.view.frame.offset(point);
        found.push_back({hole, what, behind_words(offset, drawing.map()), sheet_of(drawing.set, point)});
    };
    for (const intercepts::Intercept& hit : drawing.results.intercepts.met)
        if (hit.hole == hole) add(hit.vein + " hit", hit.point);
    for (const veins::Vein& vein : drawing.results.veins)
        for (const veins::NoVein& none : vein.no_vein())
            if (none.hole == hole && none.is_miss()) add("no " + vein.name(), none.point);
    for (const VeinAhead& ahead : veins_ahead(drawing.results.pierces))
        if (ahead.hole == hole) add(ahead.vein + " due", ahead.likeliest().point);
    return found;
}

// Groups in the order in which their keys first come.
class Grouped {
public:
    void add(const std::string& key, const std::string& words) {
        const auto same = std::find_if(groups_.begin(), groups_.end(), [&](const auto& group) { return group.first == key; });
        if (same == groups_.end())
            groups_.emplace_back(key, words);
        else
            same->second += ", " + words;
    }
    const std::vector<std::pair<std::string, std::string>>& groups() const { return groups_; }

private:
    std::vector<std::pair<std::string, std::string>> groups_;
};

std::vector<std::string> single_lines(const std::vector<Elsewhere>& all) {
    std::vector<std::string> lines;
    for (const Elsewhere& one : all) lines.push_back(one.hole + "\t" + one.what + " " + one.where + ": sheet " + one.sheet);
    return lines;
}

// "see S12  Heron hit: HC-03, HC-11; Sorrel hit: HC-24"
std::vector<std::string> lines_by_sheet(const std::vector<Elsewhere>& all) {
    std::vector<std::string> sheets;
    for (const Elsewhere& one : all)
        if (std::find(sheets.begin(), sheets.end(), one.sheet) == sheets.end()) sheets.push_back(one.sheet);
    std::vector<std::string> lines;
    for (const std::string& sheet : sheets) {
        Grouped by_what;
        for (const Elsewhere& one : all)
            if (one.sheet == sheet) by_what.add(one.what, one.hole);
        std::string text;
        for (const auto& [what, holes] : by_what.groups()) text += (text.empty() ? "" : "; ") + what + ": " + holes;
        lines.push_back("see " + sheet + "\t" + text);
    }
    return lines;
}

}  // namespace

bool continue_side_list(SectionDrawing& drawing, const std::vector<std::string>& lines) {
    const auto place = [&](double width, double height) { return emptiest_place(drawing, width, height); };
    std::optional<ContinuedList> list = continued_list(lines, place, drawing.tools);
    if (!list) return false;
    drawing.put(Layer::labels, std::move(list->marks));
    drawing.obstacles.boxes.push_back(drawing::grown(list->box, 1.5));
    return true;
}

std::vector<std::string> section_side_list(const SectionDrawing& drawing) {
    std::vector<Elsewhere> off_slab;
    Grouped passing;
    for (const SectionHole& hole : drawing.content.holes) {
        const std::string& name = drawing.results.paths[hole.path].hole;
        const std::vector<Elsewhere> others = elsewhere(drawing, name);
        if (hole.shown)
            off_slab.insert(off_slab.end(), others.begin(), others.end());
        else
            passing.add(others.empty() ? "passing" : "see " + others.front().sheet,
                        name + " " + length_text(hole.length_in_slab, drawing.map(), 0));
    }
    const std::size_t count = drawing.side_list.size() + off_slab.size() + passing.groups().size();
    std::vector<std::string> lines = count <= most_single_lines ? single_lines(off_slab) : lines_by_sheet(off_slab);
    for (const auto& [sheet, holes] : passing.groups()) lines.push_back(sheet + "\tnot drawn here: " + holes + " of trace");
    // Where it was due, and where the hole stopped short of it; where it was due on no section, wherever the hole is.
    const auto is_shown = [&drawing](const std::string& hole) {
        return std::any_of(drawing.content.holes.begin(), drawing.content.holes.end(),
                           [&](const SectionHole& one) { return one.shown && drawing.results.paths[one.path].hole == hole; });
    };
    const auto stops_here = [&](const std::string& hole) {
        const paths::Path* path = paths::path_of(drawing.results.paths, hole);
        return path != nullptr && is_shown(hole) &&
               slab_number(drawing.set, paths::position_at(*path, path->end_depth)) == drawing.section.number;
    };
    const auto here = [&](const veins::NoVein& none) {
        return slab_number(drawing.set, none.point) == drawing.section.number ||
               (none.reason == veins::NoVeinReason::stopped_short && stops_here(none.hole)) ||
               (is_shown(none.hole) && sheet_of(drawing.set, none.point).empty());
    };
    for (std::string& line : silent_hole_lines(drawing.results, here, drawing.tools.style.content.forecasts))
        lines.push_back(std::move(line));
    for (std::string& line : left_out_picks(drawing.results, is_shown)) lines.push_back(std::move(line));
    return lines;
}

}  // namespace selvage::sheets
