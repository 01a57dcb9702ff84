#include "drawing/polyline.h"
#include "sheets/faulted_sheets.h"
#include "sheets/grade_classes.h"
#include "sheets/intercept_table.h"
#include "sheets/key_plan.h"
#include "sheets/long_section.h"
#include "sheets/long_section_content.h"
#include "sheets/long_section_faults.h"
#include "sheets/long_section_marks.h"
#include "sheets/long_section_page.h"
#include "sheets/section_set.h"
#include "sheets/vein_field.h"

#include <gtest/gtest.h>

#include <cmath>
#include <set>
#include <string>
#include <vector>

namespace selvage::sheets {
namespace {

constexpr double slip_along = 8.0;  // m, away from or over the other side, as FaultedSheets makes it
PaperFrame frame() { return {{0.0, 0.0, 300.0, 250.0}, {0.0, 0.0}, 2.0}; }

// The fault has moved one block 20 m off the other's plane: dropped square on one plane, its elevations would be 7 m wrong.
TEST(FaultedLongSection, EveryPlaceReadsItsOwnElevation) {
    for (const bool gap : {true, false}) {
        const FaultedSheets made(gap);
        const LongSectionContent content = long_section_content(made.results(), 0, grade_classes(made.results()));
        ASSERT_TRUE(is_parted(content));
        std::set<std::size_t> blocks;
        for (const HitOnPlane& hit : content.hits) {
            EXPECT_NEAR(content.layout.elevation_at(hit.place.y()), hit.hit->point.z(), 0.5) << hit.hit->hole;
            blocks.insert(hit.block);
        }
        EXPECT_EQ(blocks.size(), 2u);
        EXPECT_NEAR(std::abs(content.blocks[0].off_plane - content.blocks[1].off_plane), 20.0, 0.5);
        for (const BlockOnPlane& block : content.blocks)
            for (const veins::EdgeLine& edge : block.edges)
                for (const Eigen::Vector3d& point : edge.points)
                    EXPECT_NEAR(content.layout.elevation_at(block.layout.layout_from_world(point).y()), point.z(), 1.0);
    }
}

TEST(FaultedLongSection, DistancesWithinABlockAreTrue) {
    const FaultedSheets made(true);
    const LongSectionContent content = long_section_content(made.results(), 0, grade_classes(made.results()));
    const HitOnPlane& first = content.hits.front();
    for (const HitOnPlane& hit : content.hits) {
        if (hit.block != first.block) continue;
        EXPECT_NEAR((hit.place - first.place).norm(), (hit.hit->point - first.hit->point).norm(), 0.1) << hit.hit->hole;
    }
}

TEST(FaultedLongSection, SaysWhetherTheFaultLeftAGapOrLaidTheVeinOverItself) {
    for (const bool gap : {true, false}) {
        const FaultedSheets made(gap);
        const Results results = made.results();
        const GradeClasses classes = grade_classes(results);
        const LongSectionContent content = long_section_content(results, 0, classes);
        const FaultsOnPlane faults = faults_on_plane(content, results.veins[0], frame());
        ASSERT_EQ(faults.spans.size(), 1u);
        EXPECT_EQ(faults.spans[0].gap, gap);
        // Laid level, the block moved along the strike by 8 m and up or down the dip; the fault leans across the strike by 0.1.
        EXPECT_NEAR(faults.spans[0].width, slip_along, 1.0);
        const drawing::Sheet sheet =
            long_section(results, 0, made.run, classes, section_set(results), key_map(results), made.tools()).front();
        EXPECT_EQ(says(sheet, "gap of Cross Fault"), gap);
        EXPECT_EQ(says(sheet, "both sides of Cross Fault"), !gap);
        EXPECT_TRUE(says(sheet, "hanging wall of Cross Fault"));
        EXPECT_TRUE(says(sheet, "foot wall of Cross Fault"));
        EXPECT_EQ(sheet.labels.overlaps, 0u);
    }
}

// Where both sides lie over each other each has its own field: the even-odd rule over both would read the middle as outside.
TEST(FaultedLongSection, TheVeinIsDrawnInBothBlocksWhereTheyOverlap) {
    const FaultedSheets made(false);
    const Results results = made.results();
    const LongSectionContent content = long_section_content(results, 0, grade_classes(results));
    const PaperFrame paper = frame();
    const FaultsOnPlane faults = faults_on_plane(content, results.veins[0], paper);
    ASSERT_EQ(faults.spans.size(), 1u);
    const std::vector<Point>& border = faults.spans[0].border;
    // Half way along, between both sides.
    const Point a = border[border.size() / 4], b = border[border.size() - 1 - border.size() / 4];
    const Eigen::Vector2d middle = paper.drawn_from_paper({(a.x + b.x) / 2.0, (a.y + b.y) / 2.0});
    for (std::size_t block = 0; block < 2; ++block) {
        std::vector<Eigen::Vector2d> hits;
        for (const HitOnPlane& hit : content.hits)
            if (hit.block == block) hits.push_back(hit.place);
        const FieldReach reach{50.0, 100.0, 100.0};
        const CoarseField sampled = sample_vein(contents_in_block(results.veins[0], block), content.blocks[block].layout, hits,
                                                reach, median_thickness());
        const VeinField field =
            fine_field(sampled, content.blocks[block].extent, hits, reach, middle - Eigen::Vector2d::Constant(10.0),
                       middle + Eigen::Vector2d::Constant(10.0), 1.0);
        const std::size_t node = field.index(10, 10);
        EXPECT_GT(field.drawn[node], 0.0) << block;
        EXPECT_TRUE(std::isfinite(field.log_value[node])) << block;
    }
}

// Told apart without colour, and in words.
TEST(EdgesOfTheModel, EachReasonHasALineAndWordsOfItsOwn) {
    const FaultedSheets made(true);
    std::set<std::string> looks, words;
    const std::vector<veins::EdgeReason> reasons{veins::EdgeReason::extrapolation_distance,
                                                 veins::EdgeReason::half_way_to_miss,
                                                 veins::EdgeReason::presence,
                                                 veins::EdgeReason::fault,
                                                 veins::EdgeReason::other_vein,
                                                 veins::EdgeReason::topography,
                                                 veins::EdgeReason::property};
    for (const veins::EdgeReason reason : reasons) {
        const drawing::LineLook look = edge_look(reason, 0, made.tools());
        std::string drawn = std::to_string(look.width_mm);
        for (const double dash : look.dash_mm) drawn += " " + std::to_string(dash);
        looks.insert(drawn);
        words.insert(veins::words_of(reason));
    }
    EXPECT_EQ(looks.size(), reasons.size());
    EXPECT_EQ(words.size(), reasons.size());
}

// Two sides of a fault that paper does not tell apart would be a ladder of dashes that no legend has: they are one line. At 1:500
// the 8 m between them are 16 mm; at 1:10 000 less than one.
TEST(FaultedLongSection, TwoSidesTooNearOnPaperAreOneLine) {
    const std::vector<Point> wall{{0.0, 0.0}, {0.0, 40.0}}, near{{0.9, 0.0}, {0.9, 40.0}}, leaning{{0.0, 0.0}, {4.0, 40.0}};
    EXPECT_TRUE(apart_from(near, {wall}, fault_sides_apart_mm).empty());
    EXPECT_EQ(apart_from(near, {}, fault_sides_apart_mm).size(), 1u);
    const std::vector<std::vector<Point>> rest = apart_from(leaning, {wall}, fault_sides_apart_mm);
    ASSERT_EQ(rest.size(), 1u);
    EXPECT_NEAR(rest.front().front().x, fault_sides_apart_mm, 0.1);
    EXPECT_NEAR(rest.front().back().y, 40.0, 1e-9);
    const FaultedSheets made(true);
    const LongSectionContent content = long_section_content(made.results(), 0, grade_classes(made.results()));
    const auto fault_lines = [&](double metres_per_mm) {
        LongSectionFrame drawn;
        drawn.paper = {{0.0, 0.0, 300.0, 250.0}, {0.0, 0.0}, metres_per_mm};
        std::set<Sign> signs;
        double metres = 0.0;
        for (const drawing::Mark& mark : edge_marks(content, made.results().veins[0], drawn, signs, made.tools()))
            if (const auto* shape = std::get_if<drawing::Shape>(&mark);
                shape->line->width_mm == made.style.line("fault").width_mm)
                metres += drawing::length_of(shape->rings.front()) * metres_per_mm;
        EXPECT_FALSE(signs.empty());
        return metres;
    };
    EXPECT_LT(fault_lines(10.0), 0.7 * fault_lines(0.5));
    EXPECT_TRUE(faults_on_plane(content, made.results().veins[0], {{0.0, 0.0, 300.0, 250.0}, {0.0, 0.0}, 10.0}).spans.empty());
}

TEST(FaultedTables, SayWhatTheSignsOfBlocksMean) {
    const FaultedSheets made(true);
    const Results results = made.results();
    const std::vector<drawing::Sheet> sheets =
        intercept_table(results, made.run, grade_classes(results), section_set(results), made.tools());
    EXPECT_TRUE(says(sheets.front(), "a vein that faults part"));
}

}  // namespace
}  // namespace selvage::sheets
