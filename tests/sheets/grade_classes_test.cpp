#include "sheets/grade_classes.h"

#include <gtest/gtest.h>

#include <cmath>

namespace selvage::sheets {
namespace {

// A project with one vein's accumulations, in g/t x m.
struct Assayed {
    settings::Project project;
    tables::Records records;
    std::vector<paths::Path> paths;
    std::vector<orientation::Orientation> orientations;
    intercepts::Intercepts intercepts;
    std::vector<veins::Vein> veins;
    std::vector<forecast::Pierce> pierces;

    explicit Assayed(const std::vector<double>& accumulations) {
        records.analytes = {{"ag_gpt", "Ag", "g/t"}};
        for (const double value : accumulations) {
            intercepts::Intercept hit;
            hit.accumulations = {value};
            hit.sampled = intercepts::SampledState::assayed;
            intercepts.met.push_back(hit);
        }
    }
    std::vector<planning::StepOut> step_outs;
    faults::Events events;
    site::Site site;
    std::vector<veins::VeinSolid> solids;
    Results results() const {
        return {project, records, paths, orientations, events, intercepts, veins, pierces, step_outs, site, solids};
    }
};

bool on_ladder(double value) {
    const double first = value / std::pow(10.0, std::floor(std::log10(value) + 1e-9));
    return std::abs(first - 1.0) < 1e-9 || std::abs(first - 2.0) < 1e-9 || std::abs(first - 5.0) < 1e-9;
}

TEST(GradeClasses, BreaksStandOnALadderOfOneTwoFive) {
    for (const double factor : {0.003, 1.0, 47.0}) {
        std::vector<double> values;
        for (const double value : {12.0, 35.0, 70.0, 130.0, 180.0, 420.0, 900.0}) values.push_back(factor * value);
        const GradeClasses classes = grade_classes(Assayed(values).results());
        ASSERT_EQ(classes.breaks.size(), 4u);
        for (std::size_t i = 0; i < 4; ++i) {
            EXPECT_TRUE(on_ladder(classes.breaks[i])) << classes.breaks[i];
            if (i > 0) {
                EXPECT_GT(classes.breaks[i], classes.breaks[i - 1]);
                EXPECT_LT(classes.breaks[i], 2.6 * classes.breaks[i - 1]);
            }
        }
    }
}

TEST(GradeClasses, OneBreakStandsAtTheCutOff) {
    Assayed project({10.0, 100.0, 1000.0});
    project.project.cut_off.accumulation = 120.0;
    const GradeClasses classes = grade_classes(project.results());
    EXPECT_TRUE(classes.cut_off_given);
    EXPECT_EQ(classes.breaks[classes.cut_off], 120.0);
    EXPECT_EQ(classes.breaks, (std::vector<double>{50.0, 120.0, 200.0, 500.0}));
}

TEST(GradeClasses, AValueAtABreakBelongsToTheHigherClass) {
    Assayed project({50.0, 49.9, 500.0});
    project.project.cut_off.accumulation = 100.0;
    const GradeClasses classes = grade_classes(project.results());
    const base::MapFrame frame;
    EXPECT_EQ(sign_of(project.intercepts.met[0], classes, frame), HitSign::class_1);
    EXPECT_EQ(sign_of(project.intercepts.met[1], classes, frame), HitSign::class_0);
    EXPECT_EQ(sign_of(project.intercepts.met[2], classes, frame), HitSign::class_4);
}

TEST(GradeClasses, PendingAndUnknownHaveSignsOfTheirOwn) {
    Assayed project({100.0});
    const GradeClasses classes = grade_classes(project.results());
    intercepts::Intercept hit;
    hit.sampled = intercepts::SampledState::pending;
    EXPECT_EQ(sign_of(hit, classes, {}), HitSign::pending);
    hit.sampled = intercepts::SampledState::not_sampled;
    EXPECT_EQ(sign_of(hit, classes, {}), HitSign::not_classed);
}

TEST(GradeClasses, WhatIsReckonedFromAGradeAtALimitSaysSo) {
    Assayed project({1020.4, 6.86, 0.31});
    const GradeClasses classes = grade_classes(project.results());
    for (intercepts::Intercept& hit : project.intercepts.met) hit.grades = {intercepts::Grade{100.0}};
    EXPECT_EQ(accumulation_text(project.intercepts.met[0], classes, {}), "1020");
    EXPECT_EQ(accumulation_text(project.intercepts.met[1], classes, {}), "6.9");
    project.intercepts.met[0].grades[0]->over_limit = true;
    EXPECT_EQ(accumulation_text(project.intercepts.met[0], classes, {}), "> 1020");
    project.intercepts.met[2].grades[0]->below_detection = true;
    EXPECT_EQ(accumulation_text(project.intercepts.met[2], classes, {}), "< 0.31");
    EXPECT_EQ(accumulation_text({}, classes, {}), "");
}

TEST(GradeClasses, RowsAreCountedAndThoseBeyondTheClassesShownOnlyWhereTheyOccur) {
    Assayed project({100.0});
    project.project.cut_off.accumulation = 100.0;
    const GradeClasses classes = grade_classes(project.results());
    std::vector<std::size_t> counts(hit_signs, 0);
    counts[2] = 7;
    EXPECT_EQ(class_rows(classes, counts).size(), 5u);
    EXPECT_EQ(class_rows(classes, counts)[2].count, 7u);
    EXPECT_EQ(class_rows(classes, counts)[2].note, "from 100: the cut-off");
    counts[static_cast<std::size_t>(HitSign::no_vein)] = 2;
    EXPECT_EQ(class_rows(classes, counts).size(), 6u);
    EXPECT_EQ(class_rows(classes, counts).back().words, "no vein");
}

}  // namespace
}  // namespace selvage::sheets
