#include "sheets/vein_letters.h"

#include "sheets/changed_results.h"
#include "sheets/overview.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace selvage::sheets {
namespace {

using testing::ElementsAre;

TEST(VeinLetters, AreTheShortestStartThatNoOtherNameShares) {
    EXPECT_THAT(vein_letters({"Ouzel", "Merlin"}), ElementsAre("O", "M"));
    EXPECT_THAT(vein_letters({"Sorrel", "Sable", "Tinker"}), ElementsAre("So", "Sa", "T"));
    EXPECT_THAT(vein_letters({"North", "North 2"}), ElementsAre("North", "North 2"));
    EXPECT_THAT(vein_letters({"Élan", "Èze"}), ElementsAre("É", "È"));
    EXPECT_TRUE(vein_letters({}).empty());
}

TEST(VeinLetters, StandOnTheirOwnVeinOffWhatIsDrawn) {
    VisibleSurface surface({0.0, 0.0, 100.0, 100.0}, 1.0);
    const auto add = [&](double left, double right, int item) {
        const auto corner = [](double x, double y) { return SeenPoint{{x, y}, 0.0, 0.0}; };
        const auto is_item = [item](double) { return item; };
        surface.add({corner(left, 20), corner(right, 20), corner(right, 80)}, is_item);
        surface.add({corner(left, 20), corner(right, 80), corner(left, 80)}, is_item);
    };
    add(10.0, 45.0, 0);
    add(55.0, 90.0, 1);
    drawing::Obstacles obstacles;
    obstacles.boxes.push_back({10.0, 20.0, 45.0, 60.0});
    const Marks marks = letters_on_bodies(
        {"A", "B"}, surface, [](int item) { return item < 0 ? std::size_t{2} : static_cast<std::size_t>(item); }, obstacles,
        made_up_pack().tools());
    std::vector<drawing::Text> texts;
    for (const Mark& mark : marks)
        if (const auto* text = std::get_if<drawing::Text>(&mark)) texts.push_back(*text);
    ASSERT_EQ(texts.size(), 2u);
    EXPECT_EQ(texts[0].text, "A");
    EXPECT_EQ(surface.item_at(texts[0].at), 0);
    EXPECT_GT(texts[0].at.y, 60.0);
    EXPECT_EQ(surface.item_at(texts[1].at), 1);
    EXPECT_EQ(obstacles.boxes.size(), 3u);
}

TEST(Overview, CountsHitsSeenAndHiddenApartAndNamesNoFaultThatItDoesNotDraw) {
    ChangedResults changed;
    const MadeUpPack& pack = made_up_pack();
    ASSERT_TRUE(changed.events.faults.empty());
    const std::string all = all_words(overview(changed.results(), pack.run, grade_classes(changed.results()), pack.tools()));
    EXPECT_TRUE(holds(all, "veins and holes, seen at a slant"));
    EXPECT_TRUE(holds(all, "hidden "));
    EXPECT_TRUE(holds(all, "Ouzel vein (O)"));
}

}  // namespace
}  // namespace selvage::sheets
