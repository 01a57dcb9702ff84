#include "studies/chain.h"
#include "studies/straight_holes.h"
#include "studies/studies.h"

#include "base/parallel.h"
#include "support/true_vein.h"
#include "veins/base_plane.h"
#include "veins/crossing.h"
#include "veins/model.h"

#include <fmt/format.h>

#include <Eigen/Geometry>

#include <cmath>
#include <cstdint>
#include <memory>

namespace selvage::studies {

namespace {

constexpr std::uint64_t seed = 20260106;
constexpr std::size_t worlds = 400, holes = 10;
constexpr double spacing = 50.0, dip = 70.0, way_off = 0.6 * degree, pick_sd = 0.2;  // m
constexpr double azimuth_hole = 0.3 * degree, dip_hole = 0.15 * degree;

// A vein, its chart as the model has it, and the pads of both holes to come.
struct Scene {
    veins::Chart chart;
    made_up::TrueVein vein;
    made_up::Places holes;
    made_up::TruthPlaces truth;
    std::array<Eigen::Vector3d, 2> pads;  // that of the fan; another, 200 m along the vein
    double core_sd = 0.0;                 // radians
    double slope_step = 1.0;              // m, over which core shows a slope
};

Scene scene_of(std::uint64_t number, base::RandomStream& stream) {
    Scene scene;
    scene.chart = veins::chart_of(
        {Eigen::Vector3d::Zero(), base::upward_normal({base::Angle::degrees(dip), base::Azimuth::degrees(40.0)})});
    scene.vein.axes = scene.chart.chart_from_world_rotation;
    scene.holes = made_up::lattice_holes(holes, spacing, stream);
    scene.truth = made_up::truth_places(scene.holes, spacing, stream);
    Eigen::Vector2d mean = Eigen::Vector2d::Zero();
    for (const Eigen::Vector2d& hole : scene.holes) mean += hole / static_cast<double>(holes);
    scene.vein.height = made_up::drawn_surface(stream, number, mean, spacing);
    for (std::size_t i = 0; i < scene.pads.size(); ++i)
        scene.pads[i] = scene.chart.world_from_chart({mean.x() + 200.0 * static_cast<double>(i), mean.y() + 60.0, 120.0});
    scene.slope_step = made_up::slope_step(number);
    scene.core_sd = std::hypot(stream.uniform(2.0, 5.0), stream.uniform(3.0, 8.0)) * degree;
    return scene;
}

// A hole of the fan: where it really met the vein, and what of that was recorded.
veins::SurfaceDatum drilled(const Scene& scene, std::size_t number, double common_sd, double common, base::RandomStream& stream) {
    const Eigen::Vector3d met = scene.vein.world(scene.holes[number]);
    const Eigen::Vector3d& collar = scene.pads[0];
    const Eigen::Vector3d zenith = Eigen::Vector3d::UnitZ(), across = zenith.cross((met - collar).normalized()).normalized();
    const Eigen::Vector3d turn =
        zenith * (common + azimuth_hole * stream.normal()) + across * (dip_hole * stream.normal());  // of truth from record
    const Eigen::Vector3d recorded = met - turn.cross(met - collar);
    paths::Path path = straight_hole(fmt::format("K-{:02}", number + 1), number, collar, recorded);
    const int owner = static_cast<int>(number);
    path.sources = {{{paths::SourceKind::azimuth_common, 0, 0}, paths::Scope::project, common_sd},
                    {{paths::SourceKind::azimuth_hole, owner, 0}, paths::Scope::hole, azimuth_hole},
                    {{paths::SourceKind::dip_hole, owner, 0}, paths::Scope::hole, dip_hole}};
    const Eigen::Vector3d place = scene.chart.chart_from_world(recorded);
    veins::SurfaceDatum datum;
    datum.hole = path.hole;
    datum.place = place.head<2>();
    datum.height = place.z() + pick_sd * stream.normal();
    datum.scaled_variance = pick_sd * pick_sd - datum.fixed_variance;
    datum.effects = veins::chart_effects(scene.chart, paths::effects_at(path, path.end_depth));
    const Eigen::Vector3d true_normal = scene.vein.normal(scene.holes[number], scene.slope_step);
    const Eigen::Vector3d n = scene.vein.axes * (true_normal - turn.cross(true_normal));
    const double along = std::atan(-n.x() / n.z()) + scene.core_sd * stream.normal();
    const double up = std::atan(-n.y() / n.z()) + scene.core_sd * stream.normal();
    datum.normal = Eigen::Vector3d(-std::tan(along), -std::tan(up), 1.0).normalized();
    return datum;
}

// As much of a vein's model as a crossing asks for.
veins::Vein::Model model_of(const Scene& scene, const std::vector<veins::SurfaceDatum>& data, bool shared) {
    veins::Vein::Model model;
    model.chart = scene.chart;
    for (const veins::SurfaceDatum& datum : data) model.met.push_back(datum.place);
    model.spacing = veins::hole_spacing(model.met, spacing);
    model.surface = veins::fit_surface(data, model.spacing, {shared});
    model.step_out = 2.0 * model.spacing;
    model.lattice = std::make_shared<const veins::MeanLattice>(
        model.surface, veins::lattice_near(model.met, 2.0 * model.step_out, model.spacing / 2.0));
    veins::Extent extent;
    extent.chart = scene.chart;
    extent.hits = model.met;
    extent.step_out = model.step_out;
    extent.height = [lattice = model.lattice](const Eigen::Vector2d& place) { return lattice->at(place).height; };
    veins::BlockPart part;
    part.chart = scene.chart;
    part.met = model.met;
    part.extent = std::move(extent);
    part.band = std::make_shared<const veins::BandLattice>(model.surface, model.lattice, std::vector<veins::ChartEffect>{},
                                                           model.lattice->lattice());
    model.parts = {std::move(part)};
    return model;
}

std::optional<double> true_depth(const Scene& scene, const Eigen::Vector3d& collar, const Eigen::Vector3d& direction) {
    constexpr double deepest = 1500.0, step = 0.25;  // m
    for (double depth = 0.0; depth < deepest; depth += step)
        if (scene.vein.over(collar + depth * direction) <= 0.0) return depth - step / 2.0;
    return std::nullopt;
}

struct Trial {
    bool foretold = false;
    double rank = 0.0, width = 0.0;
};
struct World {
    std::array<std::array<Trial, 2>, 2> trials;  // same pad, other pad; shared, each on its own
};

World world_of(double common_sd, std::uint64_t number) {
    base::RandomStream stream("fan", {seed, number});
    const Scene scene = scene_of(number, stream);
    const double common = common_sd * stream.normal();
    std::vector<veins::SurfaceDatum> data;
    for (std::size_t i = 0; i < holes; ++i) data.push_back(drilled(scene, i, common_sd, common, stream));
    const std::array<veins::Vein::Model, 2> models{model_of(scene, data, true), model_of(scene, data, false)};
    World world;
    for (std::size_t pad = 0; pad < scene.pads.size(); ++pad) {
        const std::array<const made_up::Places*, 3> groups{&scene.truth.inside, &scene.truth.one_out, &scene.truth.two_out};
        const made_up::Places& group = *groups[stream.below(groups.size())];
        if (group.empty()) continue;
        const Eigen::Vector2d target = group[stream.below(group.size())];
        paths::Path hole =
            straight_hole("N-01", holes, scene.pads[pad], scene.chart.world_from_chart({target.x(), target.y(), 0.0}));
        hole.sources = {{{paths::SourceKind::azimuth_common, 0, 0}, paths::Scope::project, common_sd}};
        add_deviation(hole, way_off);
        const Eigen::Vector3d off = turned_direction(hole, way_off * stream.normal(), way_off * stream.normal());
        const auto truth = true_depth(scene, hole.collar, off + common * Eigen::Vector3d::UnitZ().cross(off));
        if (!truth) continue;
        for (std::size_t way = 0; way < models.size(); ++way) {
            const auto crossing = veins::crossing_curve(models[way], hole, veins::stretches_of(models[way], hole).front());
            if (!crossing) continue;
            world.trials[pad][way] = {true, rank_in(*crossing, *truth), crossing->depth_at(0.9) - crossing->depth_at(0.1)};
        }
    }
    return world;
}

}  // namespace

Study shared_errors() {
    Study study{
        "A fan of holes whose azimuths are all off by the same",
        fmt::format("{} veins of six kinds each, ten oriented holes from one pad, azimuths off by 0.3° a hole and by a common "
                    "error; a hole to come from the same pad, and one from a pad 200 m along. The common error as one "
                    "source of all holes and the forecast (shared), or each hole's own. How often ranges of depth hold, and how "
                    "wide p10 to p90 is",
                    worlds),
        std::to_string(seed),
        {"50 %", "80 %", "95 %", "width, m"},
        1,
        {},
        {}};
    std::array<made_up::Coverage, 2> all;
    const std::array<const char*, 2> pads{"same pad", "other pad"}, ways{"shared", "its own"};
    for (const double common : {0.3, 1.0}) {
        std::vector<World> drawn(worlds);
        base::parallel_for(worlds, [&](std::size_t k) { drawn[k] = world_of(common * degree, k); });
        for (std::size_t pad = 0; pad < pads.size(); ++pad)
            for (std::size_t way = 0; way < ways.size(); ++way) {
                made_up::Coverage pool;
                double width = 0.0;
                for (const World& world : drawn) {
                    const Trial& trial = world.trials[pad][way];
                    if (!trial.foretold) continue;
                    pool.add_rank(trial.rank);
                    width += trial.width;
                }
                all[way].add(pool);
                Row row = coverage_row(fmt::format("{:.1f}° in common, {}, {}", common, pads[pad], ways[way]), pool);
                row.figures.emplace_back(Figure{width / static_cast<double>(pool.count), std::nullopt});
                study.rows.push_back(row);
            }
    }
    // The window of pierce depths, pooled over pads.
    study.rows.push_back(coverage_row("all, shared", all[0], std::nullopt, Window{75, 88}));
    study.rows.push_back(coverage_row("all, its own", all[1]));
    study.reliability.emplace_back("pierce depth, common azimuth error", all[0]);
    return study;
}

}  // namespace selvage::studies
