#include "sheets/label_text.h"

#include <gtest/gtest.h>

namespace selvage::sheets {
namespace {

tables::Records silver_records(base::LengthUnit unit = base::LengthUnit::metre, const std::string& grade_unit = "g/t") {
    tables::Records records;
    records.frame.unit = unit;
    records.analytes = {{"ag", "Ag", grade_unit}};
    return records;
}

intercepts::Intercept hit(double from, double to, std::optional<double> true_thickness, std::optional<double> grade) {
    intercepts::Intercept made;
    made.hole = "K-07";
    made.vein = "North";
    made.from = from;
    made.to = to;
    made.true_thickness = true_thickness;
    made.grades.resize(1);
    if (grade) {
        made.grades[0] = intercepts::Grade{*grade};
        made.sampled = intercepts::SampledState::assayed;
    }
    return made;
}

TEST(LabelText, SaysWhichLengthItGives) {
    const tables::Records records = silver_records();
    EXPECT_EQ(hit_label(hit(100.0, 102.4, 1.8, 412.3), records, 0), "1.8 m TW @ 412 g/t Ag");
    EXPECT_EQ(hit_label(hit(100.0, 102.4, std::nullopt, 412.3), records, 0), "2.4 m DH @ 412 g/t Ag");
}

// What several things have to tell of how far off a section they lie is true of each of them.
TEST(LabelText, GivesFromWhereToWhereThingsLieOffASection) {
    EXPECT_EQ(behind_range_words(22.6, 36.1, {}), "23 to 36 m behind");
    EXPECT_EQ(behind_range_words(-15.0, -5.2, {}), "5 to 15 m in front");
    EXPECT_EQ(behind_range_words(-3.0, 12.0, {}), "3 m in front to 12 m behind");
    EXPECT_EQ(behind_range_words(17.1, 17.4, {}), "17 m behind");
}

TEST(LabelText, SaysWhatIsNotKnownYet) {
    const tables::Records records = silver_records();
    intercepts::Intercept made = hit(100.0, 102.4, 1.8, std::nullopt);
    made.sampled = intercepts::SampledState::pending;
    EXPECT_EQ(hit_label(made, records, 0), "1.8 m TW, assays pending");
    made.sampled = intercepts::SampledState::not_sampled;
    EXPECT_EQ(hit_label(made, records, 0), "1.8 m TW, not sampled");
    made.grades.push_back(intercepts::Grade{1.2});
    tables::Records with_gold = records;
    with_gold.analytes.push_back({"au", "Au", "g/t"});
    EXPECT_EQ(hit_label(made, with_gold, 0), "1.8 m TW, Ag not assayed");
    made.state = tables::PickState::open_void;
    EXPECT_EQ(hit_label(made, records, 0), "void, 2.4 m DH");
    made.state = tables::PickState::lost;
    EXPECT_EQ(hit_label(made, records, 0), "core lost, 2.4 m DH");
}

TEST(LabelText, MarksOverLimitAndBelowDetection) {
    const tables::Analyte silver{"ag_gpt", "Ag", "g/t"};
    intercepts::Grade grade{1500.0};
    grade.over_limit = true;
    EXPECT_EQ(grade_text(grade, silver), "> 1500 g/t Ag");
    grade = {0.5};
    grade.below_detection = true;
    EXPECT_EQ(grade_text(grade, silver), "< 0.5 g/t Ag");
}

TEST(LabelText, GivesNoMoreDigitsThanWereMeasured) {
    EXPECT_EQ(grade_figure(412.37, "g/t"), "412");
    EXPECT_EQ(grade_figure(22.4, "g/t"), "22");
    EXPECT_EQ(grade_figure(3.26, "g/t"), "3.3");
    EXPECT_EQ(grade_figure(9.96, "g/t"), "10");
    EXPECT_EQ(grade_figure(0.0291, "g/t"), "0.029");
    EXPECT_EQ(grade_figure(0.005, "ppm"), "0.005");
    EXPECT_EQ(grade_figure(6.4584, "oz/st"), "6.46");
    EXPECT_EQ(grade_figure(0.1234, "%"), "0.123");
}

TEST(LabelText, AThicknessIsNeverWrittenAsNothing) {
    const base::MapFrame metres;
    EXPECT_EQ(thickness_text(0.03, metres), "0.03 m");
    EXPECT_EQ(thickness_text(0.5, metres), "0.5 m");
}

TEST(LabelText, WritesFeetInAProjectInFeet) {
    const tables::Records records = silver_records(base::LengthUnit::foot, "oz/st");
    EXPECT_EQ(hit_label(hit(30.48, 31.0896, 0.6096, 6.458), records, 0), "2.0 ft TW @ 6.46 oz/st Ag");
    EXPECT_EQ(depth_range_text(30.48, 31.0896, records.frame), "100.0 to 102.0 ft");
}

TEST(LabelText, PutsAForecastInWords) {
    forecast::Pierce pierce;
    pierce.depth = 221.4;
    pierce.depth_p10 = 217.2;
    pierce.depth_p90 = 226.1;
    pierce.presence = 0.951;
    const std::string likely = "likely at 221 m; between 217 and 226 in 8 holes of 10; chance that it is there 0.95";
    pierce.chance_reached = 0.97;
    EXPECT_EQ(pierce_words(pierce, {}), likely);
    pierce.chance_reached = 0.33;
    EXPECT_EQ(pierce_words(pierce, {}), likely + "; chance that the hole gets there 0.33");
    pierce.chance_reached = 0.01;
    EXPECT_EQ(pierce_words(pierce, {}), likely + "; the hole ends before it");
    // Low because the hole may cross another block, not because it is short.
    pierce.crossing.chance = 0.5;
    pierce.chance_reached = 0.48;
    EXPECT_EQ(pierce_words(pierce, {}), likely + "; chance that the hole crosses it 0.48");
}

TEST(LabelText, NoForecastIsWithoutAnyChanceInPrint) {
    EXPECT_EQ(chance_text(0.0), "under 0.01");
    EXPECT_EQ(chance_text(0.004), "under 0.01");
    EXPECT_EQ(chance_text(0.014), "0.01");
    EXPECT_EQ(chance_text(0.998), "over 0.99");
}

TEST(LabelText, WritesCoordinatesAndBearings) {
    base::MapFrame frame;
    frame.origin = {439800.0, 5159400.0, 0.0};
    EXPECT_EQ(coordinates_text({45.2, 89.6, 0.0}, frame), "E 439 845  N 5 159 490");
    EXPECT_EQ(spaced_thousands(950.0), "950");
    EXPECT_EQ(compass_point(base::Azimuth::degrees(121.0)), "SE");
    EXPECT_EQ(compass_point(base::Azimuth::degrees(350.0)), "N");
    EXPECT_EQ(bearing_text(base::Azimuth::degrees(31.2)), "031°");
    EXPECT_EQ(bearing_text(base::Azimuth::degrees(359.7)), "000°");
}

TEST(LabelText, TellsAMissFromAHoleThatStoppedShort) {
    veins::NoVein none;
    none.depth = 366.2;
    none.reason = veins::NoVeinReason::absent;
    EXPECT_EQ(no_vein_label(none, {}), "no vein at 366 m");
    none.reason = veins::NoVeinReason::stopped_short;
    EXPECT_EQ(no_vein_label(none, {}), "stopped short of it, due at 366 m");
}

TEST(LabelText, SaysInWordsOnWhichWallOfAFaultABlockLies) {
    EXPECT_EQ(block_words(""), "");
    EXPECT_EQ(block_words("Cross Fault+"), "hanging wall of Cross Fault");
    EXPECT_EQ(block_words("N-S Fault- Cross Fault+"), "foot wall of N-S Fault, hanging wall of Cross Fault");
    EXPECT_EQ(block_words("East - West-"), "foot wall of East - West");
}

}  // namespace
}  // namespace selvage::sheets
