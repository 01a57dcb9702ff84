#include "sheets/thumbnail_names.h"
#include "sheets/changed_results.h"
#include "sheets/scale_bar.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>

namespace selvage::sheets {
namespace {

// Two misses and a hit; 1 m a millimetre.
struct TwoMisses {
    veins::NoVein first, second;
    intercepts::Intercept hit;
    LongSectionContent content;
    PaperFrame frame{{0.0, 0.0, 120.0, 80.0}, {0.0, 0.0}, 1.0};
    explicit TwoMisses(double apart) {
        first.hole = "A-1W1";
        second.hole = "A-1";
        hit.hole = "A-2";
        content.misses = {{&first, {0.0, 0.0}}, {&second, {apart, 0.0}}};
        content.hits.emplace_back();
        content.hits.back().hit = &hit;
        content.hits.back().place = {apart + 5.0, 0.0};
    }
};

TEST(ThumbnailNames, SignsOnOneAnotherShareALabel) {
    const Tools tools = made_up_pack().tools();
    const TwoMisses close(0.8), apart(6.0);
    const std::vector<drawing::Label> one = named_round_ranks(close.content, close.frame, 1.0, tools);
    ASSERT_EQ(one.size(), 1u);
    EXPECT_EQ(one.front().lines.front().text, "A-1W1, A-1");
    EXPECT_NEAR(one.front().at.x, 60.4, 1e-9);
    const SetNames set = set_names(one, {}, close.content, close.frame, tools);
    EXPECT_EQ(set.named, (std::set<std::string>{"A-1", "A-1W1"}));
    EXPECT_EQ(named_round_ranks(apart.content, apart.frame, 1.0, tools).size(), 2u);
}

TEST(ThumbnailNames, KeepOffTheSignsThatHaveNoName) {
    const TwoMisses made(6.0);
    const std::vector<drawing::Label> names = named_holes(made.content, made.frame, {"A-1"}, made_up_pack().tools());
    ASSERT_EQ(names.size(), 1u);
    EXPECT_EQ(names.front().not_at.size(), 2u) << "the other miss and the hit";
}

}  // namespace
}  // namespace selvage::sheets
