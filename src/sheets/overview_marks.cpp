#include "sheets/overview_marks.h"

#include "base/plane.h"
#include "drawing/polyline.h"
#include "faults/fault_pieces.h"
#include "faults/fault_plane.h"
#include "paths/locate.h"
#include "sheets/drawn_kind.h"
#include "sheets/ground.h"
#include "sheets/label_text.h"
#include "sheets/pierce_sign.h"
#include "sheets/section_content.h"
#include "sheets/starts.h"
#include "sheets/stated_faults.h"
#include "sheets/symbols.h"
#include "sheets/wall_looks.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace selvage::sheets {

namespace {

std::vector<SeenPoint> seen_line(const std::vector<Eigen::Vector3d>& points, const AxonometricView& view) {
    std::vector<SeenPoint> line;
    line.reserve(points.size());
    for (const Eigen::Vector3d& point : points) line.push_back(view.seen(point));
    return line;
}

// The part of a fault's piece within a box and under assumed ground.
std::vector<Eigen::Vector3d> within(const faults::FaultPiece& piece, const Eigen::Vector3d& low, const Eigen::Vector3d& high,
                                    const site::Ground& ground) {
    const std::vector<Eigen::Vector3d> corners = faults::corners_within(piece, {low, high});
    return !ground.has_given() && ground.assumed() ? base::polygon_below(corners, *ground.assumed()) : corners;
}

// What of a polygon in a plane lies within the rectangle, along strike and dip, round the bodies' points near the plane.
std::vector<Eigen::Vector3d> beside_veins(std::vector<Eigen::Vector3d> polygon, const base::Plane& plane,
                                          const Results& results) {
    constexpr double margin_share = 0.08;  // of the rectangle's longer side, on each
    const Eigen::Vector3d level = plane.normal.cross(Eigen::Vector3d::UnitZ());
    const Eigen::Vector3d along = level.norm() > 1e-6 ? Eigen::Vector3d(level.normalized()) : Eigen::Vector3d::UnitX();
    const std::array<Eigen::Vector3d, 2> axes{along, plane.normal.cross(along)};
    Eigen::AlignedBox2d room;
    for (const veins::VeinSolid& solid : results.solids) {
        const std::size_t vein = vein_number(results, solid.vein);
        const double near = vein < results.veins.size() ? results.veins[vein].summary().hole_spacing : 0.0;
        for (const Eigen::Vector3d& point : solid.mesh.points)
            if (std::abs(base::signed_distance(plane, point)) <= near)
                room.extend(Eigen::Vector2d(axes[0].dot(point - plane.point), axes[1].dot(point - plane.point)));
    }
    if (room.isEmpty()) return {};
    const double margin = margin_share * room.sizes().maxCoeff();
    for (int axis = 0; axis < 2; ++axis) {
        const Eigen::Vector3d& out = axes[static_cast<std::size_t>(axis)];
        polygon = base::polygon_below(polygon, {plane.point + (room.max()[axis] + margin) * out, out});
        polygon = base::polygon_below(polygon, {plane.point + (room.min()[axis] - margin) * out, -out});
    }
    return polygon;
}

// A closed line through the corners, with points at most so far apart, m.
std::vector<Eigen::Vector3d> ring_of(const std::vector<Eigen::Vector3d>& corners, double step) {
    std::vector<Eigen::Vector3d> ring{corners.front()};
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const Eigen::Vector3d& from = corners[i];
        const Eigen::Vector3d side = corners[(i + 1) % corners.size()] - from;
        const int steps = std::max(1, static_cast<int>(std::ceil(side.norm() / step)));
        for (int k = 1; k <= steps; ++k) ring.emplace_back(from + static_cast<double>(k) / steps * side);
    }
    return ring;
}

struct TraceLook {
    const char *open, *hidden;
    Sign sign;
};
TraceLook look_of(paths::PathKind kind) {
    switch (kind) {
        case paths::PathKind::surveyed: return {"trace", "trace_hidden", Sign::trace_on_plan};
        case paths::PathKind::extrapolated: return {"trace_run_on", "trace_hidden", Sign::trace_run_on};
        default: return {"trace_planned", "planned_hidden", Sign::planned_trace};
    }
}

// Of the two walls the one that looks to the eye.
const std::vector<mesh::SliceLine>& wall_seen(const BodyOnLevel& body, const Results& results, const AxonometricView& view) {
    return view.to_eye.dot(results.veins[body.vein].mean_plane().normal) >= 0.0 ? body.hanging : body.foot;
}

