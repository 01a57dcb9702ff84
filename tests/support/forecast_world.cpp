#include "support/forecast_world.h"

#include "numerics/normal_mixture.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <optional>
#include <utility>

namespace selvage::made_up {

namespace {

constexpr double spacing = 50.0;
constexpr double pi = 3.14159265358979323846;

// The n points of a jittered lattice nearest to a random middle, m.
std::vector<Eigen::Vector2d> lattice(base::RandomStream& stream, std::size_t n) {
    const auto count = static_cast<double>(n);
    const auto across = static_cast<std::size_t>(std::ceil(std::sqrt(1.6 * count)));
    const auto up = static_cast<std::size_t>(std::ceil(1.25 * count / static_cast<double>(across))) + 1;
    std::vector<Eigen::Vector2d> all;
    for (std::size_t i = 0; i < across; ++i)
        for (std::size_t j = 0; j < up; ++j) all.emplace_back(static_cast<double>(i), static_cast<double>(j));
    const Eigen::Vector2d mean = std::accumulate(all.begin(), all.end(), Eigen::Vector2d(0, 0)) / static_cast<double>(all.size());
    const Eigen::Vector2d centre = 0.3 * all[stream.below(all.size())] + 0.7 * mean;
    std::vector<std::pair<double, std::size_t>> order;
    for (std::size_t i = 0; i < all.size(); ++i)
        order.emplace_back((all[i] - centre).squaredNorm() + stream.uniform(0.0, 1.5), i);
    std::sort(order.begin(), order.end());
    std::vector<Eigen::Vector2d> kept;
    for (std::size_t i = 0; i < n; ++i)
        kept.push_back(spacing * (all[order[i].second] - centre + 0.22 * Eigen::Vector2d(stream.normal(), stream.normal())));
    return kept;
}

double angle_to_vein(const TrueVein& vein, const Eigen::Vector3d& collar, const Eigen::Vector2d& place) {
    const Eigen::Vector3d line = (vein.world(place) - collar).normalized();
    return std::asin(std::min(1.0, std::abs(line.dot(Eigen::Vector3d(vein.axes.row(2)))))) * 180.0 / pi;
}

std::optional<Eigen::Vector3d> pad_for(const TrueVein& vein, const std::array<Eigen::Vector3d, 2>& pads,
                                       const Eigen::Vector2d& place, base::RandomStream& stream) {
    const std::size_t first = stream.below(2);
    for (const std::size_t pad : {first, 1 - first}) {
        const double angle = angle_to_vein(vein, pads[pad], place);
        if (angle >= 30.0 && angle <= 75.0) return pads[pad];
    }
    return std::nullopt;
}

std::array<Eigen::Vector3d, 2> drawn_pads(const TrueVein& vein, const Eigen::Vector3d& outward, base::RandomStream& stream) {
    std::array<Eigen::Vector3d, 2> pads;
    for (std::size_t i = 0; i < 2; ++i) {
        const Eigen::Vector3d along = vein.axes.row(0) * stream.uniform(-70.0, 70.0);
        pads[i] = vein.centre + along + outward * stream.uniform(20.0, 220.0);
        pads[i].z() = 0.0;
    }
    return pads;
}

HolePlan plan_to(const std::string& name, const Eigen::Vector3d& pad, const Eigen::Vector3d& target) {
    HolePlan plan;
    plan.name = name;
    plan.collar = pad;
    plan.start = aimed(pad, target);
    plan.length = std::round((target - pad).norm() + 60.0);
    return plan;
}

Site site_of(std::uint64_t world, base::RandomStream& stream, std::vector<Eigen::Vector2d>& places, std::size_t drilled) {
    Site site;
    site.name = fmt::format("made-up world {}", world);
    site.map_origin = {500000.0, 5000000.0, 1000.0};
    site.declination = stream.uniform(-15.0, 15.0);
    site.convergence = stream.uniform(-1.0, 1.0);
    site.ground = [](double, double) { return 0.0; };
    site.rock = [](const Eigen::Vector3d&) { return std::string("sandstone"); };
    site.deviation.lift_mean = stream.uniform(-0.5, 2.0);
    site.deviation.swing_mean = stream.uniform(-0.5, 1.5);
    site.contact_wave_sd = stream.uniform(3.0, 8.0);
    site.vein_names = {"Plover"};
    TrueVein vein;
    vein.centre = {0.0, 0.0, stream.uniform(-260.0, -150.0)};
    vein.axes = axes_of({base::Angle::degrees(stream.uniform(55.0, 85.0)), base::Azimuth::degrees(stream.uniform(0.0, 360.0))});
    places = lattice(stream, drilled);
    const Eigen::Vector2d mean =
        std::accumulate(places.begin(), places.end(), Eigen::Vector2d(0, 0)) / static_cast<double>(places.size());
    vein.height = drawn_surface(stream, world, mean, spacing);
    const RandomField thick(stream, 100.0, 1.5);
    vein.thickness = [thick](const Eigen::Vector2d& place) { return 0.8 * std::exp(0.5 * thick.at(place)); };
    vein.silver_gpt = [](const Eigen::Vector2d&) { return 300.0; };
    vein.present = [](const Eigen::Vector2d&) { return true; };
    site.veins.push_back(vein);
    return site;
}

// Thickness and presence as the worlds of made_up_content.h have them, here to be asked anywhere. Their noise from hole to hole
// is a field of very short range.
void break_up(TrueVein& vein, const std::vector<Eigen::Vector2d>& holes, base::RandomStream stream) {
    constexpr double trace_of_vein = 0.02;  // m
    const std::size_t kind = stream.below(4);
    const RandomField field(stream, stream.log_uniform(50.0, 250.0), 1.5), noise(stream, 1.0, 1.5);
    const double median = std::log(stream.log_uniform(0.3, 1.5));
    const double smooth = stream.uniform(0.4, 0.7), rough = stream.uniform(0.15, 0.4), level = stream.uniform(0.4, 1.2);
    const RandomField open(stream, stream.log_uniform(60.0, 200.0), 1.5);
    const double threshold = numerics::normal_quantile(stream.uniform(0.05, 0.35));
    const double turn = stream.uniform(0.0, 2.0 * pi);
    const Eigen::Vector2d along(std::cos(turn), std::sin(turn));
    std::vector<double> of_holes;
    for (const Eigen::Vector2d& hole : holes) of_holes.push_back(hole.dot(along));
    std::sort(of_holes.begin(), of_holes.end());
    const double share = stream.uniform(0.6, 1.0);
    const double edge =
        of_holes[static_cast<std::size_t>(share * static_cast<double>(holes.size() - 1))] + stream.uniform(0.0, 40.0);
    vein.thickness = [=](const Eigen::Vector2d& place) {
        if (kind == 2) return std::exp(std::log(0.25) + 1.3 * field.at(place) + 0.3 * noise.at(place));
        if (kind == 3) return std::exp(median + 0.25 * noise.at(place)) * std::max(1e-6, level + field.at(place));
        return std::exp(median + smooth * field.at(place) + rough * noise.at(place));
    };
    vein.present = [=, thickness = vein.thickness](const Eigen::Vector2d& place) {
        if (kind == 0 && open.at(place) <= threshold) return false;
        if (kind == 1 && place.dot(along) >= edge) return false;
        return thickness(place) > trace_of_vein;
    };
}

ForecastWorld drilled_world(Site site, const std::vector<Eigen::Vector2d>& places, std::uint64_t world, std::size_t planned,
                            base::RandomStream& stream) {
    const TrueVein vein = site.veins[0];
    const Eigen::Vector3d outward = Eigen::Vector3d(vein.axes.row(2).x(), vein.axes.row(2).y(), 0.0).normalized();
    Eigen::Vector2d low = places[0], high = places[0];
    for (const Eigen::Vector2d& place : places) {
        low = low.cwiseMin(place);
        high = high.cwiseMax(place);
    }
    // Pads from which all holes lie within 30 to 75 degrees to the vein; the widest choice is taken where none serves all.
    std::array<Eigen::Vector3d, 2> pads = drawn_pads(vein, outward, stream);
    const auto serves = [&](const std::array<Eigen::Vector3d, 2>& some) {
        return std::count_if(places.begin(), places.end(), [&](const Eigen::Vector2d& place) {
            return std::any_of(some.begin(), some.end(), [&](const Eigen::Vector3d& pad) {
                const double angle = angle_to_vein(vein, pad, place);
                return angle >= 30.0 && angle <= 75.0;
            });
        });
    };
    for (int tries = 0; tries < 300 && serves(pads) < static_cast<std::ptrdiff_t>(places.size()); ++tries) {
        const std::array<Eigen::Vector3d, 2> others = drawn_pads(vein, outward, stream);
        if (serves(others) > serves(pads)) pads = others;
    }
    ForecastWorld out{MadeUpProject(std::move(site), world), {}};
    for (std::size_t i = 0; i < places.size(); ++i)
        if (const auto pad = pad_for(vein, pads, places[i], stream))
            out.project.drill(plan_to(fmt::format("D-{:02}", i + 1), *pad, vein.world(places[i])));
    for (int tries = 0; out.planned.size() < planned && tries < 400; ++tries) {
        const Eigen::Vector2d place(stream.uniform(low.x() - spacing, high.x() + spacing),
                                    stream.uniform(low.y() - spacing, high.y() + spacing));
        const auto pad = pad_for(vein, pads, place, stream);
        if (!pad) continue;
        HolePlan plan = plan_to(fmt::format("N-{:02}", out.planned.size() + 1), *pad, vein.world(place));
        plan.status = "planned";
        out.planned.push_back(plan.name);
        out.project.drill(plan);
    }
    return out;
}

}  // namespace

ForecastWorld forecast_world(std::uint64_t world, std::size_t drilled, std::size_t planned) {
    base::RandomStream stream("forecast world", {world});
    std::vector<Eigen::Vector2d> places;
    Site site = site_of(world, stream, places, drilled);
    return drilled_world(std::move(site), places, world, planned, stream);
}

ForecastWorld broken_forecast_world(std::uint64_t world, std::size_t drilled, std::size_t planned) {
    base::RandomStream stream("broken forecast world", {world});
    std::vector<Eigen::Vector2d> places;
    Site site = site_of(world, stream, places, drilled);
    break_up(site.veins[0], places, base::RandomStream("where the vein of a forecast world is", {world}));
    return drilled_world(std::move(site), places, world, planned, stream);
}

}  // namespace selvage::made_up
