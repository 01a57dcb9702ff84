#include "sheets/drill_site_card.h"

#include "base/text.h"
#include "drawing/clipping.h"
#include "sheets/call_and_stop.h"
#include "sheets/card_depth_dangers.h"
#include "sheets/card_depth_marks.h"
#include "sheets/card_page.h"
#include "sheets/changed_results.h"
#include "sheets/label_text.h"
#include "sheets/own_plane.h"
#include "sheets/symbols.h"
#include "sheets/three_norths.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

namespace selvage::sheets {
namespace {

const drawing::Sheet* sheet_named(const std::string& kind, const std::string& name) {
    for (const drawing::Sheet& sheet : made_up_pack().sheets)
        if (sheet.kind == kind && sheet.name == name) return &sheet;
    return nullptr;
}

const drawing::Text* text_with(const drawing::Sheet& sheet, const std::string& words) {
    for (const drawing::Item& item : sheet.items) {
        const auto* text = std::get_if<drawing::Text>(&item.mark);
        if (text != nullptr && text->text.find(words) != std::string::npos) return text;
    }
    return nullptr;
}

const drawing::Text* text_that_is(const drawing::Sheet& sheet, const std::string& words) {
    for (const drawing::Item& item : sheet.items) {
        const auto* text = std::get_if<drawing::Text>(&item.mark);
        if (text != nullptr && text->text == words) return text;
    }
    return nullptr;
}

std::string all_text(const drawing::Sheet& sheet) {
    std::string all;
    for (const drawing::Item& item : sheet.items)
        if (const auto* text = std::get_if<drawing::Text>(&item.mark)) all += text->text + " ";
    return all;
}

// check-values.md has none for the chain: true = grid + convergence and magnetic = true - declination are the contract's
// section 2.
TEST(ThreeNorths, FollowTheContractsSigns) {
    settings::North north;
    north.convergence_given = true;
    north.grid_convergence = base::Angle::degrees(-0.55);
    north.declination = base::Angle::degrees(-12.8);
    const ThreeNorths norths = three_norths(base::Azimuth::degrees(102.45), north);
    EXPECT_NEAR(norths.from_true->degrees(), 101.9, 1e-9);
    EXPECT_NEAR(norths.from_magnetic->degrees(), 114.7, 1e-9);
    EXPECT_EQ(azimuth_figure(norths.from_magnetic), "114.7°");
    EXPECT_NE(norths.words.find("declination 12.80° west"), std::string::npos);
    EXPECT_NE(norths.words.find("0.55° west of true north"), std::string::npos);
}

TEST(ThreeNorths, AreNotGuessedWhereNobodyGaveThem) {
    settings::North north;
    north.declination = base::Angle::degrees(8.0);
    const ThreeNorths no_convergence = three_norths(base::Azimuth::degrees(10.0), north);
    EXPECT_FALSE(no_convergence.from_true);
    EXPECT_FALSE(no_convergence.from_magnetic);
    EXPECT_EQ(azimuth_figure(no_convergence.from_true), "not given");
    north.declination.reset();
    north.convergence_given = true;
    const ThreeNorths no_declination = three_norths(base::Azimuth::degrees(10.0), north);
    EXPECT_TRUE(no_declination.from_true);
    EXPECT_FALSE(no_declination.from_magnetic);
    EXPECT_NE(no_declination.words.find("do not set a compass"), std::string::npos);
}

TEST(ThreeNorths, FiguresStayUnder360) {
    EXPECT_EQ(azimuth_figure(base::Azimuth::degrees(359.97)), "000.0°");
    EXPECT_EQ(azimuth_figure(base::Azimuth::degrees(5.04)), "005.0°");
}

TEST(DrillSiteCard, EveryPlannedAndActiveHoleHasBothSidesAndItsOwnSection) {
    const Results results = made_up_pack().results();
    std::size_t holes = 0;
    for (const tables::Collar& collar : results.records.collars) {
        const bool ahead = collar.status == tables::HoleStatus::planned || collar.status == tables::HoleStatus::active;
        EXPECT_EQ(sheet_named(card_kind, collar.hole + " front") != nullptr, ahead) << collar.hole;
        EXPECT_EQ(sheet_named(card_kind, collar.hole + " back") != nullptr, ahead) << collar.hole;
        EXPECT_EQ(sheet_named(hole_section_kind, collar.hole) != nullptr, ahead) << collar.hole;
        EXPECT_EQ(card_destination(results, collar.hole).empty(), !ahead) << collar.hole;
        holes += ahead ? 1 : 0;
    }
    EXPECT_GT(holes, 2u);
}

TEST(DrillSiteCard, IsA4WithTheNumberOfItsSheet) {
    const std::vector<drawing::Sheet>& sheets = made_up_pack().sheets;
    for (std::size_t i = 0; i < sheets.size(); ++i) {
        if (sheets[i].kind != card_kind) continue;
        EXPECT_EQ(sheets[i].width_mm, 210.0);
        EXPECT_EQ(sheets[i].height_mm, 297.0);
        EXPECT_TRUE(text_with(sheets[i], std::to_string(i + 1) + " of " + std::to_string(sheets.size()))) << sheets[i].name;
    }
}

TEST(DrillSiteCard, SaysTheForecastsFiguresAndNoOthers) {
    const Results results = made_up_pack().results();
    const base::MapFrame& map = results.records.frame;
    for (const CardFacts& facts : card_facts(results)) {
        const drawing::Sheet& front = *sheet_named(card_kind, facts.collar->hole + " front");
        ASSERT_FALSE(facts.pierces.empty());
        for (const forecast::Pierce* pierce : facts.pierces) {
            if (!is_within_reach(*pierce)) continue;
            const CallAndStop rule = call_and_stop(*pierce, results);
            const std::string of = veins_due(facts, results).size() > 1 ? pierce->vein + " " : "";
            EXPECT_TRUE(text_with(front, "call " + of + length_figure(rule.call, map, 0))) << facts.collar->hole;
            EXPECT_TRUE(text_with(front, pierce->vein + ": likely at " + length_text(pierce->depth, map, 0)) ||
                        text_with(front, pierce->vein + ": likely at " + length_text(pierce->depth, map, 1)));
            EXPECT_TRUE(text_with(front, chance_text(pierce->presence)));
            if (!rule.goes_on_to.empty()) {
                EXPECT_TRUE(text_with(front, "ask " + of + length_figure(rule.ask(), map, 0))) << facts.collar->hole;
                continue;
            }
            ASSERT_TRUE(text_with(front, length_text(rule.stop, map, 0)));
            ASSERT_TRUE(text_with(front, "stop " + length_figure(rule.ask(), map, 0)));
        }
        EXPECT_TRUE(text_with(front, azimuth_figure(facts.norths.grid)));
        EXPECT_TRUE(text_with(front, azimuth_figure(facts.norths.from_true)));
        EXPECT_TRUE(text_with(front, azimuth_figure(facts.norths.from_magnetic)));
    }
}

// As the week and the long section say it of a hole that runs so nearly along a vein that it may not cross it.
TEST(DrillSiteCard, SaysThatAHoleMayPassItsVeinBy) {
    const Results results = made_up_pack().results();
    CardFacts facts = card_facts(results).front();
    const auto front = [&] { return all_text(card_front(facts, 1, 1, results, made_up_pack().run, made_up_pack().tools())); };
    EXPECT_FALSE(holds(front(), "may pass it by"));
    std::vector<forecast::Pierce> along;
    for (const forecast::Pierce* pierce : facts.pierces) along.push_back(*pierce);
    facts.pierces.clear();
    for (forecast::Pierce& pierce : along) {
        pierce.flags = {"nearest-vein"};
        facts.pierces.push_back(&pierce);
    }
    facts.veins = veins_ahead(facts.pierces, along);
    EXPECT_TRUE(holds(front(), ", may pass it by")) << front();
}

// sheets.md section 7: the front in 14 pt; looks.md: hole 40, call and stop 26, azimuths 22.
TEST(DrillSiteCard, IsReadAtArmsLength) {
    const Results results = made_up_pack().results();
    const CardFacts facts = card_facts(results).front();
    const drawing::Sheet& front = *sheet_named(card_kind, facts.collar->hole + " front");
    EXPECT_EQ(text_with(front, facts.collar->hole)->look.size_pt, 40.0);
    EXPECT_EQ(text_with(front, azimuth_figure(facts.norths.grid))->look.size_pt, 22.0);
    for (const StopRule& rule : stop_rules(facts, results)) EXPECT_EQ(text_with(front, rule.when)->look.size_pt, 14.0);
    for (const drawing::Item& item : front.items)
        if (const auto* text = std::get_if<drawing::Text>(&item.mark)) {
            EXPECT_GE(text->look.size_pt, 6.0) << text->text;
        }
}

TEST(DrillSiteCard, TheBackHasTheWholeCautionAndStaysInItsFrame) {
    const Results results = made_up_pack().results();
    for (const CardFacts& facts : card_facts(results)) {
        const drawing::Sheet& back = *sheet_named(card_kind, facts.collar->hole + " back");
        const std::string text = all_text(back);
        for (const char* words : {"Local codes", "licensed", "no permit", "stop, make safe, call"})
            EXPECT_NE(text.find(words), std::string::npos) << words;
        EXPECT_EQ(text.find("planned position only") != std::string::npos, !facts.is_active());
        EXPECT_EQ(text.find("what lies ahead of its last survey is a forecast") != std::string::npos, facts.is_active());
        EXPECT_EQ(back.windows.size(), 2u);
        for (const SetWords& words : words_of(back, made_up_pack().fonts.metrics)) {
            EXPECT_GE(words.box.left, 20.0) << words.text->text;
            EXPECT_LE(words.box.right, 200.0) << words.text->text;
            EXPECT_GE(words.box.bottom, 10.0) << words.text->text;
        }
    }
}

TEST(DrillSiteCard, AnActiveHoleSaysHowFarItIsOffItsTarget) {
    const Results results = made_up_pack().results();
    for (const CardFacts& facts : card_facts(results)) {
        const std::vector<std::string> words = progress_words(facts, results);
        EXPECT_EQ(words.empty(), !facts.is_active());
        if (words.empty()) continue;
        EXPECT_NE(words[0].find("Last survey at " + length_text(facts.path->surveyed_depth, results.records.frame)),
                  std::string::npos)
            << words[0];
        EXPECT_NE(words[1].find("from its target along the vein"), std::string::npos) << words[1];
        EXPECT_NE(words[1].find("off the modelled vein"), std::string::npos) << words[1];
        EXPECT_NE(words.back().find("ask the geologist"), std::string::npos) << words.back();
        EXPECT_EQ(facts.from, facts.path->drilled_depth);
    }
}

// A hole whose target lies straight north: an azimuth of 358 is 2 degrees to the left.
TEST(DrillSiteCard, AimOffIsTheTurnFromTheStraightLine) {
    tables::Collar collar;
    collar.hole = "K-1";
    collar.target = tables::Target{"T", "North", Eigen::Vector3d(0.0, 100.0, -100.0), {}};
    CardFacts facts;
    facts.collar = &collar;
    facts.start = {base::Azimuth::degrees(358.0), base::Dip::degrees(47.5)};
    EXPECT_EQ(aim_off_words(facts), "Aim-off is included (2.0° to the left, 2.5° steeper): set it as it stands.");
    facts.start = {base::Azimuth::degrees(0.0), base::Dip::degrees(45.0)};
    EXPECT_EQ(aim_off_words(facts), "Straight at the target, no aim-off: set it as it stands.");
    collar.target.reset();
    EXPECT_NE(aim_off_words(facts).find("not known"), std::string::npos);
}

// Limits of the expected direction grow down the hole, and the first lies about the collar's.
TEST(DrillSiteCard, TheLineWidensDownTheHole) {
    for (const CardFacts& facts : card_facts(made_up_pack().results())) {
        ASSERT_GT(facts.line.size(), 1u);
        for (std::size_t i = 0; i < facts.line.size(); ++i) {
            EXPECT_GT(facts.line[i].depth, facts.from);
            EXPECT_GT(facts.line[i].azimuth_off.degrees(), 0.0);
            if (i == 0) continue;
            EXPECT_GE(facts.line[i].dip_off.degrees(), facts.line[i - 1].dip_off.degrees());
        }
    }
}

// 15 m, then every 30 m, and at the end: the front says when to survey, the back what to expect there.
TEST(DrillSiteCard, TheExpectedLineStandsAtTheSurveysThatTheFrontAsksFor) {
    const Results results = made_up_pack().results();
    for (const CardFacts& facts : card_facts(results)) {
        EXPECT_TRUE(
            text_with(*sheet_named(card_kind, facts.collar->hole + " front"), "at 15 m, then every 30 m, and at the end"));
        EXPECT_NEAR(facts.line.back().depth, facts.path->end_depth, 1e-9);
        for (std::size_t i = 0; i + 1 < facts.line.size(); ++i)
            EXPECT_NEAR(std::remainder(facts.line[i].depth - 15.0, 30.0), 0.0, 1e-9) << facts.collar->hole;
    }
}

// Of a long hole rows are left out further down: the next three surveys, where steering costs least, and the last are told.
TEST(DrillSiteCard, TheNextSurveysAreNotThinnedAway) {
    const Results results = made_up_pack().results();
    for (CardFacts facts : card_facts(results)) {
        facts.line.assign(60, facts.line.back());
        for (std::size_t i = 0; i < facts.line.size(); ++i) facts.line[i].depth = 1007.0 + 30.0 * static_cast<double>(i);
        const drawing::Sheet back =
            card_back(facts, 1, 1, results, made_up_pack().run, section_set(results), made_up_pack().tools());
        const auto told = [&](std::size_t i) {
            return text_that_is(back, length_figure(facts.line[i].depth, results.records.frame, 0)) != nullptr;
        };
        EXPECT_TRUE(told(0) && told(1) && told(2) && told(59)) << facts.collar->hole;
        EXPECT_FALSE(told(3) && told(4) && told(5)) << facts.collar->hole;
    }
}

// Two veins ahead: each has its call and its own stop, and none lies deeper than the hole's.
TEST(DrillSiteCard, EachVeinHasItsOwnStopWhereItIsMissed) {
    const Results results = made_up_pack().results();
    std::size_t two = 0;
    for (const CardFacts& facts : card_facts(results)) {
        const std::vector<VeinDue> veins = veins_due(facts, results);
        const double deepest = ask_depth(facts, results).depth;
        for (std::size_t i = 0; i < veins.size(); ++i) {
            EXPECT_LE(veins[i].stop, deepest);
            EXPECT_EQ(veins[i].goes_on_to.empty(), i + 1 == veins.size());
            if (i + 1 == veins.size()) continue;
            ++two;
            const std::vector<StopRule> rules = stop_rules(facts, results);
            EXPECT_NE(rules[i].rule.find("Not met: stop, ask at " + length_text(veins[i].stop, results.records.frame, 0)),
                      std::string::npos)
                << rules[i].rule;
        }
    }
    EXPECT_GT(two, 0u);
}

planning::Danger broken_ground(double from) {
    planning::Danger danger;
    danger.what = "broken ground";
    danger.from = from;
    danger.to = from + 4.0;
    return danger;
}

// What many neighbours tell is cut to the nearest on the front, which says how many there are besides; the back tells those too.
TEST(DrillSiteCard, TellsAllDangersTheMostTellingOnTheFront) {
    const Results results = made_up_pack().results();
    CardFacts facts = card_facts(results).front();
    EXPECT_LE(facts.dangers.size(), 5u);
    facts.dangers.clear();
    for (int i = 0; i < 8; ++i) {
        planning::Danger danger = broken_ground(facts.from + 10.0 * i);
        danger.seen_in = {"N-" + std::to_string(i)};
        danger.nearest = 5.0 + i;
        (i < 5 ? facts.dangers : facts.further_dangers).push_back(danger);
    }
    const std::vector<drawing::Sheet> card =
        drill_site_card(facts, 1, 1, results, made_up_pack().run, section_set(results), made_up_pack().tools());
    const std::string front = all_text(card[0]), back = all_text(card[1]);
    for (int i = 0; i < 8; ++i) {
        const std::string hole = "(N-" + std::to_string(i) + ")";
        EXPECT_EQ(holds(front, hole) + holds(back, hole), 1) << i;
        EXPECT_TRUE(i < 5 || holds(back, hole)) << i;
    }
    EXPECT_TRUE(holds(front, " more: see the back.")) << front;
    EXPECT_FALSE(holds(front + back, "not told"));
    facts.further_dangers.resize(40, facts.further_dangers.front());
    const drawing::Sheet full = card_back(facts, 1, 1, results, made_up_pack().run, section_set(results), made_up_pack().tools());
    EXPECT_TRUE(holds(all_text(full), "further down, for which there is no room: ask."));
    for (const SetWords& words : words_of(full, made_up_pack().fonts.metrics))
        EXPECT_GT(words.box.bottom, 0.0) << words.text->text;
}

// No sentence of the back is cut, and what is off the plane of its picture is told by how far.
TEST(DrillSiteCard, TheBackCutsNoSentence) {
    const Results results = made_up_pack().results();
    std::size_t off = 0;
    for (CardFacts facts : card_facts(results)) {
        for (int i = 0; i < 30; ++i) facts.line.push_back(facts.line.back());  // surveys of a long hole: every second is told
        const std::string back =
            all_text(card_back(facts, 1, 1, results, made_up_pack().run, section_set(results), made_up_pack().tools()));
        EXPECT_EQ(back.find("…"), std::string::npos) << back;
        EXPECT_TRUE(holds(back, "by chance alone)")) << back;
        off += holds(back, " behind") || holds(back, " in front") ? 1 : 0;
    }
    EXPECT_GT(off, 0u);
}

// A hole that an error leaves out of the model stands in the ground all the same.
TEST(DrillSiteCard, WarnsOfAHoleThatIsLeftOut) {
    ChangedResults changed;
    std::size_t told = 0;
    for (const CardFacts& facts : card_facts(changed.results())) {
        if (facts.is_active()) continue;
        EXPECT_TRUE(facts.left_out.empty());
        tables::Collar row = *facts.collar;
        row.hole = "LOST";
        row.status = tables::HoleStatus::done;
        const Eigen::Vector3d ahead = paths::direction_at(*facts.path, 0.0);
        row.position -= 4.0 * Eigen::Vector3d(ahead.x(), ahead.y(), 0.0).normalized();  // behind the rig
        row.azimuth.reset();
        changed.records.left_out = {row};
        for (const CardFacts& again : card_facts(changed.results())) {
            if (again.collar->hole != facts.collar->hole) continue;
            const drawing::Sheet front = card_front(again, 1, 1, changed.results(), made_up_pack().run, made_up_pack().tools());
            EXPECT_TRUE(holds(all_words({front}), "LOST 4.0 m off at 0 m")) << all_words({front});
            ++told;
        }
        changed.records.left_out.clear();
    }
    EXPECT_GT(told, 0u);
}

// Whose the big azimuth and dip are: an active hole's start is past.
TEST(DrillSiteCard, SaysWhetherAnActiveHolesStartWasPlanned) {
    const Results results = made_up_pack().results();
    for (const CardFacts& facts : card_facts(results)) {
        const drawing::Sheet front = card_front(facts, 1, 1, results, made_up_pack().run, made_up_pack().tools());
        const std::string all = all_words({front});
        EXPECT_EQ(holds(all, "Azimuth and dip as planned") || holds(all, "as it was planned."), facts.is_active())
            << facts.collar->hole << ": " << all;
    }
}

// Holes under the clearance stand by name, distance and depth, four of them, in type that is read at arm's length; who only
// starts beside is no alarm.
TEST(DrillSiteCard, NamesEveryHoleThatItComesTooNearTo) {
    const Results results = made_up_pack().results();
    for (CardFacts facts : card_facts(results)) {
        facts.near = {};
        for (int i = 0; i < 6; ++i) facts.near.under.push_back({"LONGNAME-20" + std::to_string(i), 1.5 + i, 280.0 + i});
        facts.near.nearest = facts.near.under.front();
        const drawing::Sheet front = card_front(facts, 1, 1, results, made_up_pack().run, made_up_pack().tools());
        const std::string text = all_text(front);
        for (int i = 0; i < 4; ++i)
            EXPECT_NE(text.find("LONGNAME-20" + std::to_string(i)), std::string::npos) << facts.collar->hole;
        EXPECT_NE(text.find("LONGNAME-200 1.5 m off at 280 m"), std::string::npos) << text;
        EXPECT_TRUE(holds(text, "also LONGNAME-204, LONGNAME-205")) << text;
        EXPECT_EQ(text.find("…"), std::string::npos) << text;
        EXPECT_EQ(text_with(front, "TOO NEAR")->look.size_pt, 14.0);
        facts.near.beside = facts.near.under;
        facts.near.under.clear();
        facts.near.nearest.reset();
        const WayRows way = way_on_front(facts, results, made_up_pack().tools());
        std::string told;
        for (const WayRow& row : way.rows) told += row.words + " ";
        for (const std::string& sentence : way.left_out) told += sentence + " ";
        EXPECT_EQ(told.find("TOO NEAR"), std::string::npos) << told;
        EXPECT_NE(told.find("Starts beside LONGNAME-200"), std::string::npos) << told;
    }
}

// sheets.md section 7, drill-site card: what the rig works by is in 14 pt or more, and all rows keep within the front.
// A target moved 20 m along the vein's strike lies as far to one side of where the hole will pierce, and the card says to which.
TEST(DrillSiteCard, SaysToWhichSideAHoleRunsOffItsTarget) {
    ChangedResults changed;
    std::size_t told = 0;
    for (const CardFacts& facts : card_facts(changed.results())) {
        const std::optional<OffTarget> off = off_target(*facts.collar, changed.results());
        if (!facts.is_active() || !off) continue;
        const forecast::Pierce& pierce = *off->pierce;
        const Eigen::Vector3d normal = changed.veins[pierce.vein_number].at(pierce.point, pierce.crossing.block_number).normal;
        const Eigen::Vector3d strike = normal.cross(Eigen::Vector3d::UnitZ()).normalized();
        for (const double side : {-20.0, 20.0}) {
            const Eigen::Vector3d target = pierce.point + side * strike, way = target - facts.path->collar;
            changed.collar(facts.collar->hole).target->point = target;
            for (const CardFacts& moved : card_facts(changed.results())) {
                if (moved.collar->hole != facts.collar->hole) continue;
                const std::string words = progress_words(moved, changed.results())[1];
                const bool to_the_right = -side * strike.dot(way.cross(Eigen::Vector3d::UnitZ())) > 0.0;
                const std::size_t from = words.find("from its target along the vein (");
                ASSERT_NE(from, std::string::npos) << words;
                EXPECT_EQ(holds(words.substr(from), " right"), to_the_right) << words;
                EXPECT_EQ(holds(words.substr(from), " left"), !to_the_right) << words;
                ++told;
            }
        }
    }
    EXPECT_GE(told, 2u);
}

// By the azimuths stands what forbids to set them, in place of how they were planned.
TEST(DrillSiteCard, ForbidsTheSetUpOfAHoleWithoutClearanceAndCallsForSteering) {
    ChangedResults changed;
    changed.project.plan.clearance = 1e5;
    const Results results = changed.results();
    std::size_t planned = 0, off = 0;
    for (const CardFacts& facts : card_facts(results)) {
        const std::string warning = set_up_warning(facts, results);
        const std::optional<OffTarget> target = off_target(*facts.collar, results);
        if (!facts.is_active()) {
            EXPECT_TRUE(holds(warning, "DO NOT SET UP")) << facts.collar->hole;
            ++planned;
        } else if (target && target->outside) {
            EXPECT_TRUE(holds(warning, "OFF TARGET, ")) << facts.collar->hole;
            ++off;
        } else {
            EXPECT_EQ(warning, "") << facts.collar->hole;
        }
        const std::vector<drawing::Sheet> card =
            drill_site_card(facts, 1, 1, results, made_up_pack().run, section_set(results), made_up_pack().tools());
        EXPECT_TRUE(warning.empty() || holds(all_words({card.front()}), warning)) << facts.collar->hole;
    }
    EXPECT_GT(planned, 0u);
    EXPECT_GT(off, 0u);
}

TEST(DrillSiteCard, NothingThatTheRigWorksByIsSmallOnTheFront) {
    const Results results = made_up_pack().results();
    const base::MapFrame& map = results.records.frame;
    for (const CardFacts& facts : card_facts(results)) {
        const drawing::Sheet& front = *sheet_named(card_kind, facts.collar->hole + " front");
        std::vector<std::string> wanted{
            "declination", "at 15 m, then every 30 m", core_words(facts, results), aim_off_words(facts), "Collar, ",
            "planned hole"};
        if (facts.is_active()) wanted.back() = "active hole";
        if (const std::string warning = set_up_warning(facts, results); !warning.empty()) wanted[3] = warning;
        for (const VeinDue& due : veins_due(facts, results)) {
            wanted.push_back(length_text(due.call, map, 0));
            for (const forecast::Pierce* piece : due.ahead.pieces)
                if (is_within_reach(*piece))
                    wanted.push_back(length_figure(piece->depth_p10, map, 0) + " to " + length_figure(piece->depth_p90, map, 0));
        }
        for (const WayRow& row : way_on_front(facts, results, made_up_pack().tools()).rows) wanted.push_back(row.words);
        for (const std::string& words : wanted) {
            const drawing::Text* text = text_with(front, words);
            ASSERT_TRUE(text) << facts.collar->hole << ": " << words;
            EXPECT_GE(text->look.size_pt, 14.0) << words;
        }
        EXPECT_EQ(all_text(front).find("…"), std::string::npos) << facts.collar->hole;
        for (const SetWords& words : words_of(front, made_up_pack().fonts.metrics))
            EXPECT_LE(words.box.right, 200.0) << words.text->text;
    }
}

// Flags under the depth line: words end at their own leader, and neither other words nor a leader to a lower row run through.
TEST(DrillSiteCard, LabelsOfTheDepthLineKeepClearOfEachOther) {
    const Results results = made_up_pack().results();
    std::size_t rows = 0;
    for (const CardFacts& facts : card_facts(results)) {
        const DepthScale scale{34.0, 185.0, facts.path->end_depth};
        const std::vector<DepthMark> marks = depth_marks(facts, results, facts.veins, scale, made_up_pack().tools());
        ASSERT_FALSE(marks.empty());
        for (const DepthMark& mark : marks) {
            EXPECT_NEAR(mark.x, 34.0 + 151.0 * std::min(1.0, mark.depth / facts.path->end_depth), 1e-9) << mark.text;
            rows = std::max(rows, mark.row);
            for (const DepthMark& other : marks) {
                if (&other == &mark) continue;
                if (other.row == mark.row) {
                    EXPECT_TRUE(other.right < mark.left || mark.right < other.left) << mark.text << ", " << other.text;
                }
                if (other.row > mark.row) {
                    EXPECT_FALSE(other.x > mark.left && other.x < mark.right) << other.text << " through " << mark.text;
                }
            }
        }
    }
    EXPECT_GT(rows, 0u) << "none of them is crowded";
}

TEST(DrillSiteCard, OrientsCoreFromTheFirstCall) {
    const Results results = made_up_pack().results();
    for (CardFacts facts : card_facts(results)) {
        const std::vector<VeinDue> due = veins_due(facts, results);
        if (due.empty()) continue;
        const std::string from = "oriented from " + length_text(due.front().call, results.records.frame, 0) + " (call) on";
        EXPECT_NE(core_words(facts, results).find(from), std::string::npos);
        facts.from = due.front().call + 1.0;
        EXPECT_NE(core_words(facts, results).find("oriented from now on"), std::string::npos);
        facts.veins.clear();
        EXPECT_NE(core_words(facts, results).find("ask the geologist"), std::string::npos);
    }
}

// The tool reads magnetic: that comes first, beside its limits; the pictures' signs have their key.
TEST(DrillSiteCard, TheBackGivesMagneticAzimuthFirstAndAKey) {
    for (const CardFacts& facts : card_facts(made_up_pack().results())) {
        const drawing::Sheet& back = *sheet_named(card_kind, facts.collar->hole + " back");
        ASSERT_TRUE(facts.norths.from_magnetic);
        EXPECT_LT(text_with(back, "azimuth mag.")->at.x, text_with(back, "leftmost mag.")->at.x);
        EXPECT_LT(text_with(back, "rightmost mag.")->at.x, text_that_is(back, "grid")->at.x);
        for (const char* words : {"vein due", "still to drill"}) EXPECT_TRUE(text_with(back, words)) << words;
    }
}

// The nearest hole is told with what the rule knows of it: from where on it counts, that the two part, that the place lies past
// the planned end.
TEST(DrillSiteCard, SaysByWhichRuleTheNearestHoleIsChosen) {
    const Results results = made_up_pack().results();
    const double clearance = results.project.plan.clearance;
    for (CardFacts facts : card_facts(results)) {
        facts.near = {};
        facts.near.nearest_from = facts.from;
        facts.near.nearest = planning::NearHole{"N-1", clearance + 20.0, facts.path->end_depth + 3.0, true};
        const std::string far = nearest_hole_words(facts, results);
        EXPECT_TRUE(holds(far, "(past " + facts.collar->hole + "'s planned end)")) << far;
        EXPECT_FALSE(holds(far, "part")) << far;
        EXPECT_EQ(holds(far, "hole past"), facts.is_active()) << far;
        facts.near.nearest = planning::NearHole{"N-1", 0.8 * clearance, facts.from + 40.0};
        facts.near.beside = {*facts.near.nearest};
        const std::string parting = nearest_hole_words(facts, results);
        EXPECT_TRUE(holds(parting, "less than " + length_text(clearance, results.records.frame, 0) + ", but the two part"))
            << parting;
        EXPECT_FALSE(holds(parting, "planned end")) << parting;
        EXPECT_TRUE(holds(beside_words(facts, results.records.frame), ", but the two part.")) << parting;
    }
}

// A hole too near is told as such; the next nearest is told besides.
TEST(DrillSiteCard, TellsTheNextNearestBesideAHoleThatIsTooNear) {
    ChangedResults changed;
    paths::Path twin = *card_facts(changed.results()).front().path;
    const std::string hole = twin.hole;
    twin.hole = "TWIN";
    twin.status = tables::HoleStatus::done;
    for (paths::Station& station : twin.stations) station.position.x() += 0.5;
    twin.collar.x() += 0.5;
    changed.paths.push_back(twin);
    const Results results = changed.results();
    const CardFacts facts = card_facts(results).front();
    ASSERT_EQ(facts.collar->hole, hole);
    ASSERT_FALSE(facts.near.under.empty());
    EXPECT_EQ(facts.near.under.front().hole, "TWIN");
    const std::string words = nearest_hole_words(facts, results);
    EXPECT_TRUE(holds(words, "Next nearest hole")) << words;
    EXPECT_FALSE(holds(words, "TWIN")) << words;
}

// A letter that the depth line shows stands in the front's list, or the list says that it stands on the back.
TEST(DrillSiteCard, EachLetterIsToldOnTheFront) {
    const Results results = made_up_pack().results();
    std::size_t on_back = 0, with_kind = 0;
    for (CardFacts facts : card_facts(results)) {
        facts.dangers.clear();
        for (int i = 0; i < 5; ++i) {
            planning::Danger danger = broken_ground(facts.from + 10.0 * i);
            const std::string hole = "LONGNAME-OF-A-HOLE-" + std::to_string(i);
            danger.seen_in = {hole, hole + "W1", hole + "W2"};
            danger.nearest = i == 2 ? 90.0 : 5.0 + i;
            facts.dangers.push_back(danger);
        }
        const WayRows way = way_on_front(facts, results, made_up_pack().tools());
        ASSERT_EQ(way.dangers.size() + way.others.size(), 5u);
        std::string told;
        for (const WayRow& row : way.rows)
            if (holds(row.words, "see the back.")) told += row.words;
        const std::string letters = told.substr(0, told.find(':'));
        for (const std::size_t i : way.others) {
            const bool bare = holds(" " + letters + ",", " " + danger_letter(i) + ",");
            const planning::Danger& danger = facts.dangers[i];
            const bool in_full = holds(
                " " + letters, " " + danger_letter(i) + " " + danger_depths(danger, results.records.frame) + " " + danger.what);
            EXPECT_TRUE(bare || in_full) << letters;
            ++on_back;
            with_kind += in_full ? 1 : 0;
        }
    }
    EXPECT_GT(on_back, 0u);
    EXPECT_GT(with_kind, 0u);  // not a letter alone
}

// Openings, then what stops a rig, then faults, however near those lie; a modelled fault keeps its letter.
TEST(DrillSiteCard, WhatHurtsMostStandsFirst) {
    const auto danger = [](const std::string& what, double from, bool modelled, std::optional<double> nearest) {
        planning::Danger one;
        one.what = what;
        one.from = from;
        one.to = from + 3.0;
        if (!modelled) one.seen_in = {"N-1"};
        one.nearest = nearest;
        return one;
    };
    const std::vector<planning::Danger> dangers{
        danger("Cross Fault", 10.0, true, {}), danger("fault", 20.0, false, 1.0),  danger("water loss", 30.0, false, 25.0),
        danger("void", 40.0, false, 29.0),     danger("stuck", 50.0, false, 20.0), danger("old working Adit", 60.0, true, 9.0)};
    EXPECT_EQ(by_harm(dangers), (std::vector<std::size_t>{5, 3, 4, 2, 0, 1}));
    const Results results = made_up_pack().results();
    CardFacts facts = card_facts(results).front();
    facts.dangers = dangers;
    const WayRows way = way_on_front(facts, results, made_up_pack().tools());
    std::vector<std::size_t> told = way.dangers;
    told.insert(told.end(), way.others.begin(), way.others.end());
    EXPECT_EQ(told, by_harm(dangers));
}

// The water that a neighbour lost far down has its letter on the line of depths before faults further up.
TEST(DrillSiteCard, FaultsDoNotDriveWorseThingsOffTheDepthLine) {
    ChangedResults changed;
    paths::Path twin = *card_facts(changed.results()).front().path;
    twin.hole = "TWIN";
    twin.status = tables::HoleStatus::done;
    changed.paths.push_back(twin);
    const auto down = [&](double share) { return twin.start_depth + share * (twin.end_depth - twin.start_depth); };
    for (int i = 1; i < 9; ++i) {
        tables::Structure fault;
        fault.hole = twin.hole;
        fault.kind = "fault";
        fault.depth = down(0.1 * i);
        changed.records.structures.push_back(fault);
    }
    tables::DrillingEvent loss;
    loss.hole = twin.hole;
    loss.kind = "water loss";
    loss.depth = down(0.95);
    changed.records.drilling.push_back(loss);
    const CardFacts facts = card_facts(changed.results()).front();
    ASSERT_FALSE(facts.further_dangers.empty());
    const auto waters = [](const std::vector<planning::Danger>& dangers) {
        return std::count_if(dangers.begin(), dangers.end(),
                             [](const planning::Danger& danger) { return danger.what == "water loss"; });
    };
    EXPECT_GE(waters(facts.dangers), 1);
    EXPECT_EQ(waters(facts.further_dangers), 0);
    EXPECT_TRUE(std::is_sorted(facts.dangers.begin(), facts.dangers.end(),
                               [](const auto& one, const auto& other) { return one.from < other.from; }));
}

// The key of the pictures holds what they hold, and no more: without other holes no word on them, without a target no cross.
TEST(DrillSiteCard, TheKeyHoldsWhatIsDrawnAndNoMore) {
    ChangedResults changed;
    std::size_t with_others = 0;
    for (const CardFacts& whole : card_facts(made_up_pack().results())) {
        const auto back_of = [&](const CardFacts& facts, const Results& results) {
            return card_back(facts, 1, 1, results, made_up_pack().run, section_set(results), made_up_pack().tools());
        };
        const std::string hole = whole.collar->hole;
        const drawing::Sheet before = back_of(whole, made_up_pack().results());
        const bool off = text_with(before, " m behind") != nullptr || text_with(before, " m in front") != nullptr;
        with_others += text_that_is(before, "other hole") != nullptr && off ? 1 : 0;
        EXPECT_EQ(text_with(before, "Behind, in front:") != nullptr, off) << hole;
        EXPECT_EQ(text_that_is(before, "past its end") != nullptr, whole.to > whole.path->end_depth) << hole;
        changed.paths = {*whole.path};
        for (CardFacts alone : card_facts(changed.results())) {
            if (alone.collar->hole != hole) continue;
            EXPECT_TRUE(text_that_is(back_of(alone, changed.results()), "target")) << hole;
            tables::Collar untargeted = *alone.collar;
            untargeted.target.reset();
            alone.collar = &untargeted;
            const drawing::Sheet back = back_of(alone, changed.results());
            for (const char* words : {"other hole", "other plan", "too near", "target"})
                EXPECT_FALSE(text_that_is(back, words)) << hole << ": " << words;
            EXPECT_FALSE(text_with(back, "Behind, in front:")) << hole;
            EXPECT_TRUE(text_that_is(back, "still to drill")) << hole;
        }
    }
    EXPECT_GT(with_others, 0u);
}

// A pierce outside the modelled ground stands clear of the vein that is drawn: both pictures say so beside it.
TEST(DrillSiteCard, ThePicturesSayThatAPierceIsOutsideTheModelledGround) {
    ChangedResults changed;
    const auto times_told = [&](const std::string& hole) {
        const Results results = changed.results();
        for (const CardFacts& facts : card_facts(results)) {
            if (facts.collar->hole != hole) continue;
            const std::string back =
                all_text(card_back(facts, 1, 1, results, made_up_pack().run, section_set(results), made_up_pack().tools()));
            std::size_t times = 0;
            for (std::size_t at = back.find("modelled ground"); at != std::string::npos;
                 at = back.find("modelled ground", at + 1))
                ++times;
            return times;
        }
        return std::size_t{99};
    };
    for (const CardFacts& facts : card_facts(made_up_pack().results())) {
        const std::string hole = facts.collar->hole;
        for (forecast::Pierce& pierce : changed.pierces) pierce.flags.clear();
        EXPECT_EQ(times_told(hole), 0u) << hole;
        for (forecast::Pierce& pierce : changed.pierces)
            if (pierce.hole == hole && is_within_reach(pierce)) {
                pierce.flags = {"beyond-extent"};
                break;
            }
        EXPECT_EQ(times_told(hole), 2u) << hole;
    }
}

// No words stand on the cross of a target, wherever beside the pierce it lies.
TEST(DrillSiteCard, NoWordsStandOnTheTarget) {
    const Results results = made_up_pack().results();
    const drawing::LineLook look = made_up_pack().tools().style.line("planned_tick");
    // The level stroke of a cross: its ends, or none.
    const auto level_stroke = [&](const drawing::Item& item) -> std::vector<Point> {
        const auto* shape = std::get_if<drawing::Shape>(&item.mark);
        if (shape == nullptr || item.window == 0 || !shape->line || shape->rings.size() != 1 || shape->rings[0].size() != 2)
            return {};
        const std::vector<Point>& ends = shape->rings[0];
        const bool alike = std::abs(ends[0].y - ends[1].y) < 1e-9 && std::abs(ends[1].x - ends[0].x - target_cross_mm) < 1e-9 &&
                           shape->line->width_mm == look.width_mm;
        return alike ? ends : std::vector<Point>{};
    };
    std::size_t crosses = 0;
    for (CardFacts facts : card_facts(results)) {
        if (facts.pierces.empty() || !facts.collar->target || !facts.collar->target->point) continue;
        for (int turn = 0; turn < 8; ++turn) {
            tables::Collar collar = *facts.collar;
            const double angle = turn * 0.785;
            const Eigen::Vector3d off(std::cos(angle), std::cos(angle), std::sin(angle));
            collar.target->point = facts.pierces.front()->point + 14.0 * off;
            CardFacts moved = facts;
            moved.collar = &collar;
            const drawing::Sheet back =
                card_back(moved, 1, 1, results, made_up_pack().run, section_set(results), made_up_pack().tools());
            for (const drawing::Item& item : back.items) {
                const std::vector<Point> ends = level_stroke(item);
                if (ends.empty()) continue;
                ++crosses;
                const drawing::Box cross{ends[0].x, ends[0].y - 1.0, ends[1].x, ends[1].y + 1.0};
                for (const SetWords& words : words_of(back, made_up_pack().fonts.metrics))
                    EXPECT_FALSE(drawing::overlap(words.box, cross))
                        << facts.collar->hole << " turn " << turn << ": " << words.text->text;
            }
        }
    }
    EXPECT_GT(crosses, 0u);
}

// From above the north arrow keeps clear of the hole, whichever way that runs.
TEST(DrillSiteCard, TheNorthArrowKeepsClearOfTheHole) {
    const Results results = made_up_pack().results();
    const drawing::LineLook look = made_up_pack().tools().style.line("trace_planned");
    std::size_t looked_at = 0;
    for (CardFacts facts : card_facts(results)) {
        if (facts.is_active()) continue;
        for (int turn = 0; turn < 8; ++turn) {
            paths::Path path = *facts.path;
            path.stations.resize(1);
            path.stations[0].direction = {base::Azimuth::degrees(45.0 * turn), base::Dip::degrees(45.0)};
            paths::settle(path.stations);
            path.stations[0].position = path.collar;
            facts.path = &path;
            facts.pierces.clear();
            const drawing::Sheet back =
                card_back(facts, 1, 1, results, made_up_pack().run, section_set(results), made_up_pack().tools());
            const drawing::Text* north = text_that_is(back, "N");
            ASSERT_TRUE(north);
            const drawing::Box arrow{north->at.x - 1.5, north->at.y - 10.0, north->at.x + 1.5, north->at.y + 1.5};
            for (const drawing::Item& item : back.items) {
                const auto* shape = std::get_if<drawing::Shape>(&item.mark);
                if (shape == nullptr || item.window != 2 || !shape->line || shape->line->dash_mm != look.dash_mm ||
                    !(shape->line->colour == look.colour))
                    continue;
                ++looked_at;
                for (const std::vector<Point>& ring : shape->rings)
                    for (const Point& at : ring)
                        EXPECT_GT(drawing::distance(at, arrow), 0.0) << facts.collar->hole << " " << turn;
            }
        }
    }
    EXPECT_GT(looked_at, 0u);
}

TEST(OwnPlane, HoldsTheHoleAndNamesThePacksSections) {
    const Results results = made_up_pack().results();
    const SectionSet pack = section_set(results);
    for (const CardFacts& facts : card_facts(results)) {
        const SectionSet own = own_plane(*facts.path, facts.to, pack);
        ASSERT_EQ(own.sections.size(), 1u);
        EXPECT_LT(std::abs(own.base.away.z()), 1e-12);
        for (double depth = 0.0; depth <= facts.to; depth += 10.0)
            EXPECT_EQ(slab_number(own, paths::position_at(*facts.path, depth)), 0) << facts.collar->hole << " " << depth;
        const Eigen::Vector3d pierce = facts.pierces.front()->point;
        EXPECT_EQ(sheet_of(own, pierce), section_name(pack, slab_number(pack, pierce)));
    }
}

}  // namespace
}  // namespace selvage::sheets
