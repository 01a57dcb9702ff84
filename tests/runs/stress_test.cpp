#include "base/file.h"
#include "base/json.h"
#include "support/page_words.h"
#include "support/program.h"
#include "support/stress_projects.h"
#include "support/temporary_folder.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <map>
#include <string>
#include <vector>

// Projects at the edges: each gives a pack in which nothing covers anything and nobody is missing.
namespace selvage {
namespace {

const std::vector<made_up::StressProject>& projects() {
    static const std::vector<made_up::StressProject> all = made_up::stress_projects();
    return all;
}

class Stress : public ::testing::TestWithParam<std::size_t> {
protected:
    Stress() : project(projects()[GetParam()]), folder("stress-" + project.name) {
        for (const auto& [name, bytes] : project.files) base::write_file(folder.path() / name, bytes);
        run = run_program(SELVAGE_PROGRAM, "run " + (folder.path() / "project.toml").string());
    }

    // The text of every sheet of a kind, without blanks, by the file's name.
    std::map<std::string, std::string> sheets_of_kind(const std::string& kind) const {
        std::map<std::string, std::string> texts;
        for (const auto& entry : std::filesystem::directory_iterator(folder.path() / "pack" / "sheets")) {
            const std::string name = entry.path().filename().string();
            if (name.find("-" + kind) == std::string::npos) continue;
            for (const PageText& page : pages_of(entry.path())) texts[name] += page.joined();
        }
        return texts;
    }

    // A name as it is printed: what the font lacks is a question mark.
    std::string printed(const std::string& name) const {
        std::string out = without_blanks(name);
        if (project.unknown_letters.empty()) return out;
        std::string shown;
        for (std::size_t i = 0; i < out.size();) {
            const auto byte = static_cast<unsigned char>(out[i]);
            const std::size_t length = byte < 0x80U ? 1 : byte < 0xe0U ? 2 : byte < 0xf0U ? 3 : 4;
            shown += length == 1 ? out.substr(i, 1) : "?";
            i += length;
        }
        return shown;
    }

    const made_up::StressProject& project;
    TemporaryFolder folder;
    ProgramRun run;
};

bool in_any(const std::map<std::string, std::string>& texts, const std::string& words) {
    for (const auto& [name, text] : texts)
        if (text.find(words) != std::string::npos) return true;
    return false;
}

TEST_P(Stress, GivesAPackInWhichNothingIsCoveredMissingOrUnsaid) {
    ASSERT_EQ(run.status, 0) << run.output;
    const std::filesystem::path pack = folder.path() / "pack";
    EXPECT_EQ(faults_of_pages(pack / "pack.pdf"), "");

    // Every hole on the plan, in the table and on a section; every hit on its vein's long section and in the table. In a table's
    // cell a long name may be cut in its middle, but not at the end that tells it from others.
    const auto plans = sheets_of_kind("plan"), tables = sheets_of_kind("intercept-table"),
               sections = sheets_of_kind("cross-section"), long_sections = sheets_of_kind("long-section");
    const auto in_a_table = [&](const std::string& name) {
        bool found = in_any(tables, name);
        for (std::size_t kept = 4; kept < name.size() / 2 && !found; ++kept)
            found = in_any(tables, "\xe2\x80\xa6" + name.substr(name.size() - kept));
        return found;
    };
    for (const std::string& hole : project.holes) EXPECT_TRUE(in_any(plans, printed(hole))) << hole << " is on no plan";
    for (const auto& [hole, vein] : project.hits) {
        EXPECT_TRUE(in_a_table(printed(hole))) << hole << " is in no table";
        EXPECT_TRUE(in_any(sections, printed(hole))) << hole << " is on no section";
        EXPECT_TRUE(in_any(long_sections, printed(hole))) << hole << " is on no long section";
        EXPECT_TRUE(in_any(long_sections, printed(vein))) << vein << " has no long section";
    }
    const base::JsonValue record = base::json_from(base::read_file(pack / "run.json"));
    for (const base::JsonValue& sheet : std::get<base::JsonArray>(base::member(record, "sheets")->value)) {
        const base::JsonValue& labels = *base::member(sheet, "labels");
        for (const char* fault : {"overlaps", "crossings"}) EXPECT_EQ(std::get<double>(base::member(labels, fault)->value), 0.0);
    }

    // What the font lacks is told.
    const std::string checks = base::read_file(pack / "tables" / "checks.csv");
    for (const std::string& letter : project.unknown_letters) {
        EXPECT_NE(run.output.find(letter), std::string::npos) << letter << " in:\n" << run.output;
        EXPECT_NE(checks.find(letter), std::string::npos) << letter;
    }
    EXPECT_EQ(checks.find("letter-not-in-font") != std::string::npos, !project.unknown_letters.empty());
}

INSTANTIATE_TEST_SUITE_P(Projects, Stress, ::testing::Range(std::size_t{0}, projects().size()),
                         [](const auto& which) { return projects()[which.param].name; });

}  // namespace
}  // namespace selvage
