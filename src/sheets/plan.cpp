#include "sheets/plan.h"

#include "base/text.h"
#include "drawing/labels.h"
#include "paths/locate.h"
#include "drawing/symbols.h"
#include "sheets/broken_lines.h"
#include "sheets/cautions.h"
#include "sheets/grid.h"
#include "sheets/label_text.h"
#include "sheets/legend_signs.h"
#include "sheets/paper_choice.h"
#include "sheets/plan_marks.h"
#include "sheets/symbols.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double free_mm = 14.0;       // free paper round the data
constexpr double same_collar_mm = 1.6;  // nearer collars share one label
constexpr std::size_t names_a_line = 3;
constexpr int priority_planned = 4, priority_collar = 3, priority_pad = 1;

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

struct Frame {
    PaperFrame paper;
    double denominator = 1000.0;
};

Frame frame_of(const std::vector<Eigen::Vector3d>& points, const Box& window, bool feet) {
    Eigen::Vector2d low = points.front().head<2>(), high = low;
    for (const Eigen::Vector3d& point : points) {
        low = low.cwiseMin(point.head<2>());
        high = high.cwiseMax(point.head<2>());
    }
    Frame frame;
    frame.denominator = fitting_scale(high.x() - low.x(), high.y() - low.y(), drawing::grown(window, -free_mm), feet);
    frame.paper = {window, (low + high) / 2.0, frame.denominator / 1000.0};
    return frame;
}

// Holes that start so near each other that one label names them all.
struct CollarGroup {
    Point at;
    std::vector<std::string> names;
    bool planned = true;  // all of them
};

std::vector<CollarGroup> collar_groups(const Results& results, const PaperFrame& frame) {
    std::vector<CollarGroup> groups;
    for (const tables::Collar& collar : results.records.collars) {
        if (paths::path_of(results.paths, collar.hole) == nullptr) continue;
        const Point at = on_plan(frame, collar.position);
        const bool planned = collar_state(collar.status) == CollarState::planned;
        const auto near = std::find_if(groups.begin(), groups.end(), [&](const CollarGroup& group) {
            return std::hypot(group.at.x - at.x, group.at.y - at.y) < same_collar_mm && group.planned == planned;
        });
        if (near == groups.end())
            groups.push_back({at, {collar.hole}, planned});
        else
            near->names.push_back(collar.hole);
    }
    return groups;
}

std::vector<drawing::Label> collar_labels(const std::vector<CollarGroup>& groups, const Tools& tools) {
    std::vector<drawing::Label> labels;
    for (const CollarGroup& group : groups) {
        drawing::Label label;
        label.owner = group.names.front();
        label.at = group.at;
        label.clear_mm = tools.style.size_mm("collar") / 2.0;
        label.priority = group.planned ? priority_planned : priority_collar;
        for (std::size_t i = 0; i < group.names.size(); i += names_a_line) {
            std::string line;
            for (std::size_t k = i; k < std::min(i + names_a_line, group.names.size()); ++k) line += (k > i ? ", " : "") + group.names[k];
            label.lines.push_back({line, tools.style.text(group.planned ? "planned_name" : "name")});
            label.listed_text += (i == 0 ? "" : ", ") + line;
        }
        labels.push_back(std::move(label));
    }
    return labels;
}

// Pads: small open squares.
Marks pad_marks(const Results& results, const PaperFrame& frame, std::vector<drawing::Label>& labels, const Tools& tools) {
    Marks marks;
    for (const tables::Pad& pad : results.records.pads) {
        const Point at = on_plan(frame, pad.position);
        const double half = 1.5;
        if (at.x < frame.window.left + half || at.x > frame.window.right - half || at.y < frame.window.bottom + half ||
            at.y > frame.window.top - half)
            continue;
        marks.push_back(box_outline({at.x - half, at.y - half, at.x + half, at.y + half}, tools.style.line("symbol_edge")));
        drawing::Label label;
        label.owner = "pad " + pad.pad;
        label.at = at;
        label.clear_mm = half;
        label.priority = priority_pad;
        label.lines.push_back({pad.pad, with_colour(tools.style.text("body"), tools.style.colour("soft"))});
        labels.push_back(std::move(label));
    }
    return marks;
}

