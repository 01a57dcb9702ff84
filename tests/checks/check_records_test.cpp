#include "checks/check_records.h"

#include "support/project_tables.h"
#include "tables/read.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <functional>
#include <set>

namespace selvage::checks {
namespace {

using test::found;
using test::lines_of;
using test::ProjectTables;
using test::read_and_check;
using test::tidy_project;
using testing::HasSubstr;
using testing::IsEmpty;

// A mistake in the tidy project, and the check that has to find it in that table and row.
struct Mistake {
    const char* check;
    const char* table;
    std::function<std::size_t(ProjectTables&)> plant;  // gives the row
};

// Adds a line at the end of a table.
Mistake added(const char* check, const char* table, const std::string& line) {
    return {check, table, [=](ProjectTables& files) { return files.add(table, line); }};
}

// Changes a text, and expects the finding in its row.
Mistake changed(const char* check, const char* table, const std::string& old_text, const std::string& new_text) {
    return {check, table, [=](ProjectTables& files) { return files.replace(table, old_text, new_text); }};
}

// Changes anything, and expects a finding of the whole table.
Mistake whole(const char* check, const char* table, std::function<void(ProjectTables&)> change) {
    return {check, table, [change = std::move(change)](ProjectTables& files) {
                change(files);
                return std::size_t{0};
            }};
}

// Changes the project file, and expects a finding in a table's row.
Mistake by_project(const char* check, const char* table, std::size_t row, const std::string& old_text,
                   const std::string& new_text) {
    return {check, table, [=](ProjectTables& files) {
                files.replace("project", old_text, new_text);
                return row;
            }};
}

std::vector<Mistake> mistakes_of_tables() {
    return {
        whole("table-missing", "picks", [](ProjectTables& f) { f.tables.erase("picks"); }),
        // A file of which the kernel lets nobody read the first byte.
        whole("table-unreadable", "picks", [](ProjectTables& f) { f.replace("project", "picks.csv", "/proc/self/mem"); }),
        whole("not-a-text-file", "picks", [](ProjectTables& f) { f.tables["picks"] = "PK\x03\x04"; }),
        whole("source-not-read-yet", "picks", [](ProjectTables& f) { f.replace("project", "picks.csv", "PostgreSQL:picks"); }),
        whole("table-empty", "picks", [](ProjectTables& f) { f.tables["picks"] = ""; }),
        whole("table-without-rows", "picks", [](ProjectTables& f) { f.tables["picks"] = "hole,from,to,vein\n"; }),
        whole("read-as-windows-1252", "geology", [](ProjectTables& f) { f.add("geology", "K-07,0,60,gr\xe8s,"); }),
        added("unclosed-quote", "geology", "K-07,0,60,\"tuff,"),
        added("row-too-long", "geology", "K-07,0,60,tuff,,,red"),
        added("row-too-short", "geology", "K-07,0,60"),
        changed("column-missing", "picks", "hole,from", "hole,form"),
        by_project("mapped-column-missing", "picks", 1, "picks = \"picks.csv\"",
                   "picks = { source = \"picks.csv\", columns = { zone = \"Z\" } }"),
        by_project("unknown-column-name", "picks", 1, "picks = \"picks.csv\"",
                   "picks = { source = \"picks.csv\", columns = { zoen = \"zone\" } }"),
        changed("column-twice", "picks", "state,certainty", "state,State"),
        added("cell-missing", "picks", "K-03,70,71,,,1,"),
        added("cell-missing", "assays", "K-03,80,,S99,,,5,1"),
        added("not-a-number", "surveys", "K-03,96,88,6o,single shot,M1,,55000,,"),
        added("not-a-number", "picks", "K-03,70,71,Lode,,1.5,"),
        added("out-of-range", "surveys", "K-03,96,88,91,single shot,M1,,55000,,"),
        added("out-of-range", "surveys", "K-03,96,361,60,single shot,M1,,55000,,"),
        added("out-of-range", "structures", "K-03,20,joint,118,,,,2,"),
        added("out-of-range", "structures", "K-03,20,joint,40,365,,,2,"),
        added("out-of-range", "structures", "K-03,20,joint,40,5,,,5,"),
        added("out-of-range", "recovery", "K-02,0,3,140,,50"),
        added("out-of-range", "geology", "K-07,-5,60,tuff,"),
        added("unknown-word", "picks", "K-03,70,71,Lode,vien,1,"),
        added("unknown-word", "collars", "K-09,500320,6000000,1000,100,90,60,finished,,,,,,,,,,,"),
        added("unknown-word", "surveys", "K-03,96,88,60,single shot,M1,,55000,,maybe"),
        changed("date-not-iso", "surveys", "2026-04-05", "5.4.2026"),
        {"no-declination", "surveys",
         [](ProjectTables& files) {
             files.replace("project", "azimuth_reference = \"magnetic\"\ndeclination = 2.0\n", "");
             return files.add("surveys", "K-03,96,88,60,single shot,M1,magnetic,55000,,");
         }},
        changed("several-columns-of-element", "assays", "ag_gpt,pb_pct", "ag_gpt,ag_fire_gpt"),
        whole("analyte-setting", "project", [](ProjectTables& f) { f.project += "[analyte.zn_pct]\ntop_cut = 5\n"; }),
        whole("analyte-setting", "project", [](ProjectTables& f) { f.project += "[analyte.silver]\ntop_cut = 5\n"; }),
        whole("analyte-setting", "project", [](ProjectTables& f) { f.project += "[analyte.ag_gpt]\nfrom = [\"ag_ppm\"]\n"; }),
        added("not-an-assay", "assays", "K-03,80,81,S99,,,abc,1"),
        added("not-an-assay", "assays", "K-03,80,81,S99,,,-7.3,1"),
    };
}

std::vector<Mistake> mistakes_of_collars() {
    return {
        added("collar-twice", "collars", "k-01 ,500050,6000000,1000,100,90,60,done,2026,2026-03-01,2026-03-11,,,,,,,,"),
        added("collars-differ", "collars", "K-01,500051,6000000,1000,100,90,60,done,2026,2026-03-01,2026-03-11,,,,,,,,"),
        {"hole-ambiguous", "surveys",
         [](ProjectTables& files) {
             files.add("collars", "K-01,500051,6000000,1000,100,90,60,done,1984,,,,,,,,,,");
             return std::size_t{2};
         }},
        added("hole-without-length", "collars", "K-09,500320,6000000,1000,0,90,60,done,,,,,,,,,,,"),
        added("parent-unknown", "collars", "K-09,500320,6000000,1000,100,,,done,,,,K-99,30,,,,,,"),
        added("parent-unknown", "collars", "K-02W1A,500100,6000000,1000,105,,,done,,,,K-02W9,60,,,,,,"),
        {"parent-cycle", "collars",
         [](ProjectTables& files) {
             files.add("collars", "C-1,500320,6000000,1000,100,,,done,,,,C-2,30,,,,,,");
             return files.add("collars", "C-2,500320,6000000,1000,100,,,done,,,,C-1,30,,,,,,");
         }},
        added("kickoff-missing", "collars", "K-03W1,500150,6000000,1000,100,,,done,,,,K-03,,,,,,,"),
        added("kickoff-out-of-reach", "collars", "K-03W1,500150,6000000,1000,150,,,done,,,,K-03,120,,,,,,"),
        added("kickoff-out-of-reach", "collars", "K-03W1,500150,6000000,1000,50,,,done,,,,K-03,60,,,,,,"),
        added("kickoff-out-of-reach", "collars", "K-02W2,500100,6000000,1000,100,,,done,,,,K-02W1,30,,,,,,"),
        added("kickoff-without-parent", "collars", "K-09,500320,6000000,1000,100,90,60,done,,,,,30,,,,,,"),
        added("collar-off-parent", "collars", "K-03W1,500155,6000000,1000,100,,,done,,,,K-03,30,,,,,,"),
        added("place-far-away", "collars", "K-09,6000000,500320,1000,100,90,60,done,,,,,,,,,,,"),
        added("place-far-away", "outcrops", "50012,6000000,1001,Lode,80,90"),
        added("place-far-away", "pads", "P9,500100,600000,1000"),
        added("collar-apart", "collars", "K-09,503320,6000000,1000,100,90,60,done,,,,,,,,,,,"),
        added("elevation-apart", "collars", "K-09,500320,6000000,3280,100,90,60,done,,,,,,,,,,,"),
        changed("target-out-of-reach", "collars", "6000000,913.4", "6000000,813.4"),
        changed("target-off-line", "collars", "500450,6000000,913.4", "500350,6000000,913.4"),
        {"planned-hole-has-rows", "collars",
         [](ProjectTables& files) {
             files.add("geology", "K-08,0,20,tuff,");
             return std::size_t{10};
         }},
        added("drilled-too-short", "geology", "K-07,60,75,tuff,"),
        changed("dates-out-of-order", "collars", "2026-03-01,2026-03-11", "2026-03-11,2026-03-01"),
        added("unknown-hole", "assays", "ZZ-99,10,11,S99,,,3,1"),
        {"hole-left-out", "surveys",
         [](ProjectTables& files) {
             files.add("collars", "K-01,500051,6000000,1000,100,90,60,done,,,,,,,,,,,");
             return std::size_t{2};
         }},
        added("unknown-vein", "picks", "K-03,70,71,Load,,1,"),
        added("unknown-vein", "geology", "K-07,0,20,quartz,Load"),
        added("unknown-vein", "structures", "K-03,70.5,contact,60,,,,2,Load"),
        added("unknown-vein", "outcrops", "500320,6000000,1001,Load,80,90"),
        changed("unknown-vein", "collars", "T-1,Lode", "T-1,Load"),
        added("pad-twice", "pads", "p1,500150,6000000,1000"),
    };
}

std::vector<Mistake> mistakes_of_rows() {
    return {
        added("row-twice", "geology", "K-01,70,71,quartz,Lode"),
        added("row-twice", "structures", "K-01,20,joint,,,70,120,2,"),
        added("from-after-to", "assays", "K-03,81,80.6,S99,,,3,1"),
        added("from-after-to", "geology", "K-07,5,5,tuff,"),
        added("below-hole-end", "surveys", "K-03,140,88,60,single shot,M1,,55000,,"),
        added("below-hole-end", "structures", "K-03,180,joint,40,,,,2,"),
        added("below-hole-end", "picks", "K-03,103,104,Lode,,1,"),
        changed("below-hole-end", "geology", "K-03,71,100", "K-03,71,112"),
        added("assays-overlap", "assays", "K-03,73.9,74.5,S99,,,3,1"),
        added("picks-overlap", "picks", "K-01,70.5,72,Branch,,1,"),
        added("log-overlaps", "geology", "K-03,60,70.5,tuff,"),
        added("log-overlaps", "recovery", "K-01,97,100,98,,80"),
        changed("log-gap", "geology", "K-03,71,100", "K-03,75,100"),
        added("core-run-long", "recovery", "K-02,0,9,98,,80"),
        changed("sample-number-twice", "assays", "S35", "S20"),
        changed("assay-far-above-others", "assays", "K-03,70,71,S32,,,300", "K-03,70,71,S32,,,30000"),
        changed("richer-than-mineral", "assays", "K-03,70,71,S32,,,300,1.5", "K-03,70,71,S32,,,300,88"),
        added("structure-without-angles", "structures", "K-03,20,joint,,,,,2,"),
        added("contact-away-from-pick", "structures", "K-03,40,contact,60,,,,2,Lode"),
        changed("disturbed-azimuth", "surveys", "K-03,45,88.3,60,single shot,M1,,55000", "K-03,45,92,60,single shot,M1,,52000"),
        {"disturbed-azimuth", "surveys",
         [](ProjectTables& files) {
             files.replace("project", "[tables]\n", "[tables]\nsizes = \"sizes.csv\"\n");
             files.tables["sizes"] = "hole,from,to,size,casing\nK-03,0,20,HQ,1\n";
             return files.replace("surveys", "K-03,15,88.1,60,single shot,M1,,55000", "K-03,15,88.1,60,single shot,M1,,");
         }},
        changed("azimuth-spike", "surveys", "K-03,45,88.3", "K-03,45,128"),
        changed("dip-spike", "surveys", "K-03,45,88.3,60", "K-03,45,88.3,46"),
        changed("sharp-bend", "surveys", "K-03,90,88.6,60", "K-03,90,88.6,53"),
        {"no-station-at-collar", "surveys",
         [](ProjectTables& files) {
             return files.replace("surveys", "K-03,0,88.0,60,single shot,M1,,55000,2026-03-13,\nK-03,15", "K-03,15");
         }},
        changed("end-not-surveyed", "surveys",
                "K-02W1,55,91,58,single shot,M1,,55010,,\nK-02W1,80,91,58,single shot,M1,,55010,,\nK-02W1,105", "K-02W1,45"),
        changed("start-off-plan", "surveys", "K-07,0,88,60", "K-07,0,268,60"),
        whole("dip-sign-doubtful", "surveys",
              [](ProjectTables& f) {
                  f.replace("project", "surveys = \"surveys.csv\"",
                            "surveys = { source = \"surveys.csv\", dip_sign = \"negative_down\" }");
              }),
        whole("north-doubtful", "surveys",
              [](ProjectTables& f) { f.replace("project", "declination = 2.0", "declination = -8.0"); }),
    };
}

std::vector<Mistake> all_mistakes() {
    std::vector<Mistake> all;
    for (const auto& group : {mistakes_of_tables(), mistakes_of_collars(), mistakes_of_rows()})
        all.insert(all.end(), group.begin(), group.end());
    return all;
}

TEST(Checks, FindNothingInATidyProject) {
    const auto result = read_and_check(tidy_project());
    EXPECT_THAT(result.findings, IsEmpty()) << lines_of(result.findings);
}

TEST(Checks, FindEveryPlantedMistakeInItsRow) {
    for (const Mistake& mistake : all_mistakes()) {
        ProjectTables files = tidy_project();
        const std::size_t row = mistake.plant(files);
        const auto result = read_and_check(files);
        const std::vector<base::Finding> own = found(result.findings, mistake.check);
        const bool there = std::any_of(own.begin(), own.end(), [&](const base::Finding& finding) {
            return finding.origin.table == mistake.table && finding.origin.row == row;
        });
        EXPECT_TRUE(there) << mistake.check << " in " << mistake.table << ":" << row << " was not found, but\n"
                           << lines_of(result.findings);
    }
}

TEST(Checks, HaveEachAMistakeThatTheyFind) {
    std::set<std::string> planted;
    for (const Mistake& mistake : all_mistakes()) planted.insert(mistake.check);
    for (const auto* room : {&tables::checks(), &checks()})
        for (const base::Check* check : *room) EXPECT_EQ(planted.count(check->id), 1U) << check->id;
}

TEST(Checks, SayWhatTheyMean) {
    std::set<std::string> ids;
    for (const auto* room : {&tables::checks(), &checks()})
        for (const base::Check* check : *room) {
            EXPECT_TRUE(ids.insert(check->id).second) << check->id;
            EXPECT_EQ(std::string(check->meaning).back(), '.') << check->id;
            EXPECT_EQ(std::string(check->what_to_do).back(), '.') << check->id;
        }
}

TEST(UsableRecords, SpellNamesAsTheCollarsAndTheProjectDo) {
    ProjectTables files = tidy_project();
    files.replace("picks", "K-02,70,71,Lode", " k-02 ,70,71,LODE ");
    const auto result = read_and_check(files);
    EXPECT_THAT(result.findings, IsEmpty()) << lines_of(result.findings);
    EXPECT_EQ(result.records.picks.at(1).hole, "K-02");
    EXPECT_EQ(result.records.picks.at(1).vein, "Lode");
}

TEST(UsableRecords, LeaveOutAHoleWhoseCollarsDifferWithAllItsRows) {
    ProjectTables files = tidy_project();
    files.add("collars", "K-01,500061,6000000,1000,100,90,60,done,2026,2026-03-01,2026-03-11,,,,,,,,");
    const auto result = read_and_check(files);
    EXPECT_EQ(found(result.findings, "collars-differ").size(), 2U) << "both rows are named";
    ASSERT_EQ(result.records.left_out.size(), 2U) << "where it may start is kept";
    EXPECT_EQ(result.records.left_out[0].hole, "K-01");
    EXPECT_NEAR((result.records.left_out[1].position - result.records.left_out[0].position).x(), 11.0, 1e-6);
    for (const tables::Collar& collar : result.records.collars) EXPECT_NE(collar.hole, "K-01");
    for (const tables::Survey& survey : result.records.surveys) EXPECT_NE(survey.hole, "K-01");
    const std::vector<base::Finding> gone = found(result.findings, "hole-left-out");
    EXPECT_EQ(gone.size(), 6U) << "one for each table that has rows of it\n" << lines_of(gone);
    EXPECT_THAT(gone.at(0).message, HasSubstr("7 rows, this one first"));
}

TEST(UsableRecords, MergeIdenticalCollars) {
    ProjectTables files = tidy_project();
    files.add("collars", "K-01,500050,6000000,1000,100,90,60,done,2026,2026-03-01,2026-03-11,,,,,,,,");
    EXPECT_EQ(read_and_check(files).records.collars.size(), 9U);
}

TEST(UsableRecords, TellTwoHolesOfOneNameApartByCampaign) {
    ProjectTables files = tidy_project();
    files.add("collars", "K-01,500061,6000000,1000,100,90,60,done,1984,,,,,,,,,,");
    files.replace("picks", "K-01,", "k-01 (2026),");
    const auto result = read_and_check(files);
    EXPECT_EQ(result.records.collars.size(), 10U);
    EXPECT_EQ(result.records.picks.at(0).hole, "K-01 (2026)");
    EXPECT_THAT(found(result.findings, "collars-differ"), IsEmpty());
}

TEST(UsableRecords, LeaveOutTheDaughtersOfWhatIsLeftOut) {
    ProjectTables files = tidy_project();
    files.add("collars", "K-02W1A,500100,6000000,1000,105,,,done,,,,k-02w1,60,,,,,,");
    EXPECT_EQ(read_and_check(files).records.collars.back().parent, "K-02W1");
    files.add("collars", "K-02,500101,6000000,1000,100,90,60,done,2026,,,,,,,,,,");
    const auto result = read_and_check(files);
    EXPECT_EQ(found(result.findings, "parent-unknown").size(), 2U);
    for (const tables::Collar& collar : result.records.collars) EXPECT_EQ(collar.hole.find("K-02"), std::string::npos);
}

TEST(UsableRecords, CutWhatRunsOverTheEndOfAHole) {
    ProjectTables files = tidy_project();
    files.replace("geology", "K-03,71,100", "K-03,71,112");
    files.add("assays", "K-03,99.5,100.5,S99,,,3,1");
    files.add("assays", "K-03,100.5,101,S98,,,3,1");
    files.add("picks", "K-03,99,103,Lode,,1,");
    const auto result = read_and_check(files);
    EXPECT_EQ(result.records.geology.at(8).to, 100.0);
    EXPECT_EQ(result.records.assays.back().to, 100.0);
    EXPECT_EQ(result.records.picks.size(), 2U) << "three metres too deep is no rounding";
    EXPECT_EQ(found(result.findings, "below-hole-end").size(), 4U);
}

TEST(UsableRecords, KeepAStructureWithoutLengthAndNoOtherPick) {
    ProjectTables files = tidy_project();
    files.add("picks", "K-03,70,70,Lode,structure,1,");
    files.add("picks", "K-04,70,70,Lode,,1,");
    EXPECT_EQ(read_and_check(files).records.picks.size(), 3U);
}

TEST(UsableRecords, CutTheLowerOfTwoSamplesThatOverlap) {
    ProjectTables files = tidy_project();
    files.add("assays", "K-03,73.9,74.9,S99,,,3,1");
    files.add("assays", "K-03,69.2,69.8,S98,,,3,1");
    files.add("assays", "K-03,69,70,S97,field duplicate,,3,1");
    const auto result = read_and_check(files);
    const std::vector<tables::Assay>& assays = result.records.assays;
    EXPECT_EQ(assays.size(), 37U + 2U);
    EXPECT_EQ(assays.at(37).from, 74.0);
    EXPECT_EQ(assays.at(38).sample, "S97");
    EXPECT_EQ(found(result.findings, "assays-overlap").size(), 2U);
}

TEST(UsableRecords, KeepTheDipOfAStationWhoseAzimuthIsDisturbed) {
    ProjectTables files = tidy_project();
    files.replace("surveys", "K-03,45,88.3", "K-03,45,128");
    const auto result = read_and_check(files);
    const auto station = std::find_if(result.records.surveys.begin(), result.records.surveys.end(),
                                      [](const tables::Survey& s) { return s.hole == "K-03" && s.depth == 45.0; });
    ASSERT_NE(station, result.records.surveys.end());
    EXPECT_FALSE(station->azimuth);
    EXPECT_EQ(station->dip.degrees(), 60.0);
    EXPECT_EQ(found(result.findings, "azimuth-spike").size(), 1U) << "its neighbours are not accused";
}

TEST(UsableRecords, TakeTheDeepestRowForWhatAnActiveHoleHasDrilled) {
    ProjectTables files = tidy_project();
    files.replace("collars", "2026-04-01,,,,60,", "2026-04-01,,,,,");
    EXPECT_EQ(read_and_check(files).records.collars.at(7).drilled, 60.0);
    files.add("geology", "K-07,0,66,tuff,");
    const auto result = read_and_check(files);
    EXPECT_EQ(result.records.collars.at(7).drilled, 66.0);
    EXPECT_THAT(found(result.findings, "drilled-too-short"), IsEmpty());
}

TEST(UsableRecords, StandInTheOrderOfTablesThenRows) {
    ProjectTables files = tidy_project();
    files.add("assays", "ZZ-99,10,11,S99,,,3,1");
    files.add("picks", "K-03,70,71,Load,,1,");
    files.add("collars", "K-09,500320,6000000,1000,0,90,60,done,,,,,,,,,,,");
    const auto result = read_and_check(files);
    std::vector<std::string> tables;
    for (const base::Finding& finding : result.findings) tables.push_back(finding.origin.table);
    EXPECT_THAT(tables, testing::ElementsAre("collars", "picks", "assays"));
}

TEST(UsableRecords, OutliveAProjectWithoutAnything) {
    EXPECT_THAT(usable_records({}, {}).findings, IsEmpty());
    ProjectTables files = tidy_project();
    for (auto& [table, text] : files.tables) text = text.substr(0, text.find('\n') + 1);
    EXPECT_TRUE(read_and_check(files).records.collars.empty());
}

}  // namespace
}  // namespace selvage::checks
