#include "base/file.h"
#include "support/example_site.h"
#include "support/program.h"
#include "support/temporary_folder.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <map>
#include <sstream>
#include <string>

// A sheet of each kind against the picture kept of it. Where a change of looks is meant: look at the sheets, then
// tests/reference/compare_pictures.py pack/sheets --keep.
namespace selvage {
namespace {

// Of 255 levels. A change of a figure in the title block stays below both; a label that moves by its own height does not.
constexpr double most_mean = 0.5, most_in_a_field = 12.0;

struct Difference {
    double mean = 255.0, field = 255.0;
};

std::map<std::string, Difference> differences(const std::filesystem::path& sheets) {
    const ProgramRun run =
        run_program("/usr/bin/python3", SELVAGE_SOURCE_FOLDER "/tests/reference/compare_pictures.py '" + sheets.string() + "'");
    EXPECT_EQ(run.status, 0) << run.output << "\nneeds Debian's python3-pil, python3-numpy and poppler-utils";
    std::map<std::string, Difference> found;
    std::istringstream lines(run.output);
    for (std::string line; std::getline(lines, line);) {
        std::istringstream words(line);
        std::string name;
        Difference difference;
        words >> name;
        if (!(words >> difference.mean >> difference.field)) ADD_FAILURE() << line;
        found[name] = difference;
    }
    return found;
}

TEST(Pictures, OfEachKindOfSheetAreAsTheyWereKept) {
    const TemporaryFolder folder("pictures");
    made_up::cold_hythe().write(folder.path());
    ASSERT_EQ(run_program(SELVAGE_PROGRAM, "run " + (folder.path() / "project.toml").string()).status, 0);
    const std::filesystem::path sheets = folder.path() / "pack" / "sheets";
    const std::map<std::string, Difference> found = differences(sheets);
    EXPECT_GE(found.size(), 11U);
    for (const auto& [name, difference] : found) {
        EXPECT_LE(difference.mean, most_mean) << name;
        EXPECT_LE(difference.field, most_in_a_field) << name;
    }

    // Another section in the place of one is seen by the same measure.
    std::filesystem::path one, other;
    for (const auto& entry : std::filesystem::directory_iterator(sheets)) {
        const std::string name = entry.path().filename().string();
        if (name.find("cross-section-s9.pdf") != std::string::npos) one = entry.path();
        if (name.find("cross-section-s8.pdf") != std::string::npos) other = entry.path();
    }
    ASSERT_FALSE(one.empty() || other.empty());
    base::write_file(one, base::read_file(other));
    EXPECT_GT(differences(sheets)["cross-section-s9"].field, most_in_a_field);
}

}  // namespace
}  // namespace selvage
