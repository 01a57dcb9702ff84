#include "sheets/legend_signs.h"

#include "base/text.h"
#include "drawing/symbols.h"
#include "sheets/assay_bars.h"
#include "sheets/doubt.h"
#include "sheets/ground.h"
#include "sheets/label_text.h"
#include "sheets/legend_rocks.h"
#include "sheets/opening_signs.h"
#include "sheets/site_marks.h"
#include "sheets/starts.h"
#include "sheets/stated_faults.h"
#include "sheets/symbols.h"
#include "sheets/traces.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace selvage::sheets {

namespace {

double middle(const Box& box) { return (box.bottom + box.top) / 2.0; }
Point centre(const Box& box) { return {(box.left + box.right) / 2.0, middle(box)}; }

using Draw = std::function<Marks(const Box&)>;

Draw level_line(const drawing::LineLook& look) {
    return [look](const Box& box) { return Marks{line_of({{box.left, middle(box)}, {box.right, middle(box)}}, look)}; };
}

// Over the box's diagonal: a dipping mark.
Draw dipping_line(const drawing::LineLook& look, double end_bars_mm) {
    return [look, end_bars_mm](const Box& box) {
        const Point c = centre(box);
        const double half_x = 1.1, half_y = 1.5;
        Marks marks{line_of({{c.x - half_x, c.y - half_y}, {c.x + half_x, c.y + half_y}}, look)};
        if (end_bars_mm > 0.0)
            for (const double s : {-1.0, 1.0}) {
                const double bx = end_bars_mm / 2.0 * half_y / 1.86, by = end_bars_mm / 2.0 * half_x / 1.86;
                marks.push_back(line_of(
                    {{c.x + s * half_x - bx, c.y + s * half_y + by}, {c.x + s * half_x + bx, c.y + s * half_y - by}}, look));
            }
        return marks;
    };
}

Draw point_sign(std::function<Marks(const Point&)> at) {
    return [at = std::move(at)](const Box& box) { return at(centre(box)); };
}

// Lines of veins are shown in the first drawn vein's colour, or in each vein's where there are several, side by side.
std::vector<std::size_t> shown_veins(const DrawnSigns& drawn) {
    std::vector<std::size_t> veins(drawn.veins.begin(), drawn.veins.end());
    if (veins.empty()) veins.push_back(0);
    if (veins.size() > 3) veins.resize(3);
    return veins;
}

Draw wall_line(const std::string& role, const DrawnSigns& drawn, const Tools& tools) {
    const std::vector<std::size_t> veins = shown_veins(drawn);
    return [role, veins, &tools](const Box& box) {
        Marks marks;
        const double step = 1.0;
        double y = middle(box) + step * (static_cast<double>(veins.size()) - 1.0) / 2.0;
        for (const std::size_t vein : veins) {
            marks.push_back(
                line_of({{box.left, y}, {box.right, y}}, with_colour(tools.style.line(role), vein_colour(vein, tools))));
            y -= step;
        }
        return marks;
    };
}

Marks band_sign(const Box& box, std::size_t vein, const Tools& tools) {
    const drawing::Colour colour = vein_colour(vein, tools);
    Marks marks;
    for (double y = box.bottom + 0.35; y < box.top; y += 0.77)
        marks.push_back(line_of({{box.left, y}, {box.right, y}},
                                with_colour(tools.style.line("band_hatch"), paled(colour, band_hatch_share))));
    for (const double y : {box.bottom, box.top})
        marks.push_back(line_of({{box.left, y}, {box.right, y}}, with_colour(tools.style.line("band"), colour)));
    marks.push_back(
        line_of({{box.left, middle(box)}, {box.right, middle(box)}}, with_colour(tools.style.line("single_vein"), colour)));
    return marks;
}

Marks model_end_sign(const Box& box, std::size_t vein, const Tools& tools) {
    const drawing::Colour colour = vein_colour(vein, tools);
    const double y = middle(box), x = centre(box).x;
    return {line_of({{box.left, y}, {x, y}}, with_colour(tools.style.line("single_vein"), colour)),
            line_of({{x, y - 1.6}, {x, y + 1.6}}, with_colour(tools.style.line("model_end"), colour))};
}

Marks question_sign(const Box& box, std::size_t vein, const Tools& tools) {
    const drawing::Colour colour = vein_colour(vein, tools);
    const drawing::LineLook look = with_colour(tools.style.line("wall_accurate"), colour);
    const Point c = centre(box);
    const drawing::TextLook text = with_colour(tools.style.text("body_strong"), colour);
    return {line_of({{box.left, c.y}, {c.x - 1.2, c.y}}, look), line_of({{c.x + 1.2, c.y}, {box.right, c.y}}, look),
            words({c.x, c.y - drawing::cap_height_mm(tools.fonts, text) / 2.0}, "?", text, drawing::Anchor::centre)};
}

Marks ticked_line(const Box& box, const std::string& line, const std::string& tick, const Tools& tools) {
    const double y = middle(box);
    Marks marks{line_of({{box.left, y}, {box.right, y}}, tools.style.line(line))};
    for (const double share : {0.25, 0.75})
        marks.push_back(line_of(
            {{box.left + share * box.width(), y}, {box.left + share * box.width(), y - tools.style.size_mm("depth_tick")}},
            tools.style.line(tick)));
    return marks;
}

Marks end_sign(const Box& box, const Tools& tools) {
    const double y = middle(box), half = tools.style.size_mm("end_of_hole") / 2.0, x = box.right - 1.5;
    return {line_of({{box.left, y}, {x, y}}, tools.style.line("trace")),
            line_of({{x, y - half}, {x, y + half}}, tools.style.line("end_of_hole"))};
}

Marks intercept_sign(const Box& box, const Tools& tools) {
    const double y = middle(box), x = centre(box).x;
    return {line_of({{box.left, y}, {box.right, y}}, tools.style.line("trace")),
            line_of({{x - 1.2, y}, {x + 1.2, y}}, tools.style.line("intercept_bar"))};
}

Marks fan_sign(const Box& box, const Tools& tools) {
    const Point apex{box.left, middle(box)}, up{box.right, box.top}, down{box.right, box.bottom};
    return {area_of({apex, up, down}, plain(tools.style.colour("planned_pale"))),
            line_of({apex, up}, tools.style.line("planned_fan_edge")),
            line_of({apex, down}, tools.style.line("planned_fan_edge"))};
}

Marks bar_sign(const Box& box, const Tools& tools) {
    const double half = tools.style.size_mm("forecast_bar_width") / 2.0, y = middle(box), x = centre(box).x;
    return {outlined_area({{x - 2.6, y - half}, {x + 2.6, y - half}, {x + 2.6, y + half}, {x - 2.6, y + half}},
                          plain(tools.style.colour("white")), tools.style.line("planned_edge")),
            line_of({{box.left, y}, {box.right, y}}, tools.style.line("trace_planned"))};
}

Marks call_sign(const Box& box, const Tools& tools) {
    const double y = middle(box), x = centre(box).x;
    return {line_of({{box.left, y}, {box.right, y}}, tools.style.line("trace_planned")),
            line_of({{x, y - 1.7}, {x, y + 1.7}}, tools.style.line("planned_edge"))};
}

Marks way_fault_sign(const Box& box, const Tools& tools) {
    const double y = middle(box) - 0.8;
    return way_bracket({{box.left, y}, {centre(box).x, y}, {box.right, y}}, {0.0, 1.0}, tools);
}

Marks ellipse_sign(const Box& box, const Tools& tools) {
    const std::vector<Point> points = drawing::ellipse(centre(box), box.width() / 2.0, box.height() / 2.0, 0.0);
    return {outlined_area(points, plain(tools.style.colour("white")), tools.style.line("planned_edge"))};
}

Marks bars_sign(const Box& box, const std::string& unit, const Tools& tools) {
    Marks marks;
    const double zero = bar_zero(unit), height = 0.8;
    double y = box.top - 0.3;
    for (const double tenfold : {10.0, 100.0, 1000.0}) {
        const double length = bar_length_mm(zero * tenfold, unit, tools);
        marks.push_back(box_area({box.left, y - height, box.left + length, y}, plain(tools.style.colour("silver_bar"))));
        y -= 1.05;
    }
    marks.push_back(line_of({{box.left, box.bottom - 0.4}, {box.left, box.top + 0.4}}, tools.style.line("trace")));
    return marks;
}

Marks ground_sign(const Box& box, const char* line, const Tools& tools) {
    const double y = middle(box) + 0.5, stroke = tools.style.size_mm("ground_stroke");
    Marks marks{line_of({{box.left, y}, {box.right, y}}, tools.style.line(line))};
    for (double x = box.left + 1.5; x < box.right; x += tools.style.size_mm("ground_stroke_every"))
        marks.push_back(line_of({{x, y}, {x - 0.6 * stroke, y - stroke}}, tools.style.line("ground_hatch")));
    return marks;
}

std::string plane_words(const Results& results) {
    return "plane through collars and outcrops, ±" +
           length_text(farthest_from_plane(results.site.ground, results.records), results.records.frame, 0);
}

Marks contour_sign(const Box& box, const Tools& tools) {
    const double y = middle(box);
    return {line_of({{box.left, y + 0.6}, {box.right, y + 0.6}}, tools.style.line("ground_contour")),
            line_of({{box.left, y - 0.6}, {box.right, y - 0.6}}, tools.style.line("ground_contour_strong"))};
}

std::vector<Point> ring_of(const Box& box) {
    const Point c = centre(box);
    return {{c.x - 3.0, box.bottom}, {c.x + 3.0, box.bottom}, {c.x + 3.0, box.top}, {c.x - 3.0, box.top}};
}

Draw name_figure_sign(const Tools& tools) {
    drawing::TextLook look = tools.style.text("name");
    look.face = drawing::FontFace::regular;
    return point_sign([look, &tools](const Point& at) {
        return Marks{words({at.x, at.y - drawing::cap_height_mm(tools.fonts, look) / 2.0}, "123", look, drawing::Anchor::centre)};
    });
}

std::string metres_words(double mm, const DrawnSigns& drawn, const base::MapFrame& frame) {
    return base::significant(frame.length(mm * drawn.metres_per_mm), 2) + " " + base::symbol_of(frame.unit);
}

struct Wording {
    std::string words;
    Draw draw;
};

Wording hole_sign(Sign sign, const DrawnSigns& drawn, const Results& results, const Tools& tools) {
    const std::string unit = base::symbol_of(results.records.frame.unit);
    switch (sign) {
        case Sign::collar_drilled:
            return {"collar, drilled",
                    point_sign([&tools](const Point& at) { return collar_symbol(CollarState::drilled, at, tools); })};
        case Sign::collar_active:
            return {"collar, active",
                    point_sign([&tools](const Point& at) { return collar_symbol(CollarState::active, at, tools); })};
        case Sign::collar_planned:
            return {"collar, planned",
                    point_sign([&tools](const Point& at) { return collar_symbol(CollarState::planned, at, tools); })};
        case Sign::sample_start:
            return {sample_start_words(drawn.sampled),
                    point_sign([&tools](const Point& at) { return sample_start_symbol(at, tools); })};
        case Sign::trace_in_slab:
            return {"in slab; depths, tick " + base::significant(drawn.depth_tick, 4) + " " + unit,
                    [&tools](const Box& box) { return ticked_line(box, "trace", "depth_tick", tools); }};
        case Sign::trace_run_on: return {"past the last survey", level_line(tools.style.line("trace_run_on"))};
        case Sign::trace_off_slab:
            return {"off the slab; by the words so far square to the section", level_line(tools.style.line("trace_off_slab"))};
        case Sign::trace_on_plan: return {"trace", level_line(tools.style.line("trace"))};
        case Sign::vein_intercept: return {"vein intercept", [&tools](const Box& box) { return intercept_sign(box, tools); }};
        case Sign::end_of_hole: return {"end of hole", [&tools](const Box& box) { return end_sign(box, tools); }};
        case Sign::drilled_to:
            return {"drilled to here, active hole",
                    point_sign([&tools](const Point& at) { return drilled_to_symbol(at, tools); })};
        case Sign::planned_trace: return {"planned, or ahead of an active hole", level_line(tools.style.line("trace_planned"))};
        case Sign::planned_fan: return {"80 % of its paths", [&tools](const Box& box) { return fan_sign(box, tools); }};
        case Sign::planned_bar: return {"vein, 8 holes in 10", [&tools](const Box& box) { return bar_sign(box, tools); }};
        case Sign::planned_depths: return {"call or stop depth", [&tools](const Box& box) { return call_sign(box, tools); }};
        case Sign::planned_fault:
            return {"fault on the way, 8 holes in 10", [&tools](const Box& box) { return way_fault_sign(box, tools); }};
        case Sign::target:
            return {"target, and its tolerance", point_sign([&tools](const Point& at) { return target_marks(at, 2.2, tools); })};
        case Sign::too_near:
            return {"too near another hole", point_sign([&tools](const Point& at) { return danger_symbol(at, tools); })};
        case Sign::known_opening:
            return {"known opening: a hole ran into a void",
                    point_sign([&tools](const Point& at) { return opening_symbol(at, tools, opening_in_legend_mm); })};
        case Sign::planned_pierce:
            return {"likely pierce point", point_sign([&tools](const Point& at) { return planned_pierce_symbol(at, tools); })};
        case Sign::step_out:
            return {drawn.step_outs_here ? "where it should pierce, and its rank"
                                         : "step-out and its rank: see the sheet of next holes",
                    point_sign([&tools](const Point& at) { return step_out_symbol(at, 1, tools); })};
        case Sign::beyond_end:
            return {"the hole likely ends before it",
                    point_sign([&tools](const Point& at) { return beyond_end_symbol(at, tools); })};
        case Sign::less_likely_pierce:
            return {"in another block, less likely",
                    point_sign([&tools](const Point& at) { return less_likely_symbol(at, tools); })};
        case Sign::active_pierce:
            return {"likely pierce point, active hole",
                    point_sign([&tools](const Point& at) { return planned_pierce_symbol(at, tools, true); })};
        case Sign::pierce_round_sign:
            return {"the same, round another sign",
                    point_sign([&tools](const Point& at) { return planned_pierce_symbol(at, tools, false, true); })};
        default: return {"8 holes in 10 pierce within", [&tools](const Box& box) { return ellipse_sign(box, tools); }};
    }
}

Wording vein_sign(Sign sign, const DrawnSigns& drawn, const Results& results, const Tools& tools) {
    const base::MapFrame& frame = results.records.frame;
    const std::size_t first = shown_veins(drawn).front();
    switch (sign) {
        case Sign::wall_accurate:
            return {"within " + metres_words(accurate_mm, drawn, frame), wall_line("wall_accurate", drawn, tools)};
        case Sign::wall_approximate:
            return {"within " + metres_words(approximate_mm, drawn, frame), wall_line("wall_approximate", drawn, tools)};
        case Sign::wall_inferred:
            return {"over " + metres_words(approximate_mm, drawn, frame), wall_line("wall_inferred", drawn, tools)};
        case Sign::questionable:
            // Where no chance may be told, that there is doubt is.
            return {tools.style.content.forecasts ? "chance of vein under " + base::fixed(questionable_presence, 2)
                                                  : "whether there is a vein: in doubt",
                    [first, &tools](const Box& box) { return question_sign(box, first, tools); }};
        case Sign::single_line:
            return {"walls under " + metres_words(tools.style.size_mm("single_vein_under"), drawn, frame) + " apart",
                    wall_line("single_vein", drawn, tools)};
        case Sign::vein_fill:
            return {
                "between the walls", [veins = shown_veins(drawn), &tools](const Box& box) {
                    Marks marks;
                    const double width = box.width() / static_cast<double>(veins.size());
                    double left = box.left;
                    for (const std::size_t vein : veins) {
                        const drawing::LineLook wall = with_colour(tools.style.line("wall_accurate"), vein_colour(vein, tools));
                        const double right = left + width;
                        marks.push_back(box_area({left, box.bottom + 0.4, right, box.top - 0.4}, plain(vein_pale(vein, tools))));
                        for (const double y : {box.bottom + 0.4, box.top - 0.4})
                            marks.push_back(line_of({{left, y}, {right, y}}, wall));
                        left = right;
                    }
                    return marks;
                }};
        case Sign::model_end:
            return {tools.style.content.model_doubt ? "end of the model: why, see its long section" : "end of the model",
                    [first, &tools](const Box& box) { return model_end_sign(box, first, tools); }};
        default: return {"80 % band", [first, &tools](const Box& box) { return band_sign(box, first, tools); }};
    }
}

Wording other_sign(Sign sign, const DrawnSigns& drawn, const Results& results, const Tools& tools) {
    const drawing::Style& style = tools.style;
    switch (sign) {
        case Sign::fault_plane: return {"fault, as a plane", level_line(style.line("fault"))};
        case Sign::fault_accurate:
            return {"within " + metres_words(accurate_mm, drawn, results.records.frame), level_line(style.line("fault"))};
        case Sign::fault_approximate:
            return {"within " + metres_words(approximate_mm, drawn, results.records.frame),
                    level_line(style.line("fault_approximate"))};
        case Sign::fault_inferred:
            return {"over " + metres_words(approximate_mm, drawn, results.records.frame),
                    level_line(style.line("fault_inferred"))};
        case Sign::fault_band:
            return {"80 % band", [&tools](const Box& box) {
                        Marks marks;
                        for (const double y : {box.bottom + 0.4, box.top - 0.4})
                            marks.push_back(line_of({{box.left, y}, {box.right, y}}, fault_band_look(tools)));
                        return marks;
                    }};
        case Sign::contact: return {"vein contact", dipping_line(style.line("contact_mark"), 0.0)};
        case Sign::fault: return {"fault", dipping_line(style.line("fault_mark"), style.size_mm("fault_end"))};
        case Sign::untrusted_structure:
            return {"grey: of quality 4, not to be trusted",
                    dipping_line(with_colour(style.line("contact_mark"), style.colour("off_slab_far")), 0.0)};
        case Sign::foliation: return {"foliation", dipping_line(style.line("foliation_mark"), 0.0)};
        case Sign::silver_bars: {
            const std::string unit = results.records.analytes.empty() ? "g/t" : results.records.analytes.front().unit;
            const double zero = bar_zero(unit);
            return {base::significant(10 * zero, 3) + ", " + base::significant(100 * zero, 3) + ", " +
                        base::significant(1000 * zero, 4),
                    [unit, &tools](const Box& box) { return bars_sign(box, unit, tools); }};
        }
        case Sign::ground:
            return {"ground: " + (results.site.ground.has_given() ? std::string("topography as given") : plane_words(results)),
                    [&tools](const Box& box) { return ground_sign(box, "ground", tools); }};
        case Sign::ground_assumed:
            return {"without topography: " + plane_words(results),
                    [&tools](const Box& box) { return ground_sign(box, "ground_assumed", tools); }};
        case Sign::ground_contour:
            return {"ground, every " + base::significant(drawn.contour_interval, 4) + " " +
                        base::symbol_of(results.records.frame.unit),
                    [&tools](const Box& box) { return contour_sign(box, tools); }};
        case Sign::property: return {"property limit", level_line(style.line("property"))};
        case Sign::workings:
            return {"old workings, cut", [&tools](const Box& box) { return workings_area({ring_of(box)}, tools); }};
        case Sign::workings_in_slab:
            return {"old workings in the slab", [&tools](const Box& box) { return workings_shadow({ring_of(box)}, tools); }};
        case Sign::workings_near_vein:
            return {"old workings within " + length_text(near_vein, results.records.frame, 0) + " of this plane",
                    [&tools](const Box& box) { return workings_area({ring_of(box)}, tools); }};
        case Sign::workings_on_plan:
            return {"old workings, at any depth", [&tools](const Box& box) { return workings_area({ring_of(box)}, tools); }};
        case Sign::workings_of_unknown_depth:
            return {"old workings, elevation not known",
                    [&tools](const Box& box) { return workings_shadow({ring_of(box)}, tools); }};
        case Sign::outcrop:
            return {"vein outcrop", point_sign([&tools](const Point& at) { return outcrop_symbol({at.x, at.y - 0.8}, tools); })};
        case Sign::name_figure: return {"after a name: " + drawn.name_quantity, name_figure_sign(tools)};
        case Sign::little_core:
            return {"under half of its core recovered, or core lost", point_sign([&tools](const Point& at) {
                        constexpr double up = 0.5;  // sign and mark together stand in the middle
                        Marks marks = hit_symbol(HitSign::not_classed, {at.x, at.y + up}, tools);
                        append(marks, little_core_mark(HitSign::not_classed, {at.x, at.y + up}, tools));
                        return marks;
                    })};
        case Sign::section_line: return {"cross section", level_line(style.line("section_line"))};
        default:
            return {"grid north", point_sign([&tools](const Point& at) { return north_arrow({at.x, at.y - 1.5}, 3.0, tools); })};
    }
}

}  // namespace

