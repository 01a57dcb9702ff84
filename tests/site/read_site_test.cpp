#include "base/file.h"
#include "site/site.h"
#include "support/map_files.h"
#include "support/project_tables.h"
#include "support/record_builders.h"
#include "support/temporary_folder.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace selvage::site {
namespace {

double slope(double x, double y) { return 1000.0 + 0.1 * (x - 500000.0) + 0.05 * (y - 6000000.0); }

// Three collars about E 500 000 N 6 000 000; the project origin is (500 000, 6 000 000, 1000).
class SiteFiles : public ::testing::Test {
protected:
    SiteFiles() {
        project.folder = folder.path().string();
        project.plan.clearance = 5.0;
        records.frame.origin = {500000.0, 6000000.0, 1000.0};
        for (const double east : {0.0, 40.0, 80.0})
            records.collars.push_back(test::collar("H", {east, 10.0, slope(500000.0 + east, 6000010.0) - 1000.0}, 200.0));
    }
    void write(const std::string& name, const std::string& text) const { base::write_file(folder.path() / name, text); }
    base::Checked<Site> read() const { return read_site(project, records); }

    TemporaryFolder folder{"site-files"};
    settings::Project project;
    tables::Records records;
};

std::string lines(const base::Checked<Site>& read) { return test::lines_of(read.findings); }

TEST_F(SiteFiles, NothingGivenIsAnAssumedPlane) {
    const auto site = read();
    EXPECT_TRUE(site.findings.empty());
    EXPECT_FALSE(site.value.ground.has_given());
    EXPECT_TRUE(site.value.ground.assumed());
    EXPECT_TRUE(site.value.fingerprint.empty());
    EXPECT_EQ(site.value.property, nullptr);
}

TEST_F(SiteFiles, ARasterIsTheGroundRelativeToTheOrigin) {
    write("ground.asc", test::ascii_grid(60, 60, 499900.0, 5999900.0, 5.0, slope));
    project.site.topography.source = "ground.asc";
    const auto site = read();
    EXPECT_TRUE(site.findings.empty()) << lines(site);
    EXPECT_NEAR(*site.value.ground.elevation_at({50.0, 20.0}), 6.0, 1e-3);
    EXPECT_EQ(site.value.hashes.count("ground.asc"), 1U);
    const std::string before = site.value.fingerprint;
    EXPECT_EQ(read().value.fingerprint, before);
    write("ground.asc", test::ascii_grid(60, 60, 499900.0, 5999900.0, 5.0, [](double x, double y) { return slope(x, y) + 1.0; }));
    EXPECT_NE(read().value.fingerprint, before);
}

TEST_F(SiteFiles, CsvPointsAreTheGround) {
    std::string text = "Name,East,North,Elevation\n";
    for (int i = 0; i < 15; ++i)
        for (int k = 0; k < 15; ++k) {
            const double x = 499900.0 + 20.0 * i, y = 5999900.0 + 20.0 * k;
            text += "," + std::to_string(x) + "," + std::to_string(y) + "," + std::to_string(slope(x, y)) + "\n";
        }
    write("points.csv", text);
    project.site.topography.source = "points.csv";
    const auto site = read();
    EXPECT_TRUE(site.findings.empty()) << lines(site);
    EXPECT_NEAR(*site.value.ground.elevation_at({51.0, 23.0}), slope(500051.0, 6000023.0) - 1000.0, 1e-3);
}

TEST_F(SiteFiles, AMissingFileIsNamedAndTheGroundIsAPlane) {
    project.site.topography.source = "nowhere.tif";
    project.site.property.source = "nowhere.gpkg";
    project.site.workings.source = "nowhere.ply";
    const auto site = read();
    EXPECT_EQ(test::found(site.findings, "map-source-unusable").size(), 3U) << lines(site);
    EXPECT_NE(lines(site).find("nowhere.gpkg"), std::string::npos);
    EXPECT_FALSE(site.value.ground.has_given());
    EXPECT_TRUE(site.value.ground.assumed());
}

TEST_F(SiteFiles, AnUnknownSourceIsNamed) {
    write("ground.xyz123", "neither one thing nor another\n");
    project.site.topography.source = project.site.property.source = project.site.workings.source = "ground.xyz123";
    const auto site = read();
    EXPECT_EQ(test::found(site.findings, "map-source-unusable").size(), 3U) << lines(site);
}

TEST_F(SiteFiles, ATopographyElsewhereOrWithoutDataIsNotUsed) {
    write("ground.asc", test::ascii_grid(10, 10, 700000.0, 5999900.0, 5.0, slope));
    project.site.topography.source = "ground.asc";
    EXPECT_EQ(test::found(read().findings, "topography-elsewhere").size(), 1U);
    write("ground.asc", test::ascii_grid(60, 60, 499900.0, 5999900.0, 5.0,
                                         [](double, double) { return std::numeric_limits<double>::quiet_NaN(); }));
    const auto empty = read();
    EXPECT_EQ(test::found(empty.findings, "map-source-empty").size(), 1U) << lines(empty);
    EXPECT_FALSE(empty.value.ground.has_given());
    write("points.csv", "east,north,elevation\n");
    project.site.topography.source = "points.csv";
    EXPECT_EQ(test::found(read().findings, "map-source-empty").size(), 1U);
}

TEST_F(SiteFiles, ThePropertyHasItsAreasAndCrossingOutlinesAreNamed) {
    project.site.property.source = "claims.geojson";
    write("claims.geojson", test::geojson_area({test::box_ring(499900, 5999900, 500100, 6000100)}, "", ""));
    const auto site = read();
    ASSERT_NE(site.value.property, nullptr) << lines(site);
    EXPECT_NEAR(site.value.property->inside_by({0.0, 0.0}), 100.0, 1e-9);
    write("claims.geojson", test::geojson_area({{{499900, 5999900}, {500100, 6000100}, {500100, 5999900}, {499900, 6000100}}},
                                               "\"name\":\"claim 7\"", ""));
    const auto crossed = read();
    const auto found = test::found(crossed.findings, "ring-crosses-itself");
    ASSERT_EQ(found.size(), 1U) << lines(crossed);
    EXPECT_NE(found[0].message.find("\"claim 7\" crosses itself at E 500000.0 N 6000000.0"), std::string::npos)
        << found[0].message;
    EXPECT_TRUE(crossed.value.property->holds({50.0, 0.0}));
    EXPECT_FALSE(crossed.value.property->holds({0.0, 50.0}));
}

TEST_F(SiteFiles, CornersInACsvTableAreAreasByName) {
    project.site.property.source = "claims.csv";
    write("claims.csv",
          "name,east,north\nA,500000,6000000\nA,500100,6000000\nA,500100,6000050\nA,500000,6000050\n"
          "B,500100,6000000\nB,500200,6000000\nB,500200,6000050\nB,500100,6000050\n");
    const auto site = read();
    ASSERT_NE(site.value.property, nullptr) << lines(site);
    EXPECT_EQ(site.value.property->areas().size(), 2U);
    EXPECT_FALSE(site.value.property->first_outside({10.0, 20.0}, {190.0, 20.0}));
}

TEST_F(SiteFiles, WorkingsAreSolidsOrOutlinesWithElevations) {
    project.site.workings.source = "old.off";
    write("old.off", test::off_box({500000, 6000000, 900}, {500010, 6000020, 905}));
    const auto solid = read();
    ASSERT_EQ(solid.value.workings.size(), 1U) << lines(solid);
    EXPECT_NEAR(solid.value.workings[0].solid->distance({5.0, 10.0, -90.0}), 5.0, 1e-9);

    project.site.workings.source = "old.geojson";
    const auto ring = test::box_ring(500000, 6000000, 500010, 6000020);
    write("old.geojson", test::geojson_area({ring}, "\"name\":\"drift\",\"bottom\":900", "EPSG:26911"));
    const auto level = read();
    EXPECT_NEAR(level.value.workings[0].solid->box.upper.z(), -100.0 + project.site.workings_height, 1e-9) << lines(level);
    write("old.geojson", test::geojson_area({ring}, "\"name\":\"drift\"", "EPSG:26911"));
    const auto unknown = read();
    EXPECT_EQ(unknown.value.workings[0].solid, nullptr);
    EXPECT_EQ(test::found(unknown.findings, "workings-depth-unknown").size(), 1U) << lines(unknown);
    write("old.geojson", test::geojson_area({{{500000, 6000000}, {500010, 6000010}, {500010, 6000000}, {500000, 6000010}}},
                                            "\"bottom\":900", ""));
    const auto crossed = read();
    EXPECT_EQ(crossed.value.workings[0].solid, nullptr);
    EXPECT_EQ(test::found(crossed.findings, "ring-crosses-itself").size(), 1U) << lines(crossed);
}

TEST_F(SiteFiles, ASolidThatIsNotClosedIsKeptAndNamed) {
    project.site.workings.source = "old.off";
    std::string open = test::off_box({500000, 6000000, 900}, {500010, 6000020, 905});
    open.replace(open.find("8 6 0"), 5, "8 5 0");
    write("old.off", open);
    const auto site = read();
    EXPECT_EQ(test::found(site.findings, "workings-open").size(), 1U) << lines(site);
    EXPECT_NEAR(site.value.workings[0].solid->distance({5.0, 10.0, -105.0}), 5.0, 1e-9);
}

TEST_F(SiteFiles, AnotherCoordinateSystemIsSaid) {
    project.crs = "EPSG:26911";
    project.site.property.source = "claims.geojson";
    write("claims.geojson", test::geojson_area({test::box_ring(-117.01, 54.13, -116.99, 54.16)}, "", ""));
    const auto site = read();
    EXPECT_EQ(test::found(site.findings, "crs-carried-over").size(), 1U) << lines(site);
    ASSERT_NE(site.value.property, nullptr);
    EXPECT_TRUE(site.value.property->holds({0.0, 0.0}));  // E 500000 is 117 W; N 6 000 000 about 54.15 N
    project.crs = "a system of ours";
    EXPECT_EQ(test::found(read().findings, "crs-doubtful").size(), 1U);
}

}  // namespace
}  // namespace selvage::site
