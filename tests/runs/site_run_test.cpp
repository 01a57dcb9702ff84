#include "base/file.h"
#include "site/property.h"
#include "support/example_site.h"
#include "support/map_files.h"
#include "support/program.h"
#include "support/temporary_folder.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <limits>
#include <map>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

// Whole runs of the invented example on an invented map: its true ground as a raster with a gap, a property that cuts the vein,
// an adit and a stope in it, and a shaft of which nobody knows the elevation.
namespace selvage {
namespace {

constexpr double east0 = 431000.0, north0 = 5214000.0;

std::vector<Eigen::Vector2d> on_map(std::vector<Eigen::Vector2d> ring) {
    for (Eigen::Vector2d& at : ring) at += Eigen::Vector2d(east0, north0);
    return ring;
}

std::string ground_file(bool with_gap) {
    return test::ascii_grid(260, 260, east0 - 450.0, north0 - 450.0, 5.0, [with_gap](double x, double y) {
        const double east = x - east0, north = y - north0;
        return with_gap && std::hypot(east - 300.0, north - 100.0) < 40.0 ? std::numeric_limits<double>::quiet_NaN()
                                                                          : made_up::ground_of_cold_hythe(east, north);
    });
}

class SiteRun : public ::testing::Test {
protected:
    SiteRun() {
        auto project = made_up::cold_hythe();
        project.add_project_lines(
            "\n[topography]\nsource = \"ground.asc\"\n\n[property]\nsource = \"claims.geojson\"\n\n[workings]\n"
            "source = \"old.geojson\"\n");
        project.write(folder.path());
        put("ground.asc", ground_file(false));
        put("claims.geojson",
            test::geojson_area({on_map({{-120, -60}, {330, -90}, {420, 120}, {300, 420}, {60, 400}, {-60, 250}})},
                               "\"name\":\"Hythe 1\"", ""));
        put("old.geojson", test::geojson_area({on_map({{225, 100}, {275, 150}, {265, 160}, {215, 110}})},
                                              "\"name\":\"Stope A\",\"bottom\":870,\"top\":915", ""));
    }
    void put(const std::string& name, const std::string& text) const { base::write_file(folder.path() / name, text); }
    ProgramRun run() const { return run_program(SELVAGE_PROGRAM, "run " + (folder.path() / "project.toml").string()); }
    ProgramRun check() const { return run_program(SELVAGE_PROGRAM, "check " + (folder.path() / "project.toml").string()); }
    // Every word of the pack, with one blank between them.
    std::string words() const {
        std::string text = run_program("pdftotext", (folder.path() / "pack" / "pack.pdf").string() + " -").output;
        std::replace(text.begin(), text.end(), '\n', ' ');
        return text;
    }
    std::string file(const std::string& name) const { return base::read_file(folder.path() / "pack" / name); }
    TemporaryFolder folder{"site-run"};
};

bool has(const std::string& text, const std::string& words) { return text.find(words) != std::string::npos; }

TEST_F(SiteRun, IsDrawnAndSaysWhereItFits) {
    const ProgramRun first = run();
    ASSERT_EQ(first.status, 0) << first.output;
    EXPECT_FALSE(has(first.output, "error:")) << first.output;
    EXPECT_FALSE(has(first.output, "no effect")) << first.output;
    const std::string record = file("run.json");
    EXPECT_TRUE(has(record, "ground.asc") && has(record, "claims.geojson") && has(record, "old.geojson"));
    const std::string pages = words();
    for (const char* said : {"topography as", "property limit", "old workings", "Stope A", "maps of old"})
        EXPECT_TRUE(has(pages, said)) << said;
    EXPECT_FALSE(has(pages, "plane through"));
}

TEST_F(SiteRun, TheSameFilesGiveTheSameBytesWhateverTheThreads) {
    ASSERT_EQ(run().status, 0);
    const auto once = bytes_of_folder(folder.path() / "pack");
    const ProgramRun again =
        run_program(SELVAGE_PROGRAM, "run --jobs 1 " + (folder.path() / "project.toml").string(), "LC_ALL=C TZ=UTC");
    ASSERT_EQ(again.status, 0);
    EXPECT_TRUE(once == bytes_of_folder(folder.path() / "pack"));
}

// Places of step_outs.csv (rank, vein, east, north ...) that lie within a ring, and all of them.
std::pair<int, int> within(const std::string& csv, const site::Ring& ring) {
    std::istringstream rows(csv);
    std::string row;
    std::getline(rows, row);
    int inside = 0, all = 0;
    while (std::getline(rows, row)) {
        std::vector<std::string> cells;
        std::istringstream stream(row);
        for (std::string cell; std::getline(stream, cell, ',');) cells.push_back(cell);
        inside += site::inside_of_rings({ring}, {std::stod(cells.at(2)), std::stod(cells.at(3))}) > 0.0 ? 1 : 0;
        ++all;
    }
    return {inside, all};
}

TEST_F(SiteRun, StepOutsKeepWithinTheProperty) {
    const site::Ring small = on_map({{60, 0}, {330, -90}, {420, 120}, {300, 300}, {60, 200}});
    put("claims.geojson", test::geojson_area({small}, "", ""));
    ASSERT_EQ(run().status, 0);
    const auto [inside, all] = within(file("tables/step_outs.csv"), small);
    EXPECT_GT(all, 0);
    EXPECT_EQ(inside, all);
    put("claims.geojson", test::geojson_area({on_map(test::box_ring(-1000, -1000, 1000, 1000))}, "", ""));
    ASSERT_EQ(run().status, 0);
    const auto [still_inside, of_all] = within(file("tables/step_outs.csv"), small);
    EXPECT_LT(still_inside, of_all);
}

TEST_F(SiteRun, AGapInTheTopographyIsSaidAndDrawnAsAssumed) {
    put("ground.asc", ground_file(true));
    const ProgramRun gap = run();
    ASSERT_EQ(gap.status, 0) << gap.output;
    EXPECT_TRUE(has(gap.output, "has no data over")) << gap.output;
    const std::string pages = words();
    EXPECT_TRUE(has(pages, "plane through"));
}

struct BadFile {
    const char* name;
    std::map<std::string, std::string> files;  // empty text: the file is missing
    const char* said;
};

TEST_F(SiteRun, BadFilesAreNamed) {
    const auto nothing = [](double, double) { return std::numeric_limits<double>::quiet_NaN(); };
    const std::vector<BadFile> bad = {
        {"Missing", {{"ground.asc", ""}}, "ground.asc: error: there is no file"},
        {"Elsewhere",
         {{"ground.asc", test::ascii_grid(20, 20, 0.0, 0.0, 5.0, [](double, double) { return 1.0; })}},
         "has no cell where"},
        {"NoDataAnywhere",
         {{"ground.asc", test::ascii_grid(150, 130, east0 - 150.0, north0 - 150.0, 5.0, nothing)}},
         "holds no elevation"},
        {"NoRaster", {{"ground.asc", "a letter\n"}}, "ground.asc cannot be read"},
        {"CrossingOutline",
         {{"claims.geojson", test::geojson_area({on_map({{-300, -300}, {600, 600}, {600, -300}, {-300, 600}})}, "", "")}},
         "crosses itself at E 431150.0 N 5214150.0"},
        {"PropertyElsewhere",
         {{"claims.geojson", test::geojson_area({test::box_ring(0, 0, 10, 10)}, "", "")}},
         "no collar lies within"},
        {"EmptyLayer",
         {{"claims.geojson", R"({"type":"FeatureCollection","features":[]})"}},
         "claims.geojson: error: it holds no area"},
        {"BrokenLayer", {{"old.geojson", "{\"type\":\"Feature"}}, "old.geojson cannot be read"},
    };
    for (const BadFile& one : bad) {
        std::map<std::string, std::string> kept;
        for (const auto& [name, text] : one.files) {
            kept[name] = base::read_file(folder.path() / name);
            std::filesystem::remove(folder.path() / name);
            if (!text.empty()) put(name, text);
        }
        const ProgramRun ran = check();
        EXPECT_EQ(ran.status, 0) << one.name << "\n" << ran.output;
        EXPECT_TRUE(has(ran.output, one.said)) << one.name << "\n" << ran.output;
        for (const auto& [name, text] : kept) put(name, text);
    }
}

}  // namespace
}  // namespace selvage
