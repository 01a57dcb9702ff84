#include "sheets/grade_classes.h"
#include "sheets/made_up_pack.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <string>

namespace selvage::sheets {
namespace {

// Names of holes on a long section stand beside their symbols, so that the drawing can be measured through the grid alone: the
// elevation figures at its left edge.
TEST(LongSection, ElevationsStandApartByTrueDistanceOverTheSineOfTheDip) {
    const MadeUpPack& pack = made_up_pack();
    for (const drawing::Sheet& sheet : pack.sheets) {
        if (sheet.kind != "long-section") continue;
        const veins::Vein* vein = nullptr;
        for (const veins::Vein& one : pack.run_results.veins)
            if (one.name() == sheet.name) vein = &one;
        ASSERT_NE(vein, nullptr);
        const double rise = std::sqrt(1.0 - std::pow(vein->mean_plane().normal.z(), 2));
        const drawing::Window& window = sheet.windows.front();
        std::map<double, double> height_of_elevation;
        for (const SetWords& words : words_of(sheet, pack.fonts.metrics)) {
            if (words.text->upright || words.box.right > window.box.left || words.text->anchor != drawing::Anchor::right)
                continue;
            const double middle = (words.box.bottom + words.box.top) / 2.0;
            if (middle < window.box.bottom + 1.5 || middle > window.box.top) continue;
            height_of_elevation[std::stod(words.text->text)] = middle;
        }
        ASSERT_GE(height_of_elevation.size(), 2u) << sheet.name;
        const auto low = *height_of_elevation.begin(), high = *height_of_elevation.rbegin();
        const double on_plane = (high.first - low.first) / rise;
        EXPECT_NEAR(high.second - low.second, on_plane / window.metres_per_mm, 0.1) << sheet.name;
    }
}

}  // namespace
}  // namespace selvage::sheets
