#include "base/file.h"
#include "support/example_site.h"
#include "support/page_words.h"
#include "support/program.h"
#include "support/temporary_folder.h"

#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <map>
#include <set>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

// The example's pack measured by programs of others: pikepdf (Debian python3-pikepdf), qpdf, and pdftotext and pdffonts of
// poppler-utils.
namespace selvage {
namespace {

using Row = std::vector<std::string>;

Row cells_of(const std::string& line, char between) {
    Row cells;
    std::istringstream stream(line);
    for (std::string cell; std::getline(stream, cell, between);) cells.push_back(cell);
    return cells;
}

class PackPdf : public ::testing::Test {
protected:
    static void SetUpTestSuite() {
        folder = new TemporaryFolder("pack-pdf");
        made_up::cold_hythe().write(folder->path() / "project");
        run = run_program(SELVAGE_PROGRAM, "run " + (folder->path() / "project" / "project.toml").string());
        if (run.status != 0) return;
        const ProgramRun facts = run_program(
            "/usr/bin/python3", SELVAGE_SOURCE_FOLDER "/tests/reference/pdf_facts.py '" + (pack() / "pack.pdf").string() + "'");
        if (facts.status != 0) run = facts;
        std::istringstream lines(facts.output);
        for (std::string line; std::getline(lines, line);) {
            const Row cells = cells_of(line, '\t');
            if (!cells.empty()) told[cells.front()].push_back({cells.begin() + 1, cells.end()});
        }
    }
    static void TearDownTestSuite() {
        delete folder;
        folder = nullptr;
        told.clear();
    }
    void SetUp() override { ASSERT_EQ(run.status, 0) << run.output << "\nneeds Debian's python3-pikepdf and poppler-utils"; }

    static std::filesystem::path pack() { return folder->path() / "project" / "pack"; }
    static std::string told_once(const std::string& what) {
        return told[what].size() == 1 && told[what].front().size() == 1 ? told[what].front().front() : "";
    }
    // The pages whose bookmark starts with these words.
    static std::set<int> pages_named(const std::string& start) {
        std::set<int> pages;
        for (const Row& bookmark : told["bookmark"])
            if (bookmark.at(2).rfind(start, 0) == 0) pages.insert(std::stoi(bookmark.at(1)));
        return pages;
    }
    static std::vector<Row> table(const std::string& name) {
        std::istringstream lines(base::read_file(pack() / "tables" / (name + ".csv")));
        std::vector<Row> rows;
        std::string line;
        std::getline(lines, line);
        while (std::getline(lines, line)) rows.push_back(cells_of(line, ','));
        return rows;
    }

