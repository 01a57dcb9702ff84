#include "sheets/symbols.h"

#include "drawing/symbols.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace selvage::sheets {

namespace {

struct HitLook {
    const char* shape;
    const char* size;  // role
    const char* edge;  // role
};

// By HitSign.
constexpr std::array<HitLook, hit_signs> hit_looks{{{"ring", "ring", "symbol_ring"},
                                                    {"triangle", "triangle", "symbol_edge"},
                                                    {"square", "square", "symbol_edge"},
                                                    {"diamond", "diamond", "symbol_edge"},
                                                    {"star", "star", "symbol_edge"},
                                                    {"ring_dot", "pending", "symbol_ring"},
                                                    {"ring", "ring", "symbol_ring"},
                                                    {"cross", "cross", "symbol_cross"}}};

Marks marks_of(std::vector<drawing::Shape> shapes) { return {shapes.begin(), shapes.end()}; }

drawing::SymbolLook look_of(const drawing::LineLook& edge, const drawing::Colour& fill, double halo_mm = 0.0) {
    drawing::SymbolLook look;
    look.edge = edge;
    look.fill = plain(fill);
    look.halo_mm = halo_mm;
    return look;
}

}  // namespace

drawing::Colour class_colour(int number, const Tools& tools) {
    const auto last = static_cast<int>(tools.style.classes.size()) - 1;
    return tools.style.classes[static_cast<std::size_t>(std::clamp(number, 0, last))];
}

drawing::Colour class_area_colour(int number, const Tools& tools) {
    const auto last = static_cast<int>(tools.style.classes_pale.size()) - 1;
    return tools.style.classes_pale[static_cast<std::size_t>(std::clamp(number, 0, last))];
}

double hit_symbol_width_mm(HitSign sign, const Tools& tools) {
    return tools.style.size_mm(hit_looks[static_cast<std::size_t>(sign)].size);
}

Marks hit_symbol(HitSign sign, const Point& at, const Tools& tools, bool halo) {
    const drawing::Style& style = tools.style;
    const HitLook& hit = hit_looks[static_cast<std::size_t>(sign)];
    const bool is_class = sign >= HitSign::class_1 && sign <= HitSign::class_4;
    const drawing::Colour fill = is_class ? class_colour(static_cast<int>(sign), tools) : style.colour("white");
    const double halo_mm = halo ? style.line("symbol_halo").width_mm : 0.0, width = hit_symbol_width_mm(sign, tools);
    Marks marks = marks_of(drawing::symbol(hit.shape, at, width, look_of(style.line(hit.edge), fill, halo_mm)));
    if (sign == HitSign::not_classed)
        marks.push_back(line_of({{at.x - width * 0.28, at.y}, {at.x + width * 0.28, at.y}}, style.line(hit.edge)));
    return marks;
}

bool has_little_core(const intercepts::Intercept& hit) {
    const bool little = std::find(hit.flags.begin(), hit.flags.end(), "low-recovery") != hit.flags.end();
    return little || hit.state == tables::PickState::lost;
}

Box little_core_box(HitSign sign, const Point& at, const Tools& tools) {
    constexpr double half_width = 1.75, below = 0.55, half_height = 0.3;  // mm
    const double y = at.y - hit_symbol_width_mm(sign, tools) / 2.0 - below;
    return {at.x - half_width, y - half_height, at.x + half_width, y + half_height};
}

Marks little_core_mark(HitSign sign, const Point& at, const Tools& tools) {
    constexpr double half_gap = 0.45;  // mm
    const Box box = little_core_box(sign, at, tools);
    const double y = (box.bottom + box.top) / 2.0;
    Marks marks;
    for (const drawing::LineLook& look :
         {with_colour(tools.style.line("symbol_cross"), tools.style.colour("white")), tools.style.line("symbol_cross")})
        for (const auto& [from, to] : {std::pair{box.left, at.x - half_gap}, std::pair{at.x + half_gap, box.right}})
            marks.push_back(line_of({{from, y}, {to, y}}, look));
    return marks;
}

CollarState collar_state(tables::HoleStatus status) {
    if (tables::is_drilled(status)) return CollarState::drilled;
    return status == tables::HoleStatus::active ? CollarState::active : CollarState::planned;
}

Marks collar_symbol(CollarState state, const Point& at, const Tools& tools) {
    const drawing::Style& style = tools.style;
    const double width = style.size_mm("collar");
    const drawing::Colour white = style.colour("white"), ink = style.colour("ink");
    if (state == CollarState::drilled) return {disc(at, width / 2.0, plain(ink))};
    if (state == CollarState::planned)
        return marks_of(drawing::symbol("ring", at, width, look_of(style.line("planned_edge"), white)));
    return marks_of(drawing::symbol("half_ring", at, width, look_of(with_colour(style.line("planned_edge"), ink), white)));
}

