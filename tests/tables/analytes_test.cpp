#include "tables/analytes.h"
#include "support/project_tables.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace selvage::tables {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

AnalyteSource source_with_limits(std::vector<double> limits, double factor = 1.0, double grams_per_tonne = 1.0) {
    AnalyteSource source;
    source.factor = factor;
    source.grams_per_tonne = grams_per_tonne;
    source.limits = std::move(limits);
    return source;
}

TEST(AnalyteOf, ReadsElementAndUnit) {
    const AnalyteName silver = *analyte_of("ag_gpt");
    EXPECT_EQ(silver.element, "Ag");
    EXPECT_EQ(silver.unit, "g/t");
    EXPECT_EQ(analyte_of("ag_og_gpt")->element, "Ag");
    EXPECT_EQ(analyte_of("pb_four_acid_pct")->unit, "%");
    EXPECT_EQ(analyte_of("s_pct")->element, "S");
    EXPECT_EQ(analyte_of("au_oz_per_short_ton")->unit, "oz/st");
    EXPECT_EQ(analyte_of("au_fire_oz_per_tonne")->unit, "oz/t");
    for (const char* name :
         {"ag", "gpt", "_gpt", "ag_", "rock_pct", "recovery_pct", "ag_kg", "aggpt", "pct", "oz_per_tonne", "xx_ppm"})
        EXPECT_FALSE(analyte_of(name)) << name;
}

// "Appendix VII Conversion factors" (scribd 61347690) and calculator.academy, grams per ton: 1 troy oz per short ton = 34.2857
// g/t, exactly 240/7; 31.1034768 g a troy ounce; 1 % = 10 000 ppm; 1 g/t = 1 ppm; 1 ppb = 0.001 g/t.
TEST(AnalyteOf, KnowsTheUnits) {
    EXPECT_NEAR(analyte_of("ag_oz_per_short_ton")->grams_per_tonne, 240.0 / 7.0, 1e-12);
    EXPECT_NEAR(analyte_of("ag_oz_per_short_ton")->grams_per_tonne, 34.2857, 5e-5);
    EXPECT_EQ(analyte_of("ag_oz_per_tonne")->grams_per_tonne, 31.1034768);
    EXPECT_EQ(analyte_of("ag_pct")->grams_per_tonne, 1e4);
    EXPECT_EQ(analyte_of("ag_ppm")->grams_per_tonne, analyte_of("ag_gpt")->grams_per_tonne);
    EXPECT_EQ(analyte_of("ag_ppb")->grams_per_tonne, 0.001);
}

TEST(ReadAssay, TakesNumbers) {
    const AssayCell cell = read_assay(" 12.5 ", source_with_limits({}), 0.5, '.');
    EXPECT_EQ(cell.value.value, 12.5);
    EXPECT_FALSE(cell.value.below_detection || cell.value.over_limit);
    EXPECT_EQ(read_assay("0", source_with_limits({}), 0.5, '.').value.value, 0.0);
    EXPECT_EQ(read_assay("1,25", source_with_limits({}), 0.5, ',').value.value, 1.25);
}

// Half the limit is the usual substitute: ITRC, Incremental sampling methodology ISM-1, 4.2.3. The bounds are nought and the
// limit.
TEST(ReadAssay, TakesHalfTheLimitForWhatIsBelowIt) {
    for (const double share : {0.0, 0.5, 1.0}) {
        const AssayCell cell = read_assay("<0.5", source_with_limits({0.5}), share, '.');
        EXPECT_EQ(cell.value.value, 0.5 * share);
        EXPECT_TRUE(cell.value.below_detection);
    }
    EXPECT_EQ(read_assay("< 0,5", source_with_limits({0.5}), 0.5, ',').value.value, 0.25);
}

TEST(ReadAssay, TakesANegativeNumberForALimitThatItsColumnHas) {
    const AssayCell below = read_assay("-0.5", source_with_limits({0.1, 0.5}), 0.5, '.');
    EXPECT_EQ(below.value.value, 0.25);
    EXPECT_TRUE(below.value.below_detection);
    const AssayCell odd = read_assay("-7.3", source_with_limits({0.1, 0.5}), 0.5, '.');
    EXPECT_FALSE(odd.value.value);
    EXPECT_THAT(odd.problem, HasSubstr("7.3 is no detection limit"));
}

TEST(ReadAssay, TakesTheLimitForWhatIsOverIt) {
    const AssayCell cell = read_assay(">1500", source_with_limits({}), 0.5, '.');
    EXPECT_EQ(cell.value.value, 1500.0);
    EXPECT_TRUE(cell.value.over_limit);
}

TEST(ReadAssay, KnowsTheWordsForNotAssayed) {
    for (const char* word : {"", "  ", "-999", "-999.0", "NS", "ns", "n/a", "N/A", "IS", "LNR", " lnr "}) {
        const AssayCell cell = read_assay(word, source_with_limits({}), 0.5, '.');
        EXPECT_FALSE(cell.value.value) << word;
        EXPECT_THAT(cell.problem, IsEmpty()) << word;
    }
}

TEST(ReadAssay, SaysWhatItCannotUnderstand) {
    for (const char* word : {"abc", "1.2.3", "<", ">", "<x", "< -1", ">-5", "12 g", "1,5", "nan", "inf", "--"}) {
        const AssayCell cell = read_assay(word, source_with_limits({}), 0.5, '.');
        EXPECT_FALSE(cell.value.value) << word;
        EXPECT_FALSE(cell.problem.empty()) << word;
    }
    EXPECT_FALSE(read_assay("101", source_with_limits({}, 1.0, 1e4), 0.5, '.').problem.empty()) << "over 100 %";
    EXPECT_TRUE(read_assay("100", source_with_limits({}, 1.0, 1e4), 0.5, '.').problem.empty());
}

TEST(ReadAssay, GivesTheUnitOfTheAnalyte) {
    EXPECT_NEAR(*read_assay("1", source_with_limits({}, 240.0 / 7.0), 0.5, '.').value.value, 34.285714286, 1e-9);
    EXPECT_NEAR(*read_assay("<0.7", source_with_limits({0.7}, 240.0 / 7.0), 0.5, '.').value.value, 12.0, 1e-12);
}

TEST(BetterOf, PrefersTheFirstThatIsAssayedAndNotOverItsLimit) {
    const AssayValue none, plain{10.0, false, false}, other{20.0, false, false}, over{100.0, false, true},
        higher{1500.0, false, true};
    EXPECT_EQ(better_of(plain, other).value, 10.0);
    EXPECT_EQ(better_of(none, other).value, 20.0);
    EXPECT_EQ(better_of(over, other).value, 20.0);
    EXPECT_EQ(better_of(over, none).value, 100.0);
    EXPECT_EQ(better_of(over, higher).value, 1500.0);
    EXPECT_EQ(better_of(higher, over).value, 1500.0);
    EXPECT_FALSE(better_of(none, none).value);
}

}  // namespace
}  // namespace selvage::tables
