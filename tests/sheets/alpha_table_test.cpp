#include "sheets/alpha_table.h"

#include "base/random.h"
#include "sheets/changed_results.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

namespace selvage::sheets {
namespace {

veins::AlphaTest test_of(const std::string& hole, double depth, double alpha, double predicted, double sd) {
    return {hole, "Ouzel", depth, base::Angle::degrees(alpha), base::Angle::degrees(predicted), base::Angle::degrees(sd)};
}

// Two walls a hit, each off by its own error of 4 degrees, and the hit's prediction by one of 2 that they share.
std::vector<veins::AlphaTest> drawn_tests(std::size_t hits) {
    base::RandomStream stream("alpha of two walls", {3});
    std::vector<veins::AlphaTest> tests;
    for (std::size_t i = 0; i < hits; ++i) {
        const double predicted = 60.0 + 2.0 * stream.normal();
        for (const double depth : {100.0, 101.0})
            tests.push_back(test_of("H" + std::to_string(i), depth, 60.0 + 4.0 * stream.normal(), predicted, 2.0));
    }
    return tests;
}

TEST(AlphaScatter, IsThatOfOneContactWhateverTheModelSays) {
    const AlphaScatter scatter = alpha_scatter(drawn_tests(2000));
    EXPECT_EQ(scatter.pairs, 2000u);
    EXPECT_FALSE(scatter.is_usual);
    EXPECT_NEAR(scatter.sd.degrees(), 4.0, 0.2);  // its own error: 4 / sqrt(2 x 2000) = 0.06
}

TEST(AlphaScatter, WithItTheDifferencesAreAsLargeAsTheyShouldBe) {
    const std::vector<veins::AlphaTest> tests = drawn_tests(2000);
    const AlphaScatter scatter = alpha_scatter(tests);
    double squares = 0.0;
    for (const veins::AlphaTest& test : tests) squares += std::pow(standardized(test, scatter), 2);
    EXPECT_NEAR(squares / static_cast<double>(tests.size()), 1.0, 0.08);
}

TEST(AlphaScatter, OfFewHitsOrOfContactsFarApartIsTheUsualOne) {
    EXPECT_TRUE(alpha_scatter(drawn_tests(4)).is_usual);
    std::vector<veins::AlphaTest> apart;
    for (int i = 0; i < 20; ++i) apart.push_back(test_of("H", 50.0 * i, 60.0 + i % 3, 60.0, 1.0));
    EXPECT_EQ(alpha_scatter(apart).pairs, 0u);
    EXPECT_TRUE(alpha_scatter(apart).is_usual);
}

TEST(AlphaTable, CountsEveryContactOfEveryVein) {
    const MadeUpPack& pack = made_up_pack();
    const TypesetTable table = alpha_table(pack.results());
    std::size_t counted = 0;
    for (const TableRow& row : table.rows) counted += std::stoul(row.cells[1].text);
    EXPECT_EQ(counted, pack.run_results.alpha_tests.size());
    EXPECT_TRUE(holds(table.end_words, "the scatter of one contact"));
}

}  // namespace
}  // namespace selvage::sheets
