#include "output/cells.h"

#include "support/record_builders.h"

#include <gtest/gtest.h>

#include <limits>
#include <set>

namespace selvage::output {
namespace {

const base::MapFrame metres{base::LengthUnit::metre, Eigen::Vector3d::Zero()};
const base::MapFrame feet{base::LengthUnit::foot, Eigen::Vector3d::Zero()};

std::vector<std::string> names(const std::vector<Column>& columns) {
    std::vector<std::string> out;
    for (const Column& column : columns) out.push_back(column.name);
    return out;
}

std::vector<std::string> columns_of(const char* table, base::LengthUnit unit = base::LengthUnit::metre) {
    return names(empty_table(table, test::silver_and_lead(), unit).columns);
}

using Names = std::vector<std::string>;

TEST(TableColumns, StandInTheirFixedOrder) {
    EXPECT_EQ(columns_of("paths"),
              (Names{"hole", "depth", "east", "north", "elevation", "azimuth", "dip", "sd_east", "sd_north", "sd_elevation",
                     "cov_east_north", "cov_east_elevation", "cov_north_elevation", "kind"}));
    EXPECT_EQ(columns_of("orientations"), (Names{"hole", "depth", "kind", "vein", "dip", "dip_direction", "strike", "quality"}));
    EXPECT_EQ(
        columns_of("intercepts"),
        (Names{"hole",          "vein",     "from",           "to",           "length", "true_thickness", "horizontal_width",
               "angle",         "east",     "north",          "elevation",    "status", "ag_gpt",         "pb_pct",
               "ag_gpt_m",      "pb_pct_m", "thickness_from", "thickness_sd", "state",  "zone",           "recovery",
               "sampled_share", "flags"}));
    EXPECT_EQ(columns_of("no_vein"), (Names{"hole", "vein", "depth", "depth_p10", "depth_p90", "reason", "presence"}));
    EXPECT_EQ(columns_of("pierce_points"),
              (Names{"hole",       "vein",       "depth",          "depth_sd",       "depth_p10",     "depth_p90",     "east",
                     "north",      "elevation",  "angle",          "true_thickness", "thickness_p10", "thickness_p90", "presence",
                     "ag_gpt",     "ag_gpt_p10", "ag_gpt_p90",     "pb_pct",         "pb_pct_p10",    "pb_pct_p90",    "block",
                     "call_depth", "stop_depth", "chance_reached", "flags"}));
    EXPECT_EQ(columns_of("fit"),
              (Names{"vein", "hole", "predicted_depth", "depth_sd", "actual_depth", "residual", "predicted_thickness",
                     "actual_thickness", "depth_p10", "depth_p90", "thickness_p10", "thickness_p90", "presence", "there"}));
    EXPECT_EQ(
        columns_of("step_outs"),
        (Names{"rank",         "vein",        "east",   "north",       "elevation",    "presence",         "true_thickness",
               "accumulation", "information", "pad",    "azimuth",     "dip",          "length",           "angle",
               "cost",         "target",      "reason", "collar_east", "collar_north", "collar_elevation", "pierce_depth"}));
    EXPECT_EQ(columns_of("alpha_tests"), (Names{"hole", "depth", "vein", "alpha", "predicted_alpha", "alpha_sd"}));
    EXPECT_EQ(columns_of("veins"), (Names{"vein", "intercepts", "no_vein", "oriented", "dip", "dip_direction", "area", "range",
                                          "slope_sd", "thickness_median", "residual_rms", "coverage80"}));
    EXPECT_EQ(columns_of("checks"), (Names{"severity", "check", "table", "row", "hole", "message"}));
}

TEST(TableColumns, NameAccumulationsByTheProjectsUnit) {
    EXPECT_EQ(columns_of("intercepts", base::LengthUnit::foot).at(14), "ag_gpt_ft");
    EXPECT_EQ(columns_of("intercepts", base::LengthUnit::us_survey_foot).at(15), "pb_pct_ft");
}

TEST(TableColumns, AreEachDescribedOnce) {
    for (const TableDescription& table : table_descriptions()) {
        EXPECT_FALSE(table.meaning.empty()) << table.name;
        std::set<std::string> seen;
        for (const Column& column : table.columns) {
            EXPECT_TRUE(seen.insert(column.name).second) << table.name << " " << column.name;
            EXPECT_FALSE(column.meaning.empty()) << table.name << " " << column.name;
        }
    }
}

TEST(NumberRules, GiveEachQuantityItsDigits) {
    EXPECT_EQ(text_of(577100.12345, Quantity::coordinate, metres), "577100.123");
    EXPECT_EQ(text_of(12.0, Quantity::length, metres), "12.000");
    EXPECT_EQ(text_of(0.123456, Quantity::length_sd, metres), "0.123");
    EXPECT_EQ(text_of(69.999, Quantity::angle, metres), "70.00");
    EXPECT_EQ(text_of(0.87654, Quantity::presence, metres), "0.8765");
    EXPECT_EQ(text_of(1234.5678, Quantity::grade, metres), "1234.57");
    EXPECT_EQ(text_of(0.00123456789, Quantity::grade, metres), "0.00123457");
    EXPECT_EQ(text_of(123456789.0, Quantity::accumulation, metres), "123457000");
    EXPECT_EQ(text_of(-0.0000123, Quantity::covariance, metres), "-0.00001230");
    EXPECT_EQ(text_of(std::size_t{7} * 1.0, Quantity::count, metres), "7");
    EXPECT_EQ(text_of(1.0, Quantity::flag, metres), "1");
    EXPECT_EQ(text_of(87.25, Quantity::percent, metres), "87.25");
}

TEST(NumberRules, WriteNoMinusZeroNoExponentAndNothingForUnknown) {
    EXPECT_EQ(text_of(-0.0001, Quantity::length, metres), "0.000");
    EXPECT_EQ(text_of(-1e-12, Quantity::covariance, metres), "0.00000000");
    EXPECT_EQ(text_of(1e-9, Quantity::grade, metres), "0.000000001");
    EXPECT_EQ(text_of(Cell(), Quantity::length, metres), "");
    EXPECT_EQ(text_of(std::numeric_limits<double>::quiet_NaN(), Quantity::length, metres), "");
}

TEST(NumberRules, AnAzimuthNeverPrintsAs360) {
    EXPECT_EQ(text_of(359.996, Quantity::azimuth, metres), "0.00");
    EXPECT_EQ(text_of(359.99, Quantity::azimuth, metres), "359.99");
}

// 1 ft = 0.3048 m exactly (international foot, 1959): 1 m = 3.28084 ft, 1 m2 = 10.76391 ft2.
TEST(NumberRules, TurnEverythingThatHoldsALengthIntoFeet) {
    EXPECT_EQ(text_of(0.3048, Quantity::length, feet), "1.000");
    EXPECT_EQ(text_of(304.8, Quantity::coordinate, feet), "1000.000");
    EXPECT_EQ(text_of(1.0, Quantity::length_sd, feet), "3.281");
    EXPECT_EQ(text_of(1.0, Quantity::covariance, feet), "10.76391042");
    EXPECT_EQ(text_of(1.0, Quantity::area, feet), "10.764");
    EXPECT_EQ(text_of(100.0, Quantity::accumulation, feet), "328.084");
    for (const auto quantity : {Quantity::angle, Quantity::presence, Quantity::grade, Quantity::tangent, Quantity::share})
        EXPECT_EQ(text_of(0.5, quantity, feet), text_of(0.5, quantity, metres));
}

// RFC 4180, section 2, rules 5 to 7.
TEST(CsvField, IsQuotedWhereItMustBe) {
    EXPECT_EQ(csv_field("plain words"), "plain words");
    EXPECT_EQ(csv_field("a,b"), "\"a,b\"");
    EXPECT_EQ(csv_field("the \"old\" stope"), "\"the \"\"old\"\" stope\"");
    EXPECT_EQ(csv_field("two\nlines"), "\"two\nlines\"");
    EXPECT_EQ(csv_field("two\rlines"), "\"two\rlines\"");
}

TEST(CsvText, KeepsTheOrderOfManyRows) {
    ResultTable table{"t", {{"a", Quantity::count, "", 0}, {"b", Quantity::text, "", 0}}, {}};
    std::string expected = "a,b\n";
    for (int i = 0; i < 10000; ++i) {
        table.rows.push_back({static_cast<double>(i), std::string("x")});
        expected += std::to_string(i) + ",x\n";
    }
    EXPECT_EQ(csv_text(table, metres), expected);
}

}  // namespace
}  // namespace selvage::output
