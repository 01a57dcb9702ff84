#include "sheets/plan.h"

#include "drawing/labels.h"
#include "sheets/broken_lines.h"
#include "sheets/ground.h"
#include "sheets/ground_contours.h"
#include "sheets/match_lines.h"
#include "sheets/north_block.h"
#include "sheets/paper_choice.h"
#include "sheets/plan_frame.h"
#include "sheets/plan_labels.h"
#include "sheets/plan_marks.h"
#include "sheets/plan_page.h"
#include "sheets/plan_point_labels.h"
#include "sheets/plan_veins.h"
#include "sheets/side_list.h"
#include "sheets/site_marks.h"
#include "sheets/stated_faults.h"

#include <algorithm>
#include <set>
#include <utility>

namespace selvage::sheets {

namespace {

// Everything that must be on the paper.
std::vector<Eigen::Vector3d> data_points(const Results& results) {
    std::vector<Eigen::Vector3d> points;
    for (const paths::Path& path : results.paths)
        for (const double depth : {path.start_depth, (path.start_depth + path.end_depth) / 2.0, path.end_depth})
            points.push_back(paths::position_at(path, depth));
    for (const tables::Outcrop& outcrop : results.records.outcrops) points.push_back(outcrop.position);
    for (const forecast::Pierce& pierce : results.pierces) points.push_back(pierce.point);
    return points;
}

// What stands on the plan before a word is placed.
struct Body {
    DrawnSigns signs;
    Marks traces, collars, hits, pads;
    std::vector<VeinAtGround> veins;
    PlanOutcrops outcrops;
    PlanDangers dangers;
    OpeningSigns openings;
    PlanSections sections;
    std::vector<StatedFault> faults;
    NorthBlock north;
    PlanSite site;
    GroundContours contours;
    std::vector<CollarGroup> groups;
    drawing::Obstacles obstacles;
};

constexpr double hit_half = 1.6;  // of a hit's sign, mm

Box box_round(const Point& at, double half) { return {at.x - half, at.y - half, at.x + half, at.y + half}; }

// The symbols that words, north and section names keep clear of.
std::vector<Box> symbol_boxes(const Body& body, const Results& results, const PaperFrame& frame, const Tools& tools) {
    constexpr double pierce_half = 2.4;
    std::vector<Box> boxes = body.outcrops.boxes;
    for (const CollarGroup& group : body.groups)
        for (const Point& at : group.collars) boxes.push_back(box_round(at, tools.style.size_mm("collar") / 2.0));
    for (const intercepts::Intercept& hit : results.intercepts.met)
        boxes.push_back(box_round(on_plan(frame, hit.point), hit_half));
    for (const forecast::Pierce& pierce : results.pierces) boxes.push_back(box_round(on_plan(frame, pierce.point), pierce_half));
    for (const std::vector<Box>* all : {&body.dangers.boxes, &body.openings.boxes})
        boxes.insert(boxes.end(), all->begin(), all->end());
    return boxes;
}

Body body_of(const Results& results, const GradeClasses& classes, const SectionSet& sections,
             const std::vector<Eigen::Vector3d>& data, const Tile& tile, const Tools& tools) {
    const PaperFrame& frame = tile.paper;
    Body body;
    body.signs.metres_per_mm = frame.metres_per_mm;
    body.traces = plan_traces(results, frame, body.signs, tools);
    body.collars = plan_collars(results, frame, body.signs, tools);
    body.hits = plan_hits(results, classes, frame, body.signs, tools);
    body.dangers = plan_dangers(results, frame, body.signs, tools);
    body.openings = plan_openings(results, frame, body.signs, tools);
    body.pads = plan_pads(results, frame, tools);
    body.veins = veins_at_ground(results, frame, body.signs, tools);
    body.site = plan_site(results.site, frame, tools);
    if (!body.site.property.empty()) body.signs.signs.insert(Sign::property);
    if (!body.site.workings.empty()) body.signs.signs.insert(Sign::workings_on_plan);
    body.contours = ground_contours(results.site.ground, frame, results.project.site.contour_interval, results.records.frame);
    if (body.contours.interval > 0.0) body.signs.signs.insert(Sign::ground_contour);
    body.signs.contour_interval = body.contours.interval;
    const site::Ground& ground = results.site.ground;
    const auto place = [&](const Point& at) {
        const Eigen::Vector2d there = frame.drawn_from_paper(at);
        return Eigen::Vector3d(there.x(), there.y(), ground_elevation(ground, {there.x(), there.y(), 0.0}));
    };
    body.faults = ground.has_given() ? faults_on_ground(results, place, frame.window)
                                     : stated_faults(results, place, frame.window, nullptr);
    body.signs.faults_at_ground = true;
    body.signs.signs.merge(fault_signs(body.faults));
    add_faults(body.obstacles, fault_marks(body.faults, tools));
    add_segments(body.obstacles.lines, body.traces);
    add_segments(body.obstacles.lines, body.site.property);
    add_segments(body.obstacles.soft_lines, body.site.workings);
    for (const VeinAtGround& vein : body.veins) add_segments(body.obstacles.lines, vein.marks);
    std::vector<Box> hits;
    for (const intercepts::Intercept& hit : results.intercepts.met)
        hits.push_back(box_round(on_plan(frame, hit.point), hit_half));
    body.outcrops = plan_outcrops(results, body.obstacles.lines, hits, frame, body.signs, tools);
    body.groups = collar_groups(results, frame);
    body.obstacles.boxes = symbol_boxes(body, results, frame, tools);
    body.north = north_block(results.project.north, tile.core, body.obstacles, tools);
    body.obstacles.boxes.push_back(body.north.box);
    body.sections = plan_sections(sections, data, body.obstacles.boxes, frame, tile.core, body.signs, tools);
    body.obstacles.boxes.insert(body.obstacles.boxes.end(), body.sections.boxes.begin(), body.sections.boxes.end());
    add_segments(body.obstacles.soft_lines, body.sections.lines);
    return body;
}

struct Names {
    Marks marks;
    std::vector<Box> boxes;  // lines are broken round them
    std::vector<std::string> listed;
    drawing::LabelFigures counts;
};

// Elevations in gaps of the contour lines, where there is room.
void add_contour_figures(Names& names, const Body& body, const Box& window, const Tools& tools) {
    drawing::Obstacles taken = body.obstacles;
    taken.boxes.insert(taken.boxes.end(), names.boxes.begin(), names.boxes.end());
    for (const IsolineFigure& figure : isoline_figures(body.contours.numbered, body.contours.names, taken, window, tools)) {
        names.boxes.push_back(figure.box);
        names.marks.emplace_back(figure.text);
    }
}

// Sets labels clear of all that is there; gives how each was placed.
drawing::PlacedLabels set_labels(Names& names, const std::vector<drawing::Label>& labels, const drawing::Obstacles& obstacles,
                                 const drawing::LabelRules& rules, const Tools& tools) {
    drawing::PlacedLabels placed = drawing::place_labels(labels, obstacles, rules, tools.fonts);
    for (const drawing::PlacedLabel& one : placed.labels) {
        if (one.leader.size() > 1) names.marks.push_back(line_of(one.leader, tools.style.line("leader")));
        for (drawing::Text& text : drawing::texts_of(labels[one.label], one, rules, tools.fonts, tools.style.size_mm("halo")))
            names.marks.emplace_back(std::move(text));
        names.boxes.push_back(drawing::grown(one.box, tools.style.size_mm("gap_round_words")));
    }
    return placed;
}

void leave_outside(std::vector<drawing::Label>& labels, const Tile& tile) {
    labels.erase(std::remove_if(labels.begin(), labels.end(), [&](drawing::Label& label) { return !keep_within(label, tile); }),
                 labels.end());
}

// The names that every plan must have, which choose its paper; then those for which these leave room.
Names names_of(const Body& body, const Results& results, const Tile& tile, const Tools& tools) {
    const PaperFrame& frame = tile.paper;
    std::vector<drawing::Label> labels = plan_labels(results, body.groups, body.veins, frame, tools);
    std::set<std::size_t> veins;
    for (const VeinAtGround& vein : body.veins) veins.insert(vein.vein);
    for (const StatedFault& fault : body.faults)
        labels.push_back(line_label(name_with_dip(fault), fault.line, tools, older_words(results, fault.name, veins)));
    labels.insert(labels.end(), body.site.names.begin(), body.site.names.end());
    for (const std::vector<drawing::Label>* all : {&body.dangers.names, &body.openings.names})
        labels.insert(labels.end(), all->begin(), all->end());
    leave_outside(labels, tile);
    const drawing::LabelRules rules = label_rules(drawing::grown(tile.core, -1.5), results.project, tools);
    Names names;
    names.boxes = body.sections.boxes;
    names.boxes.push_back(body.north.box);
    const drawing::PlacedLabels placed = set_labels(names, labels, body.obstacles, rules, tools);
    names.counts = placed.figures;
    std::vector<ListedLabel> listed;
    drawing::Obstacles taken = body.obstacles;
    for (const drawing::PlacedLabel& one : placed.labels) {
        const drawing::Label& label = labels[one.label];
        if (one.placing == drawing::Placing::listed && label.may_be_listed) listed.push_back({one.number, label.listed_text});
        taken.boxes.push_back(drawing::grown(one.box, rules.apart_mm));
        for (std::size_t i = 1; i < one.leader.size(); ++i) taken.lines.push_back({one.leader[i - 1], one.leader[i]});
    }
    names.listed = listed_lines(std::move(listed));
    std::vector<drawing::Label> points = plan_point_labels(results, body.groups, body.veins, frame, tools);
    leave_outside(points, tile);
    set_labels(names, points, taken, rules, tools);
    add_contour_figures(names, body, rules.window, tools);
    return names;
}

struct Laid {
    std::vector<Eigen::Vector3d> data;
    std::vector<Eigen::Vector2d> flat;
    Tiling tiling;
};

Laid laid_out(const Results& results, const Tools& tools) {
    const Paper paper = paper_of(results.project, tools.style);
    const Box window = page_boxes(paper.width_mm, paper.height_mm, tools.style.page.layout).window;
    Laid laid{data_points(results), {}, {}};
    if (laid.data.empty()) laid.data.push_back(Eigen::Vector3d::Zero());
    for (const Eigen::Vector3d& point : laid.data) laid.flat.emplace_back(point.head<2>());
    const PlanFrame frame = plan_frame(laid.data, window, scales_of(results.project, tools.style));
    laid.tiling = tiles_of(frame.paper, frame.denominator, laid.flat, results.project, tools.style);
    return laid;
}

// The marks but for words that would stand on those of a match line: beside it the other sheet has them.
Marks off_match_lines(Marks marks, const std::vector<Box>& words_of_lines, const Tools& tools) {
    const auto is_hit = [&](const Mark& mark) {
        const auto* text = std::get_if<drawing::Text>(&mark);
        if (text == nullptr) return false;
        const Box box = box_of_words(*text, tools.fonts);
        return std::any_of(words_of_lines.begin(), words_of_lines.end(),
                           [&](const Box& other) { return drawing::overlap(box, other); });
    };
    marks.erase(std::remove_if(marks.begin(), marks.end(), is_hit), marks.end());
    return marks;
}

SheetTrial drawn_on_paper(const Results& results, const Laid& laid, std::size_t number, const RunFacts& run,
                          const GradeClasses& classes, const SectionSet& sections, const Tools& tools) {
    const Tile& tile = laid.tiling.tiles[number];
    const PaperFrame& frame = tile.paper;
    Body body = body_of(results, classes, sections, laid.data, tile, tools);
    MatchLines match = match_lines(tile, "plan", "", tools);
    Names names = names_of(body, results, tile, tools);
    names.boxes.insert(names.boxes.end(), match.boxes.begin(), match.boxes.end());

    PlanDrawn drawn{laid.tiling.denominator, body.signs, {}, !body.pads.empty(), body.outcrops.any_attitude, names.listed,
                    body.openings.voids};
    for (const VeinAtGround& vein : body.veins) drawn.veins.push_back(vein.vein);
    PageContent page = plan_page(drawn, results, classes, tools);
    name_part(page, tile);
    if (tile.is_part()) {
        page.classes_note = "hits, all parts";
        page.key_plan_heading = "Parts of the plan";
        page.key_plan = tile_key(laid.tiling, tile, laid.flat, tools);
    }
    drawing::Sheet sheet = begin_page(page, results, run, tools);
    sheet.labels = names.counts;
    put(sheet, Layer::grid, 0, broken_round(plan_axes(frame, results.records.frame, tools), names.boxes));
    const auto around = [&](Marks marks) { return broken_round(std::move(marks), match.boxes); };
    put(sheet, Layer::ground, 1, broken_round(contour_marks(body.contours, tools), names.boxes));
    put(sheet, Layer::ground, 1, broken_round(std::move(body.site.workings), names.boxes));
    put(sheet, Layer::ground, 1, broken_round(std::move(body.site.property), names.boxes));
    put(sheet, Layer::grid, 1, broken_round(std::move(body.sections.lines), names.boxes));
    put(sheet, Layer::grid, 0, std::move(body.sections.names));
    put(sheet, Layer::grid, 0, std::move(body.north.marks));
    put(sheet, Layer::ground, 1, std::move(body.pads));
    for (VeinAtGround& vein : body.veins) put(sheet, Layer::veins, 1, around(std::move(vein.marks)));
    put(sheet, Layer::veins, 1, around(fault_marks(body.faults, tools)));
    for (const StatedFault& fault : body.faults) put(sheet, Layer::veins, 1, around({dip_tick(fault, tools)}));
    put(sheet, Layer::holes, 1, around(std::move(body.traces)));
    put(sheet, Layer::ground, 1, off_match_lines(std::move(body.outcrops.marks), match.boxes, tools));
    put(sheet, Layer::results, 1, std::move(body.hits));
    put(sheet, Layer::holes, 1, std::move(body.collars));
    put(sheet, Layer::results, 1, std::move(body.openings.marks));
    put(sheet, Layer::results, 1, std::move(body.dangers.marks));
    put(sheet, Layer::grid, 0, std::move(match.marks));
    put(sheet, Layer::labels, 0, std::move(names.marks));
    return {std::move(sheet), listed_on(page, names.listed.size(), results, tools)};
}

}  // namespace

std::vector<drawing::Sheet> plan(const Results& results, const RunFacts& run, const GradeClasses& classes,
                                 const SectionSet& sections, const Tools& tools) {
    const auto drawn = [&](const Results& trial) {
        const Laid laid = laid_out(trial, tools);
        return each_part(laid.tiling,
                         [&](std::size_t part) { return drawn_on_paper(trial, laid, part, run, classes, sections, tools); });
    };
    return on_paper_that_bears(results, tools.style,
                               {"", [&](const Results& trial) { return laid_out(trial, tools).tiling; }, drawn});
}

}  // namespace selvage::sheets
