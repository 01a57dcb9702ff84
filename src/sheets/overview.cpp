#include "sheets/overview.h"

#include "base/parallel.h"
#include "drawing/labels.h"
#include "paths/locate.h"
#include "sheets/axis_bars.h"
#include "sheets/broken_lines.h"
#include "sheets/overview_marks.h"
#include "sheets/overview_names.h"
#include "sheets/overview_page.h"
#include "sheets/paper_choice.h"
#include "sheets/section_content.h"
#include "sheets/vein_letters.h"

#include <algorithm>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double longest_leader = 25.0;  // mm: over tinted veins a longer one is lost

constexpr double margin_share = 0.06;  // of the data's extent, round it: where the ground and the faults are drawn to

struct Extent {
    Eigen::Vector3d low, high;
    std::vector<Eigen::Vector3d> points;  // of bodies and paths
    std::vector<Eigen::Vector3d> ground;  // corners over them
};

// Bodies, paths and the ground over them.
Extent extent_of(const Results& results) {
    Extent extent;
    for (const veins::VeinSolid& solid : results.solids)
        extent.points.insert(extent.points.end(), solid.mesh.points.begin(), solid.mesh.points.end());
    for (const paths::Path& path : results.paths)
        for (const double depth : {path.start_depth, (path.start_depth + path.end_depth) / 2.0, path.end_depth})
            extent.points.push_back(paths::position_at(path, depth));
    extent.low = extent.high = extent.points.front();
    for (const Eigen::Vector3d& point : extent.points) {
        extent.low = extent.low.cwiseMin(point);
        extent.high = extent.high.cwiseMax(point);
    }
    const double margin = margin_share * (extent.high - extent.low).head<2>().maxCoeff();
    extent.low -= Eigen::Vector3d(margin, margin, 0.0);
    extent.high += Eigen::Vector3d(margin, margin, margin / 2.0);
    for (const double x : {extent.low.x(), extent.high.x()})
        for (const double y : {extent.low.y(), extent.high.y()}) extent.ground.emplace_back(x, y, extent.high.z() - margin / 2.0);
    return extent;
}

// How many hits and misses a body hides, seen coarsely.
std::size_t hidden_from(const ViewDirection& direction, const Extent& extent, const Results& results, const Tools& tools) {
    const Box coarse{0.0, 0.0, 120.0, 90.0};
    const AxonometricView view = axonometric_view(direction, extent.points, coarse, scales_of(results.project, tools.style));
    const VisibleSurface surface = bodies_seen(results, view);
    std::size_t hidden = 0;
    const auto count = [&](const Eigen::Vector3d& point) { hidden += surface.hides(view.seen(point)) ? 1 : 0; };
    for (const intercepts::Intercept& hit : results.intercepts.met) count(hit.point);
    for (const veins::Vein& vein : results.veins)
        for (const veins::NoVein& none : vein.no_vein())
            if (none.is_miss()) count(none.point);
    return hidden;
}

// At the largest scale for the veins and holes; with room for the whole of the faults too, then for the ground over all, as far
// as that costs no scale. What has no room ends at the window.
AxonometricView view_of(const ViewDirection& direction, const Extent& extent, const std::vector<FaultSurface>& faults,
                        const Box& window, const Results& results, const Tools& tools) {
    const Scales scales = scales_of(results.project, tools.style);
    std::vector<Eigen::Vector3d> points = extent.points;
    AxonometricView best = axonometric_view(direction, points, window, scales);
    const auto take_in = [&](const std::vector<Eigen::Vector3d>& more) {
        points.insert(points.end(), more.begin(), more.end());
        const AxonometricView wider = axonometric_view(direction, points, window, scales);
        if (wider.denominator <= best.denominator) best = wider;
    };
    std::vector<Eigen::Vector3d> corners;
    for (const FaultSurface& fault : faults) corners.insert(corners.end(), fault.corners.begin(), fault.corners.end());
    take_in(corners);
    take_in(extent.ground);
    return best;
}

// All that is drawn in space, and what words keep clear of.
struct Body {
    AxonometricView view;
    std::vector<FaultOutline> outlines;
    VisibleSurface surface;
    OverviewSigns signs;
    Marks fills, edges, levels, faults, ground, traces;
    PointsInSpace points;
    drawing::Obstacles obstacles;
};

Body body_of(const Results& results, const LevelSet& levels, const ViewDirection& direction, const GradeClasses& classes,
             const Box& window, const Tools& tools) {
    const Extent extent = extent_of(results);
    const std::vector<FaultSurface> surfaces = faults_beside_veins(results, extent.low, extent.high);
    const AxonometricView view = view_of(direction, extent, surfaces, window, results, tools);
    const VisibleSurface surface = bodies_seen(results, view);
    Body body{view, fault_outlines(surfaces, surface, view), surface, {}, {}, {}, {}, {}, {}, {}, {}, {}};
    body.fills = body_fills(results, surface, body.signs, tools);
    body.edges = body_edges(results, surface, tools);
    body.levels = level_lines(results, levels, surface, view, body.signs, tools);
    body.faults = fault_lines(body.outlines, body.signs, tools);
    body.ground = ground_border(results, extent.low, extent.high, surface, view, body.signs, tools);
    body.traces = traces_in_space(results, surface, view, body.signs, tools);
    body.points = points_in_space(results, classes, surface, view, body.signs, tools);
    for (const Marks* all : {&body.edges, &body.faults, &body.traces}) add_segments(body.obstacles.lines, *all);
    for (const Marks* all : {&body.ground, &body.levels}) add_segments(body.obstacles.soft_lines, *all);
    body.obstacles.boxes = body.points.boxes;
    return body;
}

