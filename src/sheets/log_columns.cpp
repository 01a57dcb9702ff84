#include "sheets/log_columns.h"

#include "base/text.h"
#include "drawing/clipping.h"
#include "orientation/core_angles.h"
#include "sheets/assay_bars.h"
#include "sheets/label_text.h"
#include "sheets/legend_signs.h"
#include "sheets/section_content.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace selvage::sheets {

namespace {

enum ColumnPlace : std::size_t { depths, rock, vein, structures, core, grades };
constexpr std::array<double, 6> strip_widths{8.0, 9.0, 4.0, 6.0, 7.0, 12.0};
constexpr std::array<double, 6> window_widths{9.0, 11.0, 9.5, 17.5, 7.0, 20.0};
constexpr double text_gap = 2.9;  // mm between lines of text in a window
constexpr double least_pick_mm = 0.6, least_number_mm = 12.0;
constexpr double said_width = 1.6, pick_width = 3.4;  // mm in the vein column: of a range, of a pick in a window
constexpr double figures_apart = 3.0;                 // mm between the figures of an axis
constexpr double miss_width = 1.8;                    // mm
constexpr double least_not_there_mm = 1.6, drilling_width = 0.8, least_drilling_mm = 1.2;
constexpr double end_air = 2.2;  // mm between a window's ends and the middle of its words

const char* no_grade_words(tables::SampleStatus status) {
    switch (status) {
        case tables::SampleStatus::pending:
        case tables::SampleStatus::sent: return "pending";
        case tables::SampleStatus::not_sent: return "not sent";
        case tables::SampleStatus::failed: return "failed";
        default: return "not assayed";
    }
}

struct GradeWords {
    double depth = 0.0, bar_end = 0.0;  // m; mm on paper
    std::string said;
};

class Stretch {
public:
    Stretch(const LogStretch& stretch, const LoggedHole& hole, std::optional<std::size_t> analyte, const Results& results,
            LogSigns& signs, const Tools& tools)
        : at_(stretch), hole_(hole), analyte_(analyte), results_(results), signs_(signs), tools_(tools) {
        double x = stretch.box.left;
        const double factor = stretch.box.width() / (stretch.is_window ? log_window_width : log_strip_width);
        for (const double width : stretch.is_window ? window_widths : strip_widths) {
            edges_.push_back(x);
            x += factor * width;
        }
        edges_.push_back(x);
    }

    Marks drawn() {
        if (at_.is_first) draw_heads();
        draw_rock();
        draw_vein();
        draw_not_there();
        draw_left_out();
        draw_said();
        draw_misses();
        draw_structures();
        draw_core();
        draw_grades();
        draw_depths();
        draw_drilling();
        draw_frame();
        return std::move(marks_);
    }

private:
    double left(ColumnPlace column) const { return edges_[column]; }
    double right(ColumnPlace column) const { return edges_[column + 1]; }
    double middle(ColumnPlace column) const { return (left(column) + right(column)) / 2.0; }
    const drawing::TextLook& text(const char* role) const { return tools_.style.text(role); }
    const drawing::LineLook& line(const char* role) const { return tools_.style.line(role); }
    double cap() const { return drawing::cap_height_mm(tools_.fonts, text("body")); }
    // The part of an interval that the stretch shows, as a box of a column's width; nothing where it shows none.
    std::optional<Box> box_of(double from, double to, double x0, double x1, double least = 0.0) const {
        const double a = std::max(from, at_.from), b = std::min(to, at_.to);
        if (b < a || (b == a && from != to)) return std::nullopt;
        const double half = std::max(least, (b - a) / at_.metres_per_mm) / 2.0, y = at_.y((a + b) / 2.0);
        return Box{x0, std::max(at_.box.bottom, y - half), x1, std::min(at_.box.top, y + half)};
    }

    std::string grade_said(const tables::Assay& assay, const tables::AssayValue& value) const;
    double grade_room() const { return right(grades) - left(grades) - 0.4; }
    std::vector<std::pair<double, std::string>> grade_lines() const;
    void draw_heads();
    void draw_rock();
    void draw_vein();
    void goes_on(const Point& end, double up);
    void draw_said();
    void draw_structures();
    void draw_core();
    void draw_grades();
    void draw_depths();
    void draw_drilling();
    void draw_not_there();
    void draw_left_out();
    void draw_misses();
    void name_upright(const std::string& name, double x, double bottom, double top);
    void draw_frame();
    void name_rock(const Box& box, const std::string& name, const drawing::FillLook& look);
    void structure_words(std::vector<std::pair<double, std::string>> wanted);
    void grade_words(std::vector<GradeWords> wanted);

