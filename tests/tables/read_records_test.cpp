#include "base/random.h"
#include "settings/project_keys.h"
#include "support/project_tables.h"
#include "tables/columns.h"
#include "tables/north.h"
#include "tables/read.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace selvage::tables {
namespace {

using test::found;
using test::lines_of;
using test::ProjectTables;
using test::read;
using test::tidy_project;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

// Only collars and surveys, each with its one data row.
ProjectTables two_tables(const std::string& settings, const std::string& collar_row, const std::string& survey_header,
                         const std::string& survey_row) {
    ProjectTables files;
    files.project = "[project]\nname = \"A\"\n" + settings +
                    "[tables]\ncollars = \"collars.csv\"\nsurveys = \"surveys.csv\"\n[[vein]]\nname = \"V\"\n";
    files.tables["collars"] = "hole,east,north,elevation,depth,azimuth,dip\n" + collar_row + "\n";
    files.tables["surveys"] = survey_header + "\n" + survey_row + "\n";
    return files;
}

double survey_azimuth(const std::string& settings, const std::string& header, const std::string& row) {
    const auto result = read(two_tables(settings, "K,0,0,0,100,,", header, row));
    EXPECT_THAT(result.findings, IsEmpty()) << lines_of(result.findings);
    return result.records.surveys.at(0).azimuth.value().degrees();
}

// True = grid + convergence; grid = magnetic + declination - convergence, east positive.
TEST(GridAzimuth, TakesOffConvergenceAndPutsOnDeclination) {
    const base::Angle convergence = base::Angle::degrees(0.31);
    const auto degrees = [&](double measured, settings::NorthReference reference) {
        return grid_azimuth(measured, reference, base::Angle::degrees(12.5), convergence)->degrees();
    };
    EXPECT_DOUBLE_EQ(degrees(100, settings::NorthReference::grid), 100);
    EXPECT_DOUBLE_EQ(degrees(100, settings::NorthReference::true_north), 99.69);
    EXPECT_DOUBLE_EQ(degrees(100, settings::NorthReference::magnetic), 112.19);
    EXPECT_NEAR(degrees(355, settings::NorthReference::magnetic), 7.19, 1e-12);
    EXPECT_FALSE(grid_azimuth(100, settings::NorthReference::magnetic, std::nullopt, convergence));
}

TEST(ReadRecords, TurnsTheAzimuthsOfSurveysAsTheRowThenTheTableThenTheProjectSays) {
    const std::string magnetic = "azimuth_reference = \"magnetic\"\ndeclination = 10\ngrid_convergence = 1\n";
    EXPECT_DOUBLE_EQ(survey_azimuth("", "hole,depth,dip,azimuth", "K,0,60,100"), 100);
    EXPECT_DOUBLE_EQ(survey_azimuth(magnetic, "hole,depth,dip,azimuth", "K,0,60,100"), 109);
    EXPECT_DOUBLE_EQ(survey_azimuth(magnetic, "hole,depth,dip,azimuth,azimuth_reference", "K,0,60,100,true"), 99);
    EXPECT_DOUBLE_EQ(survey_azimuth(magnetic, "hole,depth,dip,azimuth,azimuth_reference", "K,0,60,100,Grid"), 100);
    EXPECT_DOUBLE_EQ(survey_azimuth(magnetic, "hole,depth,dip,azimuth,declination", "K,0,60,100,12"), 111);
    EXPECT_DOUBLE_EQ(survey_azimuth("", "hole,depth,dip,azimuth,azimuth_reference,declination", "K,0,60,100,magnetic,-3"), 97);
    ProjectTables files = two_tables(magnetic, "K,0,0,0,100,,", "hole,depth,dip,azimuth", "K,0,60,100");
    files.replace("project", "surveys = \"surveys.csv\"", "surveys = { source = \"surveys.csv\", azimuth_reference = \"true\" }");
    EXPECT_DOUBLE_EQ(read(files).records.surveys[0].azimuth->degrees(), 99);
}

TEST(ReadRecords, TakesOtherAzimuthsForGridUnlessTheirTableSaysOtherwise) {
    ProjectTables files = two_tables("azimuth_reference = \"magnetic\"\ndeclination = 10\n", "K,0,0,0,100,100,60",
                                     "hole,depth,dip,azimuth", "K,0,60,100");
    EXPECT_DOUBLE_EQ(read(files).records.collars[0].azimuth->degrees(), 100);
    files.replace("project", "collars = \"collars.csv\"",
                  "collars = { source = \"collars.csv\", azimuth_reference = \"magnetic\" }");
    EXPECT_DOUBLE_EQ(read(files).records.collars[0].azimuth->degrees(), 110);
}

TEST(ReadRecords, KeepsADipOnlyTestWithoutAzimuth) {
    const auto result = read(two_tables("", "K,0,0,0,100,,", "hole,depth,dip,azimuth,method,use", "K,0,60,, Acid ,0"));
    EXPECT_THAT(result.findings, IsEmpty()) << lines_of(result.findings);
    const Survey& survey = result.records.surveys.at(0);
    EXPECT_FALSE(survey.azimuth);
    EXPECT_EQ(survey.dip.degrees(), 60);
    EXPECT_EQ(survey.method, "acid");
    EXPECT_FALSE(survey.use);
}

TEST(ReadRecords, TurnsTheSignOfDipsWhereTheTableSaysSo) {
    ProjectTables files = two_tables("", "K,0,0,0,100,0,60", "hole,depth,dip,azimuth", "K,0,-60,100");
    files.replace("project", "surveys = \"surveys.csv\"", "surveys = { source = \"surveys.csv\", dip_sign = \"negative_down\" }");
    const auto result = read(files);
    EXPECT_EQ(result.records.surveys[0].dip.degrees(), 60);
    EXPECT_EQ(result.records.collars[0].dip->degrees(), 60);
}

// 1 ft = 0.3048 m (1959), 1 US survey foot = 1200/3937 m (1893), both exact.
TEST(ReadRecords, TurnsLengthsIntoMetresByTheProjectsOrTheTablesUnit) {
    ProjectTables files = two_tables("length_unit = \"ft\"\n", "K,1000,2000,3000,500,0,60", "hole,depth,dip", "K,100,60");
    files.replace("project", "surveys = \"surveys.csv\"", "surveys = { source = \"surveys.csv\", length_unit = \"us-ft\" }");
    const auto result = read(files);
    EXPECT_TRUE(
        (result.records.collars[0].position + result.records.frame.origin).isApprox(Eigen::Vector3d(304.8, 609.6, 914.4), 1e-12));
    EXPECT_DOUBLE_EQ(result.records.collars[0].depth, 152.4);
    EXPECT_DOUBLE_EQ(result.records.surveys[0].depth, 100.0 * 1200.0 / 3937.0);
    EXPECT_EQ(result.records.frame.unit, base::LengthUnit::foot);
}

TEST(ReadRecords, ReadsDecimalCommasAndMappedColumns) {
    ProjectTables files = two_tables("", "K,1,2,3,100,,", "x", "y");
    files.tables["surveys"] = " Hole No ;AT;Azi;Dip;hole\nK;10,5;100,25;60;other\n";
    files.replace("project", "surveys = \"surveys.csv\"",
                  "surveys = { source = \"surveys.csv\", decimal = \",\", columns = { hole = \"hole no\", depth = \"At\", "
                  "azimuth = \"AZI\" } }");
    const auto result = read(files);
    EXPECT_THAT(result.findings, IsEmpty()) << lines_of(result.findings);
    EXPECT_EQ(result.records.surveys[0].hole, "K");
    EXPECT_EQ(result.records.surveys[0].depth, 10.5);
    EXPECT_EQ(result.records.surveys[0].azimuth->degrees(), 100.25);
}

// The bottom line is half a turn from the top line, and so is one end of the ellipse from the other.
TEST(ReadRecords, CountsBetaFromTheBottomLineToTheDownHoleEnd) {
    const auto beta = [](const std::string& convention) {
        ProjectTables files = tidy_project();
        files.replace("project", "declination = 2.0\n", "declination = 2.0\n" + convention);
        files.tables["structures"] = "hole,depth,alpha,beta\nK-01,50,40,200\n";
        return read(files).records.structures.at(0).beta.value().degrees();
    };
    EXPECT_DOUBLE_EQ(beta(""), 200);
    EXPECT_DOUBLE_EQ(beta("beta_reference = \"top\"\n"), 20);
    EXPECT_DOUBLE_EQ(beta("beta_apex = \"up-hole\"\n"), 20);
    EXPECT_DOUBLE_EQ(beta("beta_reference = \"top\"\nbeta_apex = \"up-hole\"\n"), 200);
}

TEST(ReadRecords, ReadsRecoveryAsAShareFromPercentOrLength) {
    ProjectTables files = tidy_project();
    files.tables["recovery"] = "hole,from,to,recovery,recovered,rqd\nK-01,0,3,95,,50\nK-01,3,6,,2.4,\nK-01,6,9,,,\n";
    const std::vector<Recovery> runs = read(files).records.recovery;
    EXPECT_DOUBLE_EQ(*runs.at(0).recovery, 0.95);
    EXPECT_DOUBLE_EQ(*runs.at(0).rqd, 0.5);
    EXPECT_DOUBLE_EQ(*runs.at(1).recovery, 0.8);
    EXPECT_FALSE(runs.at(2).recovery);
}

TEST(ReadRecords, ReadsEveryColumnOfACollar) {
    ProjectTables files = tidy_project();
    files.tables["collars"] =
        "hole,east,north,elevation,depth,azimuth,dip,status,hole_type,core_size,campaign,date,date_started,date_finished,parent,"
        "kickoff,collar_sd,"
        "elevation_sd,collar_method,drilled,planned_as,target,target_vein,target_east,target_north,target_elevation,target_"
        "radius,unknown\n"
        "K-1,500001,6000002,1003,120,91,61,Abandoned,Percussion,NQ,2026,2026-01-01,2026-01-02,2026-01-03,K-0,20,0.1,0.2,tape,50,"
        "P-1,T,Lode,"
        "500003,6000004,1005,6,anything\n";
    const auto result = read(files);
    const Collar& c = result.records.collars.at(0);
    EXPECT_EQ(c.status, HoleStatus::abandoned);
    EXPECT_EQ(c.type, HoleType::percussion);
    EXPECT_EQ(c.core_size + c.campaign + c.collar_method + c.planned_as, "NQ2026tapeP-1");
    EXPECT_EQ(c.date + c.date_started + c.date_finished, "2026-01-012026-01-022026-01-03");
    EXPECT_EQ(c.parent, "K-0");
    EXPECT_EQ(c.kickoff, 20.0);
    EXPECT_EQ(c.collar_sd, 0.1);
    EXPECT_EQ(c.elevation_sd, 0.2);
    EXPECT_EQ(c.drilled, 50.0);
    EXPECT_EQ(c.target->name, "T");
    EXPECT_EQ(c.target->vein, "Lode");
    EXPECT_EQ(c.target->radius, 6.0);
    EXPECT_EQ(*c.target->point - c.position, Eigen::Vector3d(2, 2, 2));
}

TEST(ReadRecords, ReadsStatesAndTypesByTheirWords) {
    ProjectTables files = tidy_project();
    files.tables["picks"] = "hole,from,to,vein,state,certainty,zone,from_sd,to_sd,by,date,comment\n";
    for (const char* state : {"vein", "structure", "void", "lost", "faulted", "absent"})
        files.tables["picks"] += fmt::format("K-01,70,71,Lode,{},2,A,0.1,0.2,AM,2026-01-01,\"a, b\"\n", state);
    const std::vector<Pick> picks = read(files).records.picks;
    ASSERT_EQ(picks.size(), 6U);
    for (int i = 0; i < 6; ++i) EXPECT_EQ(picks[static_cast<std::size_t>(i)].state, static_cast<PickState>(i));
    EXPECT_EQ(picks[0].certainty, 2);
    EXPECT_EQ(picks[0].zone + picks[0].by + picks[0].comment, "AAMa, b");
    EXPECT_EQ(picks[0].to_sd, 0.2);
    files.tables["assays"] = "hole,from,to,sample,sample_type,status,ag_gpt\n";
    for (const char* type : {"primary", "field duplicate", "coarse_duplicate", "Pulp-Duplicate", "standard", "blank", "check"})
        files.tables["assays"] += fmt::format("K-01,1,2,S,{},not sent,1\n", type);
    const std::vector<Assay> assays = read(files).records.assays;
    ASSERT_EQ(assays.size(), 7U);
    for (int i = 0; i < 7; ++i) EXPECT_EQ(assays[static_cast<std::size_t>(i)].type, static_cast<SampleType>(i));
    EXPECT_EQ(assays[0].status, SampleStatus::not_sent);
}

TEST(ReadRecords, TakesTheBestOfSeveralColumnsInTheUnitOfTheAnalyte) {
    ProjectTables files = tidy_project();
    files.project += "[analyte.ag_gpt]\nfrom = [\"ag_fire_oz_per_short_ton\", \"ag_ppb\", \"ag_gpt\"]\nbelow_detection = 1\n";
    files.tables["assays"] =
        "hole,from,to,ag_gpt,ag_ppb,ag_fire_oz_per_short_ton\nK-01,1,2,>1500,,7\nK-01,2,3,5,2000,\nK-01,3,4,<0.5,-999,LNR\nK-01,"
        "4,5,-0.5,,\nK-01,5,6,,,\n";
    files.tables["outcrops"] = "east,north,elevation,ag_gpt\n500120,6000000,1001,33\n";
    const auto result = read(files);
    EXPECT_THAT(found(result.findings, "several-columns-of-element"), IsEmpty());
    ASSERT_EQ(result.records.analytes.size(), 1U);
    EXPECT_EQ(result.records.analytes[0].label(), "Ag g/t");
    const std::vector<Assay>& assays = result.records.assays;
    EXPECT_NEAR(*assays.at(0).values[0].value, 240.0, 1e-9);
    EXPECT_FALSE(assays[0].values[0].over_limit);
    EXPECT_DOUBLE_EQ(*assays[1].values[0].value, 2.0);
    EXPECT_DOUBLE_EQ(*assays[2].values[0].value, 0.5);
    EXPECT_TRUE(assays[2].values[0].below_detection);
    EXPECT_TRUE(assays[3].values[0].below_detection);
    EXPECT_FALSE(assays[4].values[0].value);
    EXPECT_DOUBLE_EQ(*result.records.outcrops.at(0).values[0].value, 33.0);
}

TEST(ReadRecords, LeavesOutAnElementWhoseColumnsAreAllEqual) {
    ProjectTables files = tidy_project();
    files.tables["assays"] = "hole,from,to,ag_gpt,ag_fire_gpt,pb_pct\nK-01,1,2,3,4,5\n";
    const auto result = read(files);
    const auto findings = found(result.findings, "several-columns-of-element");
    ASSERT_EQ(findings.size(), 1U);
    EXPECT_THAT(findings[0].message, HasSubstr("ag_gpt, ag_fire_gpt"));
    ASSERT_EQ(result.records.analytes.size(), 1U);
    EXPECT_EQ(result.records.analytes[0].name, "pb_pct");
}

TEST(ReadRecords, AcceptsEveryColumnOfEveryTable) {
    for (const TableDescription& table : table_descriptions()) {
        ProjectTables files = tidy_project();
        if (files.project.find("\n" + table.name + " =") == std::string::npos)
            files.replace("project", "[tables]\n", fmt::format("[tables]\n{0} = \"{0}.csv\"\n", table.name));
        std::string header;
        for (const Column& column : table.columns) header += (header.empty() ? "" : ",") + column.name;
        files.tables[table.name] = header + "\n";
        const auto result = read(files);
        EXPECT_THAT(found(result.findings, "column-missing"), IsEmpty()) << lines_of(result.findings);
        EXPECT_EQ(found(result.findings, "table-without-rows").size(), 1U) << table.name << "\n" << lines_of(result.findings);
    }
}

TEST(ReadRecords, FindsTheNewestDateOfAllTables) {
    EXPECT_EQ(read(tidy_project()).records.newest_date, "2026-04-05");
    ProjectTables files = tidy_project();
    files.tables["assays"] =
        "hole,from,to,dispatched,received,ag_gpt\nK-01,1,2,2026-05-01,2026-05-09,3\nK-01,2,3,2026-05-01,9/6/2026,3\n";
    const auto result = read(files);
    EXPECT_EQ(result.records.newest_date, "2026-05-09");
    EXPECT_EQ(found(result.findings, "date-not-iso").size(), 1U);
}

TEST(ReadRecords, PutsTheOriginAtARoundMedianThatOneOddCollarDoesNotMove) {
    ProjectTables files = tidy_project();
    EXPECT_EQ(read(files).records.frame.origin, Eigen::Vector3d(500000, 6000000, 1000));
    files.add("collars", "X-1,6000000,500000,0,100,90,60,done,,,,,,,,,,,");
    const Records records = read(files).records;
    EXPECT_EQ(records.frame.origin, Eigen::Vector3d(500000, 6000000, 1000));
    EXPECT_EQ(records.collars[0].position, Eigen::Vector3d(50, 0, 0));
    EXPECT_EQ(records.outcrops[0].position, Eigen::Vector3d(120, 0, 1));
    EXPECT_EQ(records.pads[1].position, Eigen::Vector3d(100, 0, 0));
}

// FIPS 180-4: SHA-256 of "abc".
TEST(ReadRecords, HashesTheBytesOfEverySource) {
    ProjectTables files = tidy_project();
    files.tables["picks"] = "abc";
    EXPECT_EQ(read(files).records.hashes.at("picks.csv"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    EXPECT_EQ(read(files).records.hashes.size(), 9U);
}

TEST(Fingerprint, SpeaksOfValuesNotOfHowTheyAreWritten) {
    const std::string plain = read(tidy_project()).records.fingerprint;
    EXPECT_EQ(plain.size(), 64U);
    EXPECT_EQ(plain, read(tidy_project()).records.fingerprint);
    ProjectTables same = tidy_project();
    same.project = "# a comment\n" + same.project;
    same.replace("picks", "K-01,70,71,Lode", "K-01,70.00,\"71\",Lode ");
    same.replace("assays", "hole,from", "Hole,FROM");
    EXPECT_EQ(plain, read(same).records.fingerprint);
    for (const auto& [table, old_text, new_text] :
         std::vector<std::tuple<std::string, std::string, std::string>>{{"picks", "K-01,70,71", "K-01,70,71.01"},
                                                                        {"project", "declination = 2.0", "declination = 2.1"},
                                                                        {"assays", ",<0.01", ",0.005"},
                                                                        {"collars", "2026-03-01", "2026-03-02"},
                                                                        {"structures", "61,,", "62,,"}}) {
        ProjectTables changed = tidy_project();
        changed.replace(table, old_text, new_text);
        EXPECT_NE(plain, read(changed).records.fingerprint) << table;
    }
}

TEST(ReadRecords, NamesHolesInFindingsAsTheCollarTableSpellsThem) {
    ProjectTables files = tidy_project();
    files.add("geology", " k-07 ,0,6o,tuff,");
    EXPECT_EQ(found(read(files).findings, "not-a-number").at(0).hole, "K-07");
}

TEST(StopsRun, IsTrueOfWhatLeavesNothingToDraw) {
    const auto stops = [](const ProjectTables& files) {
        const auto result = read(files);
        return std::any_of(result.findings.begin(), result.findings.end(), stops_run);
    };
    EXPECT_FALSE(stops(tidy_project()));
    for (const char* table : {"collars", "surveys", "picks"}) {
        const bool needed = table != std::string("picks");
        ProjectTables missing = tidy_project(), unnamed = tidy_project(), binary = tidy_project(), empty = tidy_project(),
                      workbook = tidy_project(), columnless = tidy_project();
        missing.tables.erase(table);
        EXPECT_EQ(stops(missing), needed) << table;
        unnamed.replace("project", fmt::format("{0} = \"{0}.csv\"\n", table), "");
        EXPECT_EQ(stops(unnamed), needed) << table;
        binary.tables[table] = std::string("a,b\0c", 5);
        EXPECT_EQ(stops(binary), needed) << table;
        empty.tables[table].clear();
        EXPECT_EQ(stops(empty), needed) << table;
        workbook.replace("project", fmt::format("{}.csv", table), "book.xlsx");
        EXPECT_EQ(stops(workbook), needed) << table;
        columnless.replace(table, "hole,", "hull,");
        EXPECT_EQ(stops(columnless), needed) << table;
    }
    ProjectTables no_collars = tidy_project(), no_surveys = tidy_project(), mapped = tidy_project();
    no_collars.tables["collars"] = "hole,east,north,elevation,depth\n";
    EXPECT_TRUE(stops(no_collars));
    no_surveys.tables["surveys"] = "hole,depth,dip\n";
    EXPECT_FALSE(stops(no_surveys)) << "holes run by their planned start";
    mapped.replace("project", "surveys = \"surveys.csv\"",
                   "surveys = { source = \"surveys.csv\", columns = { method = \"Tool\" } }");
    EXPECT_FALSE(stops(mapped)) << "an optional column";
}

TEST(TableDescriptions, StandInTheOrderOfTheProjectFilesTables) {
    std::vector<std::string> names;
    for (const TableDescription& table : table_descriptions()) names.push_back(table.name);
    EXPECT_EQ(names, settings::table_names());
}

// Bytes of a sound project are changed at random: whatever comes, it is read and checked without a crash, twice alike.
TEST(ReadRecords, OutlivesAnyBytes) {
    base::RandomStream random("read records fuzz", {1});
    const std::string letters = ",;\"\n\r-<>.0189aK \xc3\xff";
    for (int round = 0; round < 150; ++round) {
        ProjectTables files = tidy_project();
        for (auto& [table, text] : files.tables)
            for (std::size_t n = random.below(12); n > 0; --n)
                text[random.below(text.size())] = letters[random.below(letters.size())];
        const auto once = test::read_and_check(files);
        if (round % 10 != 0) continue;
        EXPECT_EQ(lines_of(once.findings), lines_of(test::read_and_check(files).findings));
    }
}

}  // namespace
}  // namespace selvage::tables
