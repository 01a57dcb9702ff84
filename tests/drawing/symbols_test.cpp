#include "drawing/symbols.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace selvage::drawing {
namespace {

Box extent(const std::vector<Shape>& shapes) {
    Box box{1e9, 1e9, -1e9, -1e9};
    for (const Shape& shape : shapes)
        for (const auto& ring : shape.rings)
            for (const Point& p : ring) box = united(box, {p.x, p.y, p.x, p.y});
    return box;
}

const SymbolLook filled{LineLook{0.18, {26, 26, 26}, {}, false}, FillLook{{240, 158, 66}, {}}, 0.0};

TEST(Symbols, EachIsAsWideAsAsked) {
    for (const std::string& name : symbol_names()) {
        if (name == "target") continue;  // its ticks stand out of the ring
        const Box box = extent(symbol(name, {10.0, 20.0}, 3.0, filled));
        EXPECT_NEAR(box.width(), 3.0, 0.01) << name;
        EXPECT_NEAR((box.left + box.right) / 2.0, 10.0, 1e-9) << name;
    }
}

TEST(Symbols, NoTwoHaveTheSameOutline) {
    for (const std::string& a : symbol_names())
        for (const std::string& b : symbol_names()) {
            if (a >= b) continue;
            const auto first = symbol(a, {0.0, 0.0}, 3.0, filled), second = symbol(b, {0.0, 0.0}, 3.0, filled);
            bool same = first.size() == second.size();
            for (std::size_t i = 0; same && i < first.size(); ++i)
                same = first[i].rings.size() == second[i].rings.size() && first[i].rings[0].size() == second[i].rings[0].size() &&
                       first[i].rings[0][0].y == second[i].rings[0][0].y;
            EXPECT_FALSE(same) << a << ' ' << b;
        }
}

TEST(Symbols, TheHaloIsPaintedFirstAndStandsOut) {
    SymbolLook haloed = filled;
    haloed.halo_mm = 0.35;
    const auto shapes = symbol("diamond", {0.0, 0.0}, 3.5, haloed);
    ASSERT_EQ(shapes.size(), 2u);
    EXPECT_EQ(shapes[0].line->colour, (Colour{255, 255, 255}));
    EXPECT_NEAR(shapes[0].line->width_mm, 0.18 + 0.7, 1e-12);
    EXPECT_FALSE(shapes[0].fill);
}

TEST(Symbols, AnArrowPointsWhereItIsTold) {
    const Shape arrow = arrow_head({5.0, 5.0}, 0.0, 3.0, 2.0, {});
    EXPECT_DOUBLE_EQ(arrow.rings[0][0].y, 5.0);
    EXPECT_DOUBLE_EQ(arrow.rings[0][1].y, 3.0);
}

}  // namespace
}  // namespace selvage::drawing
