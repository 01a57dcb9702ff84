#include "base/parallel.h"
#include "support/log_score.h"
#include "support/made_up_content.h"
#include "support/made_up_vein.h"
#include "veins/drawing_lattice.h"
#include "veins/log_field.h"
#include "veins/presence.h"
#include "veins/surface.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

// The long study of very many holes: the ways by neighbours against the exact one, 375 holes a vein, the six kinds of surface and
// the four of content in turn.
namespace selvage::veins {
namespace {

constexpr std::size_t holes = 375, worlds = 12;
constexpr double most_lost = 0.04;  // of log score, pooled
constexpr Eigen::Index no_limit = 1000000;
constexpr std::array<const char*, 3> groups{"inside", "one spacing out", "two spacings out"};

// Sums of a score over places, and over the same places by another way.
struct Lost {
    double exact = 0.0, other = 0.0, places = 0.0;
    double mean() const { return (other - exact) / places; }
};

void say(const char* what, std::size_t group, const Lost& lost) {
    std::printf("%s %s, %.0f places: log score %.4f exactly, lost %+.4f\n", what, groups[group], lost.places,
                lost.exact / lost.places, lost.mean());
}

TEST(ManyInterceptsStudy, HeightsLoseLittle) {
    std::array<Lost, 3> searched, local;
    for (std::uint64_t number = 0; number < worlds; ++number) {
        const made_up::Vein world = made_up::vein(20261127, holes, number, true);
        const auto exact = fit_surface(world.data, 50.0, {true, no_limit, no_limit});
        const auto by_search = fit_surface(world.data, 50.0, {true, 600, no_limit});
        const auto by_neighbours = fit_surface(world.data, 50.0, {true, 600, 600});
        const std::array<const made_up::Places*, 3> places{&world.places.inside, &world.places.one_out, &world.places.two_out};
        const std::array<const Eigen::VectorXd*, 3> came{&world.inside, &world.one_out, &world.two_out};
        for (std::size_t group = 0; group < groups.size(); ++group) {
            const auto n = static_cast<double>(places[group]->size());
            const double wanted = n * made_up::log_score(heights_at(*exact, *places[group]), *came[group]);
            const auto add = [&](Lost& lost, const SurfaceModel& model) {
                lost.exact += wanted;
                lost.other += n * made_up::log_score(heights_at(model, *places[group]), *came[group]);
                lost.places += n;
            };
            add(searched[group], *by_search);
            add(local[group], *by_neighbours);
        }
    }
    for (std::size_t group = 0; group < groups.size(); ++group) {
        say("heights, parameters by neighbours,", group, searched[group]);
        say("heights, all by neighbours,", group, local[group]);
        EXPECT_LE(searched[group].mean(), most_lost);
        EXPECT_LE(local[group].mean(), most_lost);
    }
}

// Thickness and grade of one world: the exact log score's sum and the neighbours', over the places where the vein is.
void add_logs(std::array<Lost, 3>& lost, const made_up::ContentWorld& world, double made_up::ContentAt::*value,
              const LogFieldPrior& prior) {
    std::vector<LogDatum> data;
    for (const made_up::ContentAt& hole : world.holes)
        if (hole.there) data.push_back({hole.place, hole.*value, 0.0});
    const auto exact = fit_log_field(data, 50.0, prior), local = fit_log_field(data, 50.0, prior, 100);
    for (std::size_t group = 0; group < groups.size(); ++group)
        for (const made_up::ContentAt& place : world.truth[group]) {
            if (!place.there) continue;
            const Eigen::VectorXd came = Eigen::VectorXd::Constant(1, place.*value);
            lost[group].exact += made_up::log_score({log_value_at(*exact, place.place)}, came);
            lost[group].other += made_up::log_score({log_value_at(*local, place.place)}, came);
            lost[group].places += 1.0;
        }
}

TEST(ManyInterceptsStudy, ThicknessAndGradeLoseLittle) {
    std::vector<std::array<Lost, 3>> thickness(worlds), grade(worlds);
    base::parallel_for(worlds, [&](std::size_t i) {
        LogFieldPrior prior;
        prior.mean = usual_log_thickness();
        add_logs(thickness[i], made_up::content_world(20261128, holes, i), &made_up::ContentAt::log_thickness, prior);
        prior.mean = std::log(300.0);  // what the made-up grades are about
        prior.sd = prior.nugget_sd = {0.3, 0.7, 1.4};
        prior.log_weight = {0.0, 0.0, 0.0};
        add_logs(grade[i], made_up::grade_world(20261129, holes, i), &made_up::ContentAt::log_grade, prior);
    });
    for (const auto& [what, parts] : {std::pair{"thickness", &thickness}, {"grade", &grade}})
        for (std::size_t group = 0; group < groups.size(); ++group) {
            Lost pool;
            for (const auto& part : *parts) {
                pool.exact += part[group].exact;
                pool.other += part[group].other;
                pool.places += part[group].places;
            }
            say(what, group, pool);
            EXPECT_LE(pool.mean(), most_lost);
        }
}

TEST(ManyInterceptsStudy, PresenceLosesLittle) {
    struct Sums {
        Lost lost;
        double square = 0.0;
    };
    std::vector<std::array<Sums, 3>> by_world(worlds);
    base::parallel_for(worlds, [&](std::size_t i) {
        const made_up::ContentWorld world = made_up::content_world(20261130, holes, i);
        std::vector<PresenceDatum> data;
        for (const made_up::ContentAt& hole : world.holes) data.push_back({hole.place, hole.there, true});
        const auto exact = fit_presence(data, 50.0), local = fit_presence(data, 50.0, 100);
        for (std::size_t group = 0; group < groups.size(); ++group)
            for (const made_up::ContentAt& place : world.truth[group]) {
                const double whole = presence_at(*exact, place.place), near = presence_at(*local, place.place);
                Sums& sums = by_world[i][group];
                sums.lost.exact -= std::log(place.there ? whole : 1.0 - whole);
                sums.lost.other -= std::log(place.there ? near : 1.0 - near);
                sums.lost.places += 1.0;
                sums.square += (near - whole) * (near - whole);
            }
    });
    for (std::size_t group = 0; group < groups.size(); ++group) {
        Sums pool;
        for (const auto& part : by_world) {
            pool.lost.exact += part[group].lost.exact;
            pool.lost.other += part[group].lost.other;
            pool.lost.places += part[group].lost.places;
            pool.square += part[group].square;
        }
        say("presence", group, pool.lost);
        std::printf("presence %s: chances move by %.4f rms\n", groups[group], std::sqrt(pool.square / pool.lost.places));
        EXPECT_LE(pool.lost.mean(), most_lost);
    }
}

}  // namespace
}  // namespace selvage::veins
