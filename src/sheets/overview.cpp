#include "sheets/overview.h"

#include "base/text.h"
#include "drawing/clipping.h"
#include "drawing/labels.h"
#include "drawing/polyline.h"
#include "drawing/symbols.h"
#include "paths/locate.h"
#include "sheets/broken_lines.h"
#include "sheets/cautions.h"
#include "sheets/label_text.h"
#include "sheets/long_section_labels.h"
#include "sheets/overview_marks.h"
#include "sheets/paper_choice.h"
#include "sheets/section_content.h"
#include "sheets/symbols.h"
#include "sheets/vein_letters.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <set>
#include <string>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double margin_share = 0.06;  // of the data's extent, round it: where the ground and the faults are drawn to
constexpr std::size_t names_in_line = 3;
constexpr int priority_vein = 6, priority_fault = 5, priority_planned = 4, priority_hole = 3;

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

// At the largest scale for the veins and holes; with room for the whole of the faults too, then for the ground over all, as far
// as that costs no scale. What has no room ends at the window.
AxonometricView view_of(const Extent& extent, const std::vector<FaultSurface>& faults, const Box& window, const Results& results,
                        const Tools& tools) {
    const ViewDirection direction = view_direction(results);
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

std::vector<std::string> letters_of(const Results& results) {
    std::vector<std::string> names;
    for (const veins::Vein& vein : results.veins) names.push_back(vein.name());
    return vein_letters(names);
}

// Bars of one round length along the three axes from one point, with what each is.
struct AxisBars {
    Marks marks;
    Box box;
};

AxisBars axis_bars(const Point& origin, const AxonometricView& view, const base::MapFrame& map, const Tools& tools) {
    constexpr double longest_mm = 24.0, gap = 1.4;
    const double most = map.length(longest_mm * view.paper.metres_per_mm), power = std::pow(10.0, std::floor(std::log10(most)));
    double round = power;
    for (const double first : {2.0, 5.0})
        if (first * power <= most) round = first * power;
    const double length = round * base::metres_per(map.unit);
    const drawing::TextLook& look = tools.style.text("scale_figure");
    const double cap = drawing::cap_height_mm(tools.fonts, look);
    AxisBars bars;
    bars.box = {origin.x, origin.y, origin.x, origin.y};
    const std::array<const char*, 3> names{"east", "north", "up"};
    for (int axis = 0; axis < 3; ++axis) {
        const Eigen::Vector3d along = Eigen::Vector3d::Unit(axis) * length / view.paper.metres_per_mm;
        const double x = view.right.dot(along), y = view.up.dot(along), run = std::hypot(x, y);
        if (run < 2.0) continue;  // seen end on
        const Point end{origin.x + x, origin.y + y};
        bars.marks.push_back(line_of({origin, end}, tools.style.line("north_arrow")));
        bars.marks.emplace_back(
            drawing::arrow_head(end, x / run, y / run, tools.style.size_mm("arrow"), tools.style.colour("ink")));
        const std::string words_there =
            base::significant(round, 4) + " " + base::symbol_of(map.unit) + " " + names[static_cast<std::size_t>(axis)];
        const drawing::Anchor anchor = axis == 2 ? drawing::Anchor::centre
                                       : x < 0.0 ? drawing::Anchor::right
                                                 : drawing::Anchor::left;
        const Point at{end.x + (axis == 2 ? 0.0 : x < 0.0 ? -gap : gap), axis == 2 ? end.y + gap : end.y - cap / 2.0};
        drawing::Text text{at, words_there, look, anchor, false, 0.0, {}};
        bars.box = drawing::united(
            bars.box, drawing::united(box_of_words(text, tools.fonts), {std::min(origin.x, end.x), std::min(origin.y, end.y),
                                                                        std::max(origin.x, end.x), std::max(origin.y, end.y)}));
        bars.marks.emplace_back(std::move(text));
    }
    return bars;
}

double covered_mm(const Box& box, const drawing::Obstacles& obstacles) {
    double sum = 0.0;
    for (const Box& other : obstacles.boxes)
        sum += std::max(0.0, std::min(box.right, other.right) - std::max(box.left, other.left)) *
               std::max(0.0, std::min(box.top, other.top) - std::max(box.bottom, other.bottom));
    return sum;
}

// In the corner of the window where they cover least; lower left before lower right, upper left, upper right.
AxisBars placed_bars(const AxonometricView& view, const drawing::Obstacles& obstacles, const base::MapFrame& map,
                     const Tools& tools) {
    constexpr double from_corner = 5.0;
    const AxisBars at_zero = axis_bars({0.0, 0.0}, view, map, tools);
    const Box room = drawing::grown(view.paper.window, -from_corner);
    std::optional<Point> best;
    double least = 0.0;
    for (const bool at_top : {false, true})
        for (const bool at_right : {false, true}) {
            const Point origin{at_right ? room.right - at_zero.box.right : room.left - at_zero.box.left,
                               at_top ? room.top - at_zero.box.top : room.bottom - at_zero.box.bottom};
            const Box box{origin.x + at_zero.box.left, origin.y + at_zero.box.bottom, origin.x + at_zero.box.right,
                          origin.y + at_zero.box.top};
            const double covered = covered_mm(box, obstacles);
            if (best && covered >= least) continue;
            best = origin;
            least = covered;
        }
    return axis_bars(*best, view, map, tools);
}

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
        if (collar.parent || paths::path_of(results.paths, collar.hole) == nullptr) continue;
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
    std::set<std::string> told;
    for (const FaultOutline& fault : faults) {
        std::vector<std::vector<Point>> lines;
        for (const SeenPart& part : fault.parts)
            if (!part.hidden) lines.push_back(part.points);
        std::vector<Point> places = places_along(lines, most_places);
        places.erase(
            std::remove_if(places.begin(), places.end(), [&](const Point& at) { return drawing::distance(at, window) > 0.0; }),
            places.end());
        if (!places.empty() && told.insert(fault.name).second)
            names.push_back(named(fault.name, tools.style.text("line_name"), places, priority_fault));
    }
    return names;
}

