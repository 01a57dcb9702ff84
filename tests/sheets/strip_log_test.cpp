#include "sheets/strip_log.h"

#include "sheets/changed_results.h"
#include "sheets/label_text.h"
#include "sheets/log_columns.h"
#include "sheets/paper_choice.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <string>
#include <utility>

namespace selvage::sheets {
namespace {

const Box area{24.0, 29.0, 330.0, 262.0};

std::vector<LogStretch> of(const LogLayout& layout, bool windows) {
    std::vector<LogStretch> found;
    for (const LogStretch& stretch : layout.stretches)
        if (stretch.is_window == windows) found.push_back(stretch);
    return found;
}

TEST(LogLayout, StripsShowTheWholeHoleOnceAtAScaleOfTheLadder) {
    for (const double end : {30.0, 110.0, 111.0, 277.5, 430.0, 800.0, 1500.0}) {
        const LogLayout layout = log_layout(0.0, end, {{20.0, 24.0}}, area, {});
        const std::vector<double>& ladder = scale_ladder(false);
        EXPECT_NE(std::find(ladder.begin(), ladder.end(), layout.strip_scale), ladder.end());
        const std::vector<LogStretch> strips = of(layout, false);
        EXPECT_LE(strips.size(), 4u);
        double depth = 0.0;
        for (const LogStretch& strip : strips) {
            EXPECT_NEAR(strip.from, depth, 1e-9);
            EXPECT_NEAR(strip.box.height() * layout.strip_scale / 1000.0, strip.to - strip.from, 1e-9);
            depth = strip.to;
        }
        EXPECT_NEAR(depth, end, 1e-9);
    }
    EXPECT_EQ(log_layout(0.0, 430.0, {{20.0, 24.0}}, area, {}).strip_scale, 500.0);
    EXPECT_EQ(log_layout(0.0, 800.0, {{20.0, 24.0}}, area, {}).strip_scale, 1000.0);
    EXPECT_EQ(log_layout(0.0, 60.0, {}, area, {}).strip_scale, 200.0);
}

TEST(LogLayout, WindowsShowEveryPickWholeWithoutTouchingAnother) {
    const std::vector<DepthRange> picks{{20.0, 24.0},   {60.0, 80.0},   {100.0, 103.0},
                                        {150.0, 158.0}, {170.0, 181.0}, {200.0, 211.0}};
    const LogLayout layout = log_layout(0.0, 277.5, picks, area, {});
    EXPECT_GT(layout.pages, 1u);
    double shown = 0.0, asked = 0.0;
    for (const DepthRange& pick : picks) asked += pick.to - pick.from;
    for (const LogStretch& window : of(layout, true)) {
        shown += window.to - window.from;
        EXPECT_NEAR(window.box.height() * 0.05, window.to - window.from, 1e-9);
    }
    EXPECT_NEAR(shown, asked, 1e-9);
    for (std::size_t i = 0; i < layout.stretches.size(); ++i) {
        const LogStretch& a = layout.stretches[i];
        EXPECT_GE(a.box.left, area.left - 1e-9);
        EXPECT_LE(a.box.right, area.right + 1e-9);
        EXPECT_GE(a.box.bottom, area.bottom - 1e-9);
        for (std::size_t k = i + 1; k < layout.stretches.size(); ++k)
            EXPECT_FALSE(a.page == layout.stretches[k].page && drawing::overlap(a.box, layout.stretches[k].box));
    }
}

TEST(LogLayout, WindowsThatTouchAreOne) {
    const std::vector<DepthRange> windows =
        windows_round({{50.0, 51.0}, {10.0, 11.0}, {12.5, 13.0}, {99.0, 99.5}}, 2.0, 0.0, 100.0);
    ASSERT_EQ(windows.size(), 3u);
    EXPECT_EQ(windows[0].from, 8.0);
    EXPECT_EQ(windows[0].to, 15.0);
    EXPECT_EQ(windows[2].to, 100.0);
}

TEST(Spread, KeepsOrderAndGapAndMovesNothingThatIsFree) {
    const std::vector<double> apart = spread({10.0, 20.0, 30.0}, 3.0, 0.0, 40.0);
    EXPECT_EQ(apart, (std::vector<double>{10.0, 20.0, 30.0}));
    const std::vector<double> tight = spread({38.0, 38.5, 39.0}, 3.0, 0.0, 40.0);
    for (std::size_t i = 1; i < tight.size(); ++i) EXPECT_GE(tight[i] - tight[i - 1], 3.0 - 1e-9);
    EXPECT_LE(tight.back(), 40.0);
    EXPECT_EQ(spread({1.0, 2.0, 3.0, 4.0}, 3.0, 0.0, 6.0).size(), 3u);
}

TEST(StripLog, StandsOnNoLargerPaperThanADeskHolds) {
    settings::Project project;
    for (const auto& [given, taken] : {std::pair{"A4", "A4"}, {"A3", "A3"}, {"A1", "A3"}, {"559x864", "279x432"}}) {
        project.sheets.paper = given;
        EXPECT_EQ(paper_of(on_desk_paper(project, {}), {}).name, taken);
    }
}

TEST(StripLog, EveryCoredHoleWithAPickHasOneAndActiveHolesComeFirst) {
    const MadeUpPack& pack = made_up_pack();
    std::set<std::string> sheets, holes;
    std::vector<std::string> order;
    for (const drawing::Sheet& sheet : pack.sheets)
        if (sheet.kind == strip_log_kind) {
            sheets.insert(sheet.name);
            order.push_back(sheet.name);
        }
    for (const intercepts::Intercept& hit : pack.run_results.intercepts.met) holes.insert(hit.hole);
    for (const std::string& hole : holes) {
        EXPECT_EQ(sheets.count(hole), 1u) << hole;
        EXPECT_EQ(log_destinations(pack.results()).at(hole), destination_of_sheet(strip_log_kind, hole));
    }
    const std::vector<LoggedHole> logged = logged_holes(pack.results(), pack.run);
    ASSERT_EQ(logged.front().collar->status, tables::HoleStatus::active);
    EXPECT_EQ(order.front(), logged.front().collar->hole);
    EXPECT_EQ(log_destinations(pack.results()).count("no such hole"), 0u);
}

TEST(StripLog, SaysEachPickWithItsLengthAndGradeAndWhatTheOtherHolesSaid) {
    const MadeUpPack& pack = made_up_pack();
    const Results results = pack.results();
    const std::size_t analyte = *tables::leading_analyte(results.records.analytes, results.project.cut_off.analyte);
    for (const LoggedHole& hole : logged_holes(results, pack.run)) {
        const std::vector<std::string> remarks = log_remarks(hole, results);
        for (const intercepts::Intercept* hit : hole.hits)
            EXPECT_TRUE(std::any_of(remarks.begin(), remarks.end(), [&](const std::string& line) {
                return line.find(hit_label(*hit, results.records, analyte)) != std::string::npos;
            })) << hole.collar->hole;
        EXPECT_GE(remarks.size(), hole.hits.size() + hole.said.size());
    }
}

// A pick stands in its window at the depth that the window's scale says, in its vein's colour.
TEST(StripLog, APickIsDrawnAtItsDepth) {
    const MadeUpPack& pack = made_up_pack();
    const Results results = pack.results();
    const std::vector<LoggedHole> logged = logged_holes(results, pack.run);
    const auto hole = std::find_if(logged.begin(), logged.end(), [](const LoggedHole& one) {
        return !one.hits.empty() && one.hits.front()->state == tables::PickState::vein && one.hits.front()->length() > 0.2;
    });
    ASSERT_NE(hole, logged.end());
    const intercepts::Intercept& hit = *hole->hits.front();
    LogStretch window{hit.from - 2.0, hit.to + 2.0, true, true, 0, {100.0, 100.0, 100.0 + log_window_width, 100.0}, 0.05};
    window.box.top = 100.0 + (hit.length() + 4.0) / 0.05;
    LogSigns signs;
    const Marks marks = log_stretch(window, *hole, 0, results, signs, pack.tools());
    EXPECT_EQ(signs.picked.size(), 1u);
    std::size_t found = 0;
    for (const Mark& mark : marks) {
        const auto* shape = std::get_if<drawing::Shape>(&mark);
        if (shape == nullptr || !shape->fill || !(shape->fill->colour == pack.style.veins[*signs.picked.begin()])) continue;
        ++found;
        double low = 1e9, high = -1e9;
        for (const Point& point : shape->rings.front()) {
            low = std::min(low, point.y);
            high = std::max(high, point.y);
        }
        EXPECT_NEAR(high, window.box.top - 2.0 / 0.05, 1e-6);
        EXPECT_NEAR(low, window.box.bottom + 2.0 / 0.05, 1e-6);
    }
    EXPECT_EQ(found, 1u);
}

// Core that was looked at for a vein is drawn over its whole length; what the drillers told of stands beside the depths; both
// and the comments of picks are in words in the side list.
TEST(StripLog, ShowsWhatWasLookedAtAndWhatTheDrillersTold) {
    const MadeUpPack& pack = made_up_pack();
    const Results results = pack.results();
    LoggedHole hole = logged_holes(results, pack.run).front();
    const std::string vein = results.veins.front().name();
    const intercepts::NoVeinPick pick{{}, hole.collar->hole, vein, 20.0, 24.0, tables::PickState::absent};
    tables::DrillingEvent loss;
    loss.kind = "water loss";
    loss.note = "half the return";
    loss.depth = 26.0;
    tables::Pick commented;
    commented.vein = vein;
    commented.from = 20.0;
    commented.to = 24.0;
    commented.comment = "gouge only";
    hole.hits.clear();
    hole.not_there = {&pick};
    hole.drilling = {&loss};
    hole.commented = {&commented};
    const LogStretch window{18.0, 28.0, true, true, 0, {100.0, 100.0, 100.0 + log_window_width, 300.0}, 0.05};
    LogSigns signs;
    double low = 1e9, high = -1e9;
    bool named = false;
    for (const Mark& mark : log_stretch(window, hole, 0, results, signs, pack.tools())) {
        if (const auto* text = std::get_if<drawing::Text>(&mark)) named = named || text->text == vein + ", not there";
        const auto* shape = std::get_if<drawing::Shape>(&mark);
        if (shape == nullptr || !shape->line || shape->line->width_mm != pack.style.line("contact_mark").width_mm) continue;
        for (const std::vector<Point>& ring : shape->rings)
            for (const Point& point : ring)
                if (point.x < 125.0) {
                    low = std::min(low, point.y);
                    high = std::max(high, point.y);
                }
    }
    EXPECT_TRUE(named);
    EXPECT_TRUE(signs.not_there && signs.drilling);
    EXPECT_LE(low, window.y(24.0) + 1e-6);
    EXPECT_GE(high, window.y(20.0) - 1e-6);
    std::string all;
    for (const std::string& line : log_remarks(hole, results)) all += line + "|";
    for (const char* words : {"“gouge only”", "water loss, half the return", "looked for at"})
        EXPECT_NE(all.find(words), std::string::npos) << words;
}

// A hole without a vein is told where the others say that it should have been, and why it has none.
TEST(StripLog, SaysWhereAVeinThatWasNotMetShouldHaveBeen) {
    const MadeUpPack& pack = made_up_pack();
    const Results results = pack.results();
    std::size_t told = 0, short_ones = 0;
    for (const LoggedHole& hole : logged_holes(results, pack.run)) {
        std::string all;
        for (const std::string& line : log_remarks(hole, results)) all += line + "|";
        const std::string sheet = all_words(strip_log(hole, results, pack.run, pack.tools()));
        for (const veins::Vein& vein : results.veins)
            for (const veins::NoVein& none : vein.no_vein()) {
                if (none.hole != hole.collar->hole) continue;
                const std::string words = vein.name() + " at " + length_figure(none.depth, results.records.frame);
                const bool is_short = none.reason == veins::NoVeinReason::stopped_short;
                if (is_short && hole.collar->status == tables::HoleStatus::active) {
                    EXPECT_FALSE(holds(all, ": stopped short")) << hole.collar->hole;
                    continue;
                }
                EXPECT_EQ(holds(all, words), none.reason != veins::NoVeinReason::not_judged) << hole.collar->hole;
                if (!none.is_miss() && !is_short) continue;
                EXPECT_TRUE(holds(all, "by the other holes: " + std::string(veins::words_of(none.reason)))) << all;
                if (none.is_miss()) {
                    EXPECT_TRUE(holds(sheet, "worked out afterwards")) << hole.collar->hole;
                    ++told;
                } else
                    ++short_ones;
            }
    }
    EXPECT_GT(told, 0u);
    EXPECT_GT(short_ones, 0u);
}

TEST(StripLog, AStyleWithoutForecastsKeepsThatToItself) {
    const MadeUpPack& pack = made_up_pack();
    const Results results = pack.results();
    drawing::Style style = pack.style;
    style.content.forecasts = false;
    std::size_t missed = 0;
    for (const LoggedHole& hole : logged_holes(results, pack.run)) {
        if (std::none_of(hole.said.begin(), hole.said.end(), [](const SaidDepth& said) { return said.unmet.has_value(); }))
            continue;
        missed += holds(all_words(strip_log(hole, results, pack.run, pack.tools())), "by the other holes:") ? 1 : 0;
        EXPECT_FALSE(holds(all_words(strip_log(hole, results, pack.run, {style, pack.fonts.metrics})), "by the other holes:"));
    }
    EXPECT_GT(missed, 0u);
}

// Rows as a table has them, in any order: the figures stand down the window as the samples do.
TEST(StripLog, GradesStandInTheOrderOfDepth) {
    const MadeUpPack& pack = made_up_pack();
    const Results results = pack.results();
    std::vector<LoggedHole> logged = logged_holes(results, pack.run);
    const auto hole = std::find_if(logged.begin(), logged.end(), [](const LoggedHole& one) { return one.assays.size() > 4; });
    ASSERT_NE(hole, logged.end());
    const double from = *hole->assays.front()->from, to = std::min(*hole->assays.back()->to, from + 8.0);
    const LogStretch window{from, to, true, true, 0, {100.0, 100.0, 100.0 + log_window_width, 100.0 + (to - from) / 0.05}, 0.05};
    const auto figures = [&] {
        LogSigns signs;
        std::vector<std::pair<double, std::string>> found;
        for (const Mark& mark : log_stretch(window, *hole, 0, results, signs, pack.tools()))
            if (const auto* text = std::get_if<drawing::Text>(&mark); text != nullptr && text->at.x > window.box.right - 10.0)
                found.emplace_back(text->at.y, text->text);
        std::sort(found.begin(), found.end());
        return found;
    };
    const auto in_order = figures();
    std::reverse(hole->assays.begin(), hole->assays.end());
    EXPECT_EQ(figures(), in_order);
    EXPECT_GT(in_order.size(), 3u);
}

TEST(StripLog, ChecksOfTheHoleAreListed) {
    const MadeUpPack& pack = made_up_pack();
    static const base::Check check{"made-up", base::Severity::warning, "made up", "nothing"};
    const std::string name = pack.run_results.intercepts.met.front().hole;
    const std::vector<base::Finding> findings{{&check, {"assays", "assays.csv", 7}, name, "over there"},
                                              {&check, {"assays", "assays.csv", 8}, "another", "elsewhere"}};
    RunFacts run = pack.run;
    run.findings = &findings;
    for (const LoggedHole& hole : logged_holes(pack.results(), run)) {
        const std::vector<std::string> remarks = log_remarks(hole, pack.results());
        EXPECT_EQ(!remarks.empty() && remarks.back() == "warning\tassays row 7: over there", hole.collar->hole == name);
    }
}

// A range that the window cuts goes on at that end and at no other; a pick outside its range is told so in words.
TEST(StripLog, MarksWhereARangeGoesOnAndAPickThatMissedIt) {
    const MadeUpPack& pack = made_up_pack();
    const Results results = pack.results();
    const std::vector<LoggedHole> logged = logged_holes(results, pack.run);
    const auto found = std::find_if(logged.begin(), logged.end(), [](const LoggedHole& one) { return !one.hits.empty(); });
    ASSERT_NE(found, logged.end());
    LoggedHole hole = *found;
    const intercepts::Intercept& hit = *hole.hits.front();
    const auto marks_with = [&](double p10, double p90) {
        hole.said = {{hit.vein, (p10 + p90) / 2.0, p10, p90, false, {}}};
        const LogStretch window{hit.from - 2.0, hit.to + 2.0, true, true, 0, {100.0, 100.0, 174.0, 300.0}, 0.05};
        LogSigns signs;
        log_stretch(window, hole, 0, results, signs, pack.tools());
        EXPECT_TRUE(signs.said);
        EXPECT_FALSE(signs.forecast);
        return signs.said_goes_on;
    };
    const auto remarks = [&] {
        std::string all;
        for (const std::string& line : log_remarks(hole, results)) all += line + "|";
        return all;
    };
    EXPECT_FALSE(marks_with(hit.from - 1.0, hit.to + 1.0));
    EXPECT_FALSE(holds(remarks(), "that range"));
    EXPECT_TRUE(marks_with(hit.to + 0.5, hit.to + 9.0));
    EXPECT_TRUE(holds(remarks(), ", above that range"));
    EXPECT_TRUE(marks_with(hit.from - 9.0, hit.from - 0.5));
    EXPECT_TRUE(holds(remarks(), ", below that range"));
}

// The axes over the columns: the core's share and the tenfolds of the bars, each over its line.
TEST(StripLog, HasFiguresOverItsAxes) {
    const MadeUpPack& pack = made_up_pack();
    const Results results = pack.results();
    const LoggedHole hole = logged_holes(results, pack.run).front();
    const LogStretch window{0.0, 5.0, true, true, 0, {100.0, 100.0, 100.0 + log_window_width, 200.0}, 0.05};
    LogSigns signs;
    std::set<std::string> over;
    bool log = false;
    for (const Mark& mark : log_stretch(window, hole, 0, results, signs, pack.tools()))
        if (const auto* text = std::get_if<drawing::Text>(&mark); text != nullptr && text->at.y > window.box.top) {
            over.insert(text->text);
            log = log || holds(text->text, ", log");
        }
    for (const char* figure : {"0", "100", "10"}) EXPECT_EQ(over.count(figure), 1u) << figure;
    EXPECT_TRUE(log);
}

// A hole that goes on is drilled up to the run's date, whatever day a reader has.
TEST(StripLog, SaysTheRunsDateOfAHoleThatGoesOn) {
    const MadeUpPack& pack = made_up_pack();
    LoggedHole hole = logged_holes(pack.results(), pack.run).front();
    ASSERT_EQ(hole.collar->status, tables::HoleStatus::active);
    tables::Collar collar = *hole.collar;
    collar.date_started = "2026-11-09";
    collar.date_finished.clear();
    hole.collar = &collar;
    const auto facts = [&](const std::string& date) { return log_facts(hole, pack.results(), date).back(); };
    EXPECT_TRUE(holds(facts("2026-11-16"), "drilled 2026-11-09 to 2026-11-16, going on"));
    EXPECT_TRUE(holds(facts(""), "drilled 2026-11-09 on"));
    collar.status = tables::HoleStatus::done;
    EXPECT_TRUE(holds(facts("2026-11-16"), "drilled 2026-11-09 to ?"));
}

std::vector<std::string> words_in(const Marks& marks) {
    std::vector<std::string> words;
    for (const Mark& mark : marks)
        if (const auto* text = std::get_if<drawing::Text>(&mark)) words.push_back(text->text);
    return words;
}

// A miss has its cross, and a pick that an error leaves out its open outline, both in words; a fault has bars at its ends.
TEST(StripLog, DrawsMissesAndPicksLeftOutInTheVeinColumn) {
    const MadeUpPack& pack = made_up_pack();
    const Results results = pack.results();
    const LoggedHole any = logged_holes(results, pack.run).front();
    LoggedHole hole;
    hole.path = any.path;
    hole.collar = any.collar;
    hole.said = {{"Ouzel", 20.0, 18.0, 22.0, false, veins::NoVeinReason::not_logged, true}};
    const base::Check twice{"vein-met-twice", base::Severity::error, "Twice.", "Tell them apart."};
    const base::Finding why{&twice, {"picks", "picks.csv", 2}, hole.collar->hole, "left out"};
    hole.left_out = {{hole.collar->hole, "Merlin", 30.0, 32.0, &why}};
    const LogStretch window{10.0, 40.0, true, true, 0, {100.0, 100.0, 100.0 + log_window_width, 250.0}, 0.2};
    LogSigns signs;
    const std::vector<std::string> words = words_in(log_stretch(window, hole, 0, results, signs, pack.tools()));
    EXPECT_TRUE(signs.missed);
    EXPECT_TRUE(signs.left_out);
    EXPECT_EQ(std::count(words.begin(), words.end(), "Ouzel: no vein"), 1);
    EXPECT_EQ(std::count(words.begin(), words.end(), "Merlin, left out: error"), 1);
    EXPECT_EQ(picked_ranges(hole).size(), 1u);
    const std::vector<std::string> remarks = log_remarks(hole, results);
    EXPECT_TRUE(std::any_of(remarks.begin(), remarks.end(),
                            [](const std::string& line) { return holds(line, "picked at 30.00 to 32.00 m, left out"); }));
    hole.said.front().missed = false;
    signs = {};
    log_stretch(window, hole, 0, results, signs, pack.tools());
    EXPECT_FALSE(signs.missed);
    EXPECT_EQ(fault_bars({0.0, 0.0}, {2.0, 0.0}, {-5.0, -5.0, 5.0, 5.0}, pack.tools()).size(), 2u);
}

// Core in which a vein was looked for in vain takes no page of its own.
TEST(StripLog, NoPageIsSpentOnCoreWithoutTheVein) {
    const MadeUpPack& pack = made_up_pack();
    const Results results = pack.results();
    LoggedHole hole = logged_holes(results, pack.run).back();
    intercepts::NoVeinPick pick;
    pick.hole = hole.collar->hole;
    pick.vein = "Ouzel";
    pick.state = tables::PickState::absent;
    pick.from = hole.path->start_depth + 1.0;
    pick.to = std::min(hole.path->drilled_depth, pick.from + 60.0);
    hole.not_there.clear();
    const std::size_t pages = strip_log(hole, results, pack.run, pack.tools()).size();
    hole.not_there = {&pick};
    EXPECT_EQ(strip_log(hole, results, pack.run, pack.tools()).size(), pages);
}

}  // namespace
}  // namespace selvage::sheets