void add_segments(std::vector<drawing::Segment>& segments, const Marks& marks) {
    for (const Mark& mark : marks)
        if (const auto* shape = std::get_if<drawing::Shape>(&mark))
            for (const std::vector<Point>& ring : shape->rings)
                for (std::size_t i = 1; i < ring.size(); ++i) segments.push_back({ring[i - 1], ring[i]});
}

std::string degrees_words(base::Angle angle, const char* positive, const char* negative) {
    return base::fixed(std::abs(angle.degrees()), 2) + "° " + (angle.degrees() >= 0.0 ? positive : negative);
}

// What north is meant, and where the others lie.
std::vector<std::string> north_words(const settings::Project& project, const RunFacts& run) {
    std::vector<std::string> lines{"grid north is up"};
    // Convergence is the bearing of grid north clockwise from true north: true north lies the other way.
    lines.push_back("true north " + degrees_words(-project.north.grid_convergence, "east", "west") + " of grid");
    if (project.north.declination)
        lines.push_back("magnetic north " + degrees_words(*project.north.declination - project.north.grid_convergence, "east", "west") +
                        " of grid" + (run.date.empty() ? "" : ", " + run.date));
    return lines;
}

constexpr double north_height = 13.0;

Box north_box(const std::vector<std::string>& lines, const Box& window, const Tools& tools) {
    double width = 10.0;
    for (const std::string& line : lines) width = std::max(width, drawing::text_width_mm(tools.fonts, tools.style.text("note"), line));
    const double height = north_height + 4.0 + tools.style.size_mm("leading") * static_cast<double>(lines.size());
    return {window.right - 4.0 - width, window.top - 4.0 - height, window.right - 4.0, window.top - 4.0};
}

Marks north_marks(const Box& box, const std::vector<std::string>& lines, const Tools& tools) {
    Marks marks = north_arrow({box.right - 4.0, box.top - north_height - 3.0}, north_height, tools);
    double base = box.top - north_height - 3.0 - tools.style.size_mm("leading");
    for (const std::string& line : lines) {
        marks.push_back(words({box.right, base}, line, tools.style.text("note"), drawing::Anchor::right));
        base -= tools.style.size_mm("leading");
    }
    return marks;
}

std::vector<drawing::Label> vein_labels(const std::vector<VeinAtGround>& veins, const Results& results, const Tools& tools) {
    std::vector<drawing::Label> labels;
    for (const VeinAtGround& vein : veins) {
        const auto longest = std::max_element(vein.pieces.begin(), vein.pieces.end(), [](const auto& a, const auto& b) { return a.size() < b.size(); });
        drawing::Label label;
        label.owner = results.veins[vein.vein].name();
        label.at = (*longest)[longest->size() / 6];
        label.clear_mm = 0.8;
        label.priority = priority_planned;
        label.may_be_listed = false;
        label.lines.push_back({results.veins[vein.vein].name() + " vein", with_colour(tools.style.text("vein_name"), vein_colour(vein.vein, tools))});
        labels.push_back(std::move(label));
    }
    return labels;
}

std::vector<std::size_t> counts_of(const Results& results, const GradeClasses& classes) {
    std::vector<std::size_t> counts(hit_signs, 0);
    for (const intercepts::Intercept& hit : results.intercepts.met) ++counts[static_cast<std::size_t>(sign_of(hit, classes, results.records.frame))];
    for (const veins::Vein& vein : results.veins)
        for (const veins::NoVein& none : vein.no_vein())
            if (none.is_miss()) ++counts[static_cast<std::size_t>(HitSign::no_vein)];
    return counts;
}

std::vector<std::string> planned_holes(const Results& results) {
    std::vector<std::string> holes;
    for (const tables::Collar& collar : results.records.collars)
        if (!tables::is_drilled(collar.status) && collar.status != tables::HoleStatus::cancelled) holes.push_back(collar.hole);
    return holes;
}

