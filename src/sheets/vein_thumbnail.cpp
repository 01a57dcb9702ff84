#include "sheets/vein_thumbnail.h"

#include "base/text.h"
#include "drawing/labels.h"
#include "drawing/polyline.h"
#include "drawing/shortened_name.h"
#include "sheets/grid.h"
#include "sheets/ground_line.h"
#include "sheets/label_text.h"
#include "sheets/legend_signs.h"
#include "sheets/long_section_content.h"
#include "sheets/long_section_faults.h"
#include "sheets/long_section_frame.h"
#include "sheets/long_section_marks.h"
#include "sheets/scale_bar.h"
#include "sheets/symbols.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double head_room = 5.0, foot_room = 7.5;  // mm
constexpr double least_height = 24.0;               // mm, of a window
constexpr double ends_room = 4.5;                   // mm under the window of the map of the next holes
constexpr double elevations_mm = 12.0;              // least distance of its lines of elevation
constexpr double near_in_spacings = 2.0;            // of a hit to a rank
constexpr std::size_t most_named = 14;
constexpr FreePaper free_paper{9.0, 5.0, 3.0, 1.0, 4.0};

void count_signs(VeinThumbnail& picture, const LongSectionContent& content) {
    picture.counts.assign(hit_signs, 0);
    for (const HitOnPlane& hit : content.hits) ++picture.counts[static_cast<std::size_t>(hit.sign)];
    picture.counts[static_cast<std::size_t>(HitSign::no_vein)] = content.misses.size();
    for (const PierceOnPlane& pierce : content.pierces) picture.pierces.insert({pierce.sign, Sign::planned_ellipse});
    picture.step_out = !content.step_outs.empty();
    picture.outcrops = !content.outcrops.empty();
}

// Where the model ends, at a fault as a fault; not along the ground where that is drawn.
Marks end_marks(const LongSectionContent& content, const LongSectionFrame& frame, const drawing::LineLook& look,
                const drawing::LineLook& at_fault) {
    Marks marks;
    for (const BlockOnPlane& block : content.blocks)
        for (const veins::EdgeLine& edge : block.edges) {
            if (edge.reason == veins::EdgeReason::topography && frame.ground) continue;
            std::vector<Eigen::Vector2d> places;
            for (const Eigen::Vector3d& point : edge.points) places.push_back(block.layout.layout_from_world(point));
            marks.push_back(line_of(on_paper(places, frame.paper), edge.reason == veins::EdgeReason::fault ? at_fault : look));
        }
    return marks;
}

// The middle of the longest end at each fault.
std::vector<std::pair<std::string, Point>> fault_places(const FaultsOnPlane& faults) {
    std::vector<std::pair<std::string, Point>> places;
    for (std::size_t i = 0; i < faults.names.size(); ++i) {
        const auto longest = std::max_element(faults.ends[i].begin(), faults.ends[i].end(), [](const auto& a, const auto& b) {
            return drawing::length_of(a) < drawing::length_of(b);
        });
        if (longest != faults.ends[i].end() && !longest->empty())
            places.emplace_back(faults.names[i], (*longest)[longest->size() / 2]);
    }
    return places;
}

// What is named on the map of the next holes: what is planned, and what they lie near.
struct Named {
    std::vector<drawing::Label> labels;
    void add(const std::string& hole, const Point& at, const drawing::TextLook& look, int priority, double clear_mm = 1.8) {
        drawing::Label label;
        label.owner = hole;
        label.at = at;
        label.lines = {{hole, look}};
        label.priority = priority;
        label.clear_mm = clear_mm;
        label.may_be_listed = false;
        labels.push_back(std::move(label));
    }
};

// Holes asked for, each with its sign; no more than there is room for.
Named named_holes(const LongSectionContent& content, const PaperFrame& frame, const std::set<std::string>& named,
                  const Tools& tools) {
    Named names;
    const drawing::TextLook& ink = tools.style.text("body_strong");
    const auto wanted = [&](const std::string& hole) { return named.count(hole) > 0 && names.labels.size() < most_named; };
    for (const PierceOnPlane& pierce : content.pierces)
        if (wanted(pierce.pierce->hole))
            names.add(pierce.pierce->hole, frame.paper_from_drawn(pierce.place), tools.style.text("planned_strong"), 4);
    for (const HitOnPlane& hit : content.hits)
        if (wanted(hit.hit->hole)) names.add(hit.hit->hole, frame.paper_from_drawn(hit.place), ink, 5);
    for (const MissOnPlane& miss : content.misses)
        if (wanted(miss.none->hole)) names.add(miss.none->hole, frame.paper_from_drawn(miss.place), ink, 5);
    return names;
}

