#include "pdf/document.h"

#include "base/file.h"
#include "drawing/symbols.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdio>
#include <filesystem>
#include <thread>

namespace selvage::pdf {
namespace {

using drawing::Sheet;
using drawing::Text;
using testing::HasSubstr;
using testing::Not;

const Fonts& fonts() {
    static const Fonts found = find_fonts("Open Sans");
    return found;
}

// What a program prints, both streams.
std::string output_of(const std::string& command) {
    std::string text;
    FILE* pipe = popen((command + " 2>&1").c_str(), "r");
    if (pipe == nullptr) return text;
    char buffer[4096];
    for (std::size_t n = 0; (n = fread(buffer, 1, sizeof buffer, pipe)) > 0;) text.append(buffer, n);
    pclose(pipe);
    return text;
}

// A document in a file of its own, removed at the end.
class WrittenDocument {
public:
    explicit WrittenDocument(const std::string& bytes)
        : file_(std::filesystem::temp_directory_path() /
                (std::string("selvage_pdf_") + testing::UnitTest::GetInstance()->current_test_info()->name() + ".pdf")) {
        base::write_file(file_, bytes);
    }
    ~WrittenDocument() { std::filesystem::remove(file_); }
    WrittenDocument(const WrittenDocument&) = delete;
    WrittenDocument& operator=(const WrittenDocument&) = delete;
    std::string name() const { return file_.string(); }
    // The objects in readable form.
    std::string readable() const {
        return output_of("qpdf --qdf --object-streams=disable --no-original-object-ids " + name() + " -");
    }

private:
    std::filesystem::path file_;
};

Text words(double x, double y, const std::string& text, drawing::FontFace face = drawing::FontFace::regular) {
    Text made;
    made.at = {x, y};
    made.text = text;
    made.look = {8.0, face, {26, 26, 26}};
    return made;
}

drawing::Shape box(double left, double bottom, double right, double top) {
    drawing::Shape shape;
    shape.rings = {{{left, bottom}, {right, bottom}, {right, top}, {left, top}}};
    shape.closed = true;
    return shape;
}

// An A3 sheet with every kind of mark on two layers.
Sheet demo_sheet(const std::string& name) {
    Sheet sheet;
    sheet.kind = "demo";
    sheet.name = name;
    sheet.title = "Sheet " + name + ", é 70°";
    sheet.layers = {"sheet", "holes"};
    sheet.windows.push_back({{30.0, 60.0, 300.0, 250.0}, 0.5, "m", 0.5});
    drawing::Shape rock = box(40.0, 90.0, 150.0, 120.0);
    rock.fill = drawing::FillLook{{218, 227, 236}, {drawing::PatternMark::dashes, 1.9, 0.95, 0.13, {112, 112, 112}}};
    rock.line = drawing::LineLook{0.35, {26, 26, 26}, {3.5, 0.75}, false};
    sheet.items.push_back({rock, 1, 1});
    sheet.items.push_back({words(50.0, 200.0, "1.8 m TW @ 412 g/t Ag", drawing::FontFace::semibold), 1, 1});
    Text haloed = words(50.0, 180.0, "Grüße ± 70° ≤ 5 × 3 µm", drawing::FontFace::italic);
    haloed.halo_mm = 0.45;
    sheet.items.push_back({haloed, 0, 0});
    Text upright = words(20.0, 100.0, "elevation, m", drawing::FontFace::bold);
    upright.upright = true;
    sheet.items.push_back({upright, 0, 0});
    sheet.destinations.push_back({"sheet " + name, {30.0, 250.0}});
    return sheet;
}

Sheet sheet_with(const std::string& name, Text text) {
    Sheet sheet = demo_sheet(name);
    sheet.items.push_back({std::move(text), 0, 0});
    return sheet;
}

const DocumentInfo info{"Project, week 47 ä", "invented", "2026-11-20"};

TEST(Document, PassesTheChecksOfAPdfReader) {
    const WrittenDocument document(document_bytes({demo_sheet("S1"), demo_sheet("S2")}, fonts(), info));
    EXPECT_THAT(output_of("qpdf --check " + document.name()), HasSubstr("No syntax or stream encoding errors found"));
    const std::string facts = output_of("pdfinfo " + document.name());
    EXPECT_THAT(facts, HasSubstr("Pages:           2"));
    EXPECT_THAT(facts, HasSubstr("PDF version:     1.7"));
    EXPECT_THAT(facts, HasSubstr("Title:           Project, week 47 ä"));
    EXPECT_THAT(facts, HasSubstr("Nov 20"));
    EXPECT_THAT(output_of("mutool draw -q -F trace -o /dev/null " + document.name()), Not(HasSubstr("error")));
}

TEST(Document, PageSizeIsThePaperWithinATenthOfAMillimetre) {
    Sheet card = demo_sheet("card");
    card.width_mm = 210.0;
    card.height_mm = 297.0;
    Sheet large = demo_sheet("large");
    large.width_mm = 1189.0;
    large.height_mm = 841.0;
    const WrittenDocument document(document_bytes({demo_sheet("S1"), card, large}, fonts(), info));
    const std::vector<std::pair<double, double>> papers{{420.0, 297.0}, {210.0, 297.0}, {1189.0, 841.0}};
    for (std::size_t page = 0; page < papers.size(); ++page) {
        const std::string n = std::to_string(page + 1);
        const std::string line = output_of("pdfinfo -box -f " + n + " -l " + n + " " + document.name() + " | grep MediaBox");
        double left = 1.0, bottom = 1.0, right = 0.0, top = 0.0;
        ASSERT_EQ(std::sscanf(line.c_str(), "Page %*d MediaBox: %lf %lf %lf %lf", &left, &bottom, &right, &top), 4) << line;
        EXPECT_NEAR((right - left) * 25.4 / 72.0, papers[page].first, 0.1);
        EXPECT_NEAR((top - bottom) * 25.4 / 72.0, papers[page].second, 0.1);
    }
}

TEST(Document, FontsAreEmbeddedAsSubsetsWithAUnicodeMap) {
    const WrittenDocument document(document_bytes({demo_sheet("S1")}, fonts(), info));
    const std::string table = output_of("pdffonts " + document.name() + " | tail -n +3");
    std::size_t lines = 0;
    for (std::size_t at = 0; (at = table.find('\n', at)) != std::string::npos; ++at) ++lines;
    EXPECT_EQ(lines, 3u) << table;  // regular is not used on it
    EXPECT_EQ(output_of("pdffonts " + document.name() + " | tail -n +3 | grep -vcE 'yes +yes +yes +[0-9]+ +0$'"), "0\n") << table;
    EXPECT_THAT(document.readable(), Not(HasSubstr("begincidrange")));
}

TEST(Document, TextComesBackAsItWasWritten) {
    const WrittenDocument document(document_bytes({demo_sheet("S1")}, fonts(), info));
    const std::string text = output_of("pdftotext -layout " + document.name() + " -");
    EXPECT_THAT(text, HasSubstr("1.8 m TW @ 412 g/t Ag"));
    EXPECT_THAT(text, HasSubstr("Grüße ± 70° ≤ 5 × 3 µm"));
    EXPECT_THAT(text, Not(HasSubstr("rror")));
    EXPECT_THAT(output_of("pdftotext " + document.name() + " -"), HasSubstr("elevation, m"));
}

TEST(Document, WhatAFaceLacksShowsAsAQuestionMark) {
    const WrittenDocument document(
        document_bytes({sheet_with("S1", words(50.0, 150.0, "to \xe2\x86\x92 \xf0\x9f\x98\x80 bad \xff end"))}, fonts(), info));
    EXPECT_THAT(output_of("pdftotext -layout " + document.name() + " -"), HasSubstr("to ? ? bad ? end"));
}

TEST(Document, TextStandsWhereItWasPut) {
    Text right = words(200.0, 100.0, "HHHH");
    right.anchor = drawing::Anchor::right;
    const WrittenDocument document(document_bytes({sheet_with("S1", right)}, fonts(), info));
    const std::string line = output_of("pdftotext -bbox " + document.name() + " - | grep HHHH");
    double x_min = 0.0, y_min = 0.0, x_max = 0.0, y_max = 0.0;
    ASSERT_EQ(
        std::sscanf(line.c_str(), " <word xMin=\"%lf\" yMin=\"%lf\" xMax=\"%lf\" yMax=\"%lf\"", &x_min, &y_min, &x_max, &y_max),
        4);
    EXPECT_NEAR(x_max * 25.4 / 72.0, 200.0, 0.05);
    EXPECT_NEAR((x_max - x_min) * 25.4 / 72.0, text_width_mm(fonts().metrics, right.look, "HHHH"), 0.02);
    EXPECT_LT(y_min * 25.4 / 72.0, 297.0 - 100.0);
    EXPECT_GT(y_max * 25.4 / 72.0, 297.0 - 100.0);
}

TEST(Document, LayersAreNamedOnceForTheWholeDocument) {
    const WrittenDocument document(document_bytes({demo_sheet("S1"), demo_sheet("S2")}, fonts(), info));
    const std::string text = document.readable();
    std::size_t groups = 0;
    for (std::size_t at = 0; (at = text.find("/Type /OCG", at)) != std::string::npos; ++at) ++groups;
    EXPECT_EQ(groups, 2u);
    EXPECT_THAT(text, HasSubstr("/OCProperties"));
    EXPECT_THAT(text, HasSubstr("/OC /L1 BDC"));
    EXPECT_THAT(text, HasSubstr("<feff0068006f006c00650073>"));  // "holes"
}

// ISO 32000-1, 12.9: a length on the page, in points, times the factor of /X is a length of the ground.
TEST(Document, AViewportGivesTheScaleOfItsWindow) {
    const WrittenDocument document(document_bytes({demo_sheet("S1")}, fonts(), info));
    const std::string text = document.readable();
    const std::size_t viewport = text.find("/Type /Viewport");
    ASSERT_NE(viewport, std::string::npos);
    const std::size_t factor = text.find("/X [", text.rfind("<<\n  /BBox", viewport));
    ASSERT_NE(factor, std::string::npos);
    const double c = std::stod(text.substr(text.find("/C ", factor) + 3, 20));
    EXPECT_NEAR(c * 72.0 / 25.4, 0.5, 1e-9);                     // 1 mm is 0.5 m
    EXPECT_THAT(text, HasSubstr("<feff0031003a003500300030>"));  // "1:500"
}

TEST(Document, LinksLeadOnlyToWhatTheDocumentHolds) {
    Text link = words(50.0, 150.0, "see S2");
    link.link = "sheet S2";
    const Sheet first = sheet_with("S1", link);
    const WrittenDocument pack(document_bytes({first, demo_sheet("S2")}, fonts(), info));
    EXPECT_THAT(pack.readable(), HasSubstr("/Subtype /Link"));
    const WrittenDocument single(document_bytes({first}, fonts(), info));
    EXPECT_THAT(single.readable(), Not(HasSubstr("/Subtype /Link")));
}

TEST(Document, HasABookmarkAndALabelForEachSheetAndNoScalingInPrint) {
    const WrittenDocument document(document_bytes({demo_sheet("S1"), demo_sheet("S2")}, fonts(), info));
    const std::string outline = output_of("mutool show " + document.name() + " outline");
    EXPECT_THAT(outline, HasSubstr("Sheet S2, é 70°"));
    EXPECT_THAT(outline, HasSubstr("Demos"));  // two of a kind: under a heading
    const std::string text = document.readable();
    EXPECT_THAT(text, HasSubstr("/PrintScaling /None"));
    EXPECT_THAT(text, HasSubstr("/DisplayDocTitle true"));
    EXPECT_THAT(text, HasSubstr("<feff00530032>"));  // the page label "S2"
}

TEST(Document, TheSameSheetsGiveTheSameBytesOnAnyThread) {
    const std::vector<Sheet> sheets{demo_sheet("S1"), demo_sheet("S2")};
    const std::string expected = document_bytes(sheets, fonts(), info);
    std::vector<std::string> made(4);
    std::vector<std::thread> threads;
    for (std::string& bytes : made) threads.emplace_back([&] { bytes = document_bytes(sheets, fonts(), info); });
    for (std::thread& thread : threads) thread.join();
    for (const std::string& bytes : made) EXPECT_TRUE(bytes == expected);
}

TEST(Document, AMarkOutsideItsWindowIsNotWritten) {
    Sheet sheet = demo_sheet("S1");
    drawing::Shape outside = box(310.0, 60.0, 400.0, 100.0);
    outside.fill = drawing::FillLook{{1, 2, 3}, {}};
    const std::string before = document_bytes({sheet}, fonts(), info);
    sheet.items.push_back({outside, 1, 1});
    EXPECT_TRUE(document_bytes({sheet}, fonts(), info) == before);
}

TEST(Document, TheHaloOfATextIsMarkedAsAnArtifact) {
    const WrittenDocument document(document_bytes({demo_sheet("S1")}, fonts(), info));
    EXPECT_THAT(document.readable(), HasSubstr("/Artifact BMC"));
}

TEST(FindFonts, InPlaceOfAMissingFamilyAnotherIsTakenAndNamed) {
    const Fonts taken = find_fonts("No Such Family Of Type");
    EXPECT_EQ(taken.family, "Open Sans");
    EXPECT_EQ(taken.regular_file, fonts().regular_file);
    EXPECT_EQ(fonts().family, "Open Sans");
}

// Figures of the fonts' own tables, read from the files of Debian's fonts-open-sans with a few lines of Python: unitsPerEm 2048
// (head), advance of "H" 1511 in the regular and of "A" 1413 in the bold face (hmtx), sCapHeight 1462 (OS/2).
TEST(FindFonts, WidthsAreThoseOfTheFile) {
    EXPECT_NEAR(fonts().metrics.advances[0]['H'], 1511.0 * 1000.0 / 2048.0, 1.0);
    EXPECT_NEAR(fonts().metrics.advances[2]['A'], 1413.0 * 1000.0 / 2048.0, 1.0);
    EXPECT_NEAR(fonts().metrics.cap_height, 1462.0 / 2048.0, 0.002);
    EXPECT_EQ(fonts().metrics.advances[0][0x2192], 0);  // no arrow
    EXPECT_GT(fonts().metrics.advances[3][0x2212], 0);  // a minus sign
}

}  // namespace
}  // namespace selvage::pdf