    const LogStretch& at_;
    const LoggedHole& hole_;
    std::optional<std::size_t> analyte_;
    const Results& results_;
    LogSigns& signs_;
    const Tools& tools_;
    std::vector<double> edges_;
    Marks marks_;
};

void Stretch::draw_heads() {
    const std::string unit = base::symbol_of(results_.project.length_unit);
    const std::array<std::string, 6> heads{
        "depth, " + unit, "rock",      "vein",
        "structure",      "rec., RQD", analyte_ ? results_.records.analytes[*analyte_].label() + ", log" : "grade"};
    const std::vector<std::pair<double, std::string>> lines = grade_lines();
    double longest = 0.0;
    for (const auto& [x, figure] : lines)
        longest = std::max(longest, drawing::text_width_mm(tools_.fonts, text("axis"), figure) + 1.8);
    for (std::size_t i = 0; i < heads.size(); ++i) {
        const double x = (edges_[i] + edges_[i + 1]) / 2.0 + cap() / 2.0;
        const double axis = i == core ? cap() + 1.8 : i == grades ? longest : 0.0;  // mm, of the figures under the head
        marks_.emplace_back(
            drawing::Text{{x, at_.box.top + 1.2 + axis}, heads[i], text("table_head"), drawing::Anchor::left, true, 0.0, {}});
    }
    marks_.push_back(words({left(core) + 0.1, at_.box.top + 0.9}, "0", text("axis")));
    marks_.push_back(words({right(core) - 0.1, at_.box.top + 0.9}, "100", text("axis"), drawing::Anchor::right));
    for (const auto& [x, figure] : lines)
        if (!figure.empty())
            marks_.emplace_back(
                drawing::Text{{x + cap() / 2.0, at_.box.top + 1.2}, figure, text("axis"), drawing::Anchor::left, true, 0.0, {}});
}

// Where each tenfold of a sample's bar stands; the first three have a figure.
std::vector<std::pair<double, std::string>> Stretch::grade_lines() const {
    std::vector<std::pair<double, std::string>> lines;
    if (!analyte_) return lines;
    const std::string& unit = results_.records.analytes[*analyte_].unit;
    for (double grade = 10.0 * bar_zero(unit); grade < 1e5 * bar_zero(unit); grade *= 10.0)
        if (const double x = bar_length_mm(grade, unit, tools_); x < grade_room() - (at_.is_window ? 8.0 : 0.0))
            lines.emplace_back(left(grades) + x, grade < 2000.0 * bar_zero(unit) ? base::significant(grade, 3) : "");
    double last = -figures_apart;
    for (auto& [x, figure] : lines) {
        if (x - last < figures_apart) figure.clear();
        if (!figure.empty()) last = x;
    }
    return lines;
}

// The rock's name where its field is wide enough, across or upright, on the plain tint.
void Stretch::name_rock(const Box& box, const std::string& name, const drawing::FillLook& look) {
    const drawing::TextLook& body = text("body");
    const double width = drawing::text_width_mm(tools_.fonts, body, name), air = 0.7;
    const Point centre{(box.left + box.right) / 2.0, (box.bottom + box.top) / 2.0};
    const bool across = width + 2.0 * air <= box.width() && box.height() >= cap() + 2.0 * air + 0.6;
    if (!across && (width + 2.0 * air > box.height() || box.width() < cap() + 2.0 * air)) return;
    const double x = across ? width / 2.0 : cap() / 2.0, y = across ? cap() / 2.0 : width / 2.0;
    marks_.push_back(
        box_area(drawing::grown({centre.x - x, centre.y - y, centre.x + x, centre.y + y}, air * 0.9), plain(look.colour)));
    drawing::Text made{{across ? centre.x : centre.x + cap() / 2.0, across ? centre.y - cap() / 2.0 : centre.y},
                       name,
                       body,
                       drawing::Anchor::centre,
                       !across,
                       0.0,
                       {}};
    marks_.emplace_back(std::move(made));
}

void Stretch::draw_rock() {
    for (const tables::GeologyInterval* row : hole_.geology) {
        if (row->rock.empty()) continue;
        const std::optional<Box> box = box_of(row->from, row->to, left(rock), right(rock));
        if (!box || box->height() < 0.05) continue;
        const drawing::FillLook look = rock_look(row->rock, results_, tools_);
        const std::vector<Point> ring{
            {box->left, box->bottom}, {box->right, box->bottom}, {box->right, box->top}, {box->left, box->top}};
        marks_.push_back(outlined_area(ring, look, line("strip_edge")));
        signs_.rocks.insert(base::folded(row->rock));
        name_rock(*box, row->rock, look);
    }
}

void Stretch::draw_vein() {
    double free_below = at_.box.top + 1.0;
    for (const intercepts::Intercept* hit : hole_.hits) {
        const double bar_right = at_.is_window ? left(vein) + pick_width : right(vein) - said_width - 0.4;
        const std::optional<Box> box = box_of(hit->from, hit->to, left(vein), bar_right, least_pick_mm);
        const std::size_t number = vein_number(results_, hit->vein);
        if (!box || number >= results_.veins.size()) continue;
        const drawing::Colour colour = vein_colour(number, tools_);
        const bool whole = hit->state == tables::PickState::vein;
        marks_.push_back(whole ? box_area(*box, plain(colour)) : box_area(*box, plain(vein_pale(number, tools_))));
        if (!whole) marks_.push_back(box_outline(*box, with_colour(line("contact_mark"), colour)));
        signs_.picked.insert(number);
        signs_.other_state = signs_.other_state || !whole;
        if (!at_.is_window) continue;
        const std::string name = hit->vein + ", " + std::to_string(hit->certainty);
        const double width = drawing::text_width_mm(tools_.fonts, text("body_strong"), name);
        const double top = std::min({(box->top + box->bottom + width) / 2.0, free_below - 0.8, at_.box.top - 0.6});
        const double bottom = std::max(top - width, at_.box.bottom + 0.6);
        if (bottom + width > free_below || bottom + width > at_.box.top) continue;
        signs_.certainty = true;
        marks_.emplace_back(
            drawing::Text{{bar_right + 0.7 + cap(), bottom}, name, text("body_strong"), drawing::Anchor::left, true, 0.0, {}});
        free_below = bottom;
    }
}

// The core that was looked at, open, struck out from corner to corner: nothing of it is a point.
void Stretch::draw_not_there() {
    for (const intercepts::NoVeinPick* pick : hole_.not_there) {
        const double side = at_.is_window ? left(vein) + pick_width : right(vein) - said_width - 0.4;
        const std::optional<Box> box = box_of(pick->from, pick->to, left(vein) + 0.3, side, least_not_there_mm);
        if (!box) continue;
        marks_.push_back(box_outline(*box, line("contact_mark")));
        marks_.push_back(line_of({{box->left, box->bottom}, {box->right, box->top}}, line("contact_mark")));
        marks_.push_back(line_of({{box->left, box->top}, {box->right, box->bottom}}, line("contact_mark")));
        signs_.not_there = true;
        if (at_.is_window)
            name_upright(pick->vein + (pick->state == tables::PickState::faulted ? ", faulted out" : ", not there"), side + 0.7,
                         box->bottom, box->top);
    }
}

// Upright words beside a mark that reaches from bottom to top, mm, where no other words stand; x: their left.
void Stretch::name_upright(const std::string& name, double x, double bottom, double top) {
    const double width = drawing::text_width_mm(tools_.fonts, text("body"), name);
    const double foot =
        std::clamp((bottom + top - width) / 2.0, at_.box.bottom + 0.6, std::max(at_.box.bottom + 0.6, at_.box.top - 0.6 - width));
    const Box taken{x, foot, x + cap(), foot + width};
    const bool free = std::none_of(marks_.begin(), marks_.end(), [&](const Mark& mark) {
        const auto* other = std::get_if<drawing::Text>(&mark);
        return other != nullptr && drawing::overlap(taken, box_of_words(*other, tools_.fonts));
    });
    if (free && foot + width <= at_.box.top)
        marks_.emplace_back(drawing::Text{{x + cap(), foot}, name, text("body"), drawing::Anchor::left, true, 0.0, {}});
}

// A pick that an error leaves out: open, its outline broken.
void Stretch::draw_left_out() {
    for (const LeftOutPick& pick : hole_.left_out) {
        const double side = at_.is_window ? left(vein) + pick_width : right(vein) - said_width - 0.4;
        const std::optional<Box> box = box_of(*pick.from, *pick.to, left(vein) + 0.3, side, least_not_there_mm);
        if (!box) continue;
        marks_.push_back(box_outline(*box, line("left_out")));
        signs_.left_out = true;
        if (at_.is_window) name_upright(pick.vein + ", left out: error", side + 0.7, box->bottom, box->top);
    }
}

// A miss has the cross that it has on the sections, where the vein should have been, and says so; where core was looked at for
// the vein, that is struck out instead.
void Stretch::draw_misses() {
    for (const SaidDepth& said : hole_.said) {
        const bool looked_at = std::any_of(hole_.not_there.begin(), hole_.not_there.end(),
                                           [&](const intercepts::NoVeinPick* pick) { return pick->vein == said.vein; });
        if (!said.missed || looked_at || said.depth < at_.from || said.depth > at_.to) continue;
        const double half = miss_width / 2.0, x = left(vein) + 0.2 + half, y = at_.y(said.depth);
        for (const double up : {-1.0, 1.0})
            marks_.push_back(line_of({{x - half, y - up * half}, {x + half, y + up * half}}, line("contact_mark")));
        signs_.missed = true;
        const std::string name = said.vein + ": no vein";
        const double width = drawing::text_width_mm(tools_.fonts, text("body"), name), room = y - half - 0.8 - at_.box.bottom;
        const double below = y - half - 0.8 - width, above = y + half + 0.8;
        name_upright(name, x - cap() / 2.0, room >= width ? below : above, (room >= width ? below : above) + width);
    }
}

// A bar beside the depths along what the drillers told of, a point of it as a short one; in words in the side list.
void Stretch::draw_drilling() {
    for (const tables::DrillingEvent* event : hole_.drilling) {
        const std::optional<Box> box = box_of(event->depth, event->to.value_or(event->depth), right(depths) - drilling_width,
                                              right(depths), least_drilling_mm);
        if (!box) continue;
        marks_.push_back(box_area(*box, plain(tools_.style.colour("ink"))));
        signs_.drilling = true;
    }
}

// A point at the cut end of a range: it goes on beyond the stretch, up or down.
void Stretch::goes_on(const Point& end, double up) {
    const double half = said_width / 2.0 + 0.3, high = 1.5;
    marks_.push_back(area_of({{end.x - half, end.y - up * high}, {end.x + half, end.y - up * high}, end},
                             plain(tools_.style.colour("planned"))));
    signs_.said_goes_on = true;
}

void Stretch::draw_said() {
    for (const SaidDepth& said : hole_.said) {
        const double x1 = right(vein) - 0.1;
        const std::optional<Box> box = box_of(said.p10, said.p90, x1 - said_width, x1, 0.4);
        if (!box) continue;
        marks_.push_back(box_outline(*box, line("planned_tick")));
        if (said.p10 < at_.from - 1e-6) goes_on({x1 - said_width / 2.0, box->top}, 1.0);
        if (said.p90 > at_.to + 1e-6) goes_on({x1 - said_width / 2.0, box->bottom}, -1.0);
        if (said.depth >= at_.from && said.depth <= at_.to)
            marks_.push_back(
                line_of({{x1 - said_width - 0.5, at_.y(said.depth)}, {x1, at_.y(said.depth)}}, line("planned_rule")));
        (said.is_forecast ? signs_.forecast : signs_.said) = true;
    }
}

void Stretch::structure_words(std::vector<std::pair<double, std::string>> wanted) {
    std::vector<double> places;
    for (const auto& [depth, said] : wanted) places.push_back(-at_.y(depth));
    const std::vector<double> spread_places = spread(places, text_gap, -at_.box.top + end_air, -at_.box.bottom - end_air);
    const double x = left(structures) + 7.2;
    for (std::size_t i = 0; i < spread_places.size(); ++i) {
        const double y = -spread_places[i];
        marks_.push_back(line_of({{left(structures) + 5.4, -places[i]}, {x - 0.4, y}}, line("leader")));
        marks_.push_back(words({x, y - cap() / 2.0}, wanted[i].second, text("body")));
    }
}

void Stretch::draw_structures() {
    const double centre = at_.is_window ? left(structures) + 2.9 : middle(structures);
    const double half = at_.is_window ? 2.4 : 2.2;
    std::vector<std::pair<double, std::string>> said;
    for (const orientation::Orientation* row : hole_.structures) {
        if (row->depth < at_.from || row->depth > at_.to) continue;
        const Eigen::Vector3d down = paths::direction_at(*hole_.path, row->depth);
        if (!row->pole && !row->alpha) continue;
        const base::Angle alpha = row->pole ? orientation::alpha_of(down, *row->pole) : *row->alpha;
        const std::string look = structure_look(row->kind, results_.project.core_angles);
        const double x = half * alpha.sin(), y = half * alpha.cos(), at = at_.y(row->depth);
        for (const auto& piece : drawing::clipped_line({{centre - x, at - y}, {centre + x, at + y}}, at_.box))
            marks_.push_back(line_of(piece, line((look + "_mark").c_str())));
        if (look == "fault") append(marks_, fault_bars({centre, at}, {x, y}, at_.box, tools_));
        signs_.structures.insert(look);
        if (!row->pole) {
            said.emplace_back(row->depth, "α " + base::fixed(alpha.degrees(), 0));
            continue;
        }
        const base::Attitude attitude = base::attitude_of_normal(*row->pole);
        said.emplace_back(row->depth,
                          base::fixed(attitude.dip.degrees(), 0) + "/" + bearing_text(attitude.dip_direction).substr(0, 3));
    }
    std::stable_sort(said.begin(), said.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    if (at_.is_window) structure_words(std::move(said));
}

void Stretch::draw_core() {
    const double width = right(core) - left(core);
    for (const tables::Recovery* row : hole_.recovery) {
        const auto share = [&](double value) { return left(core) + width * std::clamp(value, 0.0, 1.0); };
        if (row->recovery)
            if (const std::optional<Box> box = box_of(row->from, row->to, left(core), share(*row->recovery));
                box && box->height() > 0.05) {
                marks_.push_back(box_area(*box, plain(tools_.style.colour("recovered"))));
                signs_.recovery = true;
            }
        if (row->rqd)
            if (const std::optional<Box> box = box_of(row->from, row->to, share(*row->rqd), share(*row->rqd));
                box && box->height() > 0.05) {
                marks_.push_back(line_of({{box->left, box->bottom}, {box->left, box->top}}, line("trace")));
                signs_.rqd = true;
            }
    }
}

void Stretch::grade_words(std::vector<GradeWords> wanted) {
    std::stable_sort(wanted.begin(), wanted.end(), [](const GradeWords& a, const GradeWords& b) { return a.depth < b.depth; });
    std::vector<double> places;
    for (const GradeWords& one : wanted) places.push_back(-at_.y(one.depth));
    const std::vector<double> spread_places = spread(places, text_gap, -at_.box.top + end_air, -at_.box.bottom - end_air);
    for (std::size_t i = 0; i < spread_places.size(); ++i) {
        const double y = -spread_places[i], width = drawing::text_width_mm(tools_.fonts, text("body"), wanted[i].said);
        const double x = right(grades) - 0.5 - width;
        marks_.push_back(line_of({{std::min(wanted[i].bar_end + 0.3, x - 0.6), -places[i]}, {x - 0.4, y}}, line("leader")));
        marks_.push_back(words({x, y - cap() / 2.0}, wanted[i].said, text("body")));
    }
}

// As the laboratory wrote it: what is below its limit stands in the records as a share of the limit.
std::string Stretch::grade_said(const tables::Assay& assay, const tables::AssayValue& value) const {
    if (!value.value) return no_grade_words(assay.status);
    const tables::Analyte& analyte = results_.records.analytes[*analyte_];
    if (!value.below_detection) return (value.over_limit ? "> " : "") + grade_figure(*value.value, analyte.unit);
    double share = settings::AnalyteSetting{}.below_detection;
    for (const settings::AnalyteSetting& setting : results_.project.analytes)
        if (setting.name == analyte.name) share = setting.below_detection;
    return share > 0.0 ? "< " + grade_figure(*value.value / share, analyte.unit) : "below limit";
}

void Stretch::draw_grades() {
    if (!analyte_) return;
    const std::string& unit = results_.records.analytes[*analyte_].unit;
    for (const auto& [x, figure] : grade_lines())
        marks_.push_back(line_of({{x, at_.box.bottom}, {x, at_.box.top}}, line("grid")));
    std::vector<GradeWords> said;
    for (const tables::Assay* assay : hole_.assays) {
        if (*assay->to < at_.from || *assay->from > at_.to) continue;
        for (const double limit : {*assay->from, *assay->to})
            if (limit >= at_.from && limit <= at_.to)
                marks_.push_back(line_of({{left(grades), at_.y(limit)}, {left(grades) + 1.0, at_.y(limit)}}, line("depth_tick")));
        signs_.samples = true;
        const tables::AssayValue value = *analyte_ < assay->values.size() ? assay->values[*analyte_] : tables::AssayValue{};
        const double length = value.value ? std::min(grade_room(), bar_length_mm(*value.value, unit, tools_)) : 0.0;
        const std::optional<Box> box = box_of(*assay->from, *assay->to, left(grades), left(grades) + length, 0.25);
        if (!box) continue;
        if (length > 0.0) marks_.push_back(box_area(*box, plain(tools_.style.colour("silver_bar"))));
        signs_.grades = signs_.grades || length > 0.0;
        const double from = std::max(*assay->from, at_.from), to = std::min(*assay->to, at_.to);
        said.push_back({(from + to) / 2.0, box->right, grade_said(*assay, value)});
    }
    if (at_.is_window) grade_words(std::move(said));
}

void Stretch::draw_depths() {
    const base::MapFrame& map = results_.records.frame;
    const double unit = base::metres_per(map.unit), least = least_number_mm * at_.metres_per_mm / unit;
    double step = std::pow(10.0, std::floor(std::log10(least)));
    for (const double factor : {2.0, 2.5, 2.0})
        if (step < least * (1.0 - 1e-9)) step *= factor;
    const double fine = step / 5.0;
    const auto first = static_cast<int>(std::ceil(at_.from / unit / fine - 1e-6));
    for (int i = first; i * fine <= at_.to / unit + 1e-6; ++i) {
        const double y = at_.y(i * fine * unit);
        const bool numbered = i % 5 == 0;
        marks_.push_back(line_of({{right(depths) - (numbered ? 1.7 : 0.9), y}, {right(depths), y}}, line("depth_tick")));
        if (numbered && y - cap() / 2.0 > at_.box.bottom && y + cap() / 2.0 < at_.box.top)
            marks_.push_back(words({right(depths) - 2.1, y - cap() / 2.0}, base::fixed(i * step / 5.0, step < 1.0 ? 1 : 0),
                                   text("axis"), drawing::Anchor::right));
    }
}

void Stretch::draw_frame() {
    for (std::size_t i = 1; i < edges_.size(); ++i)
        marks_.push_back(line_of({{edges_[i], at_.box.bottom}, {edges_[i], at_.box.top}}, line("table_rule")));
    const auto end = [&](double depth, double y, double hole_end, const char* role) {
        if (std::abs(depth - hole_end) < 1e-6)
            marks_.push_back(line_of({{left(depths), y}, {right(grades), y}}, line(role)));
        else {
            marks_.push_back(line_of(break_line(left(depths), right(grades), y), line("table_rule")));
            signs_.breaks = true;
        }
    };
    end(at_.from, at_.box.top, hole_.path->start_depth, "table_rule");
    end(at_.to, at_.box.bottom, hole_.path->drilled_depth, "end_of_hole");
}

}  // namespace

Marks fault_bars(const Point& middle, const Point& half, const Box& box, const Tools& tools) {
    const double length = std::hypot(half.x, half.y), bar = tools.style.size_mm("fault_end") / 2.0;
    Marks bars;
    for (const double s : {-1.0, 1.0}) {
        const Point end{middle.x + s * half.x, middle.y + s * half.y}, across{-bar * half.y / length, bar * half.x / length};
        for (const auto& piece :
             drawing::clipped_line({{end.x - across.x, end.y - across.y}, {end.x + across.x, end.y + across.y}}, box))
            bars.push_back(line_of(piece, tools.style.line("fault_mark")));
    }
    return bars;
}

std::vector<Point> break_line(double left, double right, double y) {
    std::vector<Point> points{{left, y}};
    const double middle = (left + right) / 2.0;
    for (const auto& [x, up] : {std::pair{-1.8, 0.0}, {-0.9, 0.9}, {0.9, -0.9}, {1.8, 0.0}})
        points.push_back({middle + x, y + up});
    points.push_back({right, y});
    return points;
}

std::string structure_look(const std::string& kind, const settings::CoreAngles& core_angles) {
    const std::vector<std::string>& contacts = core_angles.contact_kinds;
    if (std::find(contacts.begin(), contacts.end(), kind) != contacts.end()) return "contact";
    return kind.find("fault") != std::string::npos ? "fault" : "foliation";
}

Marks log_stretch(const LogStretch& stretch, const LoggedHole& hole, std::optional<std::size_t> analyte, const Results& results,
                  LogSigns& signs, const Tools& tools) {
    return Stretch(stretch, hole, analyte, results, signs, tools).drawn();
}

}  // namespace selvage::sheets
