#include "sheets/level_plan.h"

#include "base/parallel.h"
#include "sheets/broken_lines.h"
#include "sheets/level_marks.h"
#include "sheets/level_page.h"
#include "sheets/level_set.h"
#include "sheets/level_walls.h"
#include "sheets/match_lines.h"
#include "sheets/north_block.h"
#include "sheets/paper_choice.h"
#include "sheets/plan_frame.h"
#include "sheets/site_marks.h"

#include <algorithm>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double longest_leader = 32.0;  // mm: among walls that run side by side a longer one is lost

// What a level must show.
std::vector<Eigen::Vector3d> data_points(const Level& level) {
    std::vector<Eigen::Vector3d> points;
    for (const BodyOnLevel& body : level.bodies)
        for (const mesh::SliceLine& ring : body.rings) points.insert(points.end(), ring.points.begin(), ring.points.end());
    for (const intercepts::Intercept* hit : level.hits) points.push_back(hit->point);
    for (const MissOnLevel& miss : level.misses) points.push_back(miss.none->point);
    for (const forecast::Pierce* pierce : level.pierces) points.push_back(pierce->point);
    return points;
}

struct Body {
    DrawnSigns signs;
    Marks above, fills, bands, walls, property, points;
    LevelWorkings workings;
    LevelTraces traces;
    LevelFaults faults;
    LevelPoints on_level;
    OpeningSigns openings;
    std::vector<drawing::Label> vein_names, names_above;
    NorthBlock north;
    drawing::Obstacles obstacles;
};

std::vector<std::string> holes_of(const LevelTraces& traces) {
    std::vector<std::string> holes;
    for (const LevelTraces::Piece& piece : traces.pieces) holes.push_back(piece.hole);
    return holes;
}

Body body_of(const LevelSet& set, std::size_t number, const Results& results, const GradeClasses& classes, const Tile& tile,
             const Tools& tools) {
    const PaperFrame& frame = tile.paper;
    const Level& level = set.levels[number];
    Body body;
    body.signs.metres_per_mm = frame.metres_per_mm;
    if (number + 1 < set.levels.size()) {
        body.above = outlines_of(set.levels[number + 1], frame, tools);
        body.names_above = outline_names(set.levels[number + 1], results, frame, tools);
    }
    for (const BodyOnLevel& cut : level.bodies) {
        LevelWalls walls = level_walls(cut, level, results, frame, body.signs, tools);
        append(body.fills, std::move(walls.fill));
        append(body.bands, std::move(walls.band));
        append(body.walls, std::move(walls.walls));
        if (walls.name) body.vein_names.push_back(std::move(*walls.name));
    }
    body.property = plan_site(results.site, frame, tools).property;
    if (!body.property.empty()) body.signs.signs.insert(Sign::property);
    body.workings = level_workings(results.site, level, frame, body.signs, tools);
    body.traces = level_traces(results, level, set.half(), frame, body.signs, tools);
    body.faults = level_faults(results, level, frame, body.signs, tools);
    body.on_level = level_points(results, level, classes);
    body.points = point_marks(body.on_level, frame, body.signs, tools);
    body.openings = level_openings(results, level, set.half(), frame, body.signs, tools);
    const auto has_figure = [](const HitOnPlane& hit) { return hit.accumulation.has_value(); };
    if (std::any_of(body.on_level.hits.begin(), body.on_level.hits.end(), has_figure)) body.signs.signs.insert(Sign::name_figure);
    body.signs.name_quantity = classes.quantity;

    drawing::Obstacles& obstacles = body.obstacles;
    obstacles.boxes = point_boxes(body.on_level, frame, tools);
    obstacles.boxes.insert(obstacles.boxes.end(), body.openings.boxes.begin(), body.openings.boxes.end());
    add_faults(obstacles, body.faults.lines);
    add_segments(obstacles.lines, body.walls);
    add_segments(obstacles.lines, body.traces.marks);
    add_segments(obstacles.lines, body.property);
    add_segments(obstacles.lines, body.workings.marks);
    add_segments(obstacles.soft_lines, body.bands);
    add_segments(obstacles.soft_lines, body.above);
    body.north = north_block(results.project.north, tile.core, obstacles, tools);
    obstacles.boxes.push_back(body.north.box);
    return body;
}

// A level in the middle of its window, at its largest scale.
Tiling tiling_of(const Level& level, const Results& results, const Tools& tools) {
    const Paper paper = paper_of(results.project, tools.style);
    const Box window = page_boxes(paper.width_mm, paper.height_mm, tools.style.page.layout).window;
    const std::vector<Eigen::Vector3d> data = data_points(level);
    std::vector<Eigen::Vector2d> flat;
    flat.reserve(data.size());
    for (const Eigen::Vector3d& point : data) flat.emplace_back(point.head<2>());
    const PlanFrame frame = plan_frame(data, window, scales_of(results.project, tools.style));
    return tiles_of(frame.paper, frame.denominator, flat, results.project, tools.style);
}

