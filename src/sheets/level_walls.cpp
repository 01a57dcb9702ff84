#include "sheets/level_walls.h"

#include "base/segment.h"
#include "drawing/clipping.h"
#include "drawing/polyline.h"
#include "sheets/label_text.h"
#include "sheets/question_marks.h"
#include "sheets/wall_looks.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double step_mm = 3.0;           // between places at which the doubt is asked
constexpr double least_stretch_mm = 5.0;  // a style that lasts for less is not told apart
constexpr double least_told_mm = 3.0;     // a shorter line is not told by its look
constexpr double band_clear_mm = 0.8;     // a band that keeps no more than that off the walls is not drawn
constexpr double most_thinning_mm = 0.05;

std::vector<Point> on_level(const mesh::SliceLine& line, const PaperFrame& frame) {
    std::vector<Point> points;
    for (const Eigen::Vector3d& point : line.points) points.push_back(frame.paper_from_drawn(point.head<2>()));
    if (line.closed && !points.empty()) points.push_back(points.front());
    return points;
}

double apart(const Point& a, const Point& b) { return drawing::length_of(b.x - a.x, b.y - a.y); }

// The nearest place of some lines.
Point nearest_on(const std::vector<std::vector<Point>>& lines, const Point& from) {
    Point best = from;
    double least = std::numeric_limits<double>::infinity();
    for (const std::vector<Point>& line : lines)
        for (std::size_t i = 1; i < line.size(); ++i) {
            const Point &a = line[i - 1], &b = line[i];
            const double run = (b.x - a.x) * (b.x - a.x) + (b.y - a.y) * (b.y - a.y);
            const double share =
                run > 0.0 ? std::clamp(((from.x - a.x) * (b.x - a.x) + (from.y - a.y) * (b.y - a.y)) / run, 0.0, 1.0) : 0.0;
            const Point at{a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)};
            if (const double off = apart(from, at); off < least) {
                least = off;
                best = at;
            }
        }
    return best;
}

class WallDrawer {
public:
    WallDrawer(const BodyOnLevel& body, std::vector<veins::TracePoint> trace, const PaperFrame& frame, DrawnSigns& drawn,
               const Tools& tools)
        : body_(body), trace_(std::move(trace)), frame_(frame), drawn_(drawn), tools_(tools) {
        for (const mesh::SliceLine& line : body.foot) foot_.push_back(on_level(line, frame));
        for (const mesh::SliceLine& line : body.hanging) hanging_.push_back(on_level(line, frame));
    }

    LevelWalls draw() {
        drawn_.veins.insert(body_.vein);
        for (const mesh::SliceLine& ring : body_.rings) {
            std::vector<Point> points = on_level(ring, frame_);
            if (points.size() < 4) continue;
            points.pop_back();
            walls_.fill.push_back(area_of(std::move(points), plain(vein_pale(body_.vein, tools_))));
        }
        for (const std::vector<Point>& line : hanging_) draw_wall(line, true);
        for (const std::vector<Point>& line : foot_) draw_wall(line, false);
        for (const mesh::SliceLine& line : body_.rim)
            walls_.walls.push_back(line_of(on_level(line, frame_), look("wall_accurate")));
        if (tools_.style.content.model_doubt) draw_band();
        return std::move(walls_);
    }

private:
    drawing::LineLook look(const char* role) const {
        return with_colour(tools_.style.line(role), vein_colour(body_.vein, tools_));
    }
    Point paper(const Eigen::Vector3d& point) const { return frame_.paper_from_drawn(point.head<2>()); }

    // What the model says nearest to a place; nothing where it was not asked.
    const veins::TracePoint* told_at(const Point& at) const {
        const veins::TracePoint* best = nullptr;
        double least = std::numeric_limits<double>::infinity();
        for (const veins::TracePoint& point : trace_)
            if (const double off = apart(at, paper(point.mid)); off < least) {
                least = off;
                best = &point;
            }
        return best;
    }

    WallLook look_at(const Point& at, bool of_hanging) const {
        WallLook look;
        look.thick = apart(at, nearest_on(of_hanging ? foot_ : hanging_, at)) > tools_.style.size_mm("single_vein_under");
        if (const veins::TracePoint* told = told_at(at)) {
            look.style = wall_style(drawn_sd(*told), frame_.metres_per_mm);
            look.questionable = told->presence < questionable_presence;
        }
        return look;
    }

    // A short stretch takes the look of the one before it.
    std::vector<WallStretch> stretches(const std::vector<Point>& line, bool of_hanging) const {
        const auto length = [&line](const WallStretch& stretch) {
            double sum = 0.0;
            for (std::size_t i = stretch.first; i < stretch.last; ++i) sum += apart(line[i], line[i + 1]);
            return sum;
        };
        const auto look_from = [&](std::size_t i) {
            return look_at({(line[i].x + line[i + 1].x) / 2.0, (line[i].y + line[i + 1].y) / 2.0}, of_hanging);
        };
        return wall_stretches(line.size(), look_from, length, least_stretch_mm);
    }

