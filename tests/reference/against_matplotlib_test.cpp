#include "base/file.h"
#include "base/json.h"
#include "base/text.h"
#include "pdf/document.h"
#include "sheets/made_up_pack.h"
#include "support/program.h"
#include "support/temporary_folder.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <string>

// One cross section of the example drawn to PDF by matplotlib (Debian python3-matplotlib) and by us, from the same marks, in the
// same run.
namespace selvage {
namespace {

using base::JsonArray;
using base::JsonObject;
using base::JsonValue;

std::string colour_text(const drawing::Colour& colour) {
    char text[8];
    std::snprintf(text, sizeof text, "#%02x%02x%02x", static_cast<unsigned>(colour.red) & 0xffU,
                  static_cast<unsigned>(colour.green) & 0xffU, static_cast<unsigned>(colour.blue) & 0xffU);
    return text;
}

JsonObject json_of(const drawing::Text& text) {
    const char* anchors[] = {"left", "center", "right"};
    return {{"text", text.text},
            {"x", text.at.x},
            {"y", text.at.y},
            {"size", text.look.size_pt},
            {"upright", text.upright},
            {"colour", colour_text(text.look.colour)},
            {"anchor", anchors[static_cast<std::size_t>(text.anchor)]}};
}

JsonObject json_of(const drawing::Shape& shape) {
    JsonArray rings;
    for (const auto& ring : shape.rings) {
        JsonArray points;
        for (const drawing::Point& at : ring) points.emplace_back(JsonArray{at.x, at.y});
        rings.emplace_back(std::move(points));
    }
    JsonObject made{{"rings", std::move(rings)}, {"closed", shape.closed}};
    if (shape.fill) made.emplace_back("fill", colour_text(shape.fill->colour));
    if (shape.line)
        made.emplace_back("line", JsonObject{{"width", shape.line->width_mm}, {"colour", colour_text(shape.line->colour)}});
    return made;
}

std::string marks_of(const drawing::Sheet& sheet) {
    JsonArray marks;
    for (const drawing::Item& item : sheet.items)
        marks.emplace_back(std::visit([](const auto& mark) { return json_of(mark); }, item.mark));
    return base::json_text(JsonObject{{"width", sheet.width_mm}, {"height", sheet.height_mm}, {"marks", std::move(marks)}});
}

TEST(AgainstMatplotlib, ACrossSectionIsDrawnTwentyTimesAsFast) {
    const sheets::MadeUpPack& pack = sheets::made_up_pack();
    const auto section = std::max_element(pack.sheets.begin(), pack.sheets.end(), [](const auto& a, const auto& b) {
        const auto marks = [](const drawing::Sheet& s) { return s.kind == "cross-section" ? s.items.size() : 0; };
        return marks(a) < marks(b);
    });
    ASSERT_EQ(section->kind, "cross-section");
    const TemporaryFolder folder("against-matplotlib");
    base::write_file(folder.path() / "marks.json", marks_of(*section));
    const std::string theirs_file = (folder.path() / "theirs.pdf").string();
    const ProgramRun run =
        run_program("/usr/bin/python3", SELVAGE_SOURCE_FOLDER "/tests/reference/draw_with_matplotlib.py '" +
                                            (folder.path() / "marks.json").string() + "' '" + theirs_file + "'");
    ASSERT_EQ(run.status, 0) << run.output << "\nneeds Debian's python3-matplotlib";
    const double theirs = std::strtod(run.output.c_str(), nullptr);
    ASSERT_GT(theirs, 0.0) << run.output;
    ASSERT_EQ(base::read_file(theirs_file).rfind("%PDF", 0), 0U);

    double ours = 1e9;
    for (int i = 0; i < 10; ++i) {
        const auto start = std::chrono::steady_clock::now();
        const std::string bytes = pdf::document_bytes({*section}, pack.fonts, {"section", "", ""});
        ours = std::min(ours, std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count());
        ASSERT_EQ(bytes.rfind("%PDF", 0), 0U);
    }
    RecordProperty("ours_ms", base::fixed(1000.0 * ours, 2));
    RecordProperty("theirs_ms", base::fixed(1000.0 * theirs, 2));
    std::printf("%s, %zu marks: ours %.2f ms, matplotlib's %.1f ms, %.0f times\n", section->title.c_str(), section->items.size(),
                1000.0 * ours, 1000.0 * theirs, theirs / ours);
    EXPECT_GE(theirs, 20.0 * ours);
}

}  // namespace
}  // namespace selvage
