#include "sheets/plan_page.h"

#include "paths/locate.h"
#include "sheets/cautions.h"
#include "sheets/label_text.h"
#include "sheets/marks.h"
#include "sheets/openings_words.h"
#include "sheets/silent_holes.h"
#include "sheets/vein_ahead.h"

#include <utility>

namespace selvage::sheets {

namespace {

std::vector<std::size_t> counts_of(const Results& results, const GradeClasses& classes) {
    std::vector<std::size_t> counts(hit_signs, 0);
    for (const intercepts::Intercept& hit : results.intercepts.met)
        ++counts[static_cast<std::size_t>(sign_of(hit, classes, results.records.frame))];
    for (const veins::Vein& vein : results.veins)
        for (const veins::NoVein& none : vein.no_vein())
            if (none.is_miss()) ++counts[static_cast<std::size_t>(HitSign::no_vein)];
    return counts;
}

// What each hole that is not yet there should meet.
// Those that are being drilled first.
std::vector<std::string> next_holes(const Results& results) {
    constexpr std::size_t most = 12;  // more are for the table of forecasts
    std::vector<std::string> lines;
    if (results.pierces.size() > most) return lines;
    for (const bool active : {true, false})
        for (const VeinAhead& ahead : veins_ahead(results.pierces)) {
            const paths::Path* path = paths::path_of(results.paths, ahead.hole);
            if ((path != nullptr && path->status == tables::HoleStatus::active) != active) continue;
            lines.push_back(ahead.hole + "\t" + ahead.vein + " " + ahead_sentence(ahead, results.records.frame));
        }
    return lines;
}

// Holes that are being drilled and of which no line tells what they should meet.
std::vector<std::string> active_holes(const Results& results) {
    std::vector<std::string> lines;
    for (const paths::Path& path : results.paths) {
        const bool is_told = std::any_of(results.pierces.begin(), results.pierces.end(),
                                         [&](const forecast::Pierce& pierce) { return pierce.hole == path.hole; });
        if (path.status == tables::HoleStatus::active && !is_told)
            lines.push_back(path.hole + "\t" + active_words(path, results.records.frame));
    }
    return lines;
}

Point middle_of(const Box& box) { return {(box.left + box.right) / 2.0, (box.bottom + box.top) / 2.0}; }

LegendGroup ground_group(const PlanDrawn& drawn, const Results& results, const Tools& tools) {
    LegendGroup group{"On the ground", {}};
    if (drawn.pads) group.entries.push_back({"pad", [&tools](const Box& box) { return pad_symbol(middle_of(box), tools); }});
    if (drawn.attitudes)
        group.entries.push_back({"vein outcrop: strike, dip", [line = tools.style.line("contact_mark")](const Box& box) {
                                     const Point at = middle_of(box);
                                     return Marks{line_of({{at.x - 2.3, at.y + 0.6}, {at.x + 2.3, at.y + 0.6}}, line),
                                                  line_of({{at.x, at.y + 0.6}, {at.x, at.y - 0.9}}, line)};
                                 }});
    for (const std::size_t vein : drawn.veins) {
        const drawing::LineLook look = with_colour(tools.style.line("wall_accurate"), vein_colour(vein, tools));
        group.entries.push_back({results.veins[vein].name() + " vein at the ground", [look](const Box& box) {
                                     const double y = middle_of(box).y;
                                     return Marks{line_of({{box.left, y}, {box.right, y}}, look)};
                                 }});
    }
    return group;
}

}  // namespace

PageContent plan_page(const PlanDrawn& drawn, const Results& results, const GradeClasses& classes, const Tools& tools) {
    PageContent page;
    page.kind = "plan";
    page.title.title = "Plan";
    page.title.subtitle = "collars, traces, veins at the ground";
    page.title.identification = "PL";
    page.title.document_type = "plan";
    page.sentence =
        "Seen from above, grid north up  ·  traces and hits dropped straight onto the plan, names at collars, and beside "
        "traces that could be confused";
    page.scale_denominator = drawn.scale_denominator;
    page.cautions = {working_document_caution(), interpretation_caution(results.events)};
    if (std::string ahead = holes_ahead_caution(results); !ahead.empty()) page.cautions.push_back(std::move(ahead));
    if (!results.site.workings.empty()) page.cautions.push_back(workings_caution());
    if (std::string openings = openings_caution(drawn.voids, hole_names(results.paths), results); !openings.empty())
        page.cautions.push_back(std::move(openings));
    page.classes_heading = classes.quantity;
    page.classes_note = "hits";
    page.classes = class_rows(classes, counts_of(results, classes));
    page.legend = legend_groups(drawn.signs, results, tools);
    if (LegendGroup ground = ground_group(drawn, results, tools); !ground.entries.empty())
        page.legend.push_back(std::move(ground));
    page.side_list = drawn.listed;
    constexpr std::size_t names_most = 24;
    for (std::string& line : next_holes(results)) page.side_list.push_back(std::move(line));
    for (std::string& line : active_holes(results)) page.side_list.push_back(std::move(line));
    for (std::string& line : silent_hole_names(results, names_most)) page.side_list.push_back(std::move(line));
    return page;
}

}  // namespace selvage::sheets
