#include "sheets/thumbnail.h"

#include "base/text.h"
#include "drawing/clipping.h"
#include "drawing/labels.h"
#include "drawing/polyline.h"
#include "sheets/call_and_stop.h"
#include "sheets/flag_words.h"
#include "sheets/ground.h"
#include "sheets/ground_line.h"
#include "sheets/label_text.h"
#include "sheets/legend_signs.h"
#include "sheets/scale_bar.h"
#include "sheets/stated_faults.h"
#include "sheets/symbols.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double foot = 9.0;           // mm under the window: scale and its bar
constexpr double air = 6.0;            // mm round the hole
constexpr double crowded_start = 8.0;  // mm from the collar: no room for the names of those that start there
constexpr double neighbours = 40.0;    // m: others are shown whose lower half comes so near to that of the hole

// A plane laid on paper.
struct View {
    Box window;
    double metres_per_mm = 1.0;
    Eigen::Vector3d middle = Eigen::Vector3d::Zero(), right = Eigen::Vector3d::UnitX(), up = Eigen::Vector3d::UnitZ();
    base::Plane plane;

    Point paper(const Eigen::Vector3d& point) const {
        const Eigen::Vector3d off = point - middle;
        return {(window.left + window.right) / 2.0 + right.dot(off) / metres_per_mm,
                (window.bottom + window.top) / 2.0 + up.dot(off) / metres_per_mm};
    }
    Eigen::Vector3d place(const Point& at) const {
        return middle + (at.x - (window.left + window.right) / 2.0) * metres_per_mm * right +
               (at.y - (window.bottom + window.top) / 2.0) * metres_per_mm * up;
    }
};

class Thumbnail {
public:
    Thumbnail(CardPage& page, View view, const Results& results, const Tools& tools)
        : page_(page), view_(std::move(view)), results_(results), tools_(tools) {}

    // Whether any of it is seen.
    bool line(const std::vector<Point>& points, const drawing::LineLook& look) {
        bool seen = false;
        for (const std::vector<Point>& piece : drawing::clipped_line(points, view_.window)) {
            seen = true;
            marks_.push_back(line_of(piece, look));
            for (std::size_t i = 1; i < piece.size(); ++i) obstacles_.lines.push_back({piece[i - 1], piece[i]});
        }
        return seen;
    }
    void stretch(const paths::Path& path, double from, double to, const drawing::LineLook& look, CardSign sign) {
        if (!(to > from)) return;
        const int steps = std::max(1, static_cast<int>(std::ceil((to - from) / 5.0)));
        std::vector<Point> points;
        for (int i = 0; i <= steps; ++i) points.push_back(view_.paper(paths::position_at(path, from + (to - from) * i / steps)));
        if (line(points, look)) signs_.insert(sign);
    }
    bool sees(const Eigen::Vector3d& point) const { return drawing::distance(view_.paper(point), view_.window) <= 0.0; }
    // The deepest place of a hole within the window.
    std::optional<Eigen::Vector3d> last_seen(const paths::Path& path) const {
        for (double depth = path.end_depth; depth >= path.start_depth; depth -= 2.0)
            if (const Eigen::Vector3d place = paths::position_at(path, depth); sees(place)) return place;
        return std::nullopt;
    }
    void symbol(Marks marks, const Point& at, CardSign sign) {
        if (drawing::distance(at, view_.window) > 0.0) return;
        append(marks_, std::move(marks));
        signs_.insert(sign);
        obstacles_.boxes.push_back(drawing::grown({at.x, at.y, at.x, at.y}, 1.4));
    }
    // Gives whether its place is within the window.
    bool label(const Point& at, const std::string& text, const drawing::TextLook& look, int priority,
               std::vector<Point> also_at = {}, const std::vector<drawing::LabelLine>& more = {}) {
        if (drawing::distance(at, view_.window) > 0.0) return false;
        drawing::Label wanted;
        wanted.owner = text;
        wanted.at = at;
        wanted.also_at = std::move(also_at);
        wanted.lines = {{text, look}};
        wanted.lines.insert(wanted.lines.end(), more.begin(), more.end());
        wanted.priority = priority;
        wanted.may_be_listed = false;
        labels_.push_back(std::move(wanted));
        return true;
    }
    // own: the hole's plane, where that is what is drawn; others then are told by how far off it they are where they are named.
    void other_holes(const CardFacts& facts, const SectionFrame* own);
    void veins();
    void faults(const site::Ground* ground);
    void own_hole(const CardFacts& facts);
    void north();
    void finish(const std::string& heading, const std::string& note);