struct Words {
    PlacedWords placed;
    Marks letters, bars;
};

// The bars and names of veins in their own colours off the tints, then names of holes wherever there is room.
Words words_of(Body& body, const Results& results, const Box& window, const Tools& tools) {
    drawing::Obstacles with_tints = body.obstacles;
    const std::vector<Box> tinted = body.surface.covered([](int) { return true; }, 3.0);
    with_tints.boxes.insert(with_tints.boxes.end(), tinted.begin(), tinted.end());
    AxisBars bars = placed_bars(body.view, with_tints, results.records.frame, tools);
    for (drawing::Obstacles* each : {&body.obstacles, &with_tints}) each->boxes.push_back(drawing::grown(bars.box, 1.5));
    const auto vein_of = [&](int item) {
        return item < 0 ? results.veins.size()
                        : vein_number(results, results.solids[static_cast<std::size_t>(item / tones)].vein);
    };
    Marks letters = letters_on_bodies(letters_of(results), body.surface, vein_of, body.obstacles, tools);
    drawing::LabelRules rules = label_rules(drawing::grown(window, -1.5), results.project, tools);
    rules.leader_max_mm = longest_leader;
    PlacedWords names =
        placed_words(names_of_surfaces(results, body.surface, body.outlines, window, tools), with_tints, rules, tools);
    body.obstacles.boxes.insert(body.obstacles.boxes.end(), names.boxes.begin(), names.boxes.end());
    body.obstacles.lines.insert(body.obstacles.lines.end(), names.leaders.begin(), names.leaders.end());
    std::vector<NamedLabel> at_points = names_of_holes(results, body.surface, body.view, tools);
    for (const drawing::Label& name : body.points.openings.names) at_points.push_back({name, {}, false});
    PlacedWords words = placed_words(at_points, body.obstacles, rules, tools);
    append(words.marks, std::move(names.marks));
    words.boxes.insert(words.boxes.end(), names.boxes.begin(), names.boxes.end());
    return {std::move(words), std::move(letters), std::move(bars.marks)};
}

SheetTrial drawn_on_paper(const Results& results, const LevelSet& levels, const ViewDirection& direction, const RunFacts& run,
                          const GradeClasses& classes, const Tools& tools) {
    const Paper paper = paper_of(results.project, tools.style);
    const Box window = page_boxes(paper.width_mm, paper.height_mm, tools.style.page.layout).window;
    Body body = body_of(results, levels, direction, classes, window, tools);
    Words words = words_of(body, results, window, tools);
    const std::vector<Box>& boxes = words.placed.boxes;
    PageContent page = overview_page(results, body.view, levels, body.signs, body.points, classes, tools);
    page.side_list.insert(page.side_list.end(), words.placed.listed.begin(), words.placed.listed.end());
    drawing::Sheet sheet = begin_page(page, results, run, tools);
    sheet.labels = words.placed.counts;
    put(sheet, Layer::page, 0, {box_outline(window, tools.style.line("window"))});
    put(sheet, Layer::ground, 1, broken_round(std::move(body.ground), boxes));
    put(sheet, Layer::veins, 1, std::move(body.fills));
    put(sheet, Layer::veins, 1, broken_round(std::move(body.levels), boxes));
    put(sheet, Layer::veins, 1, std::move(body.edges));
    put(sheet, Layer::veins, 1, std::move(body.faults));
    put(sheet, Layer::holes, 1, std::move(body.traces));
    put(sheet, Layer::results, 1, std::move(body.points.marks));
    put(sheet, Layer::labels, 1, std::move(words.letters));
    put(sheet, Layer::page, 0, std::move(words.bars));
    put(sheet, Layer::labels, 0, std::move(words.placed.marks));
    return {std::move(sheet), listed_on(page, 0, results, tools)};
}

}  // namespace

ViewDirection overview_direction(const Results& results, const Tools& tools) {
    const Extent extent = extent_of(results);
    const std::vector<ViewDirection> all = view_directions(results);
    std::vector<std::size_t> hidden(all.size());
    base::parallel_for(all.size(), [&](std::size_t i) { hidden[i] = hidden_from(all[i], extent, results, tools); });
    return all[static_cast<std::size_t>(std::min_element(hidden.begin(), hidden.end()) - hidden.begin())];
}

std::vector<drawing::Sheet> overview(const Results& results, const RunFacts& run, const GradeClasses& classes,
                                     const Tools& tools) {
    if (results.solids.empty()) return {};
    const LevelSet levels = level_set(results);
    const ViewDirection direction = overview_direction(results, tools);
    const auto whole = [](const Results&) { return Tiling{0.0, {Tile{}}}; };
    return on_paper_that_bears(results, tools.style,
                               {"", whole, [&](const Results& trial) {
                                    return std::vector<SheetTrial>{drawn_on_paper(trial, levels, direction, run, classes, tools)};
                                }});
}

}  // namespace selvage::sheets
