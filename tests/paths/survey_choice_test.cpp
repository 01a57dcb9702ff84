#include "paths/survey_choice.h"

#include "paths/path_builder.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace selvage::paths {
namespace {

std::vector<tables::Survey> run(const std::string& method, const std::string& name, const std::vector<Row>& rows,
                                const std::string& date = "2026-05-01") {
    std::vector<tables::Survey> all;
    for (const Row& row : rows) {
        all.push_back(survey_row("A-1", row, method, name));
        all.back().date = date;
    }
    return all;
}

base::Checked<HoleSurveys> chosen_of(const std::vector<std::vector<tables::Survey>>& runs,
                                     const std::vector<std::string>& preference = {}) {
    std::vector<const tables::Survey*> rows;
    for (const auto& one : runs)
        for (const tables::Survey& row : one) rows.push_back(&row);
    return choose_surveys(rows, preference, {});
}

std::string best(const base::Checked<HoleSurveys>& choice) { return choice.value.runs.front().title(); }

const std::vector<Row> three_rows = {{0, 40, 60}, {50, 41, 59}, {100, 42, 58}};
const std::vector<Row> two_rows = {{0, 43, 61}, {100, 44, 60}};

TEST(SurveyChoice, PreferenceWinsOverDateAndNumber) {
    const auto magnetic = run("single shot", "M1", three_rows, "2026-06-01"), gyro = run("gyro", "G1", two_rows, "2025-01-01");
    EXPECT_EQ(best(chosen_of({magnetic, gyro}, {"gyro", "single shot"})), "gyro G1");
    EXPECT_EQ(best(chosen_of({magnetic, gyro}, {"single shot"})), "single shot M1");
}

TEST(SurveyChoice, NewestDateWinsOverNumberOfStations) {
    EXPECT_EQ(best(chosen_of({run("a", "1", three_rows, "2025-06-01"), run("b", "1", two_rows, "2025-06-02")})), "b 1");
    EXPECT_EQ(best(chosen_of({run("a", "1", three_rows, "2025-06-02"), run("a", "2", two_rows, "")})), "a 1");
}

TEST(SurveyChoice, MostStationsDecideLast) {
    EXPECT_EQ(best(chosen_of({run("a", "1", two_rows), run("a", "2", three_rows)})), "a 2");
    EXPECT_EQ(best(chosen_of({run("a", "1", two_rows), run("a", "2", two_rows)})), "a 1");
}

TEST(SurveyChoice, ARunWithAzimuthsComesBeforeDipsAlone) {
    auto acid = run("acid", "E1", three_rows, "2026-12-01");
    for (tables::Survey& row : acid) row.azimuth.reset();
    EXPECT_EQ(best(chosen_of({acid, run("single shot", "M1", two_rows)})), "single shot M1");
    EXPECT_EQ(best(chosen_of({acid, run("single shot", "M1", two_rows)}, {"acid"})), "acid E1");
}

TEST(SurveyChoice, TheBestRunIsTakenWhole) {
    const auto choice = chosen_of(
        {run("gyro", "G1", three_rows), run("single shot", "M1", {{25, 50, 50}, {75, 50, 50}, {114, 50, 50}})}, {"gyro"});
    ASSERT_EQ(choice.value.chosen.size(), 3U);
    for (const Reading& reading : choice.value.chosen) EXPECT_EQ(reading.run, 0U);
}

TEST(SurveyChoice, AnotherRunGoesOnWhereTheBestOneEnds) {
    const auto choice =
        chosen_of({run("gyro", "G1", {{30, 40, 60}, {100, 42, 58}}),
                   run("single shot", "M1", {{0, 50, 50}, {75, 50, 50}, {110, 50, 50}, {130, 50, 50}, {160, 50, 50}})},
                  {"gyro"});
    std::vector<double> depths;
    for (const Reading& reading : choice.value.chosen) depths.push_back(reading.depth);
    EXPECT_EQ(depths, (std::vector<double>{0, 30, 100, 130, 160}));
    EXPECT_EQ(choice.value.chosen.front().run, 1U);
    EXPECT_EQ(choice.value.chosen[1].run, 0U);
}

TEST(SurveyChoice, RowsNotToBeUsedAreLeftOut) {
    auto rows = run("gyro", "G1", three_rows);
    rows[1].use = false;
    EXPECT_EQ(chosen_of({rows}).value.chosen.size(), 2U);
    for (tables::Survey& row : rows) row.use = false;
    EXPECT_TRUE(chosen_of({rows}).value.runs.empty());
}

TEST(SurveyChoice, ADepthTwiceInOneRunIsAveragedAndReported) {
    const auto choice = chosen_of({run("a", "1", {{0, 359, 60}, {50, 359, 60}, {50, 3, 58}, {90, 2, 57}})});
    ASSERT_EQ(choice.value.chosen.size(), 3U);
    EXPECT_NEAR(choice.value.chosen[1].azimuth->degrees(), 1.0, 1e-9);
    EXPECT_NEAR(choice.value.chosen[1].dip.degrees(), 59.0, 1e-9);
    ASSERT_EQ(choice.findings.size(), 1U);
    EXPECT_EQ(choice.findings[0].message,
              "2 readings of one run at 50.00 m differ by 4.00 degrees in azimuth and 2.00 in dip: averaged");
}

TEST(SurveyChoice, OrderOfRowsDoesNotMatter) {
    const auto choice = chosen_of({run("a", "1", {{100, 42, 58}, {0, 40, 60}, {50, 41, 59}})});
    EXPECT_EQ(choice.value.chosen.front().depth, 0.0);
    EXPECT_EQ(choice.value.chosen.back().depth, 100.0);
}

}  // namespace
}  // namespace selvage::paths