Box box_at(const Point& at, double half) { return {at.x - half, at.y - half, at.x + half, at.y + half}; }

}  // namespace

VisibleSurface bodies_seen(const Results& results, const AxonometricView& view) {
    VisibleSurface surface(view.paper.window, view.paper.metres_per_mm);
    for (std::size_t body = 0; body < results.solids.size(); ++body) {
        const veins::VeinSolid& solid = results.solids[body];
        std::vector<SeenPoint> points = seen_line(solid.mesh.points, view);
        for (std::size_t i = 0; i < points.size() && i < solid.figures.sd.size(); ++i) points[i].value = solid.figures.sd[i];
        const auto item_of = [&](double sd) {
            return static_cast<int>(body) * tones + static_cast<int>(wall_style(sd, view.paper.metres_per_mm));
        };
        const auto corner = [&](int place) { return points[static_cast<std::size_t>(place)]; };
        for (const std::array<int, 3>& corners : solid.mesh.triangles)
            surface.add({corner(corners[0]), corner(corners[1]), corner(corners[2])}, item_of);
    }
    return surface;
}

Marks body_fills(const Results& results, const VisibleSurface& surface, OverviewSigns& signs, const Tools& tools) {
    Marks marks;
    for (std::size_t body = 0; body < results.solids.size(); ++body) {
        const std::size_t vein = vein_number(results, results.solids[body].vein);
        // The least sure tone under all of the body: where two tones meet no paper shows between them.
        for (int tone = tones - 1; tone >= 0; --tone) {
            const auto is_asked = [&](int item) {
                return item / tones == static_cast<int>(body) && (tone == tones - 1 || item % tones == tone);
            };
            std::vector<std::vector<Point>> rings = surface.outlines(is_asked);
            if (rings.empty()) continue;
            drawing::Shape area;
            area.rings = std::move(rings);
            area.closed = true;
            area.fill = plain(paled(vein_colour(vein, tools), tone_share[static_cast<std::size_t>(tone)]));
            marks.emplace_back(std::move(area));
            const auto of_tone = [&](int item) { return item == static_cast<int>(body) * tones + tone; };
            if (!surface.outlines(of_tone).empty()) signs.tones.insert(static_cast<WallStyle>(tone));
            signs.drawn.veins.insert(vein);
        }
    }
    return marks;
}

Marks body_edges(const Results& results, const VisibleSurface& surface, const Tools& tools) {
    Marks marks;
    for (std::size_t body = 0; body < results.solids.size(); ++body) {
        drawing::Shape edge;
        edge.rings = surface.outlines([body](int item) { return item / tones == static_cast<int>(body); });
        edge.closed = true;
        edge.line =
            with_colour(tools.style.line("body_edge"), vein_colour(vein_number(results, results.solids[body].vein), tools));
        if (!edge.rings.empty()) marks.emplace_back(std::move(edge));
    }
    return marks;
}

Marks level_lines(const Results& results, const LevelSet& levels, const VisibleSurface& surface, const AxonometricView& view,
                  OverviewSigns& signs, const Tools& tools) {
    Marks marks;
    for (const Level& level : levels.levels)
        for (const BodyOnLevel& body : level.bodies)
            for (const mesh::SliceLine& ring : wall_seen(body, results, view)) {
                std::vector<Eigen::Vector3d> points = ring.points;
                if (ring.closed && !points.empty()) points.push_back(points.front());
                for (SeenPart& part : surface.parts_of(seen_line(points, view))) {
                    if (part.hidden) continue;
                    marks.push_back(line_of(drawing::simplified(part.points, 0.15),
                                            with_colour(tools.style.line("level_line"), vein_colour(body.vein, tools))));
                    signs.levels = true;
                }
            }
    return marks;
}

std::vector<FaultSurface> faults_beside_veins(const Results& results, const Eigen::Vector3d& low, const Eigen::Vector3d& high) {
    std::vector<FaultSurface> surfaces;
    for (const faults::Fault& fault : results.events.faults)
        for (const faults::FaultPiece& piece : faults::pieces_of(results.events, fault)) {
            std::vector<Eigen::Vector3d> corners = within(piece, low, high, results.site.ground);
            if (corners.size() > 2) corners = beside_veins(std::move(corners), piece.plane, results);
            if (corners.size() < 3) continue;
            surfaces.push_back({fault.name, std::move(corners), [&fault, moved = piece.moved](const Eigen::Vector3d& at) {
                                    return std::hypot(faults::offset_sd(fault, moved, at), faults::waves_sd);
                                }});
        }
    return surfaces;
}

