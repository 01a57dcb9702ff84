#include "sheets/match_lines.h"

#include "sheets/cross_section.h"
#include "sheets/grade_classes.h"
#include "sheets/key_plan.h"
#include "sheets/long_section.h"
#include "sheets/made_up_pack.h"
#include "sheets/plan.h"
#include "sheets/section_set.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <string>

namespace selvage::sheets {
namespace {

const Box drawing_window{0.0, 0.0, 200.0, 100.0};

std::vector<Eigen::Vector2d> line_of_data(double length, double slope) {
    std::vector<Eigen::Vector2d> data;
    for (double x = 0.0; x <= length; x += 50.0) data.emplace_back(x, slope * x);
    return data;
}

Tiling tiled(const std::vector<Eigen::Vector2d>& data, double denominator) {
    const MadeUpPack& pack = made_up_pack();
    const PaperFrame whole{drawing_window, (data.front() + data.back()) / 2.0, denominator / 1000.0};
    return tiles_of(whole, denominator, data, pack.run_results.project, pack.style);
}

TEST(MatchLines, ADrawingOfAnAllowedScaleStaysOnOneSheet) {
    const Tiling tiling = tiled(line_of_data(1500.0, 0.0), 10000.0);
    ASSERT_EQ(tiling.tiles.size(), 1u);
    EXPECT_EQ(tiling.denominator, 10000.0);
    EXPECT_EQ(tiling.tiles[0].core.left, drawing_window.left);
    EXPECT_EQ(tiling.tiles[0].core.top, drawing_window.top);
}

TEST(MatchLines, EveryPointLiesOnASheetAndNeighboursNameEachOther) {
    for (const double slope : {0.0, 0.8, -0.3}) {
        const std::vector<Eigen::Vector2d> data = line_of_data(10000.0, slope);
        const Tiling tiling = tiled(data, 100000.0);
        EXPECT_EQ(tiling.denominator, 10000.0);
        EXPECT_GE(tiling.tiles.size(), 6u);
        for (const Eigen::Vector2d& point : data)
            EXPECT_TRUE(std::any_of(tiling.tiles.begin(), tiling.tiles.end(), [&](const Tile& tile) {
                return tile.holds(point);
            })) << point.transpose();
        for (const Tile& tile : tiling.tiles) {
            EXPECT_TRUE(std::any_of(data.begin(), data.end(), [&](const auto& point) { return tile.holds(point); }));
            if (tile.right > 0) {
                const Tile& other = tiling.tiles[tile.right - 1];
                EXPECT_EQ(other.left, tile.number);
                // The two match lines are one line on the ground.
                EXPECT_NEAR(tile.paper.drawn_from_paper({tile.core.right, 0.0}).x(),
                            other.paper.drawn_from_paper({other.core.left, 0.0}).x(), 1e-6);
            }
            if (tile.below > 0) {
                EXPECT_EQ(tiling.tiles[tile.below - 1].above, tile.number);
            }
        }
    }
}

// The made-up project with a smallest scale so large that its drawings take several sheets.
struct Split {
    settings::Project project = made_up_pack().run_results.project;
    Split() { project.sheets.smallest_scale = 500.0; }
    Results results() const {
        const Results all = made_up_pack().results();
        return {project,   all.records, all.paths,     all.orientations, all.events, all.intercepts,
                all.veins, all.pierces, all.step_outs, all.site,         all.solids};
    }
};

std::set<std::string> words_on(const std::vector<drawing::Sheet>& sheets) {
    std::set<std::string> all;
    for (const drawing::Sheet& sheet : sheets)
        for (const SetWords& words : words_of(sheet, made_up_pack().fonts.metrics)) all.insert(words.text->text);
    return all;
}

TEST(MatchLines, ASplitLongSectionKeepsItsHitsAndNamesTheSheetsBeyond) {
    const MadeUpPack& pack = made_up_pack();
    const Split split;
    const Results results = split.results();
    const GradeClasses classes = grade_classes(results);
    std::vector<drawing::Sheet> sheets =
        long_section(results, 0, pack.run, classes, section_set(results), key_map(results), pack.tools());
    ASSERT_GT(sheets.size(), 2u);
    for (const drawing::Sheet& sheet : sheets) EXPECT_NEAR(sheet.windows.front().metres_per_mm, 0.5, 1e-9);
    number_match_lines(sheets);
    const std::set<std::string> words = words_on(sheets);
    for (const intercepts::Intercept& hit : results.intercepts.met)
        if (hit.vein == results.veins[0].name()) {
            EXPECT_TRUE(std::any_of(words.begin(), words.end(), [&](const std::string& text) {
                return text.find(hit.hole) != std::string::npos;
            })) << hit.hole;
        }
    EXPECT_EQ(words.count("match line: sheet"), 0u);
    EXPECT_EQ(words.count("match line: sheet 2"), 1u);
    for (std::size_t i = 0; i < sheets.size(); ++i)
        EXPECT_NE(sheets[i].name.find("part " + std::to_string(i + 1)), std::string::npos);
}

// Every hit of a section is named on one of its parts, in the drawing_window's core; a section that fits stays whole.
TEST(MatchLines, ASplitCrossSectionKeepsItsHitsAndItsScale) {
    const MadeUpPack& pack = made_up_pack();
    Split split;
    split.project.sheets.smallest_scale = 250.0;
    const Results results = split.results();
    const GradeClasses classes = grade_classes(results);
    const SectionSet sections = section_set(results);
    std::vector<drawing::Sheet> sheets = cross_sections(results, sections, classes, key_map(results), pack.run, pack.tools());
    ASSERT_GT(sheets.size(), sections.sections.size());
    number_match_lines(sheets);
    const std::set<std::string> words = words_on(sheets);
    EXPECT_EQ(words.count("match line: sheet"), 0u);
    for (const intercepts::Intercept& hit : results.intercepts.met)
        EXPECT_TRUE(std::any_of(words.begin(), words.end(), [&](const std::string& text) {
            return text.find(hit.hole) != std::string::npos;
        })) << hit.hole;
    std::set<std::string> names;
    for (const drawing::Sheet& sheet : sheets) {
        EXPECT_LE(sheet.windows.front().metres_per_mm, 0.25 + 1e-9) << sheet.name;
        EXPECT_EQ(sheet.labels.overlaps, 0u) << sheet.name;
        for (const drawing::Destination& place : sheet.destinations) names.insert(place.name);
    }
    for (const Section& section : sections.sections)
        EXPECT_EQ(names.count(destination_of_sheet("cross-section", section.name)), 1u) << section.name;
}

TEST(MatchLines, ASplitPlanShowsEveryCollar) {
    const MadeUpPack& pack = made_up_pack();
    const Split split;
    const Results results = split.results();
    const std::vector<drawing::Sheet> sheets =
        plan(results, pack.run, grade_classes(results), section_set(results), pack.tools());
    ASSERT_GT(sheets.size(), 2u);
    const std::set<std::string> words = words_on(sheets);
    for (const tables::Collar& collar : results.records.collars)
        EXPECT_TRUE(std::any_of(words.begin(), words.end(), [&](const std::string& text) {
            return text.find(collar.hole) != std::string::npos;
        })) << collar.hole;
}

}  // namespace
}  // namespace selvage::sheets
