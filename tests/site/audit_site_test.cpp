#include "site/site.h"
#include "support/map_files.h"
#include "support/project_tables.h"
#include "support/record_builders.h"
#include "support/reliefs.h"

#include <gtest/gtest.h>

#include <limits>

namespace selvage::site {
namespace {

double flat(double, double) { return 100.0; }

const base::Direction east_and_down{base::Azimuth::degrees(90.0), base::Dip::degrees(45.0)};

// Five drilled holes and a planned one, 200 m each to the east at 45 degrees, from level ground at 100 m.
struct Scene {
    Site site;
    tables::Records records;
    std::vector<paths::Path> paths;
    settings::Project project;

    Scene() {
        for (int i = 0; i < 6; ++i) add("H" + std::to_string(i), {20.0 * i, 0.0, 100.0});
        records.collars.back().status = paths.back().status = tables::HoleStatus::planned;
        paths.back().drilled_depth = 0.0;
        give(flat);
    }
    void add(const std::string& hole, const Eigen::Vector3d& at) {
        paths.push_back(test::straight_path(hole, records.collars.size(), at, east_and_down, 200.0));
        records.collars.push_back(test::collar(hole, at, 200.0));
    }
    void give(double (*elevation)(double, double)) {
        site.ground =
            Ground(base::Plane{{0, 0, 100.0}, Eigen::Vector3d::UnitZ()}, test::grid_relief(-100, -100, 90, 40, 5.0, elevation));
    }
    std::vector<base::Finding> found(const std::string& check) const {
        return test::found(audit_site(site, records, paths, project), check);
    }
};

TEST(AuditSite, WhereAllFitsThereIsNothingToSay) {
    Scene scene;
    scene.site.property = std::make_shared<const Property>(Property({{test::box_ring(-50, -50, 300, 50)}}));
    EXPECT_TRUE(audit_site(scene.site, scene.records, scene.paths, scene.project).empty());
}

TEST(AuditSite, ACollarOffTheGroundIsNamedWithTheDifference) {
    Scene scene;
    scene.records.collars[2].position.z() = 107.5;
    scene.records.collars[3].position.z() = 104.9;
    const auto found = scene.found("off-the-ground");
    ASSERT_EQ(found.size(), 1U);
    EXPECT_EQ(found[0].hole, "H2");
    EXPECT_NE(found[0].message.find("7.5 m above"), std::string::npos) << found[0].message;
}

TEST(AuditSite, WhereAllCollarsAreOffItIsTheTopography) {
    Scene scene;
    scene.give([](double, double) { return 131.0; });
    EXPECT_TRUE(scene.found("off-the-ground").empty());
    const auto found = scene.found("topography-off-collars");
    ASSERT_EQ(found.size(), 1U);
    EXPECT_NE(found[0].message.find("31.0 m below"), std::string::npos) << found[0].message;
}

TEST(AuditSite, APickAboveTheGroundIsNamed) {
    Scene scene;
    scene.records.collars[1].position.z() = 150.0;
    scene.paths[1] = test::straight_path("H1", 1, {20.0, 0.0, 150.0}, east_and_down, 200.0);
    scene.records.picks = {test::pick("H1", 20.0, 21.0, "Lode"), test::pick("H1", 120.0, 121.0, "Lode")};
    const auto found = scene.found("pick-above-ground");
    ASSERT_EQ(found.size(), 1U);  // 20 m down the hole is 150 - 14.1
    EXPECT_NE(found[0].message.find("35.9 m above"), std::string::npos) << found[0].message;
}

TEST(AuditSite, ATopographyTooSmallOrWithHolesIsSaid) {
    Scene scene;
    scene.site.ground = Ground(base::Plane{{0, 0, 100.0}, Eigen::Vector3d::UnitZ()},
                               test::grid_relief(-100, -100, 30, 40, 5.0, [](double east, double) {
                                   return east > 0.0 && east < 30.0 ? std::numeric_limits<double>::quiet_NaN() : 100.0;
                               }));
    const auto small = scene.found("topography-too-small");
    ASSERT_EQ(small.size(), 1U);
    EXPECT_NE(small[0].message.find("9 of 12"), std::string::npos) << small[0].message;  // collars at 60, 80, 100 and six ends
    EXPECT_EQ(scene.found("topography-has-holes").size(), 1U);
}

TEST(AuditSite, APropertyThatHoldsNoHoleIsSaid) {
    Scene scene;
    scene.site.property = std::make_shared<const Property>(Property({{test::box_ring(5000, 5000, 5100, 5100)}}));
    EXPECT_EQ(scene.found("property-without-holes").size(), 1U);
    EXPECT_TRUE(scene.found("outside-property").empty());
}

TEST(AuditSite, PlannedHolesPadsAndTargetsOutsideThePropertyAreNamed) {
    Scene scene;
    scene.site.property = std::make_shared<const Property>(Property({{test::box_ring(-50, -50, 150, 50)}}));
    scene.records.collars[5].target = tables::Target{"T-1", "Lode", Eigen::Vector3d(170.0, 0.0, 0.0), {}};
    tables::Pad pad;
    pad.pad = "P9";
    pad.position = {0.0, 80.0, 100.0};
    scene.records.pads = {pad};
    const auto found = scene.found("outside-property");
    ASSERT_EQ(found.size(), 3U) << test::lines_of(found);
    EXPECT_NE(found[0].message.find("pad P9 lies 30 m outside"), std::string::npos) << found[0].message;
    EXPECT_NE(found[1].message.find("target lies 20 m outside"), std::string::npos) << found[1].message;
    EXPECT_NE(found[2].message.find("leaves the property at about 75 m"), std::string::npos)
        << found[2].message;  // 50 sqrt 2, by fives
    EXPECT_EQ(found[2].hole, "H5");
}

// The planned hole starts at east 100 and passes 141.4 m down the hole through (200, 0, 0).
TEST(AuditSite, APlannedHoleNearWorkingsIsNamedWithDepths) {
    Scene scene;
    const std::vector<Ring> drift = {test::box_ring(190, -50, 210, 50)};
    scene.site.workings = {{"adit 2", drift, prism(drift, -2.0, 2.0)}, {"", {test::box_ring(120, -5, 130, 5)}, nullptr}};
    scene.project.plan.clearance = 3.0;
    const auto found = scene.found("near-old-workings");
    ASSERT_EQ(found.size(), 2U) << test::lines_of(found);
    EXPECT_EQ(found[0].hole, "H5");
    EXPECT_NE(found[0].message.find("within 3.0 m of old workings \"adit 2\" between 134 m and 148 m, into them"),
              std::string::npos)
        << found[0].message;
    EXPECT_NE(found[1].message.find("is not known"), std::string::npos) << found[1].message;
    scene.records.collars[5].status = scene.paths[5].status = tables::HoleStatus::done;
    EXPECT_TRUE(scene.found("near-old-workings").empty());
}

}  // namespace
}  // namespace selvage::site
