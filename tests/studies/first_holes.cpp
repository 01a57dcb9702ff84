#include "studies/chain.h"
#include "studies/straight_holes.h"
#include "studies/studies.h"

#include "base/parallel.h"
#include "support/true_vein.h"
#include "veins/vein.h"

#include <fmt/format.h>

#include <Eigen/Geometry>

#include <cmath>
#include <cstdint>
#include <limits>

namespace selvage::studies {

namespace {

constexpr std::uint64_t seed = 20260105;
constexpr std::size_t veins_of_a_row = 400;
constexpr double dip = 70.0, hole_length = 260.0, way_off = 0.6 * degree;
constexpr double deepest = 2000.0;  // m, how far a true hole is followed

// What is known before any hole: outcrops, or (none) a stated point with its attitude.
using Known = std::size_t;

struct DrawnVein : made_up::TrueVein {
    double slope_step = 1.0;  // m, over which a compass shows a slope
};

DrawnVein drawn_vein(std::uint64_t number, base::RandomStream& stream) {
    DrawnVein vein;
    vein.slope_step = made_up::slope_step(number);
    vein.axes = made_up::axes_of({base::Angle::degrees(dip), base::Azimuth::degrees(stream.uniform(0.0, 360.0))});
    vein.height = made_up::drawn_surface(stream, number, Eigen::Vector2d::Zero(), 50.0);
    return vein;
}

// The attitude there as it is measured, each slope an angle off by its own sd, radians.
base::Attitude measured_attitude(const DrawnVein& vein, const Eigen::Vector2d& place, const Eigen::Vector2d& sd,
                                 base::RandomStream& stream) {
    const Eigen::Vector3d n = vein.axes * vein.normal(place, vein.slope_step);
    const double along = std::atan(-n.x() / n.z()) + sd.x() * stream.normal();
    const double up = std::atan(-n.y() / n.z()) + sd.y() * stream.normal();
    return base::attitude_of_normal(vein.axes.transpose() * Eigen::Vector3d(-std::tan(along), -std::tan(up), 1.0).normalized());
}

Eigen::Vector3d moved(const Eigen::Vector3d& point, const Eigen::Vector3d& sd, base::RandomStream& stream) {
    const Eigen::Vector3d error(stream.normal(), stream.normal(), stream.normal());
    return point + sd.cwiseProduct(error);
}

// A stated attitude has neither waves nor core angles in it, 10 degrees of its own.
void state_plane(settings::VeinSetting& setting, const DrawnVein& vein, base::RandomStream& stream) {
    const Eigen::Vector2d origin = Eigen::Vector2d::Zero();
    setting.point = moved(vein.world(origin), Eigen::Vector3d::Constant(5.0), stream);
    const double sd = 10.0 * degree;
    const base::Attitude stated = measured_attitude(vein, origin, {sd * std::sin(dip * degree), sd}, stream);
    setting.dip = stated.dip;
    setting.dip_direction = stated.dip_direction;
}

void find_outcrops(tables::Records& records, const DrawnVein& vein, std::size_t count, base::RandomStream& stream) {
    const bool trench = stream.uniform() < 0.5;
    const double waves = std::hypot(stream.uniform(2.0, 5.0), stream.uniform(3.0, 8.0)) * degree;
    const double attitude_sd = std::hypot(waves, 5.0 * degree);
    double along = 0.0;
    for (std::size_t i = 0; i < count; ++i) {
        if (i > 0) along += stream.uniform(15.0, 70.0);
        const Eigen::Vector2d place(along, 6.0 * stream.normal());
        tables::Outcrop outcrop;
        outcrop.vein = "North";
        outcrop.trench = trench;
        const Eigen::Vector3d sd = trench ? Eigen::Vector3d(0.5, 0.5, 0.5) : Eigen::Vector3d(3.0, 3.0, 5.0);
        outcrop.position = moved(vein.world(place), sd, stream);
        outcrop.attitude = measured_attitude(vein, place, {attitude_sd, attitude_sd}, stream);
        records.outcrops.push_back(outcrop);
    }
}

// Down a straight true hole from the hanging side, the first depth under the surface, m.
std::optional<double> true_depth(const made_up::TrueVein& vein, const Eigen::Vector3d& collar, const Eigen::Vector3d& direction) {
    for (double depth = 1.0; depth < deepest; depth += 1.0) {
        if (vein.over(collar + depth * direction) > 0.0) continue;
        double low = depth - 1.0, high = depth;
        for (int i = 0; i < 30; ++i) {
            const double middle = (low + high) / 2.0;
            (vein.over(collar + middle * direction) > 0.0 ? low : high) = middle;
        }
        return (low + high) / 2.0;
    }
    return std::nullopt;
}

struct Trial {
    bool foretold = false;  // there is a curve, and the true hole meets the vein
    double down_dip = 0.0, rank = 0.0, width = 0.0;
};

Trial trial_of(Known outcrops, std::uint64_t number) {
    base::RandomStream stream("first hole", {seed, outcrops, number});
    const DrawnVein vein = drawn_vein(number, stream);
    tables::Records records;
    veins::VeinSettings settings;
    settings.veins.push_back({});
    settings.veins.back().name = "North";
    if (outcrops == 0)
        state_plane(settings.veins.back(), vein, stream);
    else
        find_outcrops(records, vein, outcrops, stream);
    Trial trial;
    trial.down_dip = stream.uniform(40.0, 220.0);
    const double angle = stream.uniform(35.0, 70.0) * degree;
    const Eigen::Vector3d target = vein.axes.transpose() * Eigen::Vector3d(20.0 * stream.normal(), -trial.down_dip, 0.0);
    const Eigen::Vector3d way = vein.axes.transpose() * Eigen::Vector3d(0.0, -std::cos(angle), -std::sin(angle));
    paths::Path hole = straight_hole("K-01", 0, target - hole_length * way, target);
    hole.status = tables::HoleStatus::planned;
    add_deviation(hole, way_off);
    const auto truth =
        true_depth(vein, hole.collar, turned_direction(hole, way_off * stream.normal(), way_off * stream.normal()));
    const std::vector<paths::Path> paths{hole};
    const auto models = veins::model_veins({}, paths, records, site::assumed_site(records), settings);
    if (models.value.empty() || !truth) return trial;
    const std::vector<veins::Crossing> crossings = models.value.front().crossings(hole);
    if (crossings.empty()) return trial;
    trial.foretold = true;
    trial.rank = rank_in(crossings.front(), *truth);
    trial.width = crossings.front().depth_at(0.9) - crossings.front().depth_at(0.1);
    return trial;
}

Row row_of(const std::string& what, const std::vector<Trial>& trials, double from, double to, std::optional<Window> window,
           made_up::Coverage& pool) {
    made_up::Coverage own;
    double width = 0.0;
    for (const Trial& trial : trials) {
        if (!trial.foretold || trial.down_dip < from || trial.down_dip >= to) continue;
        own.add_rank(trial.rank);
        width += trial.width;
    }
    Row row = coverage_row(what, own, std::nullopt, window);
    row.figures.emplace_back(Figure{width / static_cast<double>(own.count), std::nullopt});
    if (window) pool.add(own);
    return row;
}

}  // namespace

Study first_holes() {
    Study study{
        "The first hole",
        fmt::format("{} veins each of six kinds, dipping 70°, known by outcrops with attitudes or by a stated point, dip and "
                    "dip direction; a hole to a place 40 to 220 m down dip, 35 to 70° to the vein. How often ranges of its "
                    "depth hold, and how wide p10 to p90 is",
                    veins_of_a_row),
        std::to_string(seed),
        {"50 %", "80 %", "95 %", "width, m"},
        1,
        {},
        {}};
    constexpr double far = std::numeric_limits<double>::infinity();
    made_up::Coverage pool;
    for (const Known outcrops : {1U, 2U, 3U, 0U}) {
        std::vector<Trial> trials(veins_of_a_row);
        base::parallel_for(trials.size(), [&](std::size_t k) { trials[k] = trial_of(outcrops, k); });
        const std::string known = outcrops == 0   ? "stated plane"
                                  : outcrops == 1 ? "1 outcrop"
                                                  : fmt::format("{} outcrops", outcrops);
        study.rows.push_back(row_of(known, trials, 0.0, far, Window{74, 86}, pool));
        for (const auto& [from, to] : {std::pair{40.0, 90.0}, {90.0, 150.0}, {150.0, 220.0}})
            study.rows.push_back(
                row_of(fmt::format("  {:.0f} to {:.0f} m down dip", from, to), trials, from, to, std::nullopt, pool));
    }
    study.reliability.emplace_back("depth of the first hole", pool);
    return study;
}

}  // namespace selvage::studies
