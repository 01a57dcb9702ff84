#include "base/parallel.h"
#include "studies/content_priors.h"
#include "support/made_up_content.h"
#include "veins/drawing_lattice.h"
#include "veins/log_field.h"
#include "veins/presence.h"
#include "veins/presence_score.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <utility>
#include <vector>

// Whether the chances that drilled places are given by all the other holes come as often as they say, on made-up veins whose
// truth is known: what the sheet of checks prints is then no flattery.
namespace selvage::veins {
namespace {

constexpr std::uint64_t seed = 20261128;

// As a vein is modelled: window times more than a trace, of each hole from all the others.
std::vector<ToldChance> told_of(const made_up::ContentWorld& world) {
    std::vector<PresenceDatum> data;
    std::vector<LogDatum> logs;
    for (const made_up::ContentAt& hole : world.holes) {
        data.push_back({hole.place, hole.there, true});
        if (hole.there) logs.push_back({hole.place, hole.log_thickness, 0.0});
    }
    const std::vector<double> windows = leave_one_out_presences(*fit_presence(data, studies::spacing));
    const auto thickness = fit_log_field(logs, studies::spacing, studies::thickness_prior());
    std::vector<ToldChance> told;
    std::size_t hit = 0;
    for (std::size_t i = 0; i < world.holes.size(); ++i) {
        const made_up::ContentAt& hole = world.holes[i];
        const numerics::NormalMixture log_thickness =
            hole.there ? leave_one_out_log(*thickness, hit++) : log_value_at(*thickness, hole.place);
        told.push_back({windows[i] * chance_of_more_than_trace(log_thickness), hole.there});
    }
    return told;
}

std::vector<ToldChance> told_of_worlds(std::size_t worlds, std::size_t holes) {
    std::vector<made_up::ContentWorld> made;
    for (std::uint64_t number = 0; made.size() < worlds; ++number)
        if (made_up::ContentWorld world = made_up::content_world(seed, holes, number); world.hits() >= 2)
            made.push_back(std::move(world));
    std::vector<std::vector<ToldChance>> by_world(worlds);
    base::parallel_for(worlds, [&](std::size_t i) { by_world[i] = told_of(made[i]); });
    std::vector<ToldChance> all;
    for (const auto& told : by_world) all.insert(all.end(), told.begin(), told.end());
    return all;
}

// Windows laid down before the run: of a class of 100 places or more, said and came lie within .09 of each other, as inside the
// holes in the study of presence; over the classes within .06; the score is under that of the plain share.
TEST(PresenceTrack, LeaveOneOutChancesComeAsOftenAsTheySay) {
    for (const auto& [worlds, holes] : {std::pair<std::size_t, std::size_t>{160, 12}, {80, 25}}) {
        const ChanceScore score = score_of(told_of_worlds(worlds, holes));
        double off = 0.0;
        for (const ChanceClass& part : score.classes) {
            const double difference = std::abs(part.expected - static_cast<double>(part.came));
            off += difference / static_cast<double>(score.places);
            if (part.places >= 100) {
                EXPECT_LE(difference, 0.09 * static_cast<double>(part.places)) << holes << " holes, from " << part.low;
            }
        }
        EXPECT_LE(off, 0.06);
        EXPECT_LT(score.brier, score.plain);
    }
}

}  // namespace
}  // namespace selvage::veins
