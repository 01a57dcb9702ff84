#include "base/file.h"
#include "support/example_site.h"
#include "support/program.h"
#include "support/temporary_folder.h"

#include <gtest/gtest.h>

#include <cstddef>
#include <filesystem>
#include <functional>
#include <map>
#include <string>
#include <vector>

namespace selvage {
namespace {

using Files = std::map<std::string, std::string>;

struct Mistake {
    const char* name;
    std::function<void(Files&)> make;
    int status;
    std::vector<std::string> said;  // each stands in the messages
};

void replace(std::string& text, const std::string& from, const std::string& to) {
    const std::size_t at = text.find(from);
    ASSERT_NE(at, std::string::npos) << from;
    text.replace(at, from.size(), to);
}

std::string rows_of_hole(const std::string& csv, const std::string& hole) {
    std::string kept = csv.substr(0, csv.find('\n') + 1);
    for (std::size_t at = kept.size(); at < csv.size();) {
        const std::size_t end = csv.find('\n', at) + 1;
        if (csv.compare(at, hole.size() + 1, hole + ",") == 0) kept += csv.substr(at, end - at);
        at = end;
    }
    return kept;
}

const std::vector<Mistake>& mistakes() {
    static const std::vector<Mistake> all = {
        {"MissingTable", [](Files& f) { f.erase("surveys.csv"); }, 1, {"surveys.csv", "error"}},
        {"MissingColumn",
         [](Files& f) { replace(f["collars.csv"], "elevation,depth", "height,depth"); },
         1,
         {"collars.csv", "elevation"}},
        {"NotATextFile",
         [](Files& f) { f["collars.csv"] = std::string("PK\x03\x04\x00\x00\x01\xff\x00", 9); },
         1,
         {"collars.csv"}},
        {"EmptyTable", [](Files& f) { f["collars.csv"].clear(); }, 1, {"collars.csv"}},
        {"HeaderWithoutRows",
         [](Files& f) { f["collars.csv"] = f["collars.csv"].substr(0, f["collars.csv"].find('\n') + 1); },
         1,
         {"collars.csv"}},
        {"WrongType",
         [](Files& f) { replace(f["surveys.csv"], "CH-02,30.00,", "CH-02,thirty,"); },
         0,
         {"surveys.csv:", "CH-02", "thirty"}},
        {"UnknownHole", [](Files& f) { replace(f["picks.csv"], "CH-04,", "CH-94,"); }, 0, {"picks.csv:", "CH-94"}},
        {"FromAfterTo",
         [](Files& f) { replace(f["picks.csv"], "139.18,140.29", "140.29,139.18"); },
         0,
         {"picks.csv:2", "CH-01", "140.29"}},
        {"SurveyBelowTheEnd",
         [](Files& f) { f["surveys.csv"] += "CH-01,999.00,20.0,45.0,single shot\n"; },
         0,
         {"surveys.csv:", "CH-01", "999"}},
        {"DoubledStation", [](Files& f) { f["surveys.csv"] += "CH-01,30.00,20.0,45.0,single shot\n"; }, 0, {"CH-01", "30"}},
        {"TypingErrorInTheProject",
         [](Files& f) { replace(f["project.toml"], "declination =", "declinaton ="); },
         2,
         {"project.toml:", "declinaton", "declination"}},
        {"BrokenProjectFile", [](Files& f) { replace(f["project.toml"], "[project]", "[project"); }, 2, {"project.toml:"}},
        {"NoProjectFile", [](Files& f) { f.erase("project.toml"); }, 2, {"project.toml"}},
        {"OneIntercept", [](Files& f) { f["picks.csv"] = f["picks.csv"].substr(0, f["picks.csv"].find("CH-02")); }, 0, {"Ouzel"}},
        {"NoIntercept",
         [](Files& f) {
             f["picks.csv"] = f["picks.csv"].substr(0, f["picks.csv"].find('\n') + 1);
             f["outcrops.csv"] = f["outcrops.csv"].substr(0, f["outcrops.csv"].find('\n') + 1);
         },
         0,
         {"Ouzel", "Merlin"}},
        {"OneHole", [](Files& f) { f["collars.csv"] = rows_of_hole(f["collars.csv"], "CH-01"); }, 0, {"CH-02"}},
    };
    return all;
}

class BadInput : public ::testing::TestWithParam<std::size_t> {};

TEST_P(BadInput, IsNamedAndLeavesTheEarlierPackWhole) {
    const Mistake& mistake = mistakes()[GetParam()];
    const TemporaryFolder folder(std::string("bad-input-") + mistake.name);
    const std::filesystem::path project = folder.path() / "project.toml";
    Files files = made_up::cold_hythe().files();
    mistake.make(files);
    for (const auto& [name, bytes] : files) base::write_file(folder.path() / name, bytes);
    // An earlier pack, as the program knows it.
    const std::filesystem::path out = folder.path() / "pack";
    std::filesystem::create_directories(out);
    base::write_file(out / "run.json", "{\"format\": 1, \"files\": [\"run.json\"]}\n");
    const Files before = bytes_of_folder(out);

    const ProgramRun run = run_program(SELVAGE_PROGRAM, "run " + project.string() + " --out " + out.string());
    EXPECT_EQ(run.status, mistake.status) << run.output;
    for (const std::string& words : mistake.said)
        EXPECT_NE(run.output.find(words), std::string::npos) << words << " in:\n" << run.output;
    EXPECT_EQ(run.output.find("nan"), std::string::npos) << run.output;
    if (mistake.status != 0) {
        EXPECT_EQ(bytes_of_folder(out), before);
    } else {
        EXPECT_EQ(bytes_of_folder(out).count("pack.pdf"), 1U);
    }
    std::size_t beside = 0;
    for (const auto& entry : std::filesystem::directory_iterator(folder.path())) beside += entry.is_directory() ? 1U : 0U;
    EXPECT_EQ(beside, 1U) << "something half-written was left beside the pack";
}

INSTANTIATE_TEST_SUITE_P(Mistakes, BadInput, ::testing::Range(std::size_t{0}, mistakes().size()),
                         [](const auto& which) { return std::string(mistakes()[which.param].name); });

TEST(Usage, WrongWordsEndWithTwo) {
    EXPECT_EQ(run_program(SELVAGE_PROGRAM, "").status, 2);
    EXPECT_EQ(run_program(SELVAGE_PROGRAM, "run").status, 2);
    EXPECT_EQ(run_program(SELVAGE_PROGRAM, "run a.toml --colour red").status, 2);
    EXPECT_EQ(run_program(SELVAGE_PROGRAM, "--help").status, 0);
}

TEST(Usage, AFolderWithFilesOfOthersIsRefused) {
    const TemporaryFolder folder("foreign");
    made_up::cold_hythe().write(folder.path() / "project");
    std::filesystem::create_directories(folder.path() / "out");
    base::write_file(folder.path() / "out" / "thesis.txt", "mine");
    const ProgramRun run = run_program(SELVAGE_PROGRAM, "run " + (folder.path() / "project" / "project.toml").string() +
                                                            " --out " + (folder.path() / "out").string());
    EXPECT_EQ(run.status, 2);
    EXPECT_NE(run.output.find("thesis.txt"), std::string::npos) << run.output;
    EXPECT_EQ(bytes_of_folder(folder.path() / "out").size(), 1U);
}

}  // namespace
}  // namespace selvage