    Marks marks_;
    CardSigns signs_;
    drawing::Obstacles obstacles_;
    std::vector<drawing::Label> labels_;

private:
    CardPage& page_;
    View view_;
    const Results& results_;
    const Tools& tools_;
};

bool comes_near(const paths::Path& other, const paths::Path& path) {
    constexpr int places = 12;
    const auto lower = [](const paths::Path& hole, int i) {
        const double share = 0.5 + 0.5 * i / places;
        return paths::position_at(hole, hole.start_depth + share * (hole.end_depth - hole.start_depth));
    };
    for (int i = 0; i <= places; ++i)
        for (int k = 0; k <= places; ++k)
            if ((lower(other, i) - lower(path, k)).norm() < neighbours) return true;
    return false;
}

// Whether the card's words on other holes and dangers name it.
bool is_named(const std::string& hole, const CardFacts& facts) {
    const auto of = [&](const planning::NearHole& near) { return near.hole == hole; };
    const auto told = [&](const planning::Danger& danger) {
        return std::find(danger.seen_in.begin(), danger.seen_in.end(), hole) != danger.seen_in.end();
    };
    return (facts.near.nearest && of(*facts.near.nearest)) ||
           std::any_of(facts.near.beside.begin(), facts.near.beside.end(), of) ||
           std::any_of(facts.dangers.begin(), facts.dangers.end(), told);
}

// Those that the front says it comes too near to, named where that is, or where that is at the start, at the end that is seen;
// others that come near, and the nearest, fainter, by name at the end that is seen, first those that the card's words name.
void Thumbnail::other_holes(const CardFacts& facts, const SectionFrame* own) {
    const drawing::LineLook look = with_colour(tools_.style.line("trace_off_slab"), tools_.style.colour("off_slab_far"));
    for (const paths::Path& path : results_.paths) {
        if (path.hole == facts.collar->hole || path.status == tables::HoleStatus::cancelled) continue;
        const std::vector<planning::NearHole>& under = facts.near.under;
        const auto warned =
            std::find_if(under.begin(), under.end(), [&](const planning::NearHole& one) { return one.hole == path.hole; });
        if (warned != under.end()) {
            stretch(path, path.start_depth, path.end_depth, tools_.style.line("trace"), CardSign::too_near);
            const Point near = view_.paper(paths::position_at(*facts.path, warned->depth));
            const Point start = view_.paper(paths::position_at(*facts.path, facts.path->start_depth));
            const std::optional<Eigen::Vector3d> end = last_seen(path);
            const bool at_start = end && std::hypot(near.x - start.x, near.y - start.y) < crowded_start;
            label(at_start ? view_.paper(*end) : near, path.hole, tools_.style.text("name"), 5);
            continue;
        }
        const bool nearest = facts.near.nearest && facts.near.nearest->hole == path.hole;
        if (!nearest && !comes_near(path, *facts.path)) continue;
        const bool drilled = tables::is_drilled(path.status);
        stretch(path, path.start_depth, path.end_depth, drilled ? look : tools_.style.line("planned_beyond"),
                drilled ? CardSign::other_hole : CardSign::other_plan);
        const std::optional<Eigen::Vector3d> place = last_seen(path);
        if (!place) continue;
        std::vector<Point> along;  // where its end leaves no room
        for (const double share : {0.85, 0.7, 0.55, 0.4, 0.25})
            if (const Eigen::Vector3d at =
                    paths::position_at(path, path.start_depth + share * (path.end_depth - path.start_depth));
                sees(at))
                along.push_back(view_.paper(at));
        const std::string off = own == nullptr ? "" : ", " + behind_words(own->offset(*place), results_.records.frame);
        const int priority = is_named(path.hole, facts) ? 3 : 1;
        if (label(view_.paper(*place), path.hole + off, tools_.style.text("off_slab_text"), priority, along) && own != nullptr)
            signs_.insert(CardSign::off_picture);
    }
}

