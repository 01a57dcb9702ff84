#include "sheets/methods_sheet.h"

#include "sheets/cautions.h"
#include "sheets/changed_results.h"
#include "sheets/methods_words.h"

#include <gtest/gtest.h>

namespace selvage::sheets {
namespace {

std::string joined(const std::vector<TextSection>& sections) {
    std::string words;
    for (const TextSection& section : sections) {
        words += section.heading + " ";
        for (const std::string& paragraph : section.paragraphs) words += paragraph + " ";
    }
    return words;
}

TEST(Methods, SaysTheSettingsOfThisRun) {
    ChangedResults changed;
    changed.project.survey_errors.usual.azimuth_station = base::Angle::degrees(1.23);
    for (auto& [method, sizes] : changed.project.survey_errors.by_method) sizes.azimuth_station = base::Angle::degrees(1.23);
    changed.project.plan.tail = 17.0;
    const std::string data = joined(data_methods(changed.results(), made_up_pack().run));
    EXPECT_TRUE(holds(data, "1.23° a station"));
    EXPECT_TRUE(holds(data, "declination"));
    const std::string model = joined(model_methods(changed.results()));
    EXPECT_TRUE(holds(model, "17 m of foot wall"));
    for (const veins::Vein& vein : changed.veins) EXPECT_TRUE(holds(model, vein.name() + ": ")) << vein.name();
}

TEST(Methods, SaysWhatIsAssumedAndNothingThatIsGiven) {
    ChangedResults changed;
    changed.project.crs.clear();
    EXPECT_TRUE(holds(joined({assumptions(changed.results())}), "coordinate system is not stated"));
    changed.project.crs = "EPSG:26911";
    changed.project.north.surveys = settings::NorthReference::magnetic;
    changed.project.north.convergence_given = false;
    const std::string words = joined({assumptions(changed.results())});
    EXPECT_FALSE(holds(words, "coordinate system is not stated"));
    EXPECT_TRUE(holds(words, "Grid convergence: taken as 0"));
}

// A void that was drilled into is a working that is known, map or no map.
TEST(Methods, AVoidInTheTablesIsToldWithTheOldWorkings) {
    ChangedResults changed;
    changed.site.workings.clear();
    EXPECT_TRUE(holds(joined({assumptions(changed.results())}), "No map of old workings was given: that is not to say"));
    tables::DrillingEvent dropped;
    dropped.hole = changed.records.collars.front().hole;
    dropped.kind = "void";
    dropped.depth = 61.0;
    dropped.to = 63.5;
    dropped.note = "rods dropped";
    changed.records.drilling.push_back(dropped);
    const std::string told = dropped.hole + " ran into a void at 61.0 to 63.5 m (rods dropped)";
    const Results results = changed.results();
    EXPECT_TRUE(holds(joined({assumptions(results)}), told));
    EXPECT_TRUE(holds(joined({cautions_in_full(results, made_up_pack().run, made_up_pack().style.content)}), told));
    std::string card;
    for (const std::string& caution : drill_site_cautions(dropped.hole, results)) card += caution;
    EXPECT_TRUE(holds(card, told));
}

TEST(Methods, HoldsTheCautionsInFull) {
    const MadeUpPack& pack = made_up_pack();
    const TextSection cautions = cautions_in_full(pack.results(), pack.run, pack.style.content);
    const std::string words = joined({cautions});
    EXPECT_TRUE(holds(words, holes_ahead_caution(pack.results())));
    EXPECT_TRUE(holds(words, "qualified or competent person"));
    EXPECT_TRUE(holds(words, "no substitute for their professional judgement"));
    for (const std::string& caution : safety_cautions("This pack", pack.results())) EXPECT_TRUE(holds(words, caution));
    // The card's are the same, its own name put in.
    EXPECT_EQ(drill_site_cautions(pack.results().paths.front().hole, pack.results()).size(),
              safety_cautions("This card", pack.results()).size() + 1);
}

TEST(MethodsSheet, SetsEveryWordOnAtMostTwoPages) {
    const MadeUpPack& pack = made_up_pack();
    const std::vector<drawing::Sheet> sheets = methods_sheet(pack.results(), pack.run, pack.tools());
    EXPECT_LE(sheets.size(), 2u);
    std::string set = all_words(sheets);
    for (const TextSection& section : model_methods(pack.results())) EXPECT_TRUE(holds(set, section.heading));
    EXPECT_TRUE(holds(set, "Cautions"));
}

TEST(MethodsSheet, SpeaksOfAProjectWithoutVeinsAssaysOrCoreAngles) {
    ChangedResults changed;
    changed.forget_veins();
    changed.orientations.clear();
    changed.records.analytes.clear();
    changed.records.assays.clear();
    const std::string words =
        joined(data_methods(changed.results(), made_up_pack().run)) + joined(model_methods(changed.results()));
    EXPECT_TRUE(holds(words, "No vein could be modelled"));
    EXPECT_TRUE(holds(words, "No core angle is given"));
    EXPECT_TRUE(holds(words, "Nothing is assayed for"));
}

// The sum before its parts: 11.40 - (-0.62) = 12.02, 10.00 - 12.50 = -2.50.
TEST(Methods, SaysTheSumThatTurnsAReadingIntoAGridAzimuth) {
    ChangedResults changed;
    changed.project.north.surveys = settings::NorthReference::magnetic;
    const auto words = [&](double declination, double convergence) {
        changed.project.north.declination = base::Angle::degrees(declination);
        changed.project.north.grid_convergence = base::Angle::degrees(convergence);
        return joined(data_methods(changed.results(), made_up_pack().run));
    };
    EXPECT_TRUE(holds(words(11.4, -0.62), "grid azimuth = magnetic reading + 12.02° (declination 11.40° less"));
    EXPECT_TRUE(holds(words(10.0, 12.5), "grid azimuth = magnetic reading - 2.50° (declination"));
    changed.project.north.surveys = settings::NorthReference::true_north;
    EXPECT_TRUE(holds(words(0.0, -0.62), "grid azimuth = true reading + 0.62°"));
}

TEST(Methods, SaysHowAVeinSwellsInPlainWords) {
    const std::string model = joined(model_methods(made_up_pack().results()));
    EXPECT_FALSE(holds(model, "(sd)"));
    EXPECT_TRUE(holds(model, "leans off its mean plane by about"));
}

}  // namespace
}  // namespace selvage::sheets
