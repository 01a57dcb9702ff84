#include "sheets/cross_section.h"

#include "base/parallel.h"
#include "base/text.h"
#include "sheets/broken_lines.h"
#include "sheets/cautions.h"
#include "sheets/column.h"
#include "sheets/forecast_drawing.h"
#include "sheets/grid.h"
#include "sheets/ground.h"
#include "sheets/ground_line.h"
#include "sheets/hits_drawing.h"
#include "sheets/key_plan.h"
#include "sheets/label_text.h"
#include "sheets/match_lines.h"
#include "sheets/openings_words.h"
#include "sheets/own_plane.h"
#include "sheets/paper_choice.h"
#include "sheets/section_drawing.h"
#include "sheets/section_extent.h"
#include "sheets/section_labels.h"
#include "sheets/section_side_list.h"
#include "sheets/section_site.h"
#include "sheets/trace_remarks.h"
#include "sheets/traces.h"
#include "sheets/walls_drawing.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <set>
#include <utility>

namespace selvage::sheets {

namespace {

std::string slab_words(const Section& section, const base::MapFrame& map) {
    const double half = map.length(section.half_width);
    const int digits = std::abs(std::remainder(4.0 * half, 1.0)) < 1e-9 ? 4 : 2;  // 6.25 is round, 8.097 is not
    return "slab ±" + base::significant(half, digits) + " " + base::symbol_of(map.unit);
}

// Of the pack's set, or along one hole.
bool is_own_plane(const SectionDrawing& drawing) { return drawing.set.of_pack != nullptr; }

std::string name_of(const SectionDrawing& drawing) {
    return (is_own_plane(drawing) ? "Section along " : "Section ") + drawing.section.name;
}

std::string sentence_of(const SectionDrawing& drawing) {
    const SectionFrame& frame = drawing.section.frame;
    return name_of(drawing) + ", looking " + compass_point(frame.looking()) + " (" + bearing_text(frame.looking()) + ")  ·  " +
           slab_words(drawing.section, drawing.map()) + "  ·  no vertical exaggeration";
}

std::string joined(const std::vector<std::string>& names, const std::string& before_last) {
    std::string text;
    for (std::size_t i = 0; i < names.size(); ++i) text += (i == 0 ? "" : i + 1 == names.size() ? before_last : ", ") + names[i];
    return text;
}

std::string subtitle_of(const SectionDrawing& drawing) {
    std::vector<std::string> names;
    for (const std::size_t vein : drawing.drawn.veins) names.push_back(drawing.results.veins[vein].name());
    if (names.empty()) return std::string("no modelled vein in this ") + (drawing.tile.is_part() ? "part" : "slab");
    return joined(names, " and ") + (names.size() == 1 ? " vein" : " veins") +
           (is_own_plane(drawing) ? ", in the hole's plane" : ", across strike");
}

void draw_grid(SectionDrawing& drawing, Marks& outside) {
    const base::MapFrame& map = drawing.map();
    const std::string unit = base::symbol_of(map.unit);
    GridAxis across, up;
    across.units_per_mm = up.units_per_mm = map.length(drawing.view.metres_per_mm);
    across.at_start = map.length(drawing.view.left_distance);
    across.title = unit + " along the section";
    across.with_sign = true;
    up.at_start = map.length(drawing.view.bottom_up + map.origin.z());
    up.title = "elevation, " + unit;
    outside = grid_marks(drawing.view.window, across, up, drawing.tools);
}

void draw_ground(SectionDrawing& drawing) {
    const Box& window = drawing.view.window;
    const auto place = [&](double x) { return drawing.view.frame.at(drawing.view.distance_at(x), 0.0); };
    const auto on_paper = [&](double x) {
        return drawing.view.paper(drawing.view.distance_at(x), ground_elevation(drawing.ground, place(x)));
    };
    const double stroke = drawing.tools.style.size_mm("ground_stroke");
    for (const GroundPiece& piece : ground_pieces(drawing.ground, window.left, window.right, place, on_paper)) {
        const bool beyond = drawing.ground.has_given() && !piece.given;
        drawing.put(Layer::ground, ground_line_marks(piece.line, drawing.tools, beyond));
        drawing.keep_clear(piece.line);
        std::vector<Point> feet = piece.line;
        for (Point& foot : feet) foot.y -= stroke * 0.8;
        drawing.keep_clear(feet);
        drawing.note(beyond ? Sign::ground_assumed : Sign::ground);
    }
}

EndMark end_mark(const SectionDrawing& drawing, double x_mm, base::Azimuth towards) {
    const Eigen::Vector3d point = drawing.view.frame.at(drawing.view.distance_at(x_mm), 0.0);
    return {compass_point(towards), bearing_text(towards), coordinates_text(point, drawing.map())};
}

base::Azimuth opposite(base::Azimuth azimuth) { return base::Azimuth::degrees(azimuth.degrees() + 180.0); }

KeyLine key_line(const SectionDrawing& drawing) {
    const Box& window = drawing.view.window;
    const SectionFrame& frame = drawing.view.frame;
    return {frame.at(drawing.view.distance_at(window.left), 0.0), frame.at(drawing.view.distance_at(window.right), 0.0),
            frame.away, compass_point(opposite(frame.right_azimuth)), compass_point(frame.right_azimuth)};
}

std::vector<std::size_t> counts_of(const SectionDrawing& drawing) {
    std::vector<std::size_t> counts(hit_signs, 0);
    for (const intercepts::Intercept* hit : drawing.content.hits)
        ++counts[static_cast<std::size_t>(sign_of(*hit, drawing.classes, drawing.map()))];
    counts[static_cast<std::size_t>(HitSign::no_vein)] = drawing.content.misses.size();
    return counts;
}

std::vector<std::string> shown_holes(const SectionDrawing& drawing) {
    std::vector<std::string> names;
    for (const SectionHole& hole : drawing.content.holes)
        if (hole.shown) names.push_back(drawing.results.paths[hole.path].hole);
    return names;
}

// Lines that the column does not hold go to free paper of the drawing.
void move_on(SectionDrawing& drawing, PageContent& content, const PageBoxes& boxes) {
    const auto room = static_cast<std::ptrdiff_t>(side_list_room(content, boxes, drawing.tools));
    if (room == static_cast<std::ptrdiff_t>(content.side_list.size())) return;
    const std::vector<std::string> beyond(content.side_list.begin() + room, content.side_list.end());
    if (continue_side_list(drawing, beyond)) content.side_list.erase(content.side_list.begin() + room, content.side_list.end());
}

PageContent page_content(SectionDrawing& drawing, const KeyMap& map, const PageBoxes& boxes) {
    const SectionFrame& frame = drawing.view.frame;
    PageContent content;
    const bool own = is_own_plane(drawing);
    content.kind = own ? hole_section_kind : "cross-section";
    content.name = drawing.section.name;
    content.bookmark = content.title.title = own ? name_of(drawing) : "Cross section " + drawing.section.name;
    content.title.subtitle = subtitle_of(drawing);
    content.title.identification = (own ? "HS-" : "XS-") + drawing.section.name;
    content.title.document_type = own ? "section along a hole" : "cross section";
    content.left_end = end_mark(drawing, drawing.view.window.left, opposite(frame.right_azimuth));
    content.right_end = end_mark(drawing, drawing.view.window.right, frame.right_azimuth);
    content.sentence = sentence_of(drawing);
    content.scale_denominator = drawing.view.metres_per_mm * 1000.0;
    content.cautions = {working_document_caution(), interpretation_caution(drawing.results.events)};
    if (std::string ahead = holes_ahead_caution(shown_holes(drawing), drawing.results); !ahead.empty())
        content.cautions.push_back(std::move(ahead));
    if (!drawing.results.site.workings.empty()) content.cautions.push_back(workings_caution());
    std::vector<site::OpenedVoid> voids;
    for (const OpeningInSpace& opening : drawing.content.openings) voids.push_back(opening.opened);
    if (std::string openings = openings_caution(voids, shown_holes(drawing), drawing.results); !openings.empty())
        content.cautions.push_back(std::move(openings));
    content.cautions.push_back(thickness_caution());
    if (drawing.classes.any) {
        content.classes_heading = drawing.classes.quantity;
        content.classes_note = "hits here";
        content.classes = class_rows(drawing.classes, counts_of(drawing));
    }
    content.legend = legend_groups(drawing.drawn, drawing.results, drawing.tools);
    content.side_list = drawing.side_list;
    move_on(drawing, content, boxes);
    const KeyPlan plan = key_plan(map, drawing.map(), key_line(drawing), key_plan_width,
                                  key_plan_height(content, boxes, drawing.tools), drawing.tools);
    content.key_plan = plan.draw;
    content.key_plan_scale = plan.scale_words;
    content.key_plan_metres_per_mm = plan.metres_per_mm;
    return content;
}

// The first `count` of the items go to the sheet; their lines give way to the words of the match lines.
void move_items(drawing::Sheet& sheet, std::vector<drawing::Item>& items, std::size_t count, const std::vector<Box>& boxes) {
    for (std::size_t i = 0; i < count; ++i)
        for (Mark& mark : broken_round({std::move(items[i].mark)}, boxes))
            sheet.items.push_back({std::move(mark), items[i].layer, items[i].window});
    items.erase(items.begin(), items.begin() + static_cast<std::ptrdiff_t>(count));
}

SheetTrial draw_section(SectionDrawing drawing, const KeyMap& map, const PageBoxes& boxes, const RunFacts& run) {
    const std::string kind = is_own_plane(drawing) ? hole_section_kind : "cross-section";
    MatchLines match = match_lines(drawing.tile, kind, drawing.section.name, drawing.tools);
    Marks grid;
    draw_grid(drawing, grid);
    draw_ground(drawing);
    draw_site(drawing);
    draw_forecasts(drawing);
    draw_veins(drawing);
    draw_faults(drawing);
    draw_traces(drawing);
    draw_structures(drawing);
    draw_samples(drawing);
    draw_hits(drawing);
    draw_openings(drawing);
    draw_outcrops(drawing);
    want_trace_remarks(drawing);
    drawing.obstacles.boxes.insert(drawing.obstacles.boxes.end(), match.boxes.begin(), match.boxes.end());
    draw_forecast_words(drawing);
    const DrawnLabels labels = draw_labels(drawing);
    drawing.side_list.insert(drawing.side_list.begin(), labels.listed.begin(), labels.listed.end());
    drawing.obstacles.boxes.insert(drawing.obstacles.boxes.end(), labels.boxes.begin(), labels.boxes.end());
    drawing.labels.clear();
    for (std::string& line : section_side_list(drawing)) drawing.side_list.push_back(std::move(line));

    PageContent content = page_content(drawing, map, boxes);
    name_part(content, drawing.tile);
    draw_depth_figures(drawing, drawing.obstacles.boxes);
    drawing::Sheet sheet = begin_page(content, drawing.results, run, drawing.tools);
    put(sheet, Layer::grid, 0, broken_round(std::move(grid), match.boxes));
    move_items(sheet, drawing.items, drawing.off_slab_at, match.boxes);
    put(sheet, Layer::holes, 1, broken_round(std::move(drawing.off_slab), labels.boxes));
    move_items(sheet, drawing.items, drawing.items.size(), match.boxes);
    put(sheet, Layer::grid, 0, std::move(match.marks));
    sheet.labels = labels.figures;
    const bool all_listed = side_list_room(content, boxes, drawing.tools) >= content.side_list.size();
    return {std::move(sheet), listed_on(content, all_listed ? 0 : listed_most + 1, drawing.results, drawing.tools)};
}

// A section in its window, or in windows that meet at match lines.
struct Laid {
    SectionView whole;
    Tiling tiling;
};

Laid laid_out(const SectionContent& content, const Results& results, const Section& section, const PageBoxes& boxes,
              const Tools& tools) {
    const double denominator = needed_scale(content, results, section, boxes.window, scales_of(results.project, tools.style));
    Laid laid{view_of(content, results, section, boxes.window, denominator), {}};
    const SectionView& view = laid.whole;
    const Eigen::Vector2d half(boxes.window.width() / 2.0, boxes.window.height() / 2.0);
    const PaperFrame frame{boxes.window, Eigen::Vector2d(view.left_distance, view.bottom_up) + view.metres_per_mm * half,
                           view.metres_per_mm};
    laid.tiling = tiles_of(frame, denominator, shown_points(content, results, section), results.project, tools.style);
    return laid;
}

SectionView view_of(const SectionView& whole, const Tile& tile) {
    if (!tile.is_part()) return whole;
    const Eigen::Vector2d foot = tile.paper.drawn_from_paper({tile.paper.window.left, tile.paper.window.bottom});
    return {whole.frame, tile.paper.window, foot.x(), foot.y(), tile.paper.metres_per_mm};
}

// The points between the match lines of a part; holes stay, drawn as far as they come into it.
SectionContent within(SectionContent content, const Section& section, const Tile& tile) {
    if (!tile.is_part()) return content;
    const auto keep = [&](auto& all, const auto& point_of) {
        all.erase(std::remove_if(all.begin(), all.end(),
                                 [&](const auto& one) {
                                     const Eigen::Vector3d point = point_of(one);
                                     return !tile.holds({section.frame.distance(point), point.z()});
                                 }),
                  all.end());
    };
    keep(content.hits, [](const intercepts::Intercept* hit) { return hit->point; });
    keep(content.misses, [](const SectionContent::Miss& miss) { return miss.none->point; });
    keep(content.pierces, [](const forecast::Pierce* pierce) { return pierce->point; });
    keep(content.openings, [](const OpeningInSpace& opening) { return opening.point; });
    keep(content.outcrops, [](const tables::Outcrop* outcrop) { return outcrop->position; });
    return content;
}

std::vector<drawing::Sheet> sheets_of(const Results& results, const SectionSet& set, const Section& section,
                                      const GradeClasses& classes, const KeyMap& map, const RunFacts& run, const Tools& tools) {
    const SectionContent content = section_content(results, set, section);
    const auto boxes_on = [&](const Results& on) {
        const Paper paper = paper_of(on.project, tools.style);
        return page_boxes(paper.width_mm, paper.height_mm, tools.style.page.layout);
    };
    const auto draw = [&](const Laid& laid, std::size_t number, const Results& on) {
        const Tile& tile = laid.tiling.tiles[number];
        const SectionContent part = within(content, section, tile);
        SectionDrawing drawing{on, set, section, part, classes, tools, view_of(laid.whole, tile), tile, on.site.ground, {},
                               {}, {},  {},      {},   {},      {}};
        drawing.drawn.metres_per_mm = drawing.view.metres_per_mm;
        return draw_section(std::move(drawing), map, boxes_on(on), run);
    };
    const auto laid = [&](const Results& on) { return laid_out(content, on, section, boxes_on(on), tools); };
    const auto drawn = [&](const Results& on) {
        const Laid all = laid(on);
        return each_part(all.tiling, [&](std::size_t part) { return draw(all, part, on); });
    };
    return on_paper_that_bears(results, tools.style, {section.name, [&](const Results& on) { return laid(on).tiling; }, drawn});
}

}  // namespace

std::vector<drawing::Sheet> cross_sections(const Results& results, const SectionSet& set, const GradeClasses& classes,
                                           const KeyMap& map, const RunFacts& run, const Tools& tools) {
    std::vector<std::vector<drawing::Sheet>> made(set.sections.size());
    base::parallel_for(made.size(),
                       [&](std::size_t i) { made[i] = sheets_of(results, set, set.sections[i], classes, map, run, tools); });
    return joined(std::move(made));
}

}  // namespace selvage::sheets