    void draw_wall(const std::vector<Point>& line, bool of_hanging) {
        constexpr std::array<const char*, 3> roles{"wall_accurate", "wall_approximate", "wall_inferred"};
        constexpr std::array<Sign, 3> signs{Sign::wall_accurate, Sign::wall_approximate, Sign::wall_inferred};
        for (const WallStretch& stretch : stretches(line, of_hanging)) {
            if (!stretch.look.thick && !of_hanging) continue;  // the hanging wall's line stands for both
            std::vector<Point> points(line.begin() + static_cast<std::ptrdiff_t>(stretch.first),
                                      line.begin() + static_cast<std::ptrdiff_t>(stretch.last) + 1);
            const auto style = static_cast<std::size_t>(stretch.look.style);
            drawing::LineLook drawn = look(roles[style]);
            if (!stretch.look.thick) {
                for (Point& point : points) {
                    const Point other = nearest_on(foot_, point);
                    point = {(point.x + other.x) / 2.0, (point.y + other.y) / 2.0};
                }
                drawn.width_mm = tools_.style.line("single_vein").width_mm;
            }
            if (drawing::length_of(points) >= least_told_mm) {
                drawn_.signs.insert(signs[style]);
                drawn_.signs.insert(stretch.look.thick ? Sign::vein_fill : Sign::single_line);
            }
            if (stretch.look.questionable && add_question_marks(questions_, points, vein_colour(body_.vein, tools_), tools_) > 0)
                drawn_.signs.insert(Sign::questionable);
            walls_.walls.push_back(line_of(drawing::simplified(points, most_thinning_mm), drawn));
        }
    }

    void draw_band() {
        const drawing::Colour colour = vein_colour(body_.vein, tools_);
        std::vector<Point> low, high;
        const auto finish = [&] {
            if (low.size() > 2) {
                std::vector<Point> area = low;
                area.insert(area.end(), high.rbegin(), high.rend());
                drawing::Shape strokes;
                strokes.line = with_colour(tools_.style.line("band_hatch"), paled(colour, band_hatch_share));
                for (const drawing::Segment& stroke : drawing::hatch({area}, 0.0, tools_.style.size_mm("band_stroke_every")))
                    strokes.rings.push_back({stroke.a, stroke.b});
                if (!strokes.rings.empty()) walls_.band.emplace_back(std::move(strokes));
                for (const std::vector<Point>& edge : {low, high}) walls_.band.push_back(line_of(edge, look("band")));
                drawn_.signs.insert(Sign::band);
            }
            low.clear();
            high.clear();
        };
        const veins::TracePoint* last = nullptr;
        for (const veins::TracePoint& point : trace_) {
            const bool wide =
                apart(paper(point.low80), paper(point.high80)) > apart(paper(point.hanging), paper(point.foot)) + band_clear_mm;
            if (last != nullptr && (point.mid - last->mid).norm() > 3.0 * step_mm * frame_.metres_per_mm) finish();
            last = &point;
            if (!point.within_extent || !wide) {
                finish();
                continue;
            }
            low.push_back(paper(point.low80));
            high.push_back(paper(point.high80));
        }
        finish();
        walls_.walls.insert(walls_.walls.end(), questions_.begin(), questions_.end());
    }

    const BodyOnLevel& body_;
    std::vector<veins::TracePoint> trace_;
    const PaperFrame& frame_;
    DrawnSigns& drawn_;
    const Tools& tools_;
    std::vector<std::vector<Point>> hanging_, foot_;
    std::vector<drawing::Text> questions_;
    LevelWalls walls_;
};

double distance_to(const mesh::SliceLine& line, const Eigen::Vector3d& from) {
    double least = std::numeric_limits<double>::infinity();
    const std::size_t sides = line.points.size() - (line.closed ? 0 : 1);
    for (std::size_t i = 0; i < sides; ++i) {
        const Eigen::Vector3d &a = line.points[i], &b = line.points[(i + 1) % line.points.size()];
        least = std::min(least, base::distance_to_segment(from, a, b));
    }
    return least;
}

Eigen::Vector3d middle_of(const mesh::SliceLine& rim) { return (rim.points.front() + rim.points.back()) / 2.0; }

// Neither a fault nor another vein nor the ground ends it there.
bool is_model_end(const mesh::SliceLine& rim, const BodyOnLevel& body, const Level& level, const Results& results) {
    constexpr double near = 1.0;  // m
    const Eigen::Vector3d at = middle_of(rim);
    if (std::abs(results.veins[body.vein].blocks().inside(body.block, at).distance) < near) return false;
    if (results.site.ground.height_of(at).value_or(-2.0 * near) > -near) return false;
    for (const BodyOnLevel& other : level.bodies)
        if (other.vein != body.vein)
            for (const mesh::SliceLine& ring : other.rings)
                if (distance_to(ring, at) < near) return false;
    return true;
}