void Thumbnail::veins() {
    const double radius = std::hypot(view_.window.width(), view_.window.height()) * view_.metres_per_mm;
    for (std::size_t number = 0; number < results_.veins.size(); ++number) {
        drawing::LineLook look = with_colour(tools_.style.line("single_vein"), vein_colour(number, tools_));
        std::vector<Point> seen;
        for (const std::vector<veins::TracePoint>& trace :
             results_.veins[number].traces({view_.middle, view_.plane.normal}, radius, 2.0 * view_.metres_per_mm)) {
            std::vector<Point> run;
            const auto close = [&] {
                if (run.size() > 1) line(run, look);
                for (const Point& point : run)
                    if (drawing::distance(point, view_.window) <= 0.0) seen.push_back(point);
                run.clear();
            };
            for (const veins::TracePoint& point : trace) {
                const bool over = height_over_ground(results_.site.ground, point.mid) > 0.0;
                if (point.within_extent && !over)
                    run.push_back(view_.paper(point.mid));
                else
                    close();
            }
            close();
        }
        if (seen.empty()) continue;
        const drawing::TextLook name = with_colour(tools_.style.text("vein_name"), vein_colour(number, tools_));
        std::vector<Point> also;
        for (std::size_t i = 0; i < seen.size(); i += std::max<std::size_t>(1, seen.size() / 8)) also.push_back(seen[i]);
        label(seen.back(), results_.veins[number].name(), name, 4, also);
    }
}

void Thumbnail::faults(const site::Ground* ground) {
    const std::vector<StatedFault> stated = stated_faults(
        results_, [this](const Point& at) { return view_.place(at); }, view_.window, ground);
    append(marks_, fault_marks(stated, tools_));
    for (const StatedFault& fault : stated) {
        obstacles_.lines.push_back({fault.line.front(), fault.line.back()});
        drawing::Label named = line_label(fault.name, fault.line, tools_);
        named.may_be_listed = false;
        labels_.push_back(std::move(named));
    }
}

// "outside the modelled ground" in short lines, where a pierce stands clear of the vein that is drawn; else none.
std::vector<drawing::LabelLine> outside_lines(const forecast::Pierce& pierce, const Tools& tools) {
    constexpr double room = 20.0;  // mm
    std::vector<drawing::LabelLine> lines;
    if (!is_beyond_extent(pierce)) return lines;
    const drawing::TextLook& look = tools.style.text("planned_text");
    for (std::string& line : drawing::wrapped(tools.fonts, look, flag_words("beyond-extent"), room))
        lines.push_back({std::move(line), look, {}});
    return lines;
}

// Drawn last: the names of all that is not the hole stand clear of its line.
void Thumbnail::own_hole(const CardFacts& facts) {
    const paths::Path& path = *facts.path;
    const auto others = static_cast<std::ptrdiff_t>(obstacles_.lines.size());
    stretch(path, path.start_depth, facts.is_active() ? path.drilled_depth : path.start_depth, tools_.style.line("trace"),
            CardSign::drilled);
    stretch(path, facts.from, path.end_depth, tools_.style.line("trace_planned"), CardSign::to_drill);
    stretch(path, path.end_depth, facts.to, tools_.style.line("planned_beyond"), CardSign::past_end);
    for (drawing::Label& label : labels_) label.not_along.assign(obstacles_.lines.begin() + others, obstacles_.lines.end());
    const Eigen::Vector3d start = paths::position_at(path, path.start_depth);
    const Point collar = view_.paper(start);
    symbol(collar_symbol(collar_state(path.status), collar, tools_), collar, CardSign::collar);
    label(sees(start) ? collar : view_.paper(paths::position_at(path, facts.from)), path.hole, tools_.style.text("planned_name"),
          6);
    for (const forecast::Pierce* pierce : facts.pierces) {
        if (!is_within_reach(*pierce)) continue;
        const Point at = view_.paper(pierce->point);
        symbol(planned_pierce_symbol(at, tools_, facts.is_active()), at, CardSign::vein_due);
        label(at, length_text(pierce->depth, results_.records.frame, 0), tools_.style.text("planned_strong"), 5, {},
              outside_lines(*pierce, tools_));
    }
    if (facts.collar->target && facts.collar->target->point) {
        const Point at = view_.paper(*facts.collar->target->point);
        symbol(target_cross(at, tools_), at, CardSign::target);
    }
}

