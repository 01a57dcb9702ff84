#include "sheets/plan_veins.h"

#include "drawing/clipping.h"
#include "drawing/polyline.h"
#include "drawing/symbols.h"
#include "sheets/doubt.h"
#include "sheets/ground.h"
#include "sheets/plan_marks.h"
#include "sheets/symbols.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double least_told_mm = 3.0;  // a shorter piece of line is not told by its look
constexpr double near_fault = 1.0;     // m: an end of a trace that lies so near a fault is the fault's
constexpr double under_ground = 1.0;   // m: the model ends at the ground itself, so that its trace is asked a little below

// A place where a vein comes to the ground, and the sd of its mid-surface there, m.
struct GroundPlaceOfVein {
    Eigen::Vector3d point = Eigen::Vector3d::Zero();
    double sd = 0.0;
};
struct PartAtGround {
    std::vector<GroundPlaceOfVein> places;
    bool from_model_end = true, to_model_end = true;  // ends where the model does; else at a fault
};
using PartsAtGround = std::vector<PartAtGround>;

// Between a place within its block and one beyond it, where the fault is.
Eigen::Vector3d at_fault(const faults::Blocks& blocks, std::size_t block, Eigen::Vector3d inside, Eigen::Vector3d outside) {
    constexpr int halvings = 30;
    for (int i = 0; i < halvings; ++i) {
        const Eigen::Vector3d middle = (inside + outside) / 2.0;
        (blocks.inside(block, middle).distance >= 0.0 ? inside : outside) = middle;
    }
    return (inside + outside) / 2.0;
}

// On assumed ground: the trace on its plane.
PartsAtGround parts_on_plane(const veins::Vein& vein, const site::Ground& ground, const PaperFrame& frame) {
    const double ground_here = ground_elevation(ground, {frame.centre.x(), frame.centre.y(), 0.0});
    const Eigen::Vector2d across((frame.window.right - frame.window.left) * frame.metres_per_mm,
                                 (frame.window.top - frame.window.bottom) * frame.metres_per_mm);
    const double step = 1.2 * frame.metres_per_mm;
    const Eigen::Vector3d normal = ground.assumed().value_or(base::Plane{}).normal;
    PartsAtGround parts;
    const base::Plane under{{frame.centre.x(), frame.centre.y(), ground_here - under_ground}, normal};
    for (std::size_t block = 0; block < vein.blocks().count(); ++block) {
        const veins::TracePoint* last = nullptr;
        for (const veins::TracePoint& point : vein.trace(under, across.norm() / 2.0, step, block)) {
            const bool joined = last != nullptr && (point.mid - last->mid).norm() < 4.0 * step;
            const auto parted = [&](const veins::TracePoint& in, const veins::TracePoint& out) {
                return joined && in.within_extent && !out.within_extent && out.within_but_for_faults;
            };
            if (last != nullptr && parted(*last, point)) {
                parts.back().places.push_back({at_fault(vein.blocks(), block, last->mid, point.mid), last->sd});
                parts.back().to_model_end = false;
            }
            if (point.within_extent && (!joined || !last->within_extent)) {
                parts.emplace_back();
                if (last != nullptr && parted(point, *last)) {
                    parts.back().places.push_back({at_fault(vein.blocks(), block, point.mid, last->mid), point.sd});
                    parts.back().from_model_end = false;
                }
            }
            if (point.within_extent) parts.back().places.push_back({point.mid, point.sd});
            last = &point;
        }
    }
    return parts;
}

// On a topography: where the model ends at it.
PartsAtGround parts_on_relief(const veins::Vein& vein) {
    PartsAtGround parts;
    for (const veins::EdgeLine& edge : vein.edges()) {
        if (edge.reason != veins::EdgeReason::topography) continue;
        PartAtGround part;
        for (const Eigen::Vector3d& point : edge.points)
            part.places.push_back({point, std::sqrt(vein.at(point).height.variance())});
        const auto ends_model = [&](const Eigen::Vector3d& end) {
            return std::abs(vein.blocks().inside(vein.block_at(end), end).distance) > near_fault;
        };
        part.from_model_end = ends_model(edge.points.front());
        part.to_model_end = ends_model(edge.points.back());
        parts.push_back(std::move(part));
    }
    return parts;
}

const char* role_of(WallStyle style) {
    return style == WallStyle::accurate      ? "wall_accurate"
           : style == WallStyle::approximate ? "wall_approximate"
                                             : "wall_inferred";
}