    static TemporaryFolder* folder;
    static ProgramRun run;
    static std::map<std::string, std::vector<Row>> told;
};
TemporaryFolder* PackPdf::folder = nullptr;
ProgramRun PackPdf::run;
std::map<std::string, std::vector<Row>> PackPdf::told;

// Every pair of lines with figures, on every window that has such: paper against ground.
TEST_F(PackPdf, GridLinesStandApartByTheirFiguresOverTheScale) {
    const std::vector<Row>& grids = told["grid"];
    EXPECT_GE(grids.size(), 20U);
    for (const Row& grid : grids) EXPECT_LE(std::stod(grid.at(3)), 0.1) << "mm on page " << grid.at(0);
    std::set<int> measured;
    for (const Row& grid : grids) measured.insert(std::stoi(grid.at(0)));
    for (const char* kind : {"Long section", "Cross section", "Section along", "Plan", "Level"})
        for (const int page : pages_named(kind)) EXPECT_EQ(measured.count(page), 1U) << kind << ", page " << page;
}

// Only a long section lies on an inclined plane: its elevations stand farther apart by 1 / sin(dip).
TEST_F(PackPdf, OnlyLongSectionsStretchTheirElevations) {
    const std::set<int> long_sections = pages_named("Long section,");
    std::map<int, double> stretches;
    for (const Row& row : told["stretched"]) stretches[std::stoi(row.at(0))] = std::stod(row.at(1));
    const std::vector<Row> veins = table("veins");
    ASSERT_EQ(long_sections.size(), veins.size());
    std::size_t vein = 0;
    for (const int page : long_sections) {
        const double dip = std::stod(veins[vein++].at(4)) * std::acos(-1.0) / 180.0;
        ASSERT_EQ(stretches.count(page), 1U);
        EXPECT_NEAR(stretches[page], 1.0 / std::sin(dip), 0.02)
            << "page " << page;  // the table's dip is the mean over its extent
    }
    EXPECT_EQ(stretches.size(), long_sections.size());
}

// ISO 32000-1, 12.9: the viewport's factor times points on paper.
TEST_F(PackPdf, TenGridCrossingsAreAsFarApartAsTheViewportSays) {
    std::size_t measured = 0;
    for (const Row& grid : told["grid"]) {
        if (std::stoi(grid.at(4)) < 2) continue;
        EXPECT_LE(std::stod(grid.at(5)), 0.05) << "m on page " << grid.at(0);
        measured += std::stoi(grid.at(4)) == 10 ? 1U : 0U;
    }
    EXPECT_GE(measured, 20U);
}

TEST_F(PackPdf, QpdfFindsNothingInThePackAndTheSheets) {
    std::size_t files = 0;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(pack())) {
        if (entry.path().extension() != ".pdf") continue;
        const ProgramRun check = run_program("qpdf", "--check '" + entry.path().string() + "'");
        EXPECT_EQ(check.status, 0) << entry.path() << check.output;
        EXPECT_EQ(check.output.find("WARNING"), std::string::npos) << check.output;
        ++files;
    }
    EXPECT_EQ(files, told["page"].size() + 1);
}

TEST_F(PackPdf, PagesAreTheirPaperAndAreLabelledAndBookmarked) {
    const std::vector<std::pair<double, double>> papers{{210, 297}, {297, 210}, {420, 297}, {297, 420},
                                                        {594, 420}, {841, 594}, {1189, 841}};  // ISO 216
    std::set<std::string> labels;
    std::set<int> bookmarked;
    for (const Row& page : told["page"]) {
        double off = 1e9;
        for (const auto& [width, height] : papers)
            off = std::min(off, std::max(std::abs(std::stod(page.at(2)) - width), std::abs(std::stod(page.at(3)) - height)));
        EXPECT_LE(off, 0.1) << "page " << page.at(0);
        EXPECT_NE(page.at(1), "") << "page " << page.at(0);
        labels.insert(page.at(1));
    }
    bool nested = false;
    for (const Row& bookmark : told["bookmark"]) {
        bookmarked.insert(std::stoi(bookmark.at(1)));
        EXPECT_NE(bookmark.at(2), "");
        nested = nested || bookmark.at(0) == "1";
    }
    EXPECT_TRUE(nested);
    EXPECT_EQ(bookmarked.size(), told["page"].size());
    EXPECT_EQ(bookmarked.count(0), 0U);
    for (const char* section : {"S1", "S9"}) EXPECT_EQ(labels.count(section), 1U) << section;
}

TEST_F(PackPdf, InformationComesFromTheRun) {
    EXPECT_EQ(told_once("version"), "1.7");
    EXPECT_NE(told_once("title").find("Cold Hythe 2026-11-20"), std::string::npos);
    EXPECT_EQ(told_once("created").rfind("D:20261120", 0), 0U);
    EXPECT_EQ(told_once("scaling"), "None");
    EXPECT_NE(base::read_file(pack() / "run.json").find(told_once("title")), std::string::npos);
}

TEST_F(PackPdf, LayersStandOnceEachByMeaning) {
    std::set<std::string> layers;
    for (const Row& layer : told["layer"]) EXPECT_TRUE(layers.insert(layer.at(0)).second) << layer.at(0) << " twice";
    for (const char* name : {"grid", "ground", "holes", "veins", "results", "forecasts", "labels"})
        EXPECT_EQ(layers.count(name), 1U) << name;
}

TEST_F(PackPdf, TableAndSheetsLeadToEachOther) {
    std::set<std::pair<int, int>> links;
    for (const Row& link : told["link"]) links.insert({std::stoi(link.at(0)), std::stoi(link.at(1))});
    const std::set<int> tables = pages_named("Intercept");
    std::set<int> of_results_and_forecasts = tables;
    of_results_and_forecasts.merge(pages_named("Forecasts"));
    const auto leads = [&](const std::set<int>& from, const std::set<int>& to) {
        for (const auto& [a, b] : links)
            if (from.count(a) != 0 && to.count(b) != 0) return true;
        return false;
    };
    for (const int page : pages_named("Long section,")) EXPECT_TRUE(leads({page}, tables)) << page;
    std::size_t both = 0;
    for (const int page : pages_named("Cross section S")) {
        if (!leads(tables, {page})) continue;
        EXPECT_TRUE(leads({page}, of_results_and_forecasts)) << "page " << page << " does not lead back";
        ++both;
    }
    EXPECT_GE(both, 10U);
}

TEST_F(PackPdf, EveryHoleVeinAndGradeIsThereAsText) {
    std::string text;
    for (const PageText& page : pages_of(pack() / "pack.pdf")) text += page.joined();
    const auto expect = [&](const std::string& words) {
        EXPECT_NE(text.find(without_blanks(words)), std::string::npos) << words;
    };
    for (const Row& row : table("paths")) expect(row.at(0));
    for (const Row& row : table("intercepts")) {
        expect(row.at(0) + row.at(1));  // the label's line and the table's row: hole and vein
        if (row.at(11) == "assayed" && std::stod(row.at(12)) >= 10.0)
            expect(std::to_string(std::lround(std::stod(row.at(12)))) + "g/tAg");
    }
}

TEST_F(PackPdf, NothingIsCoveredAndFontsAreEmbeddedSubsetsWithAMap) { EXPECT_EQ(faults_of_pages(pack() / "pack.pdf"), ""); }

}  // namespace
}  // namespace selvage