LegendEntry sign_entry(Sign sign, const DrawnSigns& drawn, const Results& results, const Tools& tools) {
    Wording wording = sign <= Sign::planned_ellipse ? hole_sign(sign, drawn, results, tools)
                      : sign <= Sign::model_end     ? vein_sign(sign, drawn, results, tools)
                                                    : other_sign(sign, drawn, results, tools);
    return {std::move(wording.words), std::move(wording.draw)};
}

std::vector<LegendGroup> legend_groups(const DrawnSigns& drawn, const Results& results, const Tools& tools) {
    const auto group = [&](std::string heading, std::initializer_list<Sign> signs) {
        LegendGroup made{std::move(heading), {}};
        for (const Sign sign : signs)
            if (drawn.signs.count(sign) != 0) made.entries.push_back(sign_entry(sign, drawn, results, tools));
        return made;
    };
    const std::string unit = results.records.analytes.empty() ? "" : ", " + results.records.analytes.front().unit;
    const std::string metal = results.records.analytes.empty() ? "Grade" : results.records.analytes.front().element;
    std::vector<LegendGroup> all;
    LegendGroup rocks{"Logged rock", rock_entries(drawn, results, tools)};
    if (!rocks.entries.empty() && !drawn.picked.empty()) rocks.entries.push_back(picked_entry(drawn, results, tools));
    all.push_back(std::move(rocks));
    all.push_back(group("At apparent dip", {Sign::contact, Sign::fault, Sign::foliation, Sign::untrusted_structure}));
    all.push_back(group(metal + " of a sample" + unit, {Sign::silver_bars}));
    all.push_back(
        group("", {Sign::name_figure, Sign::little_core, Sign::ground, Sign::ground_assumed, Sign::ground_contour, Sign::property,
                   Sign::workings, Sign::workings_in_slab, Sign::workings_near_vein, Sign::workings_on_plan,
                   Sign::workings_of_unknown_depth, Sign::outcrop, Sign::fault_plane, Sign::section_line, Sign::north}));
    all.push_back(
        group("Vein wall, at 95 %", {Sign::wall_accurate, Sign::wall_approximate, Sign::wall_inferred, Sign::questionable,
                                     Sign::single_line, Sign::vein_fill, Sign::band, Sign::model_end}));
    all.push_back(group(drawn.faults_at_ground ? "Fault at the ground, at 95 %" : "Fault plane, at 95 %",
                        {Sign::fault_accurate, Sign::fault_approximate, Sign::fault_inferred, Sign::fault_band}));
    all.push_back(group("Hole", {Sign::known_opening, Sign::collar_drilled, Sign::collar_active, Sign::sample_start,
                                 Sign::trace_in_slab, Sign::trace_run_on, Sign::trace_off_slab, Sign::trace_on_plan,
                                 Sign::vein_intercept, Sign::end_of_hole, Sign::drilled_to}));
    all.push_back(group("Not yet drilled", {Sign::collar_planned, Sign::planned_trace, Sign::planned_fan, Sign::planned_bar,
                                            Sign::planned_depths, Sign::planned_fault, Sign::too_near, Sign::target,
                                            Sign::planned_pierce, Sign::active_pierce, Sign::pierce_round_sign, Sign::beyond_end,
                                            Sign::less_likely_pierce, Sign::planned_ellipse, Sign::step_out}));
    all.erase(std::remove_if(all.begin(), all.end(), [](const LegendGroup& g) { return g.entries.empty(); }), all.end());
    return all;
}

}  // namespace selvage::sheets