SheetTrial drawn_on_paper(const Results& results, const RunFacts& run, const GradeClasses& classes, const SectionSet& sections,
                          const Tools& tools) {
    const Paper paper = paper_of(results.project);
    const PageBoxes boxes = page_boxes(paper.width_mm, paper.height_mm);
    std::vector<Eigen::Vector3d> data = data_points(results);
    if (data.empty()) data.push_back(Eigen::Vector3d::Zero());
    const Frame frame = frame_of(data, boxes.window, results.project.length_unit != base::LengthUnit::metre);

    // 1 What is drawn.
    DrawnSigns drawn;
    drawn.metres_per_mm = frame.paper.metres_per_mm;
    const Marks traces = plan_traces(results, frame.paper, drawn, tools);
    const Marks collars = plan_collars(results, frame.paper, drawn, tools);
    const Marks hits = plan_hits(results, classes, frame.paper, drawn, tools);
    const std::vector<VeinAtGround> veins = veins_at_ground(results, frame.paper, drawn, tools);
    const PlanOutcrops outcrops = plan_outcrops(results, frame.paper, drawn, tools);
    const PlanSections section_lines = plan_sections(sections, data, frame.paper, drawn, tools);
    const std::vector<std::string> north = north_words(results.project, run);
    const Box north_at = north_box(north, boxes.window, tools);

    // 2 Names.
    const std::vector<CollarGroup> groups = collar_groups(results, frame.paper);
    std::vector<drawing::Label> labels = collar_labels(groups, tools);
    for (drawing::Label& label : vein_labels(veins, results, tools)) labels.push_back(std::move(label));
    const Marks pads = pad_marks(results, frame.paper, labels, tools);
    drawing::Obstacles obstacles;
    obstacles.boxes = outcrops.boxes;
    obstacles.boxes.insert(obstacles.boxes.end(), section_lines.boxes.begin(), section_lines.boxes.end());
    obstacles.boxes.push_back(north_at);
    const double collar_half = tools.style.size_mm("collar") / 2.0;
    for (const CollarGroup& group : groups)
        obstacles.boxes.push_back({group.at.x - collar_half, group.at.y - collar_half, group.at.x + collar_half, group.at.y + collar_half});
    for (const intercepts::Intercept& hit : results.intercepts.met) {
        const Point at = on_plan(frame.paper, hit.point);
        obstacles.boxes.push_back(drawing::grown({at.x, at.y, at.x, at.y}, 1.6));
    }
    add_segments(obstacles.lines, traces);
    for (const VeinAtGround& vein : veins) add_segments(obstacles.lines, vein.marks);
    add_segments(obstacles.soft_lines, section_lines.lines);
    drawing::LabelRules rules;
    rules.window = drawing::grown(boxes.window, -1.5);
    const drawing::PlacedLabels placed = drawing::place_labels(labels, obstacles, rules, tools.fonts);
    Marks names;
    std::vector<Box> words_taken = section_lines.boxes;
    words_taken.push_back(north_at);
    PageContent page;
    for (const drawing::PlacedLabel& one : placed.labels) {
        if (one.leader.size() > 1) names.push_back(line_of(one.leader, tools.style.line("leader")));
        for (drawing::Text& text : drawing::texts_of(labels[one.label], one, rules, tools.fonts, tools.style.size_mm("halo")))
            names.emplace_back(std::move(text));
        words_taken.push_back(drawing::grown(one.box, tools.style.size_mm("gap_round_words")));
        if (one.placing == drawing::Placing::listed) page.side_list.push_back(std::to_string(one.number) + "\t" + labels[one.label].listed_text);
    }

    // 3 The page.
    page.kind = "plan";
    page.title.title = "Plan";
    page.title.subtitle = "collars, traces, veins at the ground";
    page.title.identification = "PL";
    page.title.document_type = "plan";
    page.sentence = "Seen from above, grid north up  ·  traces and hits dropped straight onto the plan";
    page.scale_denominator = frame.denominator;
    page.cautions = {working_document_caution(), interpretation_caution()};
    if (const std::vector<std::string> holes = planned_holes(results); !holes.empty()) page.cautions.push_back(planned_hole_caution(holes));
    page.classes_heading = classes.quantity;
    page.classes_note = "hits";
    page.classes = class_rows(classes, counts_of(results, classes));
    page.legend = legend_groups(drawn, results, tools);
    LegendGroup ground{"On the ground", {}};
    if (!pads.empty())
        ground.entries.push_back({"pad", [&tools](const Box& box) {
                                      const Point at{(box.left + box.right) / 2.0, (box.bottom + box.top) / 2.0};
                                      return Marks{box_outline({at.x - 1.5, at.y - 1.5, at.x + 1.5, at.y + 1.5}, tools.style.line("symbol_edge"))};
                                  }});
    if (!outcrops.marks.empty())
        ground.entries.push_back({"vein outcrop: strike, dip", [&tools](const Box& box) {
                                      const Point at{(box.left + box.right) / 2.0, (box.bottom + box.top) / 2.0};
                                      const drawing::LineLook& line = tools.style.line("contact_mark");
                                      return Marks{line_of({{at.x - 2.3, at.y + 0.6}, {at.x + 2.3, at.y + 0.6}}, line),
                                                   line_of({{at.x, at.y + 0.6}, {at.x, at.y - 0.9}}, line)};
                                  }});
    for (const VeinAtGround& vein : veins)
        ground.entries.push_back({results.veins[vein.vein].name() + " vein at the ground", [colour = vein_colour(vein.vein, tools), &tools](const Box& box) {
                                      const double y = (box.bottom + box.top) / 2.0;
                                      return Marks{line_of({{box.left, y}, {box.right, y}}, with_colour(tools.style.line("wall_accurate"), colour))};
                                  }});
    if (!ground.entries.empty()) page.legend.push_back(std::move(ground));
    drawing::Sheet sheet = begin_page(page, results, run, tools);
    sheet.labels = placed.figures;

    const double unit = base::metres_per(results.project.length_unit);
    const Eigen::Vector2d corner = frame.paper.drawn_from_paper({boxes.window.left, boxes.window.bottom});
    const Eigen::Vector3d map = results.records.frame.map_from_project({corner.x(), corner.y(), 0.0});
    GridAxis east, north_axis;
    east.at_start = map.x();
    north_axis.at_start = map.y();
    east.units_per_mm = north_axis.units_per_mm = frame.paper.metres_per_mm / unit;
    east.title = std::string("east, ") + base::symbol_of(results.project.length_unit);
    north_axis.title = std::string("north, ") + base::symbol_of(results.project.length_unit);
    east.spaced = north_axis.spaced = north_axis.upright = true;
    put(sheet, Layer::grid, 0, broken_round(grid_marks(boxes.window, east, north_axis, tools), words_taken));
    put(sheet, Layer::grid, 1, broken_round(section_lines.lines, words_taken));
    put(sheet, Layer::grid, 0, section_lines.names);
    put(sheet, Layer::grid, 0, north_marks(north_at, north, tools));
    put(sheet, Layer::ground, 1, pads);
    for (const VeinAtGround& vein : veins) put(sheet, Layer::veins, 1, vein.marks);
    put(sheet, Layer::holes, 1, traces);
    put(sheet, Layer::ground, 1, outcrops.marks);
    put(sheet, Layer::holes, 1, collars);
    put(sheet, Layer::results, 1, hits);
    put(sheet, Layer::labels, 0, std::move(names));
    return {std::move(sheet), page.side_list.size()};
}

}  // namespace

drawing::Sheet plan(const Results& results, const RunFacts& run, const GradeClasses& classes, const SectionSet& sections,
                    const Tools& tools) {
    return on_paper_that_bears(results, [&](const Results& on_paper) { return drawn_on_paper(on_paper, run, classes, sections, tools); });
}

}  // namespace selvage::sheets