std::vector<FaultOutline> fault_outlines(const std::vector<FaultSurface>& faults, const VisibleSurface& surface,
                                         const AxonometricView& view) {
    constexpr double step_mm = 4.0, least_mm = 10.0;  // a style that lasts for less is not told apart
    std::vector<FaultOutline> outlines;
    for (const FaultSurface& fault : faults) {
        const std::vector<Eigen::Vector3d> ring = ring_of(fault.corners, step_mm * view.paper.metres_per_mm);
        const std::vector<SeenPoint> seen = seen_line(ring, view);
        const auto look = [&](std::size_t i) {
            return WallLook{false, wall_style(fault.sd((ring[i] + ring[i + 1]) / 2.0), view.paper.metres_per_mm), false};
        };
        const auto on_paper = [&](const WallStretch& stretch) {
            return std::vector<SeenPoint>(seen.begin() + static_cast<std::ptrdiff_t>(stretch.first),
                                          seen.begin() + static_cast<std::ptrdiff_t>(stretch.last) + 1);
        };
        const auto length_mm = [&](const WallStretch& stretch) {
            std::vector<Point> line;
            for (const SeenPoint& point : on_paper(stretch)) line.push_back(point.at);
            return drawing::length_of(line);
        };
        outlines.push_back({fault.name, {}});
        for (const WallStretch& stretch : wall_stretches(ring.size(), look, length_mm, least_mm))
            for (SeenPart& part : surface.parts_of(on_paper(stretch)))
                outlines.back().parts.push_back({std::move(part), stretch.look.style});
    }
    return outlines;
}

Marks fault_lines(const std::vector<FaultOutline>& faults, OverviewSigns& signs, const Tools& tools) {
    Marks marks;
    for (const FaultOutline& fault : faults)
        for (const FaultOutline::Part& part : fault.parts) {
            const char* role = part.seen.hidden ? "fault_hidden" : fault_role(part.style);
            marks.push_back(line_of(part.seen.points, tools.style.line(role)));
            if (!part.seen.hidden) signs.drawn.signs.insert(fault_sign(part.style));
        }
    return marks;
}

Marks ground_border(const Results& results, const Eigen::Vector3d& low, const Eigen::Vector3d& high,
                    const VisibleSurface& surface, const AxonometricView& view, OverviewSigns& signs, const Tools& tools) {
    const site::Ground& ground = results.site.ground;
    if (!ground.is_known()) return {};
    constexpr int steps = 60;  // of a side
    const std::array<Eigen::Vector2d, 4> corners{Eigen::Vector2d(low.x(), low.y()), Eigen::Vector2d(high.x(), low.y()),
                                                 Eigen::Vector2d(high.x(), high.y()), Eigen::Vector2d(low.x(), high.y())};
    std::vector<Eigen::Vector3d> border;
    for (std::size_t side = 0; side < corners.size(); ++side)
        for (int i = 0; i <= steps; ++i) {
            const Eigen::Vector2d at =
                corners[side] + static_cast<double>(i) / steps * (corners[(side + 1) % corners.size()] - corners[side]);
            const Eigen::Vector3d place(at.x(), at.y(), 0.0);
            border.emplace_back(at.x(), at.y(), ground_elevation(ground, place));
        }
    Marks marks;
    const bool given = ground.has_given();
    for (const SeenPart& part : surface.parts_of(seen_line(border, view)))
        if (!part.hidden) marks.push_back(line_of(part.points, tools.style.line("ground")));
    signs.drawn.signs.insert(given ? Sign::ground : Sign::ground_assumed);
    return marks;
}