// Across the wall that comes to the rim.
Marks end_bar(const mesh::SliceLine& rim, const BodyOnLevel& body, const PaperFrame& frame, DrawnSigns& drawn,
              const Tools& tools) {
    constexpr double half_mm = 1.6, inner_mm = 3.0;
    const Point at = frame.paper_from_drawn(middle_of(rim).head<2>());
    std::optional<Point> inner;  // on the wall, some way in from its nearest end
    double least = std::numeric_limits<double>::infinity();
    for (const mesh::SliceLine& wall : body.hanging) {
        std::vector<Point> line = on_level(wall, frame);
        if (apart(line.front(), at) > apart(line.back(), at)) std::reverse(line.begin(), line.end());
        if (apart(line.front(), at) >= least) continue;
        least = apart(line.front(), at);
        inner = drawing::point_along(line, inner_mm).at;
    }
    if (!inner || apart(*inner, at) <= 0.0) return {};
    const double run = apart(*inner, at), x = -(at.y - inner->y) / run * half_mm, y = (at.x - inner->x) / run * half_mm;
    drawn.signs.insert(Sign::model_end);
    return {line_of({{at.x - x, at.y - y}, {at.x + x, at.y + y}},
                    with_colour(tools.style.line("model_end"), vein_colour(body.vein, tools)))};
}

std::optional<drawing::Label> name_along(const BodyOnLevel& body, const veins::Vein& vein, const PaperFrame& frame,
                                         const Tools& tools) {
    constexpr double least_mm = 8.0;  // a shorter piece is told by its colour
    std::vector<Point> longest;
    for (const mesh::SliceLine& line : body.hanging)
        if (std::vector<Point> points = on_level(line, frame); drawing::length_of(points) > drawing::length_of(longest))
            longest = std::move(points);
    const double length = drawing::length_of(longest);
    if (length < least_mm) return std::nullopt;
    const std::string& block = vein.blocks().name(body.block);
    drawing::Label label;
    label.owner = vein.name() + block;
    label.at = drawing::point_along(longest, 0.1 * length).at;
    for (const double share : {0.9, 0.2, 0.8, 0.05, 0.95, 0.35, 0.65, 0.5})
        label.also_at.push_back(drawing::point_along(longest, share * length).at);
    label.clear_mm = 1.0;
    label.soft_weight = 3.0;  // not on its own band
    label.priority = 4;
    label.may_be_listed = false;
    label.lines = {{vein.name() + " vein" + (block.empty() ? "" : ", " + block_words(block)),
                    with_colour(tools.style.text("vein_name"), vein_colour(body.vein, tools))}};
    return label;
}

}  // namespace

LevelWalls level_walls(const BodyOnLevel& body, const Level& level, const Results& results, const PaperFrame& frame,
                       DrawnSigns& drawn, const Tools& tools) {
    const veins::Vein& vein = results.veins[body.vein];
    const double radius = drawing::length_of(frame.window.width(), frame.window.height()) / 2.0 * frame.metres_per_mm;
    const base::Plane plane{{frame.centre.x(), frame.centre.y(), level.elevation}, Eigen::Vector3d::UnitZ()};
    LevelWalls walls =
        WallDrawer(body, vein.trace(plane, radius, step_mm * frame.metres_per_mm, body.block), frame, drawn, tools).draw();
    for (const mesh::SliceLine& rim : body.rim)
        if (is_model_end(rim, body, level, results)) append(walls.walls, end_bar(rim, body, frame, drawn, tools));
    walls.name = name_along(body, vein, frame, tools);
    return walls;
}

Marks outlines_of(const Level& level, const PaperFrame& frame, const Tools& tools) {
    Marks marks;
    for (const BodyOnLevel& body : level.bodies)
        for (const mesh::SliceLine& ring : body.rings)
            marks.push_back(
                line_of(drawing::simplified(on_level(ring, frame), most_thinning_mm), tools.style.line("level_above")));
    return marks;
}

std::vector<drawing::Label> outline_names(const Level& level, const Results& results, const PaperFrame& frame,
                                          const Tools& tools) {
    std::vector<drawing::Label> names;
    for (const BodyOnLevel& body : level.bodies) {
        const veins::Vein& vein = results.veins[body.vein];
        std::optional<drawing::Label> name = name_along(body, vein, frame, tools);
        if (!name) continue;
        name->owner += " above";
        name->priority = 0;
        name->may_lead = false;
        name->lines = {{vein.name() + ", " + level.name + " " + base::symbol_of(results.records.frame.unit),
                        tools.style.text("off_slab_text"),
                        {}}};
        names.push_back(std::move(*name));
    }
    return names;
}

}  // namespace selvage::sheets
