#include "sheets/vein_thumbnail.h"

#include "base/text.h"
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
#include "sheets/thumbnail_names.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double head_room = 5.0, foot_room = 7.5;  // mm
constexpr double least_height = 24.0;               // mm, of a window
constexpr double ends_room = 4.5;                   // mm under the window of the map of the next holes
constexpr double elevations_mm = 12.0;              // least distance of its lines of elevation
constexpr double near_in_spacings = 2.0;            // of a hit to a rank
constexpr FreePaper free_paper{9.0, 5.0, 3.0, 1.0, 4.0};

void count_signs(VeinThumbnail& picture, const LongSectionContent& content) {
    picture.counts.assign(hit_signs, 0);
    for (const HitOnPlane& hit : content.hits) ++picture.counts[static_cast<std::size_t>(hit.sign)];
    picture.counts[static_cast<std::size_t>(HitSign::no_vein)] = content.misses.size();
    for (const PierceOnPlane& pierce : content.pierces) picture.pierces.insert({pierce.sign, Sign::planned_ellipse});
    if (!content.targets.empty()) picture.pierces.insert(Sign::target);
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

// Level lines at round elevations, their figures within both sides of the window but for where a symbol stands; what these cover.
struct Elevations {
    Marks lines, figures;
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
        made.lines.push_back(line_of({{window.left, y}, {window.right, y}}, tools.style.line("grid")));
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
            made.figures.emplace_back(std::move(text));
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
    picture.marks.insert(picture.marks.begin(), elevations.lines.begin(), elevations.lines.end());
    append(picture.marks, end_marks(content, frame, picture.edge, tools.style.line("fault")));
    append(picture.marks, elevations.figures);  // an edge is broken round them
    append(picture.marks, forecast_marks(content, frame.paper, tools));
    append(picture.marks, symbol_marks(content, frame.paper, tools));
    const double near = near_in_spacings * results.veins[vein].summary().hole_spacing;
    std::vector<drawing::Label> holes =
        step_outs ? named_round_ranks(content, frame.paper, near, tools) : named_holes(content, frame.paper, named, tools);
    std::vector<drawing::Label> faults = fault_names(faults_on_plane(content, results.veins[vein], frame.paper), tools);
    picture.faults = !faults.empty();
    std::move(faults.begin(), faults.end(), std::back_inserter(holes));
    SetNames names = set_names(holes, elevations.boxes, content, frame.paper, tools);
    append(picture.marks, std::move(names.marks));
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
    append(picture.around, small_scale_marks(over_scale, picture.metres_per_mm,
                                             ", laid on the vein" + (step_outs ? not_named_words(content, names.named) : ""),
                                             results.project.length_unit, tools));
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
