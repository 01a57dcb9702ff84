#include "sheets/level_page.h"

#include "base/text.h"
#include "drawing/symbols.h"
#include "sheets/cautions.h"
#include "sheets/label_text.h"
#include "sheets/marks.h"
#include "sheets/openings_words.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace selvage::sheets {

namespace {

std::vector<std::size_t> counts_of(const Level& level, const Results& results, const GradeClasses& classes) {
    std::vector<std::size_t> counts(hit_signs, 0);
    for (const intercepts::Intercept* hit : level.hits)
        ++counts[static_cast<std::size_t>(sign_of(*hit, classes, results.records.frame))];
    counts[static_cast<std::size_t>(HitSign::no_vein)] = level.misses.size();
    return counts;
}

std::string level_text(const Level& level, const base::MapFrame& map) { return level.name + " " + base::symbol_of(map.unit); }

// "3 hits: K-01, K-02, K-07" in lines: as many names as fit.
std::vector<std::string> hits_words(const Level& level, double room, std::size_t most_lines, const Tools& tools) {
    const drawing::TextLook& look = tools.style.text("body");
    std::string words = std::to_string(level.hits.size()) + (level.hits.size() == 1 ? " hit" : " hits");
    if (!level.misses.empty()) words += ", " + std::to_string(level.misses.size()) + " without";
    std::vector<std::string> names;
    for (const intercepts::Intercept* hit : level.hits) names.push_back(hit->hole);
    for (const MissOnLevel& miss : level.misses) names.push_back(miss.none->hole);
    std::vector<std::string> lines{words};
    for (std::size_t i = 0; i < names.size(); ++i) {
        const std::string longer = words + (i == 0 ? ": " : ", ") + names[i];
        std::vector<std::string> set = drawing::wrapped(tools.fonts, look, longer + (i + 1 < names.size() ? ", ..." : ""), room);
        if (set.size() > most_lines) break;
        lines = std::move(set);
        words = longer;
    }
    return lines;
}

LegendGroup level_group(const LevelSet& set, std::size_t level, const LevelDrawn& drawn, const Results& results,
                        const Tools& tools) {
    LegendGroup group{"On this level", {}};
    const auto level_line = [](const Box& box, const drawing::LineLook& look) {
        const double y = (box.bottom + box.top) / 2.0;
        return line_of({{box.left, y}, {box.right, y}}, look);
    };
    for (const std::size_t vein : drawn.signs.veins)
        group.entries.push_back({results.veins[vein].name() + " vein",
                                 [level_line, look = with_colour(tools.style.line("wall_accurate"), vein_colour(vein, tools))](
                                     const Box& box) { return Marks{level_line(box, look)}; }});
    if (drawn.above)
        group.entries.push_back(
            {"at " + level_text(set.levels[level + 1], results.records.frame) + ", the level above",
             [level_line, look = tools.style.line("level_above")](const Box& box) { return Marks{level_line(box, look)}; }});
    if (drawn.arrows)
        group.entries.push_back({"hole within " + length_text(set.half(), results.records.frame, 0) + ", down hole",
                                 [level_line, &tools](const Box& box) {
                                     const double y = (box.bottom + box.top) / 2.0;
                                     return Marks{level_line(box, tools.style.line("trace")),
                                                  drawing::arrow_head({box.right, y}, 1.0, 0.0, tools.style.size_mm("arrow"),
                                                                      tools.style.colour("ink"))};
                                 }});
    return group;
}

}  // namespace

