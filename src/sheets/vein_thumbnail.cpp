#include "sheets/vein_thumbnail.h"

#include "drawing/labels.h"
#include "drawing/shortened_name.h"
#include "sheets/ground_line.h"
#include "sheets/label_text.h"
#include "sheets/legend_signs.h"
#include "sheets/long_section_content.h"
#include "sheets/long_section_frame.h"
#include "sheets/long_section_marks.h"
#include "sheets/scale_bar.h"

#include <utility>

namespace selvage::sheets {

namespace {

constexpr double head_room = 5.0, foot_room = 7.5;  // mm
constexpr double least_height = 24.0;               // mm, of a window
constexpr std::size_t most_named = 14;
constexpr FreePaper free_paper{9.0, 5.0, 3.0, 1.0, 4.0};

void count_signs(VeinThumbnail& picture, const LongSectionContent& content) {
    picture.counts.assign(hit_signs, 0);
    for (const HitOnPlane& hit : content.hits) ++picture.counts[static_cast<std::size_t>(hit.sign)];
    picture.counts[static_cast<std::size_t>(HitSign::no_vein)] = content.misses.size();
    for (const PierceOnPlane& pierce : content.pierces) {
        const bool active = pierce.status == tables::HoleStatus::active;
        (!is_within_reach(*pierce.pierce) ? picture.beyond : active ? picture.active : picture.planned) = true;
    }
    picture.step_out = !content.step_outs.empty();
    picture.outcrops = !content.outcrops.empty();
}

// Where the model ends, for whatever reason; not along the ground where that is drawn.
Marks end_marks(const LongSectionContent& content, const LongSectionFrame& frame, const drawing::LineLook& look) {
    Marks marks;
    for (const BlockOnPlane& block : content.blocks)
        for (const veins::EdgeLine& edge : block.edges) {
            if (edge.reason == veins::EdgeReason::topography && frame.ground) continue;
            std::vector<Eigen::Vector2d> places;
            for (const Eigen::Vector3d& point : edge.points) places.push_back(block.layout.layout_from_world(point));
            marks.push_back(line_of(on_paper(places, frame.paper), look));
        }
    return marks;
}

struct Named {
    std::vector<drawing::Label> labels;
    void add(const std::string& hole, const Point& at, const drawing::TextLook& look, int priority) {
        if (labels.size() >= most_named) return;
        drawing::Label label;
        label.owner = hole;
        label.at = at;
        label.lines = {{hole, look}};
        label.priority = priority;
        label.clear_mm = 1.8;
        label.may_be_listed = false;
        labels.push_back(std::move(label));
    }
};

Marks name_marks(const LongSectionContent& content, const LongSectionFrame& frame, const std::set<std::string>& named,
                 const Tools& tools) {
    Named names;
    const drawing::TextLook& ink = tools.style.text("body_strong");
    for (const PierceOnPlane& pierce : content.pierces)
        if (named.count(pierce.pierce->hole) > 0)
            names.add(pierce.pierce->hole, frame.paper.paper_from_drawn(pierce.place), tools.style.text("planned_strong"), 4);
    for (const HitOnPlane& hit : content.hits)
        if (named.count(hit.hit->hole) > 0) names.add(hit.hit->hole, frame.paper.paper_from_drawn(hit.place), ink, 5);
    for (const MissOnPlane& miss : content.misses)
        if (named.count(miss.none->hole) > 0) names.add(miss.none->hole, frame.paper.paper_from_drawn(miss.place), ink, 5);
    drawing::Obstacles obstacles;
    obstacles.boxes = symbol_boxes(content, frame.paper, tools);
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
    VeinThumbnail picture;
    picture.edge = with_colour(tools.style.line("edge_distance"), vein_colour(vein, tools));
    const LongSectionFrame frame =
        low_frame(content, {box.left, box.bottom + foot_room, box.right, box.top - head_room}, results);
    picture.window = frame.paper.window;
    picture.bottom = picture.window.bottom - foot_room;
    picture.metres_per_mm = frame.paper.metres_per_mm;
    count_signs(picture, content);
    if (frame.ground)
        for (const GroundOnPlane::Piece& piece : frame.ground->pieces) {
            append(picture.marks, ground_line_marks(on_paper(piece.places, frame.paper), tools,
                                                    results.site.ground.has_given() && !piece.given));
            (piece.given || !results.site.ground.has_given() ? picture.ground : picture.ground_assumed) = true;
        }
    append(picture.marks, end_marks(content, frame, picture.edge));
    append(picture.marks, forecast_marks(content, frame.paper, tools));
    append(picture.marks, symbol_marks(content, frame.paper, tools));
    append(picture.marks, name_marks(content, frame, named, tools));
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
    picture.around.push_back(box_outline(picture.window, tools.style.line("window")));
    append(picture.around,
           small_scale_marks(picture.window, picture.metres_per_mm, ", laid on the vein", results.project.length_unit, tools));
    return picture;
}

DrawnSigns signs_of(const VeinThumbnail& picture) {
    DrawnSigns drawn;
    if (picture.planned) drawn.signs.insert({Sign::planned_pierce, Sign::planned_ellipse});
    if (picture.active) drawn.signs.insert({Sign::active_pierce, Sign::planned_ellipse});
    if (picture.beyond) drawn.signs.insert({Sign::beyond_end, Sign::planned_ellipse});
    if (picture.step_out) drawn.signs.insert(Sign::step_out);
    if (picture.ground) drawn.signs.insert(Sign::ground);
    if (picture.ground_assumed) drawn.signs.insert(Sign::ground_assumed);
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
