#include "studies/studies.h"

#include "base/parallel.h"
#include "studies/content_priors.h"
#include "support/made_up_content.h"
#include "veins/drawing_lattice.h"
#include "veins/gaussian_process.h"
#include "veins/presence.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <utility>

namespace selvage::studies {

namespace {

constexpr std::uint64_t seed = 20261125;
constexpr std::size_t worlds = 160;

struct Said {
    double chance = 0.0, kriged = 0.0, base_rate = 0.0;
    bool came = false;
};

// Ordinary kriging of ones and zeros with an exponential covariance of 1.5 spacings, a tenth of it nugget: the yardstick.
double kriged_indicator(const made_up::ContentWorld& world, const Eigen::Vector2d& place) {
    const auto n = static_cast<Eigen::Index>(world.holes.size());
    const auto covariance = [](const Eigen::Vector2d& a, const Eigen::Vector2d& b) {
        return 0.9 * std::exp(-(a - b).norm() / (1.5 * spacing));
    };
    Eigen::MatrixXd matrix(n, n);
    Eigen::VectorXd values(n), with_place(n);
    for (Eigen::Index i = 0; i < n; ++i) {
        const made_up::ContentAt& hole = world.holes[static_cast<std::size_t>(i)];
        values(i) = hole.there ? 1.0 : 0.0;
        with_place(i) = covariance(hole.place, place);
        for (Eigen::Index j = 0; j < n; ++j)
            matrix(i, j) = covariance(hole.place, world.holes[static_cast<std::size_t>(j)].place) + (i == j ? 0.1 : 0.0);
    }
    const auto data = veins::condition(matrix, values);
    const veins::Estimate estimate =
        veins::estimate_with_drift(*data, values, Eigen::MatrixXd::Ones(n, 1), with_place, 1.0, Eigen::VectorXd::Ones(1));
    return std::clamp(estimate.mean, 0.0, 1.0);
}

std::array<std::vector<Said>, 3> said_of(const made_up::ContentWorld& world) {
    std::vector<veins::PresenceDatum> presence_data;
    std::vector<veins::LogDatum> thickness_data;
    for (const made_up::ContentAt& hole : world.holes) {
        presence_data.push_back({hole.place, hole.there, true});
        if (hole.there) thickness_data.push_back({hole.place, hole.log_thickness, 0.0});
    }
    const auto presence = veins::fit_presence(presence_data, spacing);
    const auto thickness = veins::fit_log_field(thickness_data, spacing, thickness_prior());
    const double rate = static_cast<double>(world.hits()) / static_cast<double>(world.holes.size());
    std::array<std::vector<Said>, 3> said;
    for (std::size_t group = 0; group < said.size(); ++group)
        for (const made_up::ContentAt& place : world.truth[group])
            said[group].push_back({veins::presence_at(*presence, place.place) *
                                       veins::chance_of_more_than_trace(veins::log_value_at(*thickness, place.place)),
                                   kriged_indicator(world, place.place), rate, place.there});
    return said;
}

struct Scores {
    double brier = 0.0, kriged = 0.0, base_rate = 0.0, off = 0.0;  // off: mean |said - came| over ten bins
};

Scores scores_of(const std::vector<Said>& all) {
    constexpr std::size_t bins = 10;
    std::array<double, bins> said{}, came{};
    Scores scores;
    const auto n = static_cast<double>(all.size());
    for (const Said& one : all) {
        const double truth = one.came ? 1.0 : 0.0;
        scores.brier += std::pow(one.chance - truth, 2) / n;
        scores.kriged += std::pow(one.kriged - truth, 2) / n;
        scores.base_rate += std::pow(one.base_rate - truth, 2) / n;
        const auto bin = std::min(bins - 1, static_cast<std::size_t>(one.chance * bins));
        said[bin] += one.chance;
        came[bin] += truth;
    }
    for (std::size_t bin = 0; bin < bins; ++bin) scores.off += std::abs(said[bin] - came[bin]) / n;
    return scores;
}

using Groups = std::array<std::vector<Said>, 3>;

std::vector<Groups> said_of_all() {
    std::vector<made_up::ContentWorld> made;
    for (std::uint64_t number = 0; made.size() < worlds; ++number)
        if (made_up::ContentWorld world = made_up::content_world(seed, 12, number); world.hits() >= 2)
            made.push_back(std::move(world));
    std::vector<Groups> by_world(worlds);
    base::parallel_for(worlds, [&](std::size_t i) { by_world[i] = said_of(made[i]); });
    return by_world;
}

}  // namespace

// The Brier score is to be under that of the holes' own rate.
Study presence() {
    Study study{
        "Whether the vein is there",
        fmt::format(
            "{} worlds of twelve holes: veins that taper, pinch, have barren windows or end on a line. Brier scores (mean "
            "square of chance less truth, less is better): ours, indicator kriging's, that of the holes' own rate; and "
            "how far chances lie off what came, over ten bins",
            worlds),
        std::to_string(seed),
        {"ours", "kriging", "own rate", "off"},
        3,
        {},
        {}};
    std::array<std::vector<Said>, 2> pool;
    for (const Groups& world : said_of_all())
        for (std::size_t group = 0; group < world.size(); ++group) {
            std::vector<Said>& all = pool[group == 0 ? 0 : 1];
            all.insert(all.end(), world[group].begin(), world[group].end());
        }
    for (const std::size_t group : {0U, 1U}) {
        const Scores scores = scores_of(pool[group]);
        study.rows.push_back(
            {group == 0 ? "inside the holes" : "one or two spacings out",
             pool[group].size(),
             {Figure{scores.brier, Window{0.0, scores.base_rate}}, Figure{scores.kriged, std::nullopt},
              Figure{scores.base_rate, std::nullopt}, Figure{scores.off, Window{0.0, group == 0 ? 0.09 : 0.06}}}});
    }
    return study;
}

}  // namespace selvage::studies