// All that is planned or active, and the hits and misses near a rank where there is room beside them.
Named named_round_ranks(const LongSectionContent& content, const PaperFrame& frame, double near_m, const Tools& tools) {
    Named names;
    const drawing::TextLook& body = tools.style.text("body");
    const double ticks = tools.style.size_mm("planned_pierce") / 2.0 + tools.style.size_mm("planned_pierce_tick");
    for (const PierceOnPlane& pierce : content.pierces)
        names.add(pierce.pierce->hole, frame.paper_from_drawn(pierce.place), tools.style.text("planned_strong"), 4, ticks);
    const auto is_near = [&](const Eigen::Vector2d& place) {
        return std::any_of(content.step_outs.begin(), content.step_outs.end(),
                           [&](const StepOutOnPlane& rank) { return (rank.place - place).norm() <= near_m; });
    };
    std::vector<Point> signs;
    for (const HitOnPlane& hit : content.hits) signs.push_back(frame.paper_from_drawn(hit.place));
    for (const MissOnPlane& miss : content.misses) signs.push_back(frame.paper_from_drawn(miss.place));
    for (const PierceOnPlane& pierce : content.pierces) signs.push_back(frame.paper_from_drawn(pierce.place));
    const auto beside = [&](const std::string& hole, const Eigen::Vector2d& place, HitSign sign) {
        if (!is_near(place)) return;
        const Point at = frame.paper_from_drawn(place);
        names.add(hole, at, body, 3, hit_symbol_width_mm(sign, tools) / 2.0);
        names.labels.back().may_lead = false;
        for (const Point& other : signs)
            if (other.x != at.x || other.y != at.y) names.labels.back().not_at.push_back(other);
    };
    for (const HitOnPlane& hit : content.hits) beside(hit.hit->hole, hit.place, hit.sign);
    for (const MissOnPlane& miss : content.misses) beside(miss.none->hole, miss.place, HitSign::no_vein);
    return names;
}

Marks name_marks(const Named& names, const std::vector<Box>& taken, const LongSectionContent& content,
                 const LongSectionFrame& frame, const Tools& tools) {
    drawing::Obstacles obstacles;
    obstacles.boxes = symbol_boxes(content, frame.paper, tools);
    obstacles.boxes.insert(obstacles.boxes.end(), taken.begin(), taken.end());
    drawing::LabelRules rules;
    rules.window = drawing::grown(frame.paper.window, -0.8);
    rules.leader_max_mm = 18.0;
    Marks marks;
    for (const drawing::PlacedLabel& one : drawing::place_labels(names.labels, obstacles, rules, tools.fonts).labels) {
        if (one.placing == drawing::Placing::listed) continue;
        if (!one.leader.empty()) marks.push_back(line_of(one.leader, tools.style.line("leader")));
        for (drawing::Text& text :
             drawing::texts_of(names.labels[one.label], one, rules, tools.fonts, tools.style.size_mm("halo")))
            marks.emplace_back(std::move(text));
    }
    return marks;
}

// Level lines at round elevations, their figures within both sides of the window but for where a symbol stands; what these cover.
struct Elevations {
    Marks marks;
    std::vector<Box> boxes;
};

Elevations elevations_of(const LongSectionContent& content, const PaperFrame& frame, const base::MapFrame& map,
                         const Tools& tools) {
    const double unit = base::metres_per(map.unit), units_per_mm = frame.metres_per_mm * content.layout.rise() / unit;
    const Box& window = frame.window;
    const std::vector<Box> symbols = symbol_boxes(content, frame, tools);
    const double foot =
        (content.layout.elevation_at(frame.drawn_from_paper({window.left, window.bottom}).y()) + map.origin.z()) / unit;
    const double step = grid_step(units_per_mm * elevations_mm / 35.0);
    const drawing::TextLook& look = tools.style.text("axis_title");
    Elevations made;
    for (double value = std::ceil(foot / step) * step; value <= foot + window.height() * units_per_mm; value += step) {
        const double y = window.bottom + (value - foot) / units_per_mm;
        made.marks.push_back(line_of({{window.left, y}, {window.right, y}}, tools.style.line("grid")));
        const std::string figure = "El " + base::significant(value, 8);
        for (const bool at_left : {true, false}) {
            drawing::Text text = std::get<drawing::Text>(
                words({at_left ? window.left + 0.8 : window.right - 0.8, y + 0.6}, figure, look,
                      at_left ? drawing::Anchor::left : drawing::Anchor::right, tools.style.size_mm("halo")));
            const Box box = box_of_words(text, tools.fonts);
            const bool hidden =
                std::any_of(symbols.begin(), symbols.end(), [&box](const Box& symbol) { return drawing::overlap(symbol, box); });
            if (hidden || box.top > window.top - 0.4) continue;
            made.boxes.push_back(box);
            made.marks.emplace_back(std::move(text));
        }
    }
    return made;
}

// The ends of the strike under the window, by name and bearing, as on the long section.
Marks end_marks_under(const Box& window, const PlaneLayout& layout, const Tools& tools) {
    const base::Azimuth right = layout.right_end(), left = base::Azimuth::degrees(right.degrees() + 180.0);
    const drawing::TextLook& look = tools.style.text("body_strong");
    const auto end = [](base::Azimuth towards) { return compass_point(towards) + " " + bearing_text(towards); };
    const double y = window.bottom - 3.2;
    return {words({window.left, y}, end(left), look), words({window.right, y}, end(right), look, drawing::Anchor::right)};
}

