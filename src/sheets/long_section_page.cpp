#include "sheets/long_section_page.h"

#include "base/text.h"
#include "sheets/cautions.h"
#include "sheets/key_plan.h"
#include "sheets/label_text.h"
#include "sheets/legend_signs.h"
#include "sheets/long_section_faults.h"
#include "sheets/long_section_labels.h"
#include "sheets/marks.h"
#include "sheets/openings_words.h"
#include "sheets/symbols.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

namespace selvage::sheets {

namespace {

std::string with_commas(const std::vector<std::string>& names) {
    std::string text;
    for (const std::string& name : names) text += (text.empty() ? "" : ", ") + name;
    return text;
}

EndMark end_mark(base::Azimuth towards, const Eigen::Vector3d& point, const base::MapFrame& map) {
    return {compass_point(towards), bearing_text(towards), coordinates_text(point, map)};
}

std::string sentence_of(const LongSectionContent& content, const std::string& vein) {
    const base::Azimuth looking = content.layout.looking();
    return vein + " vein, looking " + compass_point(looking) + " (" + bearing_text(looking) + ") from the " +
           (content.layout.from_hanging_wall() ? "hanging wall" : "foot wall") + "  ·  " +
           (is_parted(content) ? "each block laid on its own plane, dip " : "laid on its base plane, dip ") +
           base::fixed(content.layout.dip().degrees(), 0) + "°: distances true on " +
           (is_parted(content) ? "a block" : "the vein") + ", elevations drawn " +
           base::fixed(1.0 / content.layout.dip().sin(), 2) + " times as far apart";
}

std::vector<std::string> cautions_of(const LongSectionContent& content, const Results& results) {
    std::vector<std::string> cautions{working_document_caution(), interpretation_caution(results.events)};
    std::vector<std::string> holes;
    for (const PierceOnPlane& pierce : content.pierces) holes.push_back(pierce.pierce->hole);
    for (const PierceOnPlane& pierce : content.far_pierces) holes.push_back(pierce.pierce->hole);
    if (std::string ahead = holes_ahead_caution(holes, results); !ahead.empty()) cautions.push_back(std::move(ahead));
    if (!results.site.workings.empty()) cautions.push_back(workings_caution());
    std::vector<site::OpenedVoid> voids;
    for (const OpeningOnPlane& opening : content.openings) voids.push_back(opening.opened);
    for (const HitOnPlane& hit : content.hits) holes.push_back(hit.hit->hole);
    if (std::string openings = openings_caution(voids, holes, results); !openings.empty())
        cautions.push_back(std::move(openings));
    cautions.push_back(thickness_caution());
    return cautions;
}

std::vector<std::size_t> counts_of(const LongSectionContent& content) {
    std::vector<std::size_t> counts(hit_signs, 0);
    for (const HitOnPlane& hit : content.hits) ++counts[static_cast<std::size_t>(hit.sign)];
    counts[static_cast<std::size_t>(HitSign::no_vein)] = content.misses.size();
    return counts;
}

Marks line_sign(const Box& box, const drawing::LineLook& look) {
    const double middle = (box.bottom + box.top) / 2.0;
    return {line_of({{box.left, middle}, {box.right, middle}}, look)};
}

LegendGroup isoline_group(const MappedWords& words, const base::MapFrame& map, const Tools& tools) {
    LegendGroup group{"Lines of equal " + words.quantity, {}};
    const drawing::LineLook solid = tools.style.line("isoline"), dashed = tools.style.line("isoline_inferred");
    if (words.tints || words.solid_lines) {
        const drawing::Colour tint = tools.style.classes_pale[std::min<std::size_t>(2, tools.style.classes_pale.size() - 1)];
        group.entries.push_back({"within " + length_text(words.near_hits, map, 0) + " of a line between assayed hits",
                                 [solid, tint, tinted = words.tints](const Box& box) {
                                     Marks marks;
                                     if (tinted) marks.push_back(box_area(box, plain(tint)));
                                     append(marks, line_sign(box, solid));
                                     return marks;
                                 }});
    }
    if (words.dashed_lines)
        group.entries.push_back({"further off, ending " + length_text(words.reach, map, 0) + " from an assayed hit",
                                 [dashed](const Box& box) { return line_sign(box, dashed); }});
    group.entries.push_back(
        {"median of the model from " + std::to_string(words.hits) + " hits, smoothed: a single hit may differ",
         [](const Box&) { return Marks{}; }});
    if (words.contrary) {
        const drawing::Colour tint = tools.style.classes_pale[std::min<std::size_t>(3, tools.style.classes_pale.size() - 1)];
        group.entries.push_back(
            {"left white: a hit two classes or more off the fill", [tint, &tools](const Box& box) {
                 const Point middle{(box.left + box.right) / 2.0, (box.bottom + box.top) / 2.0};
                 return Marks{box_area(box, plain(tint)), disc(middle, box.height() / 2.0, plain(tools.style.colour("white")))};
             }});
    }
    if (!words.strong_level.empty()) {
        const drawing::LineLook strong = tools.style.line("isoline_strong");
        group.entries.push_back(
            {words.strong_level + ": the cut-off", [strong](const Box& box) { return line_sign(box, strong); }});
    }
    return group;
}

// Ground and property are drawn as what they are.
bool has_own_line(veins::EdgeReason reason, const LongSectionDrawn& drawn) {
    return (reason == veins::EdgeReason::topography && (drawn.ground || drawn.ground_assumed)) ||
           (reason == veins::EdgeReason::property && drawn.property) || reason == veins::EdgeReason::fault;
}

LegendGroup edge_group(const LongSectionContent& content, const LongSectionDrawn& drawn, const Results& results,
                       const Tools& tools) {
    LegendGroup group{"Where the model ends, and why", {}};
    if (!tools.style.content.model_doubt) return group;
    std::set<veins::EdgeReason> reasons;
    for (const BlockOnPlane& block : content.blocks)
        for (const veins::EdgeLine& edge : block.edges)
            if (!has_own_line(edge.reason, drawn)) reasons.insert(edge.reason);
    for (const veins::EdgeReason reason : reasons) {
        std::string words = veins::words_of(reason);
        if (reason == veins::EdgeReason::extrapolation_distance)
            words = length_text(results.veins[content.vein].summary().step_out, results.records.frame, 0) +
                    " from the nearest hit or outcrop";
        group.entries.push_back(
            {words, [look = edge_look(reason, content.vein, tools)](const Box& box) { return line_sign(box, look); }});
    }
    return group;
}

// The axis is the plane's: how far a hit's own elevation may be from what it reads there, m.
double elevation_off(const LongSectionContent& content) {
    double most = 0.0;
    for (const HitOnPlane& hit : content.hits)
        most = std::max(most, std::abs(content.layout.elevation_at(hit.place.y()) - hit.hit->point.z()));
    return most;
}

std::vector<LegendGroup> legend_of(const LongSectionContent& content, const LongSectionDrawn& drawn, const Results& results,
                                   const std::string& name_quantity, const Tools& tools) {
    std::vector<LegendGroup> legend;
    if (drawn.mapped) legend.push_back(isoline_group(*drawn.mapped, results.records.frame, tools));
    LegendGroup edges = edge_group(content, drawn, results, tools);
    if (!edges.entries.empty()) legend.push_back(std::move(edges));
    LegendGroup blocks = block_group(content, drawn.parting, results, tools);
    if (!blocks.entries.empty()) legend.push_back(std::move(blocks));
    DrawnSigns signs;
    signs.metres_per_mm = drawn.scale_denominator / 1000.0;
    if (drawn.ground) signs.signs.insert(Sign::ground);
    if (drawn.ground_assumed) signs.signs.insert(Sign::ground_assumed);
    if (drawn.property) signs.signs.insert(Sign::property);
    if (drawn.workings) signs.signs.insert(Sign::workings_near_vein);
    signs.signs.insert(drawn.faults.begin(), drawn.faults.end());
    if (!content.outcrops.empty()) signs.signs.insert(Sign::outcrop);
    if (!content.step_outs.empty()) signs.signs.insert(Sign::step_out);
    signs.signs.insert(drawn.forecasts.begin(), drawn.forecasts.end());
    if (!content.targets.empty()) signs.signs.insert(Sign::target);
    if (!content.openings.empty()) signs.signs.insert(Sign::known_opening);
    const auto has_figure = [](const HitOnPlane& hit) { return hit.accumulation.has_value(); };
    if (std::any_of(content.hits.begin(), content.hits.end(), has_figure)) signs.signs.insert(Sign::name_figure);
    const auto in_doubt = [](const HitOnPlane& hit) { return has_little_core(*hit.hit); };
    if (std::any_of(content.hits.begin(), content.hits.end(), in_doubt)) signs.signs.insert(Sign::little_core);
    signs.name_quantity = name_quantity;
    for (LegendGroup& group : legend_groups(signs, results, tools)) legend.push_back(std::move(group));
    if (const double off = elevation_off(content); off >= base::metres_per(results.records.frame.unit))
        legend.push_back({"",
                          {{"elevations: the plane's; hits differ by up to " + length_text(off, results.records.frame, 0),
                            [](const Box&) { return Marks{}; }}}});
    if (drawn.sections)
        legend.push_back({"", {{drawn.section_words, [look = tools.style.line("grid")](const Box& box) {
                                    const double x = (box.left + box.right) / 2.0;
                                    return Marks{line_of({{x, box.bottom}, {x, box.top}}, look)};
                                }}}});
    return legend;
}

std::vector<std::string> side_list_of(const LongSectionContent& content, const LongSectionDrawn& drawn) {
    std::vector<std::string> list = drawn.listed;
    for (const PierceOnPlane& pierce : content.far_pierces)
        list.push_back(pierce.pierce->hole + "\t" + word_of_plan(pierce.status) + "; passes off this drawing, chance of vein " +
                       chance_text(pierce.pierce->presence));
    for (const SilentHoles& silent : content.silent) {
        list.push_back(silent.holes.size() == 1 ? silent.holes.front() + "\t" + silent.words
                                                : with_commas(silent.holes) + ": " + silent.words);
    }
    return list;
}

}  // namespace

drawing::LineLook edge_look(veins::EdgeReason reason, std::size_t vein, const Tools& tools) {
    switch (reason) {
        case veins::EdgeReason::extrapolation_distance:
            return with_colour(tools.style.line("edge_distance"), vein_colour(vein, tools));
        case veins::EdgeReason::half_way_to_miss: return with_colour(tools.style.line("edge_half_way"), vein_colour(vein, tools));
        case veins::EdgeReason::property: return tools.style.line("property");
        case veins::EdgeReason::fault: return tools.style.line("fault");
        case veins::EdgeReason::presence: return with_colour(tools.style.line("edge_presence"), vein_colour(vein, tools));
        case veins::EdgeReason::other_vein: return with_colour(tools.style.line("edge_other_vein"), vein_colour(vein, tools));
        case veins::EdgeReason::topography: break;
    }
    return tools.style.line("ground");
}

PageContent long_section_page(const LongSectionContent& content, const LongSectionDrawn& drawn, const Results& results,
                              const GradeClasses& classes, const KeyMap& key, const Tools& tools) {
    const std::string& vein = results.veins[content.vein].name();
    const base::MapFrame& map = results.records.frame;
    PageContent page;
    page.kind = "long-section";
    page.name = vein;
    page.title.title = "Long section, " + vein;
    page.title.subtitle = std::string("hits, ") + (classes.any ? "grade × thickness" : "thickness") +
                          (content.pierces.empty() ? "" : ", next holes");
    page.title.identification = "LS-" + base::file_name_part(vein);
    for (char& c : page.title.identification)
        if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 32);
    page.title.document_type = "long section";
    const base::Azimuth right = content.layout.right_end();
    const base::Azimuth left = base::Azimuth::degrees(right.degrees() + 180.0);
    const Eigen::Vector3d left_point = content.layout.world_from_layout(drawn.left);
    const Eigen::Vector3d right_point = content.layout.world_from_layout(drawn.right);
    page.left_end = end_mark(left, left_point, map);
    page.right_end = end_mark(right, right_point, map);
    page.sentence = sentence_of(content, vein);
    page.scale_denominator = drawn.scale_denominator;
    page.scale_note = "on the vein";
    page.cautions = cautions_of(content, results);
    page.classes_heading = classes.quantity;
    page.classes_note = "hits here";
    page.classes = class_rows(classes, counts_of(content), drawn.mapped && drawn.mapped->tints);
    page.legend_in_one_column = true;
    page.legend = legend_of(content, drawn, results, classes.quantity, tools);
    page.side_list = side_list_of(content, drawn);

    const Paper paper = paper_of(results.project, tools.style);
    const PageBoxes boxes = page_boxes(paper.width_mm, paper.height_mm, tools.style.page.layout);
    const KeyLine line{left_point, right_point, base::unit_vector({content.layout.looking(), base::Dip::degrees(0)}),
                       compass_point(left), compass_point(right)};
    const KeyPlan plan = key_plan(key, map, line, key_plan_width, key_plan_height(page, boxes, tools), tools);
    page.key_plan_heading = "Key plan";
    page.key_plan = plan.draw;
    page.key_plan_scale = plan.scale_words;
    page.key_plan_metres_per_mm = plan.metres_per_mm;
    return page;
}

}  // namespace selvage::sheets