// The arrow in a corner that all that is drawn leaves free.
void Thumbnail::north() {
    constexpr double length = 10.0, half = 3.0, words = 2.0, beside = 4.0, over = 15.0, under = 3.0;  // mm
    const auto box_at = [&](const Point& at) { return Box{at.x - half, at.y - 1.0, at.x + half, at.y + length + words}; };
    const auto is_free = [&](const Point& at) {
        const Box box = box_at(at);
        return std::none_of(obstacles_.lines.begin(), obstacles_.lines.end(),
                            [&](const auto& line) {
                                return !drawing::clipped_line({line.a, line.b}, box).empty();
                            }) &&
               std::none_of(obstacles_.boxes.begin(), obstacles_.boxes.end(),
                            [&](const Box& other) { return drawing::overlap(box, other); });
    };
    const Box& window = view_.window;
    const std::vector<Point> corners{{window.left + beside, window.top - over},
                                     {window.right - beside, window.top - over},
                                     {window.left + beside, window.bottom + under},
                                     {window.right - beside, window.bottom + under}};
    const auto free = std::find_if(corners.begin(), corners.end(), is_free);
    const Point at = free == corners.end() ? corners.front() : *free;
    append(marks_, north_arrow(at, length, tools_));
    obstacles_.boxes.push_back(box_at(at));
}

void Thumbnail::finish(const std::string& heading, const std::string& note) {
    drawing::LabelRules rules;
    rules.window = drawing::grown(view_.window, -0.8);
    rules.leader_max_mm = 15.0;
    const drawing::PlacedLabels placed = drawing::place_labels(labels_, obstacles_, rules, tools_.fonts);
    Marks texts;
    std::size_t unnamed = 0;
    for (const drawing::PlacedLabel& one : placed.labels) {
        if (one.placing == drawing::Placing::listed) {
            ++unnamed;
            continue;
        }
        if (!one.leader.empty()) texts.push_back(line_of(one.leader, tools_.style.line("leader")));
        for (drawing::Text& text : drawing::texts_of(labels_[one.label], one, rules, tools_.fonts, tools_.style.size_mm("halo")))
            texts.emplace_back(std::move(text));
    }
    append(marks_, std::move(texts));
    const std::size_t window = page_.add_window(view_.window, view_.metres_per_mm, results_.project.length_unit);
    page_.draw_in_window(window, std::move(marks_));
    page_.draw({box_outline(view_.window, tools_.style.line("window")),
                words({view_.window.left, view_.window.top + 1.8}, heading, tools_.style.text("heading"))});
    page_.draw(small_scale_marks(view_.window, view_.metres_per_mm,
                                 note + (unnamed > 0 ? ", " + std::to_string(unnamed) + " not named" : ""),
                                 results_.project.length_unit, tools_));
}

// Laid so that the points and their surroundings fit.
View view_of(const Box& box, const std::vector<Eigen::Vector3d>& points, const Eigen::Vector3d& right, const Eigen::Vector3d& up,
             bool feet) {
    View view;
    view.window = {box.left, box.bottom + foot, box.right, box.top - 4.5};
    view.right = right;
    view.up = up;
    Eigen::Vector2d low = Eigen::Vector2d::Constant(1e18), high = -low;
    for (const Eigen::Vector3d& point : points) {
        const Eigen::Vector2d at(right.dot(point), up.dot(point));
        low = low.cwiseMin(at);
        high = high.cwiseMax(at);
    }
    const Box room = drawing::grown(view.window, -air);
    view.metres_per_mm = fitting_scale(high.x() - low.x(), high.y() - low.y(), room, {feet, 1.0}) / 1000.0;
    const Eigen::Vector2d middle = (low + high) / 2.0;
    const Eigen::Vector3d across = right.cross(up);
    view.middle = middle.x() * right + middle.y() * up + across.dot(points.front()) * across;
    view.plane = {view.middle, -across};
    return view;
}

