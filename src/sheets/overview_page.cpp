#include "sheets/overview_page.h"

#include "base/text.h"
#include "sheets/cautions.h"
#include "sheets/label_text.h"
#include "sheets/openings_words.h"
#include "sheets/symbols.h"

#include <algorithm>
#include <set>
#include <string>
#include <utility>
#include <vector>

namespace selvage::sheets {

namespace {

std::string sentence_of(const ViewDirection& direction) {
    std::string words = "Looking down " + base::fixed(direction.down.degrees(), 0) + "° toward " +
                        compass_point(direction.looking) + " (" + bearing_text(direction.looking) + ")";
    if (!direction.hanging_wall_of.empty())
        words += (direction.foot_wall ? ", from the foot wall of " : ", from the hanging wall of ") + direction.hanging_wall_of;
    return words + "  ·  parallel view: lengths along one direction are alike all over the sheet";
}

LegendGroup space_group(const Results& results, const AxonometricView& view, const LevelSet& levels, const OverviewSigns& signs,
                        const Tools& tools) {
    LegendGroup group{"In space", {}};
    const base::MapFrame& map = results.records.frame;
    const double m = view.paper.metres_per_mm;
    for (const WallStyle tone : signs.tones) {
        const std::string words = tone == WallStyle::accurate ? "within " + length_text(accurate_mm * m, map, 0) + " at 95 %"
                                  : tone == WallStyle::approximate
                                      ? "within " + length_text(approximate_mm * m, map, 0) + " at 95 %"
                                      : "less well";
        const double share = tone_share[static_cast<std::size_t>(tone)];
        const std::set<std::size_t> veins = signs.drawn.veins;
        group.entries.push_back({"vein, known " + words, [veins, share, &tools](const Box& box) {
                                     Marks marks;
                                     const double width = box.width() / static_cast<double>(veins.size());
                                     double left = box.left;
                                     for (const std::size_t vein : veins) {
                                         marks.push_back(box_area({left, box.bottom, left + width, box.top},
                                                                  plain(paled(vein_colour(vein, tools), share))));
                                         left += width;
                                     }
                                     return marks;
                                 }});
    }
    const auto line_entry = [&](const std::string& words, const char* role) {
        group.entries.push_back({words, [look = tools.style.line(role)](const Box& box) {
                                     const double y = (box.bottom + box.top) / 2.0;
                                     return Marks{line_of({{box.left, y}, {box.right, y}}, look)};
                                 }});
    };
    if (signs.levels) line_entry("level on a vein, every " + length_text(levels.step, map, 0), "level_line");
    if (signs.hidden) line_entry("behind a vein", "trace_hidden");
    if (signs.hidden_points)
        group.entries.push_back(
            {"hit or miss behind a vein", [&tools](const Box& box) {
                 return hidden_sign(HitSign::class_3, {(box.left + box.right) / 2.0, (box.bottom + box.top) / 2.0}, tools);
             }});
    if (!signs.drawn.signs.empty() && results.site.ground.is_known()) line_entry("edge of the ground shown", "ground");
    return group;
}

// Counted apart: those that one sees, and those behind a vein.
std::vector<ClassRow> class_rows_of(const PointsInSpace& points, const GradeClasses& classes) {
    std::vector<std::size_t> all = points.counts;
    for (std::size_t i = 0; i < all.size(); ++i) all[i] += points.hidden[i];
    std::vector<ClassRow> rows = class_rows(classes, all);
    for (ClassRow& row : rows) {
        const std::size_t hidden = points.hidden[static_cast<std::size_t>(row.number)];
        row.count -= hidden;
        if (hidden > 0) row.note += (row.note.empty() ? "hidden " : "; hidden ") + std::to_string(hidden);
    }
    return rows;
}

// "Tinker VR-01, VR-03; Sorrel VR-12 and 4 more".
std::string hidden_words(const PointsInSpace& points, const Results& results) {
    constexpr std::size_t told_most = 16;
    std::string words;
    for (std::size_t vein = 0; vein < points.holes_hidden.size(); ++vein) {
        const std::vector<std::string>& holes = points.holes_hidden[vein];
        if (holes.empty()) continue;
        words += (words.empty() ? "" : "; ") + results.veins[vein].name() + " ";
        for (std::size_t i = 0; i < std::min(told_most, holes.size()); ++i) words += (i > 0 ? ", " : "") + holes[i];
        if (holes.size() > told_most) words += " and " + std::to_string(holes.size() - told_most) + " more";
    }
    return words;
}

}  // namespace

PageContent overview_page(const Results& results, const AxonometricView& view, const LevelSet& levels, const OverviewSigns& signs,
                          const PointsInSpace& points, const GradeClasses& classes, const Tools& tools) {
    PageContent page;
    page.kind = overview_kind;
    page.title.title = "Overview in space";
    const bool faults = signs.drawn.signs.count(Sign::fault_accurate) + signs.drawn.signs.count(Sign::fault_approximate) +
                            signs.drawn.signs.count(Sign::fault_inferred) >
                        0;
    page.title.subtitle = faults ? "veins, faults and holes, seen at a slant" : "veins and holes, seen at a slant";
    page.title.identification = "OV";
    page.title.document_type = "overview";
    page.sentence = sentence_of(view.direction);
    page.scale_denominator = view.denominator;
    page.scale_note = "square to the line of sight";
    page.cautions = {working_document_caution(), interpretation_caution(results.events)};
    if (std::string ahead = holes_ahead_caution(results); !ahead.empty()) page.cautions.push_back(std::move(ahead));
    if (std::string openings = openings_caution(points.openings.voids, hole_names(results.paths), results); !openings.empty())
        page.cautions.push_back(std::move(openings));
    page.classes_heading = classes.quantity;
    page.classes_note = "in sight";
    page.classes = class_rows_of(points, classes);
    page.legend.push_back(space_group(results, view, levels, signs, tools));
    DrawnSigns others = signs.drawn;
    others.metres_per_mm = view.paper.metres_per_mm;
    for (const Sign sign : {Sign::ground, Sign::ground_assumed}) others.signs.erase(sign);
    for (LegendGroup& group : legend_groups(others, results, tools)) page.legend.push_back(std::move(group));
    page.side_list.push_back("Axes\tbars of equal true length from one point; up is up, the arrow north is grid north");
    page.side_list.push_back("Letters\ton the veins, each with its name's beginning");
    page.side_list.push_back("Names\tof veins, faults and, where there is room, of holes at their collars");
    if (const std::string hidden = hidden_words(points, results); !hidden.empty())
        page.side_list.push_back("Hidden\tbehind a vein: " + hidden + "; see the intercept table");
    page.side_list_heading = "How to read it";
    return page;
}

}  // namespace selvage::sheets
