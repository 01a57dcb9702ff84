#include "intercepts/composite.h"

#include "support/record_builders.h"

#include <gtest/gtest.h>

namespace selvage::intercepts {
namespace {

using test::sample;

std::vector<const tables::Assay*> pointers(const std::vector<tables::Assay>& rows) {
    std::vector<const tables::Assay*> out;
    for (const tables::Assay& row : rows) out.push_back(&row);
    return out;
}

double silver(const std::vector<tables::Assay>& rows, double from, double to, bool gaps_are_zero = false) {
    return mean_grade(pointers(rows), from, to, 0, false, gaps_are_zero)->value;
}

// 0.6 m at 350, 0.9 m at 820, 0.5 m at 95 g/t is 995.5 gram-metres over 2.0 m (sum done by hand).
TEST(Composite, WeighsGradesByLength) {
    const std::vector<tables::Assay> rows = {sample("A", 10.0, 10.6, {350.0}), sample("A", 10.6, 11.5, {820.0}),
                                             sample("A", 11.5, 12.0, {95.0})};
    EXPECT_NEAR(silver(rows, 10.0, 12.0), 497.75, 1e-9);
}

// The same with an unsampled 0.4 m inside: 995.5 / 2.4 where it counts as zero (sum done by hand).
TEST(Composite, GapCountsAsZeroOrNotAtAll) {
    const std::vector<tables::Assay> rows = {sample("A", 10.0, 10.6, {350.0}), sample("A", 11.0, 11.9, {820.0}),
                                             sample("A", 11.9, 12.4, {95.0})};
    EXPECT_NEAR(silver(rows, 10.0, 12.4, true), 414.791667, 1e-6);
    EXPECT_NEAR(silver(rows, 10.0, 12.4, false), 497.75, 1e-9);
}

// A lode-mine channel of zinc: Moon, Whateley & Evans, Introduction to mineral exploration, table 5.2, print 1.35 % over 4.00 m
// and 2.26 % over 2.10 m.
TEST(Composite, GivesThePublishedZincGrades) {
    const std::vector<double> widths = {.3, .3, .3, .2, .2, .2, .2, .2, .2, .2, .2, .2, .23, .15, .2, .2, .2, .2, .12};
    const std::vector<double> grades = {.01, .05, .13, .17, .25, .64, .92, 1.1, 2.3, 1.2,
                                        2.1, 5.3, 1.4, 2.0, 1.9, 1.8, 1.3, 2.6, 3.5};
    std::vector<tables::Assay> rows;
    double depth = 0.0;
    for (std::size_t i = 0; i < widths.size(); ++i) {
        rows.push_back(sample("A", depth, depth + widths[i], {grades[i]}));
        depth += widths[i];
    }
    EXPECT_NEAR(depth, 4.0, 1e-9);
    EXPECT_NEAR(silver(rows, 0.0, 4.0), 1.35375, 1e-9);
    EXPECT_NEAR(silver(rows, 1.9, 4.0), 2.258095, 1e-6);
}

TEST(Composite, CutsSamplesAtThePicksEdges) {
    const std::vector<tables::Assay> rows = {sample("A", 9.0, 10.5, {100.0}), sample("A", 10.5, 13.0, {200.0})};
    EXPECT_NEAR(silver(rows, 10.0, 12.0), (0.5 * 100.0 + 1.5 * 200.0) / 2.0, 1e-9);
}

TEST(Composite, IsTheSameWhateverTheOrderOfRows) {
    const std::vector<tables::Assay> rows = {sample("A", 10.0, 10.7, {101.3}), sample("A", 10.7, 11.1, {7.7}),
                                             sample("A", 11.1, 12.0, {919.1})};
    const std::vector<tables::Assay> turned = {rows[2], rows[0], rows[1]};
    EXPECT_EQ(silver(rows, 10.0, 12.0), silver(turned, 10.0, 12.0));
}

TEST(Composite, WeighsByDensityOnlyWhereAsked) {
    std::vector<tables::Assay> rows = {sample("A", 10.0, 11.0, {100.0}), sample("A", 11.0, 12.0, {500.0}),
                                       sample("A", 12.0, 13.0, {100.0})};
    rows[0].density = 2.5;
    rows[1].density = 4.5;  // the third takes the mean, 3.5
    const double weighted = mean_grade(pointers(rows), 10.0, 13.0, 0, true, false)->value;
    EXPECT_NEAR(weighted, (2.5 * 100.0 + 4.5 * 500.0 + 3.5 * 100.0) / 10.5, 1e-9);
    EXPECT_NEAR(silver(rows, 10.0, 13.0), 700.0 / 3.0, 1e-9);
}

TEST(Composite, PendingAndNotAssayedCarryNoWeightAndAreNotZero) {
    std::vector<tables::Assay> rows = {sample("A", 10.0, 10.4, {300.0, 1.0}), sample("A", 10.4, 11.0, {std::nullopt, 2.0}),
                                       sample("A", 11.0, 12.0, {999.0, 999.0})};
    rows[2].status = tables::SampleStatus::pending;
    const Composite out = composite(pointers(rows), 10.0, 12.0, 2, {});
    EXPECT_EQ(out.state, SampledState::part_assayed);
    EXPECT_NEAR(out.sampled_share, 0.2, 1e-12);
    EXPECT_FALSE(out.unsampled_as_zero);  // all of it was sampled
    EXPECT_NEAR(out.grades[0]->value, 300.0, 1e-9);
    EXPECT_NEAR(out.grades[1]->value, (0.4 * 1.0 + 0.6 * 2.0) / 1.0, 1e-9);
}

TEST(Composite, UnsampledIsZeroUnderFourFifthsUnlessTheRulesSayOtherwise) {
    const std::vector<tables::Assay> rows = {sample("A", 10.0, 11.5, {100.0, 2.0})};
    const Composite out = composite(pointers(rows), 10.0, 12.0, 2, {});
    EXPECT_TRUE(out.unsampled_as_zero);
    EXPECT_NEAR(out.grades[0]->value, 75.0, 1e-9);
    EXPECT_NEAR(out.grades[1]->value, 1.5, 1e-9);

    settings::CompositeRules keep;
    keep.unsampled_is_zero = false;
    const Composite kept = composite(pointers(rows), 10.0, 12.0, 2, keep);
    EXPECT_FALSE(kept.unsampled_as_zero);
    EXPECT_NEAR(kept.grades[0]->value, 100.0, 1e-9);

    const Composite nearly_all = composite(pointers(rows), 10.0, 11.8, 2, {});
    EXPECT_FALSE(nearly_all.unsampled_as_zero);
    EXPECT_NEAR(nearly_all.grades[0]->value, 100.0, 1e-9);
}

TEST(Composite, NothingAssayedIsUnknownNotZero) {
    EXPECT_EQ(composite({}, 10.0, 12.0, 1, {}).state, SampledState::not_sampled);
    EXPECT_FALSE(composite({}, 10.0, 12.0, 1, {}).grades[0]);
    for (const auto status : {tables::SampleStatus::pending, tables::SampleStatus::sent, tables::SampleStatus::not_sent}) {
        std::vector<tables::Assay> rows = {sample("A", 10.0, 12.0, {std::nullopt})};
        rows[0].status = status;
        EXPECT_EQ(composite(pointers(rows), 10.0, 12.0, 1, {}).state, SampledState::pending);
        EXPECT_FALSE(composite(pointers(rows), 10.0, 12.0, 1, {}).grades[0]);
    }
}

TEST(Composite, ControlSamplesMakeNoGrade) {
    std::vector<tables::Assay> rows = {sample("A", 10.0, 12.0, {100.0}), sample("A", 10.0, 12.0, {900.0})};
    rows[1].type = tables::SampleType::field_duplicate;
    EXPECT_NEAR(silver(rows, 10.0, 12.0), 100.0, 1e-9);
}

TEST(Composite, OverlappingSamplesAreNotCountedTwice) {
    const std::vector<tables::Assay> rows = {sample("A", 10.0, 11.0, {100.0}), sample("A", 10.0, 11.0, {100.0}),
                                             sample("A", 10.8, 12.0, {400.0})};
    const Composite out = composite(pointers(rows), 10.0, 12.0, 1, {});
    EXPECT_NEAR(out.sampled_share, 1.0, 1e-12);
    EXPECT_NEAR(out.grades[0]->value, 250.0, 1e-9);
}

TEST(Composite, TellsLimits) {
    std::vector<tables::Assay> rows = {sample("A", 10.0, 11.0, {1500.0}), sample("A", 11.0, 12.0, {0.25})};
    rows[0].values[0].over_limit = true;
    rows[1].values[0].below_detection = true;
    const std::optional<Grade> both = mean_grade(pointers(rows), 10.0, 12.0, 0, false, false);
    EXPECT_TRUE(both->over_limit);
    EXPECT_FALSE(both->below_detection);
    EXPECT_TRUE(mean_grade(pointers(rows), 11.0, 12.0, 0, false, false)->below_detection);
    EXPECT_FALSE(mean_grade(pointers(rows), 11.0, 12.0, 0, false, false)->over_limit);
}

}  // namespace
}  // namespace selvage::intercepts
