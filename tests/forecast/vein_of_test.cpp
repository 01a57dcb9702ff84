#include "forecast/vein_of.h"

#include "veins/vein_scene.h"

#include <gtest/gtest.h>

namespace selvage::forecast {
namespace {

struct Log {
    veins::Scene scene;
    std::vector<veins::Vein> all;
    Log() {
        scene.lattice(3, 3);
        scene.hole("M-1", {70.0, 60.0}, 55.0, 20.0);
        all = scene.model();
        scene.records.geology.clear();
    }
    std::vector<VeinOf> logged(double from, double to, const std::string& rock, const std::string& vein = "") {
        tables::GeologyInterval row;
        row.hole = "M-1";
        row.from = from;
        row.to = to;
        row.rock = rock;
        row.vein = vein;
        scene.records.geology = {row};
        return veins_of(scene.records, scene.intercepts, scene.paths, all);
    }
};

TEST(VeinOf, ALoggedVeinWhereAVeinShouldComeIsLikelyThatOne) {
    Log log;
    const auto there = log.logged(veins::Scene::before_vein - 0.5, veins::Scene::before_vein + 0.5, "quartz vein");
    ASSERT_EQ(there.size(), 1u);
    EXPECT_EQ(there[0].vein, "North");
    EXPECT_GT(there[0].probability, 0.8);
    EXPECT_LT(there[0].probability, 1.0);
}

TEST(VeinOf, FarFromEveryVeinItIsAnother) {
    Log log;
    EXPECT_TRUE(log.logged(40.0, 41.0, "quartz vein").empty());
}

TEST(VeinOf, NamedOnesAndOtherRocksAreNotAsked) {
    Log log;
    const double at = veins::Scene::before_vein;
    EXPECT_TRUE(log.logged(at, at + 1.0, "quartz vein", "North").empty());
    EXPECT_TRUE(log.logged(at, at + 1.0, "tuff").empty());
}

}  // namespace
}  // namespace selvage::forecast
