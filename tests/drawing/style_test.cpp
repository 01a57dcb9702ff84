#include "drawing/style.h"

#include "drawing/sheet.h"
#include "drawing/style_roles.h"

#include <gtest/gtest.h>

#include <set>

namespace selvage::drawing {
namespace {

TEST(Style, ARoleGivesTheLookOfItsName) {
    Style style;
    style.texts["title"] = {14.0, FontFace::bold, {1, 2, 3}};
    style.sizes_mm["ring"] = 2.5;
    EXPECT_DOUBLE_EQ(style.text("title").size_pt, 14.0);
    EXPECT_DOUBLE_EQ(style.size_mm("ring"), 2.5);
}

TEST(StyleRoles, NoNameStandsTwiceInOneKind) {
    std::set<std::pair<int, std::string>> seen;
    for (const StyleRole& role : style_roles()) {
        EXPECT_TRUE(seen.insert({static_cast<int>(role.kind), role.name}).second) << role.name;
        EXPECT_GT(std::string(role.meaning).size(), 3u);
    }
    EXPECT_EQ(role_names(RoleKind::text).size() + role_names(RoleKind::line).size() + role_names(RoleKind::colour).size() +
                  role_names(RoleKind::size).size(),
              style_roles().size());
}

TEST(Sheet, BoxesThatOnlyShareAnEdgeDoNotOverlap) {
    EXPECT_FALSE(overlap({0.0, 0.0, 1.0, 1.0}, {1.0, 0.0, 2.0, 1.0}));
    EXPECT_TRUE(overlap({0.0, 0.0, 1.0, 1.0}, {0.9, 0.9, 2.0, 2.0}));
    EXPECT_DOUBLE_EQ(united({0.0, 0.0, 1.0, 1.0}, {2.0, 2.0, 3.0, 3.0}).width(), 3.0);
    EXPECT_DOUBLE_EQ(grown({0.0, 0.0, 1.0, 1.0}, 0.5).height(), 2.0);
}

}  // namespace
}  // namespace selvage::drawing
