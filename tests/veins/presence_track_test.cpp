#include "veins/presence.h"
#include "veins/presence_score.h"

#include "base/random.h"
#include "vein_scene.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace selvage::veins {
namespace {

// Hits and misses anywhere on some ground, misses gathered on one side of it.
std::vector<PresenceDatum> some_data(std::uint64_t number, std::size_t count) {
    base::RandomStream stream("hits and misses", {number, count});
    const double side = 50.0 * std::sqrt(static_cast<double>(count));
    std::vector<PresenceDatum> data;
    for (std::size_t i = 0; i < count; ++i) {
        const Eigen::Vector2d place(stream.uniform(0.0, side), stream.uniform(0.0, side));
        const bool hit = stream.uniform(0.0, 1.0) < (place.x() < 0.7 * side ? 0.9 : 0.3);
        data.push_back({place, hit, !hit || stream.uniform(0.0, 1.0) < 0.9});
    }
    return data;
}

double refitted_without(std::vector<PresenceDatum> data, std::size_t i) {
    const Eigen::Vector2d place = data[i].place;
    data.erase(data.begin() + static_cast<std::ptrdiff_t>(i));
    return presence_at(*fit_presence(std::move(data), 50.0), place);
}

// The cavity against fits that never saw the datum.
TEST(PresenceLeaveOneOut, IsWhatAFitWithoutTheDatumSays) {
    double worst = 0.0, sum = 0.0;
    std::size_t count = 0;
    for (const std::size_t holes : {5U, 12U, 25U})
        for (std::uint64_t number = 0; number < 6; ++number) {
            const std::vector<PresenceDatum> data = some_data(number, holes);
            const std::vector<double> quick = leave_one_out_presences(*fit_presence(data, 50.0));
            ASSERT_EQ(quick.size(), data.size());
            for (std::size_t i = 0; i < data.size(); ++i, ++count) {
                const double off = std::abs(quick[i] - refitted_without(data, i));
                worst = std::max(worst, off);
                sum += off;
            }
        }
    RecordProperty("worst", std::to_string(worst));
    RecordProperty("mean", std::to_string(sum / static_cast<double>(count)));
    EXPECT_LT(worst, 0.05);
    EXPECT_LT(sum / static_cast<double>(count), 0.01);
}

TEST(PresenceLeaveOneOut, OfOneDatumAloneIsWhatIsKnownBeforehand) {
    for (const bool hit : {true, false})
        EXPECT_NEAR(leave_one_out_presences(*fit_presence({{{10.0, 20.0}, hit, true}}, 50.0)).front(),
                    presence_at(*fit_presence({}, 50.0), {0.0, 0.0}), 1e-6);
    EXPECT_TRUE(leave_one_out_presences(*fit_presence({}, 50.0)).empty());
}

// Very many data are answered by neighbourhoods: the same within what those cost anywhere (.08 at the worst of 120 places).
TEST(PresenceLeaveOneOut, ByNeighbourhoodsIsNearTheExactOne) {
    const std::vector<PresenceDatum> data = some_data(3, 120);
    const std::vector<double> exact = leave_one_out_presences(*fit_presence(data, 50.0)),
                              local = leave_one_out_presences(*fit_presence(data, 50.0, 60));
    double sum = 0.0;
    for (std::size_t i = 0; i < data.size(); ++i) {
        EXPECT_NEAR(local[i], exact[i], 0.15);
        sum += std::abs(local[i] - exact[i]);
    }
    EXPECT_LT(sum / static_cast<double>(data.size()), 0.03);
}

TEST(PresenceScore, CountsByClassAndScoresBesideTheShareOfTheOthers) {
    const ChanceScore score = score_of({{0.2, false}, {0.5, true}, {0.8, true}, {0.9, true}, {1.0, false}});
    EXPECT_EQ(score.places, 5u);
    EXPECT_EQ(score.came, 3u);
    EXPECT_NEAR(score.expected, 3.4, 1e-12);
    const std::array<std::size_t, 4> places{1, 1, 1, 2}, came{0, 1, 1, 1};
    for (std::size_t i = 0; i < places.size(); ++i) {
        EXPECT_EQ(score.classes[i].places, places[i]);
        EXPECT_EQ(score.classes[i].came, came[i]);
    }
    EXPECT_NEAR(score.classes[3].expected, 1.9, 1e-12);
    // (.04 + .25 + .04 + .01 + 1) / 5; hits are given 2/4, misses 3/4: (3 x .25 + 2 x .5625) / 5
    EXPECT_NEAR(score.brier, 1.34 / 5.0, 1e-12);
    EXPECT_NEAR(score.plain, 1.875 / 5.0, 1e-12);
    // Gains .5225, 0, .21, .24, -.4375: their sd over the root of five.
    EXPECT_NEAR(score.gain_sd, std::sqrt((0.27300625 + 0.0441 + 0.0576 + 0.19140625 - 5.0 * 0.107 * 0.107) / 4.0 / 5.0), 1e-12);
    EXPECT_EQ(score_of({}).places, 0u);
    EXPECT_EQ(score_of({{0.3, true}}).plain, 0.0);
}

// Through the whole model: three misses beyond a lattice of hits. What a row says is what the vein says that was modelled without
// that hole, but for the spacing and the plane, which are not found again.
TEST(PresenceTrack, OfAHoleIsWhatTheVeinModelledWithoutItSays) {
    Scene scene;
    scene.lattice(4, 3);
    for (const double v : {0.0, 50.0, 100.0}) scene.hole("M-" + std::to_string(static_cast<int>(v)), {200.0, v}, 60.0, 20.0);
    const Vein vein = scene.model().at(0);
    ASSERT_EQ(vein.no_vein().size(), 3u);
    EXPECT_EQ(told_chances(vein).size(), 15u);
    const auto said_without = [&](const std::string& hole, const Eigen::Vector3d& point) {
        Scene other = scene;
        auto& met = other.intercepts.met;
        met.erase(std::remove_if(met.begin(), met.end(), [&](const auto& one) { return one.hole == hole; }), met.end());
        auto& paths = other.paths;
        paths.erase(std::remove_if(paths.begin(), paths.end(), [&](const auto& one) { return one.hole == hole; }), paths.end());
        return other.model().at(0).at(point).presence;
    };
    for (const NoVein& row : vein.no_vein()) {
        ASSERT_TRUE(row.is_miss());
        EXPECT_NEAR(row.presence, said_without(row.hole, row.point), 0.04) << row.hole;
    }
    for (const std::size_t i : {0U, 5U, 10U}) {
        const FitRow& row = vein.fit().at(i);
        EXPECT_TRUE(row.present);
        EXPECT_NEAR(row.presence, said_without(row.hole, scene.intercepts.met.at(i).point), 0.04) << row.hole;
    }
}

TEST(PresenceTrack, AStructureWithoutFillIsAMissAmongTheIntercepts) {
    Scene scene;
    scene.lattice(3, 3);
    scene.intercepts.met[4].state = tables::PickState::structure;
    const Vein vein = scene.model().at(0);
    EXPECT_FALSE(vein.fit().at(4).present);
    EXPECT_GT(vein.fit().at(4).presence, 0.5);
    EXPECT_EQ(score_of(told_chances(vein)).came, 8u);
}

}  // namespace
}  // namespace selvage::veins