Marks traces_in_space(const Results& results, const VisibleSurface& surface, const AxonometricView& view, OverviewSigns& signs,
                      const Tools& tools) {
    constexpr double chord_mm = 2.0;
    Marks behind, before;
    for (const paths::Path& path : results.paths) {
        const double length = path.end_depth - path.start_depth;
        const int steps = std::max(1, static_cast<int>(std::ceil(length / (chord_mm * view.paper.metres_per_mm))));
        std::vector<SeenPoint> piece;
        paths::PathKind kind = drawn_kind(path, path.start_depth);
        const auto finish = [&] {
            const TraceLook look = look_of(kind);
            for (const SeenPart& part : surface.parts_of(piece)) {
                if (part.points.size() < 2) continue;
                (part.hidden ? behind : before)
                    .push_back(line_of(part.points, tools.style.line(part.hidden ? look.hidden : look.open)));
                signs.hidden = signs.hidden || part.hidden;
            }
            signs.drawn.signs.insert(look.sign);
        };
        for (int i = 0; i <= steps; ++i) {
            const double depth = path.start_depth + length * i / steps, middle = depth - length / steps / 2.0;
            const paths::PathKind here = i == 0 ? kind : drawn_kind(path, middle);
            if (here != kind) {
                finish();
                piece = {piece.back()};
                kind = here;
            }
            piece.push_back(view.seen(paths::position_at(path, depth)));
        }
        finish();
    }
    append(behind, std::move(before));
    return behind;
}

Marks hidden_sign(HitSign sign, const Point& at, const Tools& tools) {
    drawing::LineLook look = tools.style.line("trace_hidden");
    look.dash_mm.clear();
    Marks marks = hit_symbol(sign, at, tools, false);
    for (Mark& mark : marks) {
        auto* shape = std::get_if<drawing::Shape>(&mark);
        if (shape == nullptr) continue;
        if (shape->fill) shape->fill = plain(tools.style.colour("white"));
        shape->line = look;
    }
    return marks;
}

PointsInSpace points_in_space(const Results& results, const GradeClasses& classes, const VisibleSurface& surface,
                              const AxonometricView& view, OverviewSigns& signs, const Tools& tools) {
    PointsInSpace points;
    points.counts.assign(hit_signs, 0);
    points.hidden.assign(hit_signs, 0);
    points.holes_hidden.resize(results.veins.size());
    const auto add = [&](const Point& at, Marks marks, double half) {
        append(points.marks, std::move(marks));
        points.boxes.push_back(box_at(at, half));
    };
    const auto add_hit = [&](std::size_t vein, const std::string& hole, const Eigen::Vector3d& place, HitSign sign) {
        const SeenPoint seen = view.seen(place);
        const bool hidden = surface.hides(seen);
        ++(hidden ? points.hidden : points.counts)[static_cast<std::size_t>(sign)];
        if (!hidden) return add(seen.at, hit_symbol(sign, seen.at, tools), hit_symbol_width_mm(sign, tools) / 2.0);
        add(seen.at, hidden_sign(sign, seen.at, tools), hit_symbol_width_mm(sign, tools) / 2.0);
        signs.hidden_points = true;
        if (vein < points.holes_hidden.size()) points.holes_hidden[vein].push_back(hole);
    };
    // Under the hits: what is foretold hides no result.
    for (const forecast::Pierce& pierce : results.pierces) {
        const SeenPoint seen = view.seen(pierce.point);
        if (surface.hides(seen)) continue;
        const Sign sign = sign_of(pierce, results);
        add(seen.at, pierce_symbol(sign, seen.at, tools), 2.4);
        signs.drawn.signs.insert(sign);
    }
    for (std::size_t vein = 0; vein < results.veins.size(); ++vein)
        for (const veins::NoVein& none : results.veins[vein].no_vein())
            if (none.is_miss()) add_hit(vein, none.hole, none.point, HitSign::no_vein);
    for (const intercepts::Intercept& hit : results.intercepts.met)
        add_hit(vein_number(results, hit.vein), hit.hole, hit.point, sign_of(hit, classes, results.records.frame));
    for (const tables::Collar& collar : results.records.collars) {
        if (collar.parent || paths::path_of(results.paths, collar.hole) == nullptr) continue;
        const Point at = view.seen(collar.position).at;
        add(at, start_symbol(collar.type, collar.status, at, signs.drawn, tools), tools.style.size_mm("collar") / 2.0);
    }
    // Over all, behind a vein or not: a danger is never hidden.
    std::vector<OpeningOnSheet> openings;
    for (OpeningInSpace& opening : openings_in_space(results))
        openings.push_back({std::move(opening.opened), view.seen(opening.point).at});
    points.openings = opening_signs(openings, results.records.frame, signs.drawn, tools);
    append(points.marks, points.openings.marks);
    points.boxes.insert(points.boxes.end(), points.openings.boxes.begin(), points.openings.boxes.end());
    return points;
}

}  // namespace selvage::sheets
