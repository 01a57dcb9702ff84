#include "sheets/level_plan.h"
#include "drawing/clipping.h"
#include "drawing/polyline.h"
#include "mesh/slice.h"
#include "sheets/faulted_sheets.h"
#include "sheets/grade_classes.h"
#include "sheets/label_text.h"
#include "sheets/level_marks.h"
#include "sheets/level_page.h"
#include "sheets/level_set.h"
#include "sheets/level_walls.h"
#include "sheets/made_up_pack.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <string>

namespace selvage::sheets {
namespace {

PaperFrame level_frame() { return {{0.0, 0.0, 300.0, 250.0}, {30.0, -20.0}, 2.0}; }

double distance_to(const std::vector<mesh::SliceLine>& rings, const PaperFrame& paper, const Point& at) {
    double least = 1e9;
    for (const mesh::SliceLine& ring : rings)
        for (std::size_t i = 0; i < ring.points.size(); ++i)
            least = std::min(
                least, drawing::distance(at, {paper.paper_from_drawn(ring.points[i].head<2>()),
                                              paper.paper_from_drawn(ring.points[(i + 1) % ring.points.size()].head<2>())}));
    return least;
}

TEST(LevelSet, EveryHitMissAndLevelOfABodyIsThereOnce) {
    const Results results = made_up_pack().results();
    const LevelSet set = level_set(results);
    ASSERT_FALSE(set.levels.empty());
    std::map<const void*, int> seen;
    for (const Level& level : set.levels) {
        for (const intercepts::Intercept* hit : level.hits) {
            ++seen[hit];
            EXPECT_LE(std::abs(hit->point.z() - level.elevation), set.half() + 1e-9) << hit->hole;
        }
        for (const MissOnLevel& miss : level.misses) ++seen[miss.none];
    }
    for (const intercepts::Intercept& hit : results.intercepts.met) EXPECT_EQ(seen[&hit], 1) << hit.hole;
    for (const veins::Vein& vein : results.veins)
        for (const veins::NoVein& none : vein.no_vein()) EXPECT_EQ(seen[&none], none.is_miss() ? 1 : 0) << none.hole;
}

TEST(LevelSet, LevelsStandAtRoundElevationsTwelveAtMostWithinTheBodies) {
    const Results results = made_up_pack().results();
    const LevelSet set = level_set(results);
    std::size_t cut = 0;
    const std::set<double> steps{20.0, 25.0, 50.0, 100.0, 200.0, 250.0, 500.0};
    EXPECT_EQ(steps.count(set.step), 1u) << set.step;
    for (const Level& level : set.levels) {
        const double elevation = level.elevation + results.records.frame.origin.z();
        EXPECT_NEAR(std::remainder(elevation, set.step), 0.0, 1e-6);
        EXPECT_EQ(level.name, std::to_string(std::lround(elevation)));
        cut += level.bodies.empty() ? 0 : 1;
    }
    EXPECT_LE(cut, 12u);
    EXPECT_GE(cut, 1u);
}

// What stands on the paper is what mesh::slice gives of the whole body, in place and size.
TEST(LevelWalls, AreTheSlicesOfTheBodies) {
    const FaultedSheets made(true);
    const Results results = made.results();
    const LevelSet set = level_set(results);
    const PaperFrame paper = level_frame();
    std::size_t pieces = 0;
    for (const Level& level : set.levels)
        for (const BodyOnLevel& body : level.bodies) {
            const veins::VeinSolid& solid = *std::find_if(
                made.solids.begin(), made.solids.end(),
                [&](const veins::VeinSolid& one) { return one.block == results.veins[0].blocks().name(body.block); });
            const std::vector<mesh::SliceLine> whole = mesh::slice(solid.mesh, plane_of(level));
            ASSERT_EQ(whole.size(), body.rings.size());
            DrawnSigns drawn;
            const LevelWalls walls = level_walls(body, level, results, paper, drawn, made.tools());
            ASSERT_EQ(walls.fill.size(), whole.size());
            double length = 0.0, area = 0.0;
            for (const Mark& mark : walls.fill) {
                const auto& ring = std::get<drawing::Shape>(mark).rings[0];
                for (std::size_t i = 0; i < ring.size(); ++i) {
                    const Point &a = ring[i], &b = ring[(i + 1) % ring.size()];
                    area += (a.x * b.y - a.y * b.x) / 2.0;
                    EXPECT_LT(distance_to(whole, paper, ring[i]), 1e-6);
                }
            }
            EXPECT_NEAR(std::abs(area) * 4.0, std::abs(mesh::area_within(whole, plane_of(level))), 0.01);  // 2 m a mm
            // Thinner than two lines it is one line, half way between its walls: 0.8 m thick, 0.2 mm on paper to either side.
            constexpr double longer_than_a_bar = 4.0;  // mm
            for (const Mark& mark : walls.walls) {
                const auto& line = std::get<drawing::Shape>(mark).rings[0];
                if (drawing::length_of(line) < longer_than_a_bar) continue;
                for (const Point& at : line) EXPECT_LT(distance_to(whole, paper, at), 0.3);
                length += drawing::length_of(line);
            }
            double round = 0.0;
            for (const mesh::SliceLine& ring : whole) round += mesh::length_of(ring) / paper.metres_per_mm;
            EXPECT_GT(length, 0.45 * round);
            EXPECT_LT(length, 0.6 * round);
            ++pieces;
        }
    EXPECT_GT(pieces, 3u);
}

TEST(LevelTraces, RunWithinTheSlabAndDownTheHole) {
    const FaultedSheets made(true);
    const Results results = made.results();
    const LevelSet set = level_set(results);
    const PaperFrame paper{{0.0, 0.0, 3000.0, 2500.0}, {30.0, -20.0}, 1.0};
    for (const Level& level : set.levels) {
        DrawnSigns drawn;
        const LevelTraces traces = level_traces(results, level, set.half(), paper, drawn, made.tools());
        std::set<std::string> shown;
        for (const LevelTraces::Piece& piece : traces.pieces) {
            shown.insert(piece.hole);
            const paths::Path& path = *std::find_if(results.paths.begin(), results.paths.end(),
                                                    [&](const paths::Path& one) { return one.hole == piece.hole; });
            // A straight hole: its ends are where it enters and leaves the slab.
            const Eigen::Vector3d start = paths::position_at(path, 0.0), run = paths::direction_at(path, 0.0);
            for (const bool first : {true, false}) {
                const Eigen::Vector2d place = paper.drawn_from_paper(first ? piece.line.front() : piece.line.back());
                const double depth = (place - start.head<2>()).dot(run.head<2>()) / run.head<2>().squaredNorm();
                const double z = start.z() + depth * run.z(), limit = level.elevation + (first ? set.half() : -set.half());
                const bool at_end = std::abs(depth - (first ? 0.0 : path.end_depth)) < 0.01;
                EXPECT_TRUE(at_end || std::abs(z - limit) < 0.01) << piece.hole << " " << z;
            }
        }
        for (const paths::Path& path : results.paths) {
            const double top = path.stations.front().position.z(), foot = paths::position_at(path, path.end_depth).z();
            const bool within = foot < level.elevation + set.half() - 0.1 && top > level.elevation - set.half() + 0.1;
            EXPECT_EQ(shown.count(path.hole), within ? 1u : 0u) << path.hole;
        }
    }
}

// A stope from 10 m under the level to 10 m over it, one that ends below it, and a shaft of unknown elevation.
TEST(LevelWorkings, AreCutByTheLevelWhereTheirElevationIsKnown) {
    const FaultedSheets made(true);
    const LevelSet set = level_set(made.results());
    const Level& level = set.levels.front();
    const site::Ring square{{0.0, 0.0}, {20.0, 0.0}, {20.0, 20.0}, {0.0, 20.0}};
    site::Site site;
    site.workings = {{"Through", {square}, site::prism({square}, level.elevation - 10.0, level.elevation + 10.0)},
                     {"Below", {square}, site::prism({square}, level.elevation - 30.0, level.elevation - 10.0)}};
    DrawnSigns drawn;
    LevelWorkings workings = level_workings(site, level, level_frame(), drawn, made.tools());
    ASSERT_EQ(workings.names.size(), 1u);
    EXPECT_EQ(workings.names[0].lines[0].text, "Through");
    EXPECT_EQ(drawn.signs.count(Sign::workings), 1u);
    EXPECT_EQ(drawn.signs.count(Sign::workings_of_unknown_depth), 0u);
    site.workings = {{"Shaft", {square}, nullptr}};
    drawn = {};
    workings = level_workings(site, level, level_frame(), drawn, made.tools());
    EXPECT_EQ(workings.names.size(), 1u);
    EXPECT_EQ(drawn.signs.count(Sign::workings), 0u);
    EXPECT_EQ(drawn.signs.count(Sign::workings_of_unknown_depth), 1u);
}

TEST(LevelPlan, SaysEveryHitOfItsSlabAndItsFaultsDip) {
    const FaultedSheets made(true);
    const Results results = made.results();
    const LevelSet set = level_set(results);
    const std::vector<drawing::Sheet> sheets =
        level_plans(level_set(results), results, made.run, grade_classes(results), made.tools());
    std::vector<const Level*> drawn;  // a level at which nothing was met, missed or is foretold has no sheet
    for (auto level = set.levels.rbegin(); level != set.levels.rend(); ++level) {
        EXPECT_EQ(level->drawn, level->hits.size() + level->misses.size() + level->pierces.size() > 0);
        if (level->drawn) drawn.push_back(&*level);
    }
    ASSERT_EQ(sheets.size(), drawn.size());
    EXPECT_LT(drawn.size(), set.levels.size());
    std::size_t hits = 0;
    for (std::size_t i = 0; i < sheets.size(); ++i) {
        const Level& level = *drawn[i];
        EXPECT_EQ(sheets[i].name, level.name);
        for (const intercepts::Intercept* hit : level.hits) EXPECT_TRUE(says(sheets[i], hit->hole)) << level.name;
        hits += level.hits.size();
        EXPECT_TRUE(says(sheets[i], "Cross Fault, dip "));
        EXPECT_EQ(sheets[i].labels.overlaps, 0u) << level.name;
        EXPECT_EQ(sheets[i].labels.crossings, 0u) << level.name;
        for (const Level& other : set.levels) EXPECT_TRUE(says(sheets[i], other.name + " m"));
    }
    EXPECT_EQ(hits, results.intercepts.met.size());
    EXPECT_TRUE(std::any_of(sheets.begin(), sheets.end(),
                            [](const drawing::Sheet& sheet) { return says(sheet, "North vein, hanging wall of Cross Fault"); }));
}

TEST(LevelPlan, ForecastsSayHowFarAboveOrBelowTheyLie) {
    const MadeUpPack& pack = made_up_pack();
    const Results results = pack.results();
    const base::MapFrame& map = results.records.frame;
    std::size_t said = 0;
    for (const Level& level : level_set(results).levels)
        for (const forecast::Pierce* pierce : level.pierces) {
            const double off = pierce->point.z() - level.elevation;
            if (std::abs(off) < 0.6 || !is_within_reach(*pierce)) continue;
            const std::string words = ", " + length_text(std::abs(off), map, 0) + (off > 0.0 ? " above" : " below");
            const auto sheet = std::find_if(pack.sheets.begin(), pack.sheets.end(), [&](const drawing::Sheet& one) {
                return one.kind == "level-plan" && one.name == level.name;
            });
            ASSERT_NE(sheet, pack.sheets.end());
            EXPECT_TRUE(says(*sheet, words)) << pierce->hole << words;
            EXPECT_FALSE(says(*sheet, ";,"));
            ++said;
        }
    EXPECT_GT(said, 0u);
}

}  // namespace
}  // namespace selvage::sheets