// The set with those points of its levels that lie between the match lines of a part.
LevelSet within(LevelSet set, const Tile& tile) {
    if (!tile.is_part()) return set;
    const auto off = [&](const Eigen::Vector3d& point) { return !tile.holds(point.head<2>()); };
    for (Level& level : set.levels) {
        level.hits.erase(std::remove_if(level.hits.begin(), level.hits.end(), [&](const auto* hit) { return off(hit->point); }),
                         level.hits.end());
        level.misses.erase(
            std::remove_if(level.misses.begin(), level.misses.end(), [&](const auto& miss) { return off(miss.none->point); }),
            level.misses.end());
        level.pierces.erase(
            std::remove_if(level.pierces.begin(), level.pierces.end(), [&](const auto* pierce) { return off(pierce->point); }),
            level.pierces.end());
    }
    return set;
}

SheetTrial drawn_on_paper(const LevelSet& all, std::size_t number, const Tiling& tiling, std::size_t part, const Results& results,
                          const RunFacts& run, const GradeClasses& classes, const Tools& tools) {
    const Tile& tile = tiling.tiles[part];
    const LevelSet set = within(all, tile);
    const PlanFrame frame{tile.paper, tiling.denominator};
    Body body = body_of(set, number, results, classes, tile, tools);
    std::vector<NamedLabel> named =
        level_labels(set.levels[number], body.on_level, body.traces, results, classes, frame.paper, tools);
    for (drawing::Label& name : body.faults.names) named.push_back({std::move(name), {}, false});
    for (drawing::Label& name : body.workings.names) named.push_back({std::move(name), {}, false});
    for (drawing::Label& name : body.openings.names) named.push_back({std::move(name), {}, false});
    for (drawing::Label& name : body.vein_names) named.push_back({std::move(name), {}, false});
    for (drawing::Label& name : body.names_above) named.push_back({std::move(name), {}, false});
    named.erase(std::remove_if(named.begin(), named.end(), [&](NamedLabel& one) { return !keep_within(one.label, tile); }),
                named.end());
    drawing::LabelRules rules = label_rules(drawing::grown(tile.core, -1.5), results.project, tools);
    rules.leader_max_mm = longest_leader;
    PlacedWords words = placed_words(named, body.obstacles, rules, tools);
    words.boxes.insert(words.boxes.begin(), body.north.box);
    MatchLines match = match_lines(tile, "level-plan", set.levels[number].name, tools);
    words.boxes.insert(words.boxes.end(), match.boxes.begin(), match.boxes.end());
    const LevelDrawn drawn{frame.denominator,     body.signs,   !body.above.empty(), !body.traces.pieces.empty(),
                           holes_of(body.traces), words.listed, body.openings.voids};

    PageContent page = level_page(set, number, drawn, results, classes, tools);
    name_part(page, tile);
    if (tile.is_part()) {
        page.key_plan_heading = "Parts of the level";
        page.key_plan_scale.clear();
        page.key_plan = tile_key(tiling, tile, {}, tools);
    }
    drawing::Sheet sheet = begin_page(page, results, run, tools);
    sheet.labels = words.counts;
    put(sheet, Layer::grid, 0, broken_round(plan_axes(frame.paper, results.records.frame, tools), words.boxes));
    put(sheet, Layer::veins, 1, broken_round(std::move(body.above), words.boxes));
    put(sheet, Layer::veins, 1, std::move(body.fills));
    put(sheet, Layer::veins, 1, broken_round(std::move(body.bands), words.boxes));
    put(sheet, Layer::ground, 1, broken_round(std::move(body.workings.marks), words.boxes));
    put(sheet, Layer::ground, 1, broken_round(std::move(body.property), words.boxes));
    put(sheet, Layer::grid, 0, std::move(body.north.marks));
    put(sheet, Layer::veins, 1, std::move(body.walls));
    put(sheet, Layer::veins, 1, broken_round(std::move(body.faults.lines), words.boxes));
    put(sheet, Layer::holes, 1, std::move(body.traces.marks));
    put(sheet, Layer::results, 1, std::move(body.points));
    put(sheet, Layer::holes, 1, std::move(body.traces.starts));
    put(sheet, Layer::results, 1, std::move(body.openings.marks));
    put(sheet, Layer::grid, 0, std::move(match.marks));
    put(sheet, Layer::labels, 0, std::move(words.marks));
    return {std::move(sheet), listed_on(page, words.listed.size(), results, tools)};
}

}  // namespace

std::vector<drawing::Sheet> level_plans(const LevelSet& set, const Results& results, const RunFacts& run,
                                        const GradeClasses& classes, const Tools& tools) {
    std::vector<std::size_t> drawn;
    for (std::size_t level = set.levels.size(); level-- > 0;)
        if (set.levels[level].drawn) drawn.push_back(level);
    std::vector<std::vector<drawing::Sheet>> made(drawn.size());
    base::parallel_for(drawn.size(), [&](std::size_t i) {
        const Level& level = set.levels[drawn[i]];
        const auto laid_out = [&](const Results& trial) { return tiling_of(level, trial, tools); };
        const auto sheets = [&](const Results& trial) {
            const Tiling tiling = laid_out(trial);
            return each_part(tiling, [&](std::size_t part) {
                return drawn_on_paper(set, drawn[i], tiling, part, trial, run, classes, tools);
            });
        };
        made[i] = on_paper_that_bears(results, tools.style, {level.name, laid_out, sheets});
    });
    return joined(std::move(made));
}

}  // namespace selvage::sheets