Marks level_ladder(const LevelSet& set, std::size_t level, const Box& box, const base::MapFrame& map, const Tools& tools) {
    constexpr double most_row = 16.0, side = 2.0, elevation_room = 16.0, mark = 1.2;
    const double row = std::min(most_row, (box.height() - side) / static_cast<double>(set.levels.size()));
    const double leading = tools.style.size_mm("leading");
    const auto lines_most = static_cast<std::size_t>(std::max(1.0, std::floor(row / leading)));
    const drawing::TextLook &plain_look = tools.style.text("body"), &strong = tools.style.text("body_strong");
    const double cap = drawing::cap_height_mm(tools.fonts, plain_look), left = box.left + elevation_room + 6.0;
    Marks marks;
    for (std::size_t i = 0; i < set.levels.size(); ++i) {
        const double y = box.top - side / 2.0 - row * (static_cast<double>(set.levels.size() - 1 - i) + 0.5);
        const bool here = i == level;
        marks.push_back(line_of({{box.left + side, y - row / 2.0}, {box.left + side, y + row / 2.0}}, tools.style.line("rule")));
        marks.push_back(line_of({{box.left + side, y}, {box.left + side + (here ? 3.0 : 1.8) * mark, y}},
                                tools.style.line(here ? "section_line_strong" : "rule")));
        drawing::Text elevation{{left - 3.0, y - cap / 2.0},
                                level_text(set.levels[i], map),
                                here ? strong : plain_look,
                                drawing::Anchor::right,
                                false,
                                0.0,
                                here || !set.levels[i].drawn ? "" : destination_of_sheet("level-plan", set.levels[i].name)};
        marks.emplace_back(std::move(elevation));
        const std::vector<std::string> lines = hits_words(set.levels[i], box.right - left - 1.0, lines_most, tools);
        double base = y - cap / 2.0 + leading * (static_cast<double>(lines.size()) - 1.0) / 2.0;
        for (const std::string& line : lines) {
            marks.push_back(words({left, base}, line, plain_look));
            base -= leading;
        }
    }
    return marks;
}

PageContent level_page(const LevelSet& set, std::size_t level, const LevelDrawn& drawn, const Results& results,
                       const GradeClasses& classes, const Tools& tools) {
    const base::MapFrame& map = results.records.frame;
    const Level& here = set.levels[level];
    const std::string half = "±" + base::significant(map.length(set.half()), 4) + " " + base::symbol_of(map.unit);
    PageContent page;
    page.kind = "level-plan";
    page.name = here.name;
    page.title.title = "Level plan " + level_text(here, map);
    page.title.subtitle = "veins where cut, hits within " + half;
    page.title.identification = "LP-" + here.name;
    page.title.document_type = "level plan";
    page.sentence = "Level " + level_text(here, map) + ", " + half +
                    ", seen from above, grid north up  ·  walls where the level cuts the veins' bodies; holes and hits of the "
                    "slab dropped onto it";
    page.scale_denominator = drawn.scale_denominator;
    page.cautions = {working_document_caution(), interpretation_caution(results.events)};
    std::vector<std::string> holes = drawn.holes;
    for (const forecast::Pierce* pierce : here.pierces) holes.push_back(pierce->hole);
    if (std::string ahead = holes_ahead_caution(holes, results); !ahead.empty()) page.cautions.push_back(std::move(ahead));
    if (!results.site.workings.empty()) page.cautions.push_back(workings_caution());
    if (std::string openings = openings_caution(drawn.voids, drawn.holes, results); !openings.empty())
        page.cautions.push_back(std::move(openings));
    page.cautions.push_back(thickness_caution());
    page.key_plan_heading = "Levels";
    page.key_plan_scale = "every " + length_text(set.step, map, 0);
    page.key_plan = [set, level, map, tools](const Box& box) { return level_ladder(set, level, box, map, tools); };
    page.classes_heading = classes.quantity;
    page.classes_note = "hits here";
    page.classes = class_rows(classes, counts_of(here, results, classes));
    if (LegendGroup group = level_group(set, level, drawn, results, tools); !group.entries.empty())
        page.legend.push_back(std::move(group));
    for (LegendGroup& group : legend_groups(drawn.signs, results, tools)) page.legend.push_back(std::move(group));
    page.side_list = drawn.listed;
    return page;
}

}  // namespace selvage::sheets