Sign sign_of_style(WallStyle style) {
    return style == WallStyle::accurate      ? Sign::wall_accurate
           : style == WallStyle::approximate ? Sign::wall_approximate
                                             : Sign::wall_inferred;
}

// Where the model ends, a bar across the vein: what is beyond is not known, which is not a fault's gap.
Marks end_bar(const Point& end, const Point& inner, std::size_t vein, const PaperFrame& frame, DrawnSigns& drawn,
              const Tools& tools) {
    constexpr double half_mm = 1.6;
    const double run = std::hypot(end.x - inner.x, end.y - inner.y);
    if (run <= 0.0 || !is_on_plan(frame, end)) return {};
    const double x = -(end.y - inner.y) / run * half_mm, y = (end.x - inner.x) / run * half_mm;
    drawn.signs.insert(Sign::model_end);
    return {line_of({{end.x - x, end.y - y}, {end.x + x, end.y + y}},
                    with_colour(tools.style.line("model_end"), vein_colour(vein, tools)))};
}

// Where a piece leaves the window its model still runs: an arrow head at the window's edge, outwards.
void mark_where_it_goes_on(VeinAtGround& at_ground, const std::vector<Point>& whole, const Box& window, const Tools& tools) {
    constexpr double at_edge_mm = 0.05, head_mm = 2.2;
    const auto leaves = [&](const Point& end, const Point& inner) {
        const double to_edge = std::min({end.x - window.left, window.right - end.x, end.y - window.bottom, window.top - end.y});
        const double run = std::hypot(end.x - inner.x, end.y - inner.y);
        if (to_edge > at_edge_mm || run <= 0.0) return;
        const double x = (end.x - inner.x) / run, y = (end.y - inner.y) / run;
        at_ground.marks.emplace_back(drawing::arrow_head(end, x, y, head_mm, vein_colour(at_ground.vein, tools)));
        at_ground.goes_on.push_back({end.x - 1.5 * head_mm * x, end.y - 1.5 * head_mm * y});
    };
    for (const std::vector<Point>& seen : drawing::clipped_line(whole, window)) {
        if (seen.size() < 2) continue;
        leaves(seen.front(), seen[1]);
        leaves(seen.back(), seen[seen.size() - 2]);
    }
}

}  // namespace

std::vector<VeinAtGround> veins_at_ground(const Results& results, const PaperFrame& frame, DrawnSigns& drawn,
                                          const Tools& tools) {
    std::vector<VeinAtGround> all;
    for (std::size_t vein = 0; vein < results.veins.size(); ++vein) {
        VeinAtGround at_ground{vein, {}, {}, {}};
        for (const PartAtGround& one : results.site.ground.has_given()
                                           ? parts_on_relief(results.veins[vein])
                                           : parts_on_plane(results.veins[vein], results.site.ground, frame)) {
            const std::vector<GroundPlaceOfVein>& part = one.places;
            std::vector<Point> whole, piece;
            for (const GroundPlaceOfVein& place : part) whole.push_back(on_plan(frame, place.point));
            if (whole.size() < 2) continue;
            WallStyle style = wall_style(part.front().sd, frame.metres_per_mm);
            const auto finish = [&] {
                if (piece.size() < 2) return;
                at_ground.marks.push_back(
                    line_of(piece, with_colour(tools.style.line(role_of(style)), vein_colour(vein, tools))));
                if (drawing::length_of(piece) >= least_told_mm) drawn.signs.insert(sign_of_style(style));
            };
            for (std::size_t i = 0; i < whole.size(); ++i) {
                const WallStyle here = wall_style(part[i].sd, frame.metres_per_mm);
                piece.push_back(whole[i]);
                if (here == style) continue;
                finish();
                piece = {whole[i]};
                style = here;
            }
            finish();
            if (one.from_model_end) append(at_ground.marks, end_bar(whole[0], whole[1], vein, frame, drawn, tools));
            if (one.to_model_end)
                append(at_ground.marks, end_bar(whole.back(), whole[whole.size() - 2], vein, frame, drawn, tools));
            mark_where_it_goes_on(at_ground, whole, frame.window, tools);
            at_ground.pieces.push_back(std::move(whole));
        }
        if (at_ground.pieces.empty()) continue;
        drawn.veins.insert(vein);
        all.push_back(std::move(at_ground));
    }
    return all;
}

}  // namespace selvage::sheets
