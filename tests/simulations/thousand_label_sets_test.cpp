#include "base/parallel.h"
#include "support/label_cases.h"
#include "support/label_faults.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

// A thousand invented sets of points of five kinds through the placer, each twice.
namespace selvage {
namespace {

bool same(const drawing::PlacedLabel& a, const drawing::PlacedLabel& b) {
    const auto same_box = [](const drawing::Box& one, const drawing::Box& other) {
        return one.left == other.left && one.bottom == other.bottom && one.right == other.right && one.top == other.top;
    };
    if (a.placing != b.placing || a.number != b.number || a.anchor != b.anchor || a.leader.size() != b.leader.size())
        return false;
    for (std::size_t i = 0; i < a.leader.size(); ++i)
        if (a.leader[i].x != b.leader[i].x || a.leader[i].y != b.leader[i].y) return false;
    return same_box(a.box, b.box);
}

TEST(ThousandLabelSets, NothingOverlapsNoLeadersCrossNoneIsLostAndTheResultRepeats) {
    constexpr std::size_t sets = 1000;
    const drawing::FontMetrics fonts = made_up::plain_metrics();
    struct Outcome {
        std::string faults;
        bool repeats = true;
        drawing::LabelFigures figures;
    };
    std::vector<Outcome> outcomes(sets);
    base::parallel_for(sets, [&](std::size_t i) {
        const made_up::LabelCase made = made_up::any_labels(i);
        const auto place = [&] { return place_labels(made.labels, made.obstacles, made_up::label_rules(), fonts); };
        const drawing::PlacedLabels first = place(), second = place();
        outcomes[i] = {faults_of(made, first), true, first.figures};
        for (std::size_t n = 0; n < first.labels.size(); ++n)
            outcomes[i].repeats = outcomes[i].repeats && same(first.labels[n], second.labels[n]);
    });
    std::size_t wanted = 0, on_leaders = 0, listed = 0;
    for (std::size_t i = 0; i < sets; ++i) {
        EXPECT_EQ(outcomes[i].faults, "") << "set " << i;
        EXPECT_TRUE(outcomes[i].repeats) << "set " << i;
        wanted += outcomes[i].figures.wanted;
        on_leaders += outcomes[i].figures.on_leaders;
        listed += outcomes[i].figures.listed;
    }
    // The sets are hard enough to need every way of placing.
    EXPECT_GT(wanted, 20000U);
    EXPECT_GT(on_leaders, 2000U);
    EXPECT_GT(listed, 500U);
}

}  // namespace
}  // namespace selvage