std::vector<NamedLabel> names_of_holes(const Results& results, const AxonometricView& view, const Tools& tools) {
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
    return names;
}

std::string sentence_of(const ViewDirection& direction) {
    std::string words = "Looking down " + base::fixed(direction.down.degrees(), 0) + "° toward " +
                        compass_point(direction.looking) + " (" + bearing_text(direction.looking) + ")";
    if (!direction.hanging_wall_of.empty()) words += ", from the hanging wall of " + direction.hanging_wall_of;
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

PageContent page_of(const Results& results, const AxonometricView& view, const LevelSet& levels, const OverviewSigns& signs,
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
    std::vector<std::string> planned;
    for (const tables::Collar& collar : results.records.collars)
        if (!tables::is_drilled(collar.status) && collar.status != tables::HoleStatus::cancelled) planned.push_back(collar.hole);
    if (!planned.empty()) page.cautions.push_back(planned_hole_caution(planned));
    page.classes_heading = classes.quantity;
    page.classes_note = "marked here";
    page.classes = class_rows_of(points, classes);
    page.legend.push_back(space_group(results, view, levels, signs, tools));
    DrawnSigns others = signs.drawn;
    for (const Sign sign : {Sign::ground, Sign::ground_assumed}) others.signs.erase(sign);
    for (LegendGroup& group : legend_groups(others, results, tools)) page.legend.push_back(std::move(group));
    page.side_list.push_back("Axes\tbars of equal true length from one point; up is up, the arrow north is grid north");
    page.side_list.push_back("Letters\ton the veins, each with its name's beginning");
    page.side_list.push_back("Names\tof veins, faults and, where there is room, of holes at their collars");
    if (std::any_of(points.hidden.begin(), points.hidden.end(), [](std::size_t count) { return count > 0; }))
        page.side_list.emplace_back("Hidden\thits and misses that lie behind a vein; they are not marked here");
    page.side_list_heading = "How to read it";
    return page;
}

}  // namespace