// The lowest window from a box's top in which the vein has as large a scale as in all of it.
LongSectionFrame low_frame(const LongSectionContent& content, Box window, const Results& results) {
    const bool feet = results.project.length_unit != base::LengthUnit::metre;
    const auto frame_in = [&](const Box& box) {
        return long_section_frame(content, results.site.ground, box, {feet, 1.0}, free_paper);
    };
    LongSectionFrame frame = frame_in(window);
    while (window.height() > least_height) {
        window.bottom += 2.0;
        LongSectionFrame lower = frame_in(window);
        if (lower.denominator > frame.denominator) break;
        frame = std::move(lower);
    }
    return frame;
}

}  // namespace

VeinThumbnail vein_thumbnail(std::size_t vein, const Box& box, const std::set<std::string>& named, const Results& results,
                             const GradeClasses& classes, const Tools& tools, bool step_outs) {
    LongSectionContent content = long_section_content(results, vein, classes);
    if (!step_outs) content.step_outs.clear();
    const double under = foot_room + (step_outs ? ends_room : 0.0);
    VeinThumbnail picture;
    picture.edge = with_colour(tools.style.line("edge_distance"), vein_colour(vein, tools));
    const LongSectionFrame frame = low_frame(content, {box.left, box.bottom + under, box.right, box.top - head_room}, results);
    picture.window = frame.paper.window;
    picture.bottom = picture.window.bottom - under;
    picture.metres_per_mm = frame.paper.metres_per_mm;
    count_signs(picture, content);
    if (frame.ground)
        for (const GroundOnPlane::Piece& piece : frame.ground->pieces) {
            append(picture.marks, ground_line_marks(on_paper(piece.places, frame.paper), tools,
                                                    results.site.ground.has_given() && !piece.given));
            (piece.given || !results.site.ground.has_given() ? picture.ground : picture.ground_assumed) = true;
        }
    const Elevations elevations = step_outs ? elevations_of(content, frame.paper, results.records.frame, tools) : Elevations{};
    picture.marks.insert(picture.marks.begin(), elevations.marks.begin(), elevations.marks.end());
    append(picture.marks, end_marks(content, frame, picture.edge, tools.style.line("fault")));
    append(picture.marks, forecast_marks(content, frame.paper, tools));
    append(picture.marks, symbol_marks(content, frame.paper, tools));
    Named names =
        step_outs ? named_round_ranks(content, frame.paper, near_in_spacings * results.veins[vein].summary().hole_spacing, tools)
                  : named_holes(content, frame.paper, named, tools);
    for (const auto& [fault, at] : fault_places(faults_on_plane(content, results.veins[vein], frame.paper))) {
        names.add(fault, at, tools.style.text("body"), 3);
        picture.faults = true;
    }
    append(picture.marks, name_marks(names, elevations.boxes, content, frame, tools));
    const std::string& name = results.veins[vein].name();
    const base::Azimuth looking = content.layout.looking();
    const drawing::TextLook& look = tools.style.text("heading");
    const std::string way = ", looking " + compass_point(looking) + " (" + bearing_text(looking) + ")";
    const double room = box.width() - drawing::text_width_mm(tools.fonts, look, way);
    drawing::Text heading{{box.left, box.top - 3.4},
                          drawing::shortened_name(tools.fonts, look, name, room) + way,
                          look,
                          drawing::Anchor::left,
                          false,
                          0.0,
                          destination_of_sheet("long-section", name)};
    picture.around.emplace_back(std::move(heading));
    Box over_scale = picture.window;
    if (step_outs) {
        append(picture.around, end_marks_under(picture.window, content.layout, tools));
        over_scale.bottom -= ends_room;
    }
    picture.around.push_back(box_outline(picture.window, tools.style.line("window")));
    append(picture.around,
           small_scale_marks(over_scale, picture.metres_per_mm, ", laid on the vein", results.project.length_unit, tools));
    return picture;
}

DrawnSigns signs_of(const VeinThumbnail& picture) {
    DrawnSigns drawn;
    drawn.signs = picture.pierces;
    if (picture.step_out) drawn.signs.insert(Sign::step_out);
    if (picture.ground) drawn.signs.insert(Sign::ground);
    if (picture.ground_assumed) drawn.signs.insert(Sign::ground_assumed);
    if (picture.faults) drawn.signs.insert(Sign::fault_plane);
    if (picture.outcrops) drawn.signs.insert(Sign::outcrop);
    return drawn;
}

void put_thumbnail(drawing::Sheet& sheet, VeinThumbnail picture, base::LengthUnit unit) {
    drawing::Window window;
    window.box = picture.window;
    window.metres_per_mm = picture.metres_per_mm;
    window.unit = base::symbol_of(unit);
    window.units_per_mm = picture.metres_per_mm / base::metres_per(unit);
    sheet.windows.push_back(window);
    put(sheet, Layer::veins, sheet.windows.size(), std::move(picture.marks));
    put(sheet, Layer::veins, 0, std::move(picture.around));
}

}  // namespace selvage::sheets
