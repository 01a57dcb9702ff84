#include "base/file.h"
#include "base/text.h"
#include "settings/read.h"
#include "support/project_tables.h"
#include "support/temporary_folder.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <map>
#include <set>

namespace selvage::settings {
namespace {

using test::found;
using test::lines_of;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

const std::string head = "[project]\nname = \"A\"\n";
const std::string tables = "[tables]\ncollars = \"c.csv\"\nsurveys = \"s.csv\"\n";
const std::string north_vein = "[[vein]]\nname = \"North\"\n";

base::Checked<Project> read_text(const std::string& text) {
    const TemporaryFolder folder("project");
    base::write_file(folder.path() / "project.toml", text);
    return read_project(folder.path() / "project.toml");
}

// The one finding of a project file that has one mistake.
base::Finding only(const base::Checked<Project>& read) {
    EXPECT_EQ(read.findings.size(), 1U) << lines_of(read.findings);
    return read.findings.empty() ? base::Finding() : read.findings.front();
}

TEST(ReadProject, TakesTheLeastFile) {
    const auto read = read_text(head + tables + north_vein);
    EXPECT_THAT(read.findings, IsEmpty()) << lines_of(read.findings);
    EXPECT_EQ(read.value.name, "A");
    ASSERT_EQ(read.value.tables.size(), 2U);
    EXPECT_EQ(read.value.tables[0].table, "collars");
    EXPECT_EQ(read.value.tables[1].source, "s.csv");
    ASSERT_EQ(read.value.veins.size(), 1U);
    EXPECT_EQ(read.value.veins[0].name, "North");
    EXPECT_EQ(read.value.veins[0].line, 6U);
    EXPECT_EQ(read.value.north.surveys, NorthReference::grid);
}

TEST(ReadProject, TakesEveryKeyOfTheReference) {
    const auto read = read_text(R"(order = ["North", "Cross Fault"]
[project]
name = "Harrow Creek"
azimuth_reference = "magnetic"
declination = 12.5
grid_convergence = 0.31
crs = "EPSG:26911"
length_unit = "m"
date = 2026-11-20
beta_reference = "top"
beta_apex = "up-hole"
owner = "O"
number = "7"
created_by = "C"
approved_by = "P"
status = "draft"
[tables]
collars = "collars.csv"
surveys = { source = "s.csv", azimuth_reference = "true", length_unit = "us-ft", dip_sign = "negative_down", encoding = "windows-1252", decimal = ",", layer = "x", columns = { hole = " Hole No ", Dip = "DIP" } }
[[vein]]
name = "North"
point = [577100.0, 6081400, 2050.0]
dip = 70
dip_direction = 245
point_sd = 2
attitude_sd = 4
[[fault]]
name = "Cross Fault"
point = [577219.6, 6081317.0, 2068.1]
dip = 82.8
dip_direction = 310.3
trace = [[577200, 6081300, 2070], [577230.5, 6081340, 2066]]
point_sd = 3
attitude_sd = 6
strike_slip = -3
dip_slip = 4
slip_sd = 1.5
[survey_errors]
azimuth_common = 0.31
azimuth_hole = 0.32
azimuth_station = 0.41
dip_hole = 0.16
dip_station = 0.21
depth_scale = 0.0006
collar = 0.4
tool_tilt = 0.35
[survey_errors."Single Shot"]
dip_station = 0.8
[surveys]
prefer = ["Gyro", "single shot"]
[structures]
contact_kinds = ["Wall"]
alpha_as_data = true
[composites]
weight_by_density = true
unsampled_is_zero = false
[cut_off]
analyte = "ag_gpt"
value = 150
accumulation = 200
length_min = 0.5
waste_max = 1.0
width_min = 1.2
including = [300, 600.5]
[analyte.ag_gpt]
label = "Silver"
from = ["AG_FIRE_GPT", "ag_gpt"]
top_cut = 3000
below_detection = 0
[rig]
dip_min = 40
dip_max = 85
length_max = 600
cost_per_length = 2
wedge_angle = 1.4
wedge_cost = 30
[plan]
spacing = 40
step_out = 90
count = 5
angle_min = 35
clearance = 6
tail = 12
weights = [0.4, 0.5, 0.1]
[sections]
azimuth = 65
spacing = 25
origin = [577000, 6081000]
looking = 335
[sheets]
paper = "A1"
style = "screen"
[disclosure]
code = "a code"
edition = "2012"
[topography]
source = "ground.tif"
[property]
source = "p.gpkg"
layer = "claims"
[workings]
source = "w.gpkg"
[[equivalent]]
name = "ageq_gpt"
analyte = "ag_gpt"
prices = { ag_gpt = 0.8, pb_pct = 20 }
recoveries = { ag_gpt = 0.92 }
)");
    EXPECT_THAT(found(read.findings, "unknown-key"), IsEmpty()) << lines_of(read.findings);
    EXPECT_THAT(found(read.findings, "wrong-value"), IsEmpty()) << lines_of(read.findings);
    const Project& p = read.value;
    EXPECT_EQ(p.date, "2026-11-20");
    EXPECT_EQ(p.north.declination->degrees(), 12.5);
    EXPECT_TRUE(p.core_angles.beta_from_top && p.core_angles.beta_to_uphole_apex && p.core_angles.alpha_as_data);
    EXPECT_THAT(p.core_angles.contact_kinds, ElementsAre("contact", "wall"));
    EXPECT_THAT(p.survey_preference, ElementsAre("gyro", "single shot"));
    EXPECT_EQ(p.tables[1].azimuth_reference, NorthReference::true_north);
    EXPECT_EQ(p.tables[1].length_unit, base::LengthUnit::us_survey_foot);
    EXPECT_TRUE(p.tables[1].dip_negative_down);
    EXPECT_EQ(p.tables[1].decimal, ',');
    EXPECT_EQ(p.tables[1].columns.at("hole"), "Hole No");
    EXPECT_EQ(p.tables[1].columns.at("dip"), "DIP");
    EXPECT_EQ(p.veins[0].point, Eigen::Vector3d(577100, 6081400, 2050));
    EXPECT_EQ(p.veins[0].dip_direction->degrees(), 245);
    EXPECT_EQ(p.faults[0].strike_slip, -3.0);
    EXPECT_EQ(p.faults[0].slip_sd, 1.5);
    EXPECT_THAT(p.faults[0].trace, ElementsAre(Eigen::Vector3d(577200, 6081300, 2070), Eigen::Vector3d(577230.5, 6081340, 2066)));
    EXPECT_EQ(p.survey_errors.of("single shot").dip_station.degrees(), 0.8);
    EXPECT_EQ(p.survey_errors.of("single shot").azimuth_hole.degrees(), 0.32);
    EXPECT_EQ(p.survey_errors.of("gyro").dip_station.degrees(), 0.21);
    EXPECT_EQ(p.survey_errors.collar, 0.4);
    EXPECT_EQ(p.survey_errors.tool_tilt.degrees(), 0.35);
    EXPECT_TRUE(p.composites.weight_by_density);
    EXPECT_FALSE(p.composites.unsampled_is_zero);
    EXPECT_THAT(p.cut_off.including, ElementsAre(300.0, 600.5));
    EXPECT_THAT(p.analytes[0].from, ElementsAre("ag_fire_gpt", "ag_gpt"));
    EXPECT_EQ(p.analytes[0].below_detection, 0.0);
    EXPECT_EQ(p.rig.length_max, 600.0);
    EXPECT_EQ(p.plan.count, 5U);
    EXPECT_THAT(p.plan.weights, ElementsAre(0.4, 0.5, 0.1));
    EXPECT_EQ(p.sections.origin, Eigen::Vector2d(577000, 6081000));
    EXPECT_EQ(p.sheets.paper, "A1");
    EXPECT_EQ(p.disclosure.edition, "2012");
    EXPECT_THAT(p.not_honoured_yet, testing::IsSupersetOf({"rig.wedge_angle", "disclosure", "[equivalent]"}));
    EXPECT_EQ(found(read.findings, "not-honoured-yet").size(), p.not_honoured_yet.size());
}

// 1 ft = 0.3048 m exactly (international yard and pound agreement, 1959); 1 US survey foot = 1200/3937 m (Mendenhall order,
// 1893).
TEST(ReadProject, TurnsLengthsOfTheFileIntoMetres) {
    const std::string rest = tables + "[plan]\nstep_out = 100\n[rig]\ncost_per_length = 3.048\n[cut_off]\naccumulation = 10\n" +
                             "[[vein]]\nname = \"N\"\npoint = [1000, 2000, 3000]\ndip = 60\ndip_direction = 90\n";
    const Project feet = read_text(head + "length_unit = \"ft\"\n" + rest).value;
    EXPECT_DOUBLE_EQ(*feet.plan.step_out, 30.48);
    EXPECT_DOUBLE_EQ(feet.rig.cost_per_length, 10.0);
    EXPECT_DOUBLE_EQ(*feet.cut_off.accumulation, 3.048);
    EXPECT_TRUE(feet.veins[0].point->isApprox(Eigen::Vector3d(304.8, 609.6, 914.4), 1e-15));
    EXPECT_EQ(feet.plan.tail, 15.0) << "defaults are metres";
    const Project survey_feet = read_text(head + "length_unit = \"us-ft\"\n" + rest).value;
    EXPECT_DOUBLE_EQ(*survey_feet.plan.step_out, 100.0 * 1200.0 / 3937.0);
}

TEST(ReadProject, ASplayLeavesAnotherVeinOfTheProject) {
    const auto splay_of = [](const std::string& of_first, const std::string& of_second) {
        return read_text(head + tables + "[[vein]]\nname = \"North\"\nsplay_of = \"" + of_first +
                         "\"\n[[vein]]\nname = \"South\"\nsplay_of = \"" + of_second + "\"\n");
    };
    const auto right = splay_of("", "NORTH");
    EXPECT_THAT(found(right.findings, "wrong-value"), IsEmpty());
    EXPECT_EQ(right.value.veins[1].splay_of, "North");
    for (const auto& [first, second] : {std::pair("", "East"), std::pair("", "South"), std::pair("South", "North")}) {
        const auto wrong = splay_of(first, second);
        EXPECT_EQ(found(wrong.findings, "wrong-value").size(), 1u) << first << " " << second;
    }
}

TEST(ReadProject, NamesTheNearestKeyAndTheLine) {
    const base::Finding finding = only(read_text(head + "declinaton = 3\n" + tables + north_vein));
    EXPECT_STREQ(finding.check->id, "unknown-key");
    EXPECT_EQ(finding.origin.row, 3U);
    EXPECT_THAT(finding.message, HasSubstr("did you mean declination?"));
}

TEST(ReadProject, NamesTheSectionWhereAKeyBelongs) {
    const base::Finding finding = only(read_text(head + tables + north_vein + "[plan]\nwedge_angle = 3\n"));
    EXPECT_EQ(finding.origin.row, 9U);
    EXPECT_THAT(finding.message, HasSubstr("it belongs into [rig]"));
}

TEST(ReadProject, AlwaysNamesSomeKey) {
    EXPECT_THAT(only(read_text(head + "qqqqqqqq = 3\n" + tables + north_vein)).message, HasSubstr("the nearest is "));
}

TEST(ReadProject, FindsUnknownKeysEverywhere) {
    for (const std::string text :
         {"[tabels]\ncollars = \"c\"\n", "[survey_errors]\nazimuth = 1\n", "[survey_errors.gyro]\ncollar = 1\n",
          "[analyte.ag_gpt]\nform = [\"x\"]\n", "[tables.picks]\nsource = \"p.csv\"\nsheet = \"x\"\n"})
        EXPECT_STREQ(only(read_text(head + tables + north_vein + text)).check->id, "unknown-key") << text;
}

struct WrongValue {
    const char* text;  // behind a sound file of six lines
    std::size_t line;
    const char* message;
};

TEST(ReadProject, RefusesValuesOfTheWrongKindOrSizeWithTheirLine) {
    const std::vector<WrongValue> wrong = {{"[plan]\ncount = 2.5\n", 9, "whole number"},
                                           {"[plan]\ncount = 0\n", 9, "from 1 to 1000"},
                                           {"[plan]\ntail = \"15\"\n", 9, "a number"},
                                           {"[plan]\ntail = -1\n", 9, "0 or more"},
                                           {"[plan]\ntail = true\n", 9, "a number"},
                                           {"[plan]\ntail = nan\n", 9, "a number"},
                                           {"[plan]\nspacing = inf\n", 9, "a number"},
                                           {"[rig]\n\ndip_min = 95\n", 10, "from 0 to 90"},
                                           {"[composites]\nweight_by_density = 1\n", 9, "true or false"},
                                           {"[surveys]\nprefer = \"gyro\"\n", 9, "a list of texts"},
                                           {"[surveys]\nprefer = [1]\n", 9, "a list of texts"},
                                           {"[cut_off]\nincluding = [1, \"2\"]\n", 9, "a list of numbers"},
                                           {"[sections]\norigin = [1, 2, 3]\n", 9, "two numbers"},
                                           {"[sections]\nazimuth = 361\n", 9, "from 0 to 360"},
                                           {"[sheets]\npaper = \"A9\"\n", 9, "one of \"A4\""},
                                           {"[sheets]\npaper = 3\n", 9, "a text in quotes"},
                                           {"[tables.picks]\nsource = 3\n", 9, "a text in quotes"},
                                           {"[tables.picks]\nsource = \"p\"\ncolumns = { hole = 3 }\n", 10, "a text in quotes"},
                                           {"[tables.picks]\nsource = \"p\"\ndecimal = \";\"\n", 10, "one of \".\""},
                                           {"[fault]\nname = \"x\"\n", 8, "[[fault]]"},
                                           {"[[plan]]\ntail = 3\n", 8, "a section [plan]"},
                                           {"[[vein]]\nname = \"NORTH \"\n", 8, "given twice"}};
    for (const WrongValue& one : wrong) {
        const base::Checked<Project> read = read_text(head + tables + north_vein + one.text);
        const std::vector<base::Finding> findings = found(read.findings, "wrong-value");
        ASSERT_EQ(findings.size(), 1U) << one.text << lines_of(read.findings);
        EXPECT_EQ(findings[0].origin.row, one.line) << one.text;
        EXPECT_THAT(findings[0].message, HasSubstr(one.message)) << one.text;
    }
}

TEST(ReadProject, MissesWhatItNeeds) {
    EXPECT_STREQ(only(read_text("[project]\n" + tables + north_vein)).check->id, "missing-key");
    EXPECT_STREQ(only(read_text("[project]\nname = \"  \"\n" + tables + north_vein)).check->id, "missing-key");
    EXPECT_STREQ(only(read_text(tables + north_vein)).check->id, "missing-key");
    EXPECT_STREQ(only(read_text(head + north_vein)).check->id, "missing-key");
    EXPECT_STREQ(only(read_text(head + tables)).check->id, "no-veins");
    EXPECT_THAT(only(read_text(head + tables + "[[vein]]\npoint = [1, 2, 3]\ndip = 3\ndip_direction = 4\n")).message,
                HasSubstr("vein.name has to be given"));
    EXPECT_THAT(only(read_text(head + tables + north_vein + "dip = 60\n")).message,
                HasSubstr("dip and dip_direction are given together"));
}

TEST(ReadProject, AsksForTheDeclinationOfMagneticAzimuths) {
    const base::Finding finding = only(read_text(head + "azimuth_reference = \"magnetic\"\n" + tables + north_vein));
    EXPECT_STREQ(finding.check->id, "missing-key");
    EXPECT_EQ(finding.origin.row, 3U);
    EXPECT_THAT(finding.message, HasSubstr("declination"));
    const base::Finding of_table =
        only(read_text(head + tables + "structures = { source = \"s.csv\", azimuth_reference = \"magnetic\" }\n" + north_vein));
    EXPECT_EQ(of_table.origin.row, 6U);
}

TEST(ReadProject, SaysThatACrsGivesNoConvergenceYet) {
    EXPECT_STREQ(only(read_text(head + "crs = \"EPSG:26911\"\n" + tables + north_vein)).check->id, "not-honoured-yet");
    EXPECT_THAT(read_text(head + "crs = \"EPSG:26911\"\ngrid_convergence = 0.2\n" + tables + north_vein).findings, IsEmpty());
}

TEST(ReadProject, RefusesAFaultWithTwoKindsOfSlipAndAnOrderOfStrangers) {
    const std::string fault =
        "[[fault]]\nname = \"F\"\npoint = [1, 2, 3]\ndip = 80\ndip_direction = 20\nslip = [1, 2, 3]\ndip_slip = 2\n";
    EXPECT_EQ(found(read_text(head + tables + north_vein + fault).findings, "wrong-value").size(), 1U);
    EXPECT_THAT(only(read_text("order = [\"Nort\"]\n" + head + tables + north_vein)).message, HasSubstr("did you mean North?"));
    EXPECT_THAT(only(read_text("order = [\"North\", \"north\"]\n" + head + tables + north_vein)).message, HasSubstr("twice"));
}

TEST(ReadProject, NamesLineAndColumnOfASyntaxError) {
    const base::Finding finding = only(read_text(head + "declination = = 3\n"));
    EXPECT_STREQ(finding.check->id, "file-syntax");
    EXPECT_EQ(finding.origin.row, 3U);
    EXPECT_THAT(finding.message, HasSubstr("line 3, column 15"));
    EXPECT_STREQ(only(read_text("\xff\xfe")).check->id, "file-syntax");
}

TEST(ReadProject, KeepsVeinsInTheOrderOfTheFile) {
    const Project project =
        read_text(head + tables + "[[vein]]\nname = \"Z\"\n[[vein]]\nname = \"A\"\n[[vein]]\nname = \"M\"\n").value;
    std::vector<std::string> names;
    for (const VeinSetting& one : project.veins) names.push_back(one.name);
    EXPECT_THAT(names, ElementsAre("Z", "A", "M"));
}

TEST(ReadProject, KeepsItsValuesApartFromHowTheyAreWritten) {
    const std::string plain = read_text(head + "declination = 3\n" + tables + north_vein).value.values;
    EXPECT_EQ(plain,
              read_text("# a comment\n[project]\ndeclination   = 3.0 # east\nname = \"A\"\n" + tables + north_vein).value.values);
    EXPECT_EQ(
        plain,
        read_text(head + "declination = 3\n[tables]\ncollars = \"other.csv\"\nsurveys = \"s.csv\"\n" + north_vein).value.values);
    EXPECT_NE(plain, read_text(head + "declination = 4\n" + tables + north_vein).value.values);
}

TEST(ReadProject, ThrowsOnAFileThatIsNotThere) { EXPECT_THROW(read_project("/nowhere/project.toml"), base::MachineError); }

// Whatever stands in the file, there is a finding or a project, never a crash.
TEST(ReadProject, OutlivesEveryCutOfAFile) {
    const std::string whole =
        "order = [\"North\"]\n" + head + "date = 2026-11-20\n" + tables + north_vein + "[survey_errors.gyro]\ndip_hole = 1\n";
    for (std::size_t length = 0; length < whole.size(); ++length) EXPECT_NO_THROW(read_text(whole.substr(0, length)));
}

TEST(ProjectKeys, AreEachDescribedOnce) {
    std::set<std::string> names;
    for (const Key& key : project_keys()) {
        EXPECT_TRUE(names.insert(key.section + "." + key.name).second) << key.section << "." << key.name;
        EXPECT_FALSE(key.meaning.empty() || key.kind.empty() || key.default_value.empty()) << key.section << "." << key.name;
    }
    EXPECT_TRUE(names.count("survey_errors.collar") == 1 && names.count("survey_errors.<method>.dip_hole") == 1 &&
                names.count("[vein].point") == 1 && names.count(".order") == 1 && names.count("tables.collars") == 1);
}

// The printed default is the one that a project without the key has.
TEST(ProjectKeys, PrintTheDefaultsOfTheProject) {
    const Project defaults;
    std::map<std::string, std::string> printed;
    for (const Key& key : project_keys()) printed[key.section + "." + key.name] = key.default_value;
    EXPECT_EQ(printed.at("plan.tail"), base::significant(defaults.plan.tail, 6));
    EXPECT_EQ(printed.at("rig.wedge_angle"), base::significant(defaults.rig.wedge_angle.degrees(), 6));
    EXPECT_EQ(printed.at("survey_errors.depth_scale"), "0.0005");
    EXPECT_EQ(printed.at("project.azimuth_reference"), "grid");
    EXPECT_EQ(printed.at("sheets.paper"), defaults.sheets.paper);
}

}  // namespace
}  // namespace selvage::settings