// Of the hole from a depth on, and of what it is to meet.
std::vector<Eigen::Vector3d> points_of(const CardFacts& facts, double from) {
    std::vector<Eigen::Vector3d> points;
    for (int i = 0; i <= 10; ++i) points.push_back(paths::position_at(*facts.path, from + i / 10.0 * (facts.to - from)));
    for (const forecast::Pierce* pierce : facts.pierces)
        if (is_within_reach(*pierce)) points.push_back(pierce->point);
    return points;
}

bool in_feet(const Results& results) { return results.project.length_unit != base::LengthUnit::metre; }

}  // namespace

CardSigns draw_side_view(CardPage& page, const Box& box, const CardFacts& facts, const SectionSet& own, const Results& results,
                         const Tools& tools) {
    const SectionFrame& frame = own.base;
    const auto view_from = [&](double from) {
        return view_of(box, points_of(facts, from), frame.right, Eigen::Vector3d::UnitZ(), in_feet(results));
    };
    View view = view_from(facts.path->start_depth), ahead = view_from(facts.from);
    const bool cropped = ahead.metres_per_mm < view.metres_per_mm;  // what is drilled gives way to what is still to come
    if (cropped) view = std::move(ahead);
    view.plane = frame.plane();
    Thumbnail picture(page, view, results, tools);
    const auto place = [&](double x) { return view.place({x, view.window.top}); };
    const auto on_paper = [&](double x) {
        Eigen::Vector3d point = place(x);
        point.z() = ground_elevation(results.site.ground, point);
        return view.paper(point);
    };
    for (const GroundPiece& piece : ground_pieces(results.site.ground, view.window.left, view.window.right, place, on_paper)) {
        append(picture.marks_, ground_line_marks(piece.line, tools));
        if (!drawing::clipped_line(piece.line, view.window).empty()) picture.signs_.insert(CardSign::ground);
        for (std::size_t i = 1; i < piece.line.size(); ++i)
            picture.obstacles_.lines.push_back({piece.line[i - 1], piece.line[i]});
    }
    picture.other_holes(facts, &frame);
    picture.veins();
    picture.faults(&results.site.ground);
    picture.own_hole(facts);
    picture.finish("In its own plane" +
                       (cropped ? ", from " + length_text(facts.from, results.records.frame, 0) + " down" : std::string()) +
                       ", looking " + compass_point(frame.looking()) + " (" + bearing_text(frame.looking()) + ")",
                   "; left end " + bearing_text(base::Azimuth::degrees(frame.right_azimuth.degrees() + 180.0)));
    return picture.signs_;
}

CardSigns draw_view_from_above(CardPage& page, const Box& box, const CardFacts& facts, const Results& results,
                               const Tools& tools) {
    View view = view_of(box, points_of(facts, facts.path->start_depth), Eigen::Vector3d::UnitX(), Eigen::Vector3d::UnitY(),
                        in_feet(results));
    for (const forecast::Pierce* pierce : facts.pierces)
        if (is_within_reach(*pierce)) {
            view.middle.z() = pierce->point.z();
            break;
        }
    view.plane = {view.middle, Eigen::Vector3d::UnitZ()};
    Thumbnail picture(page, view, results, tools);
    if (results.site.property != nullptr)
        for (const site::Property::Area& area : results.site.property->areas())
            for (const site::Ring& ring : area) {
                std::vector<Point> line;
                for (const Eigen::Vector2d& corner : ring) line.push_back(view.paper({corner.x(), corner.y(), 0.0}));
                line.push_back(line.front());
                if (picture.line(line, tools.style.line("property"))) picture.signs_.insert(CardSign::property);
            }
    picture.other_holes(facts, nullptr);
    picture.veins();
    picture.own_hole(facts);
    picture.north();
    const std::string level = length_text(view.middle.z() + results.records.frame.origin.z(), results.records.frame, 0);
    picture.finish("From above, grid north up", ", veins at " + level);
    return picture.signs_;
}

}  // namespace selvage::sheets
