#include "veins/solid.h"

#include "base/parallel.h"
#include "mesh/cut.h"
#include "mesh/solid_check.h"
#include "mesh/surface.h"
#include "mesh/walled_solid.h"
#include "veins/parent_wall.h"
#include "veins/solid_body.h"
#include "veins/vein_checks.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <iterator>
#include <memory>
#include <optional>
#include <utility>

namespace selvage::veins {

namespace {

using mesh::TriangleMesh;

constexpr double beyond = 20.0;            // m that a tool reaches past what it cuts
constexpr double most_ground_steps = 120;  // each way, of the ground's grid under a vein
constexpr double finest_ground = 5.0;      // m

struct Making {
    std::vector<VeinSolid> solids;
    std::vector<base::Finding> findings;

    void report(const base::Check& check, const std::string& vein, const std::string& block, const std::string& why) {
        findings.push_back(
            {&check, {"project", "", 0}, {}, "vein " + vein + (block.empty() ? "" : ", block " + block) + ": " + why});
    }
};

enum class Checking { at_the_end, each };

// A part of a body, or the body as it was where the cut gives nothing sound.
TriangleMesh kept_or_uncut(TriangleMesh body, const mesh::Outcome<mesh::CutSolid>& cut, bool inside, const std::string& by,
                           const VeinSolid& solid, Checking checking, Making& making) {
    if (cut) {
        const TriangleMesh& part = inside ? cut->inside : cut->outside;
        if (part.triangles.empty() || checking == Checking::at_the_end || mesh::check_solid(part).sound()) return part;
    }
    making.report(solid_left_uncut, solid.vein, solid.block,
                  "its body is left uncut by " + by + (cut ? "; the cut is not closed" : "; " + cut.message));
    return body;
}

// New faces of a cut are rim, whatever the tool calls them.
TriangleMesh all_rim(TriangleMesh tool) {
    tool.labels.assign(tool.triangles.size(), mesh::rim);
    return tool;
}

// The ground over a box as a solid down to under it; nothing where nobody knows it.
std::optional<TriangleMesh> ground_over(const site::Ground& ground, const mesh::Bounds& box) {
    const Eigen::Vector2d lower = box.lower.head<2>() - Eigen::Vector2d::Constant(beyond);
    const Eigen::Vector2d upper = box.upper.head<2>() + Eigen::Vector2d::Constant(beyond);
    const double step = std::max(finest_ground, (upper - lower).maxCoeff() / most_ground_steps);
    std::vector<Eigen::Vector3d> points;
    double lowest = box.lower.z();
    for (double y = lower.y(); y < upper.y() + step; y += step)
        for (double x = lower.x(); x < upper.x() + step; x += step)
            if (const auto elevation = ground.elevation_at({x, y})) {
                points.emplace_back(x, y, *elevation);
                lowest = std::min(lowest, *elevation);
            }
    if (points.empty()) return std::nullopt;
    const auto surface = mesh::overhanging_surface(points, box, beyond);
    if (!surface) return std::nullopt;
    const auto solid = mesh::solid_below(*surface, lowest - beyond);
    return solid ? std::optional<TriangleMesh>(all_rim(*solid)) : std::nullopt;
}

void cut_by_ground(TriangleMesh& body, const site::Ground& ground, const VeinSolid& solid, Checking checking, Making& making) {
    if (!ground.is_known()) return;
    if (!ground.has_given()) {
        const base::Plane below{ground.assumed()->point, -ground.assumed()->normal};
        body = kept_or_uncut(body, mesh::cut_by_plane(body, below, mesh::rim), true, "the ground", solid, checking, making);
    } else if (const auto tool = ground_over(ground, mesh::bounds(body))) {
        body = kept_or_uncut(body, mesh::cut_by_solid(body, *tool), true, "the ground", solid, checking, making);
    } else {
        making.report(solid_left_uncut, solid.vein, solid.block,
                      "its body is left uncut by the ground, which gives no surface there");
    }
}

void cut_by_property(TriangleMesh& body, const std::shared_ptr<const site::Property>& property, const VeinSolid& solid,
                     Checking checking, Making& making) {
    if (!property) return;
    std::vector<site::Ring> rings;
    for (const auto& area : property->areas()) rings.insert(rings.end(), area.begin(), area.end());
    const mesh::Bounds box = mesh::bounds(body);
    const auto tool = mesh::upright_prism(std::move(rings), box.lower.z() - beyond, box.upper.z() + beyond);
    if (!tool)
        making.report(solid_left_uncut, solid.vein, solid.block,
                      "its body is left uncut by the property, whose outline crosses itself");
    else
        body = kept_or_uncut(body, mesh::cut_by_solid(body, all_rim(*tool)), true, "the property", solid, checking, making);
}

bool overlap(const mesh::Bounds& a, const mesh::Bounds& b) {
    return (a.lower.array() <= b.upper.array()).all() && (b.lower.array() <= a.upper.array()).all();
}

SolidFigures figures_of(const Vein::Model& model, std::size_t block, const TriangleMesh& body) {
    SolidFigures figures;
    const std::size_t count = body.points.size();
    figures.sd.resize(count);
    figures.presence.resize(count);
    figures.thickness.resize(count);
    base::parallel_for(count, [&](std::size_t i) {
        const Eigen::Vector2d place = model.parts[block].chart.chart_from_world(body.points[i]).head<2>();
        const double stretch = std::exp(-log_stretch(model.lattice->at(place).gradient));
        figures.sd[i] = model.parts[block].band->at(place).height_sd * stretch;
        figures.presence[i] = model.window->at(place) * model.drawn_thickness->at(place).chance_of_more_than_trace;
        figures.thickness[i] = std::max(thinnest_body, drawn_at(model, model.parts[block], place).thickness) * stretch;
    });
    return figures;
}

// What cuts a body, one after the other.
using CutStep = std::function<void(TriangleMesh&, Checking, Making&)>;

std::vector<CutStep> cut_steps(const Vein& vein, std::size_t block, const VeinSolid& solid, const site::Site& site,
                               const std::vector<const VeinSolid*>& younger) {
    std::vector<CutStep> steps;
    for (const base::Plane& bound : vein.blocks().bounds(block))
        steps.emplace_back([bound, &solid](TriangleMesh& body, Checking checking, Making& making) {
            const base::Plane within{bound.point, -bound.normal};
            body = kept_or_uncut(body, mesh::cut_by_plane(body, within, mesh::rim), true, "a fault", solid, checking, making);
        });
    for (const VeinSolid* other : younger)
        steps.emplace_back([other, &solid](TriangleMesh& body, Checking checking, Making& making) {
            if (!overlap(mesh::bounds(body), mesh::bounds(other->mesh))) return;
            body = kept_or_uncut(body, mesh::cut_by_solid(body, all_rim(other->mesh)), false, "vein " + other->vein, solid,
                                 checking, making);
        });
    if (const auto wall = vein.model().parent_wall)
        steps.emplace_back([wall, &solid](TriangleMesh& body, Checking checking, Making& making) {
            for (const mesh::Outcome<TriangleMesh>& behind : wall->behind(body)) {
                if (body.triangles.empty()) return;
                if (!behind)
                    making.report(solid_left_uncut, solid.vein, solid.block, "its body is left uncut by the vein that it leaves");
                else
                    body = kept_or_uncut(body, mesh::cut_by_solid(body, all_rim(*behind)), false, "the vein that it leaves",
                                         solid, checking, making);
            }
        });
    steps.emplace_back([&site, &solid](TriangleMesh& body, Checking checking, Making& making) {
        cut_by_ground(body, site.ground, solid, checking, making);
    });
    steps.emplace_back([&site, &solid](TriangleMesh& body, Checking checking, Making& making) {
        cut_by_property(body, site.property, solid, checking, making);
    });
    return steps;
}

TriangleMesh cut(TriangleMesh body, const std::vector<CutStep>& steps, Checking checking, Making& making) {
    for (const CutStep& step : steps)
        if (!body.triangles.empty()) step(body, checking, making);
    return body;
}

// The body of one block, cut; nothing where there is none. Checked once at the end; where that fails, body and cuts are checked
// one by one, and the cut that spoils it is left out.
void make_block(const Vein& vein, std::size_t block, const std::vector<const VeinSolid*>& younger, const site::Site& site,
                Making& making) {
    VeinSolid solid;
    solid.vein = vein.name();
    solid.block = vein.blocks().name(block);
    const auto uncut = uncut_body(vein.model(), block);
    if (!uncut) return making.report(solid_left_out, solid.vein, solid.block, uncut.message);
    const std::vector<CutStep> steps = cut_steps(vein, block, solid, site, younger);
    Making quick;
    TriangleMesh body = cut(*uncut, steps, Checking::at_the_end, quick);
    if (!body.triangles.empty() && !mesh::check_solid(body).sound()) {
        const mesh::SolidCheck check = mesh::check_solid(*uncut);
        if (!check.sound()) return making.report(solid_left_out, solid.vein, solid.block, "its body is " + mesh::words_of(check));
        body = cut(*uncut, steps, Checking::each, making);
    } else {
        base::append(making.findings, std::move(quick.findings));
    }
    if (body.triangles.empty()) return;
    solid.mesh = std::move(body);
    solid.figures = figures_of(vein.model(), block, solid.mesh);
    solid.volume = mesh::volume(solid.mesh);
    making.solids.push_back(std::move(solid));
}

// When a vein happened: its place in the order of events; a vein that it does not name cuts nothing and is cut by nothing.
std::optional<std::ptrdiff_t> when(const std::string& vein, const faults::Events& events) {
    const auto found = std::find(events.order.begin(), events.order.end(), vein);
    return found == events.order.end() ? std::nullopt : std::optional<std::ptrdiff_t>(found - events.order.begin());
}

// A splay ends at the wall of the vein that it leaves, and takes nothing from it.
std::vector<const VeinSolid*> without_splays(const std::vector<const VeinSolid*>& younger, const std::vector<Vein>& veins,
                                             std::size_t parent) {
    const auto is_splay = [&](const VeinSolid* solid) {
        return std::any_of(veins.begin(), veins.end(), [&](const Vein& vein) {
            const auto& wall = vein.model().parent_wall;
            return vein.name() == solid->vein && wall && wall->is_of(veins[parent].model());
        });
    };
    std::vector<const VeinSolid*> others;
    std::remove_copy_if(younger.begin(), younger.end(), std::back_inserter(others), is_splay);
    return others;
}

}  // namespace

base::Checked<std::vector<VeinSolid>> vein_solids(const std::vector<Vein>& veins, const faults::Events& events,
                                                  const site::Site& site) {
    // The youngest first: what cuts a vein is whole before.
    std::vector<std::size_t> order(veins.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return when(veins[a].name(), events).value_or(-1) > when(veins[b].name(), events).value_or(-1);
    });
    std::vector<Making> made(veins.size());
    const auto make = [&](std::size_t i, const std::vector<const VeinSolid*>& younger) {
        std::vector<Making> blocks(veins[i].blocks().count());
        base::parallel_for(blocks.size(), [&](std::size_t block) { make_block(veins[i], block, younger, site, blocks[block]); });
        for (Making& block : blocks) {
            std::move(block.solids.begin(), block.solids.end(), std::back_inserter(made[i].solids));
            base::append(made[i].findings, std::move(block.findings));
        }
    };
    // Those that nothing cuts are made side by side, the others after what cuts them.
    const auto is_alone = [&](std::size_t i) { return !when(veins[i].name(), events) || i == order.front(); };
    base::parallel_for(veins.size(), [&](std::size_t i) {
        if (is_alone(i)) make(i, {});
    });
    std::vector<const VeinSolid*> younger;
    for (const std::size_t i : order) {
        if (!is_alone(i)) make(i, without_splays(younger, veins, i));
        if (when(veins[i].name(), events))
            for (const VeinSolid& solid : made[i].solids) younger.push_back(&solid);
    }
    base::Checked<std::vector<VeinSolid>> solids;
    for (Making& making : made) {
        std::move(making.solids.begin(), making.solids.end(), std::back_inserter(solids.value));
        base::append(solids.findings, std::move(making.findings));
    }
    return solids;
}

}  // namespace selvage::veins
