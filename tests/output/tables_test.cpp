#include "output/table_rows.h"
#include "output/write.h"

#include "support/record_builders.h"

#include <gtest/gtest.h>

#include <cmath>
#include <sstream>

namespace selvage::output {
namespace {

using base::Azimuth;
using base::Dip;

// Two holes at a seven-figure origin.
tables::Records two_holes(base::LengthUnit unit = base::LengthUnit::metre) {
    tables::Records records;
    records.frame = {unit, {577000.0, 6081000.0, 2000.0}};
    records.analytes = test::silver_and_lead();
    records.collars = {test::collar("K-07", Eigen::Vector3d(100.0, 200.0, 50.0), 25.0),
                       test::collar("K-02", Eigen::Vector3d(0.0, 0.0, 0.0), 25.0)};
    return records;
}

paths::Path straight(double depth) {
    return test::straight_path("K-07", 0, {100.0, 200.0, 50.0}, {Azimuth::degrees(90), Dip::degrees(60)}, depth);
}

std::vector<std::string> lines(const ResultTable& table, const base::MapFrame& frame) {
    std::vector<std::string> out;
    std::istringstream text(csv_text(table, frame));
    for (std::string line; std::getline(text, line);) out.push_back(line);
    return out;
}

std::vector<std::string> first_fields(const std::vector<std::string>& all, std::size_t count) {
    std::vector<std::string> out;
    for (std::size_t i = 1; i < all.size(); ++i) {
        std::size_t end = 0;
        for (std::size_t k = 0; k < count; ++k) end = all[i].find(',', end + 1);
        out.push_back(all[i].substr(0, end));
    }
    return out;
}

using Lines = std::vector<std::string>;

TEST(PathsTable, HasARowAtStationsEveryTenMetresAndTheEnd) {
    const tables::Records records = two_holes();
    paths::Path path = straight(25.0);
    paths::Station station = path.stations[0];
    station.depth = 13.3;
    station.position += 13.3 * station.tangent;
    path.stations.insert(path.stations.begin() + 1, station);
    const Lines out = lines(paths_table(records, {path}), records.frame);
    EXPECT_EQ(first_fields(out, 2), (Lines{"K-07,0.000", "K-07,10.000", "K-07,13.300", "K-07,20.000", "K-07,25.000"}));
    EXPECT_EQ(out[1],
              "K-07,0.000,577100.000,6081200.000,2050.000,90.00,60.00,0.000,0.000,0.000,0.00000000,0.00000000,0.00000000,"
              "surveyed");
    // 25 m at a dip of 60 due east: 12.5 m east, 21.651 m down.
    EXPECT_EQ(first_fields(out, 7).back(), "K-07,25.000,577112.500,6081200.000,2028.349,90.00,60.00");
    EXPECT_EQ(out.back().substr(out.back().rfind(',') + 1), "surveyed");
}

TEST(PathsTable, HasARowEveryThirtyFeetInAProjectInFeet) {
    const tables::Records records = two_holes(base::LengthUnit::foot);
    const Lines out = lines(paths_table(records, {straight(25.0)}), records.frame);
    EXPECT_EQ(first_fields(out, 2), (Lines{"K-07,0.000", "K-07,30.000", "K-07,60.000", "K-07,82.021"}));
}

TEST(PathsTable, ADaughtersRowsBeginAtItsKickoff) {
    const tables::Records records = two_holes();
    paths::Path path = straight(25.0);
    path.start_depth = path.stations[0].depth = 12.0;
    const Lines out = lines(paths_table(records, {path}), records.frame);
    EXPECT_EQ(first_fields(out, 2), (Lines{"K-07,12.000", "K-07,20.000", "K-07,25.000"}));
}

TEST(PathsTable, AStationAtAWholeMultipleIsOneRow) {
    const tables::Records records = two_holes();
    const Lines out = lines(paths_table(records, {straight(20.0)}), records.frame);
    EXPECT_EQ(first_fields(out, 2), (Lines{"K-07,0.000", "K-07,10.000", "K-07,20.000"}));
}

TEST(PathsTable, WritesTheCovarianceOfItsSources) {
    const tables::Records records = two_holes();
    paths::Path path = straight(25.0);
    path.sources = {{{paths::SourceKind::collar_east, 0, 0}, paths::Scope::hole, 0.3},
                    {{paths::SourceKind::collar_north, 0, 0}, paths::Scope::hole, 0.4}};
    const ResultTable table = paths_table(records, {path});
    EXPECT_NEAR(std::get<double>(table.rows[0][7]), 0.3, 1e-12);
    EXPECT_NEAR(std::get<double>(table.rows[0][8]), 0.4, 1e-12);
    EXPECT_NEAR(std::get<double>(table.rows[0][9]), 0.0, 1e-12);
}

TEST(OrientationsTable, LeavesUnorientedRowsOutAndGivesTheStrike) {
    const tables::Records records = two_holes();
    const Eigen::Vector3d pole = base::upward_normal({base::Angle::degrees(70), Azimuth::degrees(45)});
    auto oriented = test::contact("K-02", 12.0, "North", pole, base::Angle::degrees(50));
    auto first = test::contact("K-07", 99.0, "", pole, std::nullopt);
    first.quality = 4;
    const auto unoriented = test::contact("K-07", 1.0, "North", std::nullopt, base::Angle::degrees(50));
    EXPECT_EQ(lines(orientations_table(records, {oriented, first, unoriented}), records.frame),
              (Lines{"hole,depth,kind,vein,dip,dip_direction,strike,quality", "K-07,99.000,contact,,70.00,45.00,315.00,4",
                     "K-02,12.000,contact,North,70.00,45.00,315.00,2"}));
}

intercepts::Intercept full_intercept() {
    intercepts::Intercept out;
    out.hole = "K-07";
    out.vein = "North";
    out.from = 100.0;
    out.to = 102.0;
    out.point = {10.5, 20.25, -30.125};
    out.zone = "A, upper";
    out.recovery = 0.875;
    out.sampled = intercepts::SampledState::part_assayed;
    out.sampled_share = 0.9;
    intercepts::Grade silver;
    silver.value = 1234.5678;
    out.grades = {silver, std::nullopt};
    out.true_thickness = 1.5;
    out.thickness_sd = 0.1;
    out.horizontal_width = 1.6;
    out.angle = base::Angle::degrees(48.59);
    out.thickness_from = intercepts::ThicknessSource::core;
    out.accumulations = {1851.8517, std::nullopt};
    out.flags = {"likely", "part-sampled"};
    return out;
}

TEST(InterceptsTable, WritesEveryFigure) {
    const tables::Records records = two_holes();
    EXPECT_EQ(lines(intercepts_table(records, {full_intercept()}), records.frame).at(1),
              "K-07,North,100.000,102.000,2.000,1.500,1.600,48.59,577010.500,6081020.250,1969.875,part assayed,1234.57,,1851.85,,"
              "core,0.100,vein,\"A, upper\",87.50,0.9000,likely part-sampled");
}

TEST(InterceptsTable, LeavesWhatIsUnknownEmpty) {
    const tables::Records records = two_holes();
    intercepts::Intercept bare;
    bare.hole = "K-07";
    bare.vein = "North";
    bare.from = 100.0;
    bare.to = 101.0;
    bare.state = tables::PickState::open_void;
    EXPECT_EQ(lines(intercepts_table(records, {bare}), records.frame).at(1),
              "K-07,North,100.000,101.000,1.000,,,,577000.000,6081000.000,2000.000,not sampled,,,,,unknown,,void,,,0.0000,");
}

TEST(InterceptsTable, IsInFeetThroughoutInAProjectInFeet) {
    const tables::Records records = two_holes(base::LengthUnit::foot);
    const Lines out = lines(intercepts_table(records, {full_intercept()}), records.frame);
    EXPECT_NE(out[0].find(",ag_gpt_ft,pb_pct_ft,"), std::string::npos);
    // 1851.8517 g/t m over 0.3048 m a foot.
    EXPECT_EQ(
        out[1],
        "K-07,North,328.084,334.646,6.562,4.921,5.249,48.59,1893079.068,19950853.839,6462.844,part assayed,1234.57,,6075.63,,"
        "core,0.328,vein,\"A, upper\",87.50,0.9000,likely part-sampled");
}

TEST(PiercePointsTable, WritesTheThreePointsOfEachMixture) {
    const tables::Records records = two_holes();
    forecast::Pierce pierce;
    pierce.hole = "K-07";
    pierce.vein = "North";
    pierce.depth = 200.0;
    pierce.depth_p10 = 195.0;
    pierce.depth_p90 = 207.815;
    pierce.point = {1.0, 2.0, 3.0};
    pierce.angle = base::Angle::degrees(55);
    pierce.log_thickness = {{1.0}, {0.0}, {0.5}};
    pierce.log_grades = {{{1.0}, {std::log(400.0)}, {1.0}}, {}};
    pierce.presence = 0.75;
    pierce.call_depth = 190.0;
    pierce.stop_depth = 230.0;
    pierce.chance_reached = 0.99;
    pierce.flags = {"nearest-vein", "prior-only"};
    // Log-normal quantiles exp(mean + z sd) with z = 1.2815516 at 90 % (normal tables).
    EXPECT_EQ(lines(pierce_points_table(records, {{}, {{"K-07", "North", 0}}}), records.frame).at(1),
              "K-07,North,,,,,,,,,,,,,,,,,,,,,,0.0000,nearest-vein no-crossing");
    EXPECT_EQ(lines(pierce_points_table(records, {{pierce}, {}}), records.frame).at(1),
              "K-07,North,200.000,5.000,195.000,207.815,577001.000,6081002.000,2003.000,55.00,1.000,0.527,1.898,0.7500,"
              "400,111.042,1440.89,,,,,190.000,230.000,0.9900,nearest-vein prior-only");
}

// Two veins, and rows that come in any order.
std::vector<VeinFigures> two_veins() {
    const auto fit = [](const char* hole, double depth) {
        veins::FitRow row;
        row.hole = hole;
        row.actual_depth = depth;
        row.predicted_depth = depth - 1.5;
        row.depth_sd = 2.0;
        row.depth_p10 = depth - 4.0;
        row.depth_p90 = depth + 1.0;
        row.presence = 0.875;
        row.present = depth > 90.0;
        return row;
    };
    const auto miss = [](const char* hole, double depth, veins::NoVeinReason reason) {
        veins::NoVein row;
        row.hole = hole;
        row.depth = depth;
        row.depth_p10 = depth - 1;
        row.depth_p90 = depth + 1;
        row.reason = reason;
        row.presence = 0.25;
        return row;
    };
    VeinFigures north{
        "North", {}, {fit("K-02", 80.0), fit("K-07", 100.0)}, {miss("K-02", 90, veins::NoVeinReason::fault_gap)}, {}};
    VeinFigures south{
        "South", {}, {fit("K-07", 60.0), fit("K-02", 80.0)}, {miss("K-07", 95, veins::NoVeinReason::not_logged)}, {}};
    north.summary.intercepts = 2;
    north.summary.attitude = {base::Angle::degrees(70), Azimuth::degrees(245)};
    north.summary.area = 12345.0;
    north.summary.range = 80.0;
    north.summary.slope_sd = 0.0812;
    north.summary.thickness_median = 0.9;
    north.summary.residual_rms = 1.25;
    north.summary.coverage80 = 0.5;
    south.fit.pop_back();
    south.fit.clear();
    return {north, south};
}

TEST(FitTable, RunsByCollarThenDepthThenVein) {
    const tables::Records records = two_holes();
    auto veins = two_veins();
    veins[1].fit = {veins[0].fit[0], veins[0].fit[1]};
    veins[1].fit[1].actual_depth = 60.0;
    veins[1].fit[1].actual_thickness = 0.8;
    EXPECT_EQ(first_fields(lines(fit_table(records, veins), records.frame), 6),
              (Lines{"South,K-07,98.500,2.000,60.000,-38.500", "North,K-07,98.500,2.000,100.000,1.500",
                     "North,K-02,78.500,2.000,80.000,1.500", "South,K-02,78.500,2.000,80.000,1.500"}));
    EXPECT_EQ(lines(fit_table(records, veins), records.frame).at(2),
              "North,K-07,98.500,2.000,100.000,1.500,,,96.000,101.000,,,0.8750,1");
    EXPECT_EQ(lines(fit_table(records, veins), records.frame).at(3),
              "North,K-02,78.500,2.000,80.000,1.500,,,76.000,81.000,,,0.8750,0");
}

TEST(NoVeinTable, GivesTheReasonInWordsAndAChanceToMissesAlone) {
    const tables::Records records = two_holes();
    EXPECT_EQ(lines(no_vein_table(records, two_veins()), records.frame),
              (Lines{"hole,vein,depth,depth_p10,depth_p90,reason,presence",
                     "K-07,South,95.000,94.000,96.000,not logged as vein,0.2500", "K-02,North,90.000,89.000,91.000,fault gap,"}));
}

// What the sheet of next holes says of each: the place, the straight hole that gets there, its collar on the map.
TEST(StepOutsTable, GivesTheHoleWithItsCollarOnTheMap) {
    tables::Records records = two_holes();
    planning::StepOut one;
    one.rank = 2;
    one.vein = "North";
    one.point = {10.0, -20.0, -150.0};
    one.presence = 0.75;
    one.true_thickness = 0.8;
    one.information = 3.5;
    one.hole = {
        "B",   {-40.5, 60.25, 5.125}, {Azimuth::degrees(245), base::Dip::degrees(60)}, 176.4, 191.4, base::Angle::degrees(71),
        9000.0};
    one.target = "North NW 1";
    one.reason = "teaches most";
    EXPECT_EQ(lines(step_outs_table(records, {one}), records.frame).at(1),
              "2,North,577010.000,6080980.000,1850.000,0.7500,0.800,,3.500,B,245.00,60.00,191.400,71.00,9000.00,North NW 1,"
              "teaches most,576959.500,6081060.250,2005.125,176.400");
    records.frame.unit = base::LengthUnit::foot;
    const std::string in_feet = lines(step_outs_table(records, {one}), records.frame).at(1);
    EXPECT_EQ(in_feet.substr(in_feet.rfind(',') + 1), "578.740");  // 176.4 / 0.3048
}

TEST(VeinsTable, LeavesFiguresOfAnEmptyFitEmpty) {
    const tables::Records records = two_holes();
    const Lines out = lines(veins_table(records, two_veins()), records.frame);
    EXPECT_EQ(out.at(1), "North,2,0,0,70.00,245.00,12345.000,80.000,0.0812,0.900,1.250,0.5000");
    EXPECT_EQ(out.at(2), "South,0,0,0,0.00,0.00,0.000,0.000,0.0000,,,");
}

TEST(AlphaTestsTable, RunsByCollarThenDepth) {
    const tables::Records records = two_holes();
    const auto degrees = [](double value) { return base::Angle::degrees(value); };
    const std::vector<veins::AlphaTest> tests = {{"K-02", "North", 10.0, degrees(50), degrees(48.5), degrees(6)},
                                                 {"K-07", "South", 20.0, degrees(40), degrees(41), degrees(7)}};
    EXPECT_EQ(lines(alpha_tests_table(records, tests, two_veins()), records.frame),
              (Lines{"hole,depth,vein,alpha,predicted_alpha,alpha_sd", "K-07,20.000,South,40.00,41.00,7.00",
                     "K-02,10.000,North,50.00,48.50,6.00"}));
}

TEST(ChecksTable, KeepsTheOrderOfFindings) {
    const tables::Records records = two_holes();
    const base::Check check = {"from-after-to", base::Severity::error, "", ""};
    const base::Check whole = {"empty-table", base::Severity::warning, "", ""};
    EXPECT_EQ(lines(checks_table(records, {{&check, {"picks", "picks.csv", 12}, "K-07", "from 12.0 is below to 11.0, left out"},
                                           {&whole, {"pads", "pads.csv", 0}, "", "has no rows"}}),
                    records.frame),
              (Lines{"severity,check,table,row,hole,message",
                     "error,from-after-to,picks,12,K-07,\"from 12.0 is below to 11.0, left out\"",
                     "warning,empty-table,pads,,,has no rows"}));
}

TEST(TableFiles, AreTheTablesWithTheirHeaders) {
    Results results;
    results.records = two_holes();
    const std::vector<PackFile> files = table_files(results);
    std::vector<std::string> names;
    for (const PackFile& file : files) {
        names.push_back(file.name);
        EXPECT_EQ(std::count(file.bytes.begin(), file.bytes.end(), '\n'), 1) << file.name;
    }
    EXPECT_EQ(names, (Lines{"tables/paths.csv", "tables/orientations.csv", "tables/intercepts.csv", "tables/no_vein.csv",
                            "tables/pierce_points.csv", "tables/not_seen_yet.csv", "tables/fit.csv", "tables/veins.csv",
                            "tables/alpha_tests.csv", "tables/sets.csv", "tables/vein_of.csv", "tables/slips.csv",
                            "tables/step_outs.csv", "tables/checks.csv"}));
}

TEST(SheetFileName, HasAsManyDigitsAsThePackNeeds) {
    drawing::Sheet sheet;
    sheet.kind = "long-section";
    sheet.name = "Café Vein No. 2";
    EXPECT_EQ(sheet_file_name(sheet, 7, 12), "sheets/07-long-section-caf-vein-no-2.pdf");
    EXPECT_EQ(sheet_file_name(sheet, 7, 100), "sheets/007-long-section-caf-vein-no-2.pdf");
    EXPECT_EQ(sheet_file_name(sheet, 7, 99), "sheets/07-long-section-caf-vein-no-2.pdf");
}

}  // namespace
}  // namespace selvage::output