Marks outcrop_symbol(const Point& at, const Tools& tools) {
    const double half = tools.style.size_mm("outcrop") / 2.0;
    return {area_of({{at.x, at.y}, {at.x + half, at.y + 1.6 * half}, {at.x - half, at.y + 1.6 * half}},
                    plain(tools.style.colour("ink")))};
}

Marks planned_pierce_symbol(const Point& at, const Tools& tools, bool active, bool round_a_hit) {
    const drawing::Style& style = tools.style;
    const double width = round_a_hit ? style.size_mm("star") + 1.8 : style.size_mm("planned_pierce");
    const drawing::Colour fill = style.colour(active && !round_a_hit ? "planned" : "white");
    return marks_of(
        drawing::symbol("target", at, width, look_of(style.line("planned_edge"), fill, style.line("symbol_halo").width_mm)));
}

bool hides(const Point& a, const Point& b) {
    constexpr double apart_mm = 3.0;
    return std::hypot(a.x - b.x, a.y - b.y) < apart_mm;
}

Marks beyond_end_symbol(const Point& at, const Tools& tools) {
    const drawing::Style& style = tools.style;
    return marks_of(drawing::symbol("ring", at, style.size_mm("planned_pierce"),
                                    look_of(style.line("planned_beyond"), style.colour("white"))));
}

Marks less_likely_symbol(const Point& at, const Tools& tools) {
    constexpr double share = 0.5;  // of a likely one's width
    const drawing::Style& style = tools.style;
    return marks_of(drawing::symbol("ring", at, share * style.size_mm("planned_pierce"),
                                    look_of(style.line("planned_edge"), style.colour("white"))));
}

Marks step_out_symbol(const Point& at, std::size_t rank, const Tools& tools) {
    const drawing::Style& style = tools.style;
    const drawing::TextLook& look = style.text("step_rank");
    Marks marks = marks_of(
        drawing::symbol("hexagon", at, style.size_mm("hexagon"),
                        look_of(style.line("planned_edge"), style.colour("planned_pale"), style.line("symbol_halo").width_mm)));
    marks.push_back(words({at.x, at.y - drawing::cap_height_mm(tools.fonts, look) / 2.0}, std::to_string(rank), look,
                          drawing::Anchor::centre));
    return marks;
}

Marks target_cross(const Point& at, const Tools& tools) {
    constexpr double half = target_cross_mm / 2.0;
    const drawing::LineLook& look = tools.style.line("planned_tick");
    return {line_of({{at.x - half, at.y}, {at.x + half, at.y}}, look), line_of({{at.x, at.y - half}, {at.x, at.y + half}}, look)};
}

Marks target_marks(const Point& at, double radius_mm, const Tools& tools) {
    Marks marks = target_cross(at, tools);
    if (radius_mm <= 0.0) return marks;
    std::vector<Point> ring = drawing::ellipse(at, radius_mm, radius_mm, 0.0);
    ring.push_back(ring.front());
    marks.push_back(line_of(std::move(ring), tools.style.line("planned_beyond")));
    return marks;
}

Marks danger_symbol(const Point& at, const Tools& tools) {
    constexpr double half = danger_width_mm / 2.0, foot = 1.5, top = 2.4;
    const drawing::LineLook& edge = tools.style.line("end_of_hole");
    return {outlined_area({{at.x - half, at.y - foot}, {at.x + half, at.y - foot}, {at.x, at.y + top}},
                          plain(tools.style.colour("white")), edge),
            line_of({{at.x, at.y + 1.1}, {at.x, at.y - 0.2}}, edge),
            disc({at.x, at.y - 0.9}, 0.3, plain(tools.style.colour("ink")))};
}

Marks way_bracket(const std::vector<Point>& line, const Point& towards, const Tools& tools) {
    constexpr double stroke = 1.2;  // mm
    const drawing::LineLook& look = tools.style.line("planned_edge");
    Marks marks{line_of(line, look)};
    for (const Point& end : {line.front(), line.back()})
        marks.push_back(line_of({end, {end.x + stroke * towards.x, end.y + stroke * towards.y}}, look));
    return marks;
}

Marks north_arrow(const Point& foot, double height_mm, const Tools& tools) {
    const drawing::FillLook ink = plain(tools.style.colour("ink")), white = plain(tools.style.colour("white"));
    const drawing::LineLook& edge = tools.style.line("north_arrow");
    const double half = height_mm * 0.16, notch = height_mm * 0.22;
    const Point tip{foot.x, foot.y + height_mm}, heel{foot.x, foot.y + notch};
    return {outlined_area({tip, {foot.x + half, foot.y}, heel}, white, edge),
            outlined_area({tip, {foot.x - half, foot.y}, heel}, ink, edge),
            words({foot.x, tip.y + 1.0}, "N", tools.style.text("key_plan_name"), drawing::Anchor::centre)};
}

}  // namespace selvage::sheets