std::vector<drawing::Sheet> overview(const Results& results, const RunFacts& run, const GradeClasses& classes,
                                     const Tools& tools) {
    if (results.solids.empty()) return {};
    const Paper paper = paper_of(results.project, tools.style);
    const Box window = page_boxes(paper.width_mm, paper.height_mm, tools.style.page.layout).window;
    const Extent extent = extent_of(results);
    const std::vector<FaultSurface> surfaces = faults_beside_veins(results, extent.low, extent.high);
    const AxonometricView view = view_of(extent, surfaces, window, results, tools);
    const LevelSet levels = level_set(results);
    const VisibleSurface surface = bodies_seen(results, view);
    OverviewSigns signs;
    Marks fills = body_fills(results, surface, signs, tools), edges = body_edges(results, surface, tools);
    Marks lines = level_lines(results, levels, surface, view, signs, tools);
    const std::vector<FaultOutline> outlines = fault_outlines(surfaces, surface, view);
    Marks faults = fault_lines(outlines, signs, tools);
    Marks ground = ground_border(results, extent.low, extent.high, surface, view, signs, tools);
    Marks traces = traces_in_space(results, surface, view, signs, tools);
    PointsInSpace points = points_in_space(results, classes, surface, view, signs, tools);

    drawing::Obstacles obstacles;
    for (const Marks* all : {&edges, &faults, &traces}) add_segments(obstacles.lines, *all);
    for (const Marks* all : {&ground, &lines}) add_segments(obstacles.soft_lines, *all);
    obstacles.boxes = points.boxes;
    const std::vector<Box> tinted = surface.covered([](int) { return true; }, 3.0);
    drawing::Obstacles with_tints = obstacles;
    with_tints.boxes.insert(with_tints.boxes.end(), tinted.begin(), tinted.end());
    AxisBars bars = placed_bars(view, with_tints, results.records.frame, tools);
    for (drawing::Obstacles* each : {&obstacles, &with_tints}) each->boxes.push_back(drawing::grown(bars.box, 1.5));
    const auto vein_of = [&](int item) {
        return item < 0 ? results.veins.size()
                        : vein_number(results, results.solids[static_cast<std::size_t>(item / tones)].vein);
    };
    Marks letters = letters_on_bodies(letters_of(results), surface, vein_of, obstacles, tools);
    // Names of veins in their own colours off the tints, then those of holes wherever there is room.
    const drawing::LabelRules rules = label_rules(drawing::grown(window, -1.5), results.project, tools);
    PlacedWords names = placed_words(names_of_surfaces(results, surface, outlines, window, tools), with_tints, rules, tools);
    obstacles.boxes.insert(obstacles.boxes.end(), names.boxes.begin(), names.boxes.end());
    obstacles.lines.insert(obstacles.lines.end(), names.leaders.begin(), names.leaders.end());
    PlacedWords words = placed_words(names_of_holes(results, view, tools), obstacles, rules, tools);
    append(words.marks, std::move(names.marks));
    words.boxes.insert(words.boxes.end(), names.boxes.begin(), names.boxes.end());

    drawing::Sheet sheet = begin_page(page_of(results, view, levels, signs, points, classes, tools), results, run, tools);
    sheet.labels = words.counts;
    put(sheet, Layer::page, 0, {box_outline(window, tools.style.line("window"))});
    put(sheet, Layer::ground, 1, broken_round(std::move(ground), words.boxes));
    put(sheet, Layer::veins, 1, std::move(fills));
    put(sheet, Layer::veins, 1, broken_round(std::move(lines), words.boxes));
    put(sheet, Layer::veins, 1, std::move(edges));
    put(sheet, Layer::veins, 1, std::move(faults));
    put(sheet, Layer::holes, 1, std::move(traces));
    put(sheet, Layer::results, 1, std::move(points.marks));
    put(sheet, Layer::labels, 1, std::move(letters));
    put(sheet, Layer::page, 0, std::move(bars.marks));
    put(sheet, Layer::labels, 0, std::move(words.marks));
    return {std::move(sheet)};
}

}  // namespace selvage::sheets
