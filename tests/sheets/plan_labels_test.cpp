#include "sheets/plan_labels.h"

#include "sheets/changed_results.h"
#include "sheets/label_text.h"
#include "sheets/pierce_sign.h"
#include "sheets/plan_marks.h"
#include "sheets/plan_point_labels.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <utility>

namespace selvage::sheets {
namespace {

PaperFrame wide_frame(const Results& results) {
    const Eigen::Vector3d middle = results.paths.front().collar;
    return {{0.0, 0.0, 300.0, 250.0}, middle.head<2>(), 3.0};
}

const drawing::Label* label_of(const std::vector<drawing::Label>& labels, const std::string& owner) {
    const auto found =
        std::find_if(labels.begin(), labels.end(), [&](const drawing::Label& label) { return label.owner == owner; });
    return found == labels.end() ? nullptr : &*found;
}

TEST(PlanLabels, EveryPlannedPierceHasItsHolesName) {
    const MadeUpPack& pack = made_up_pack();
    const Results results = pack.results();
    const PaperFrame frame = wide_frame(results);
    const std::vector<CollarGroup> groups = collar_groups(results, frame);
    std::vector<drawing::Label> labels = plan_labels(results, groups, {}, frame, pack.tools());
    for (drawing::Label& label : plan_point_labels(results, groups, {}, frame, pack.tools())) labels.push_back(std::move(label));
    ASSERT_FALSE(results.pierces.empty());
    for (const forecast::Pierce& pierce : results.pierces) {
        if (!is_on_plan(frame, on_plan(frame, pierce.point))) continue;
        const drawing::Label* label = label_of(labels, pierce.hole + " " + pierce.vein);
        ASSERT_NE(label, nullptr) << pierce.hole;
        EXPECT_EQ(label->lines.front().text, pierce.hole + " " + pierce.vein);
    }
}

// Two places of one hole to meet one vein in are told apart by their depths.
TEST(PlanPointLabels, TellTwoPlacesOfOneVeinByTheirDepths) {
    ChangedResults changed;
    const PaperFrame frame = wide_frame(changed.results());
    const auto first = std::find_if(changed.pierces.begin(), changed.pierces.end(), [&](const forecast::Pierce& pierce) {
        return is_on_plan(frame, on_plan(frame, pierce.point)) && is_within_reach(pierce);
    });
    ASSERT_NE(first, changed.pierces.end());
    first->crossing.block = "Cross Fault-";
    first->depth = 293.0;
    forecast::Pierce second = *first;
    second.crossing.block = "Cross Fault+";
    second.depth = 313.0;
    const std::string name = first->hole + " " + first->vein;
    changed.pierces.insert(first + 1, second);
    const std::vector<drawing::Label> labels = plan_point_labels(changed.results(), {}, {}, frame, made_up_pack().tools());
    EXPECT_EQ(label_of(labels, name), nullptr);
    EXPECT_NE(label_of(labels, name + " 293 m"), nullptr);
    EXPECT_NE(label_of(labels, name + " 313 m"), nullptr);
}

// A likely pierce point at the place of a hit is drawn round it, and the legend says so.
TEST(PlanHits, TellOfAPiercePointRoundAHit) {
    ChangedResults changed;
    const PaperFrame frame = wide_frame(changed.results());
    const GradeClasses classes = grade_classes(changed.results());
    const auto goes_round = [&] {
        DrawnSigns drawn;
        plan_hits(changed.results(), classes, frame, drawn, made_up_pack().tools());
        return drawn.signs.count(Sign::pierce_round_sign) > 0;
    };
    changed.pierces.erase(
        std::remove_if(changed.pierces.begin(), changed.pierces.end(),
                       [&](const forecast::Pierce& pierce) { return !is_likely(sign_of(pierce, changed.results())); }),
        changed.pierces.end());
    ASSERT_FALSE(changed.pierces.empty());
    changed.pierces.resize(1);
    changed.pierces.front().point = Eigen::Vector3d(1e5, 1e5, 0.0);
    EXPECT_FALSE(goes_round());
    changed.pierces.front().point = changed.intercepts.met.front().point;
    EXPECT_TRUE(goes_round());
}

// A pad's name follows those of the holes that start on it; a pad on which none starts has a label of its own.
TEST(PlanLabels, APadIsNamedWithTheHolesOnIt) {
    ChangedResults changed;
    const PaperFrame frame = wide_frame(changed.results());
    const std::vector<CollarGroup> groups = collar_groups(changed.results(), frame);
    tables::Pad pad;
    pad.pad = "with holes";
    pad.position = changed.records.collars.front().position;
    changed.records.pads = {pad};
    pad.pad = "by itself";
    pad.position += Eigen::Vector3d(-60.0, -60.0, 0.0);
    changed.records.pads.push_back(pad);
    const std::vector<drawing::Label> labels = plan_labels(changed.results(), groups, {}, frame, made_up_pack().tools());
    EXPECT_NE(label_of(labels, "pad by itself"), nullptr);
    EXPECT_EQ(label_of(labels, "pad with holes"), nullptr);
    const auto names_it = [](const drawing::Label& label) {
        return !label.lines.back().rest.empty() && label.lines.back().rest.back().text.find("with holes") != std::string::npos;
    };
    EXPECT_EQ(std::count_if(labels.begin(), labels.end(), names_it), 1);
}

// Names of hits stand at their signs, on leaders where there is no room, and never fill the side list; a hole that starts by
// itself needs none.
TEST(PlanPointLabels, NameHitsOfPadsOnTheDrawingAlone) {
    const MadeUpPack& pack = made_up_pack();
    const Results results = pack.results();
    const PaperFrame frame = wide_frame(results);
    const auto hits_named = [&](const std::vector<CollarGroup>& groups) {
        std::size_t named = 0;
        const std::vector<drawing::Label> labels = plan_point_labels(results, groups, {}, frame, pack.tools());
        for (const drawing::Label& label : labels) {
            if (label.priority > 0) continue;
            EXPECT_TRUE(label.may_lead) << label.owner;
            EXPECT_FALSE(label.may_be_listed) << label.owner;
            ++named;
        }
        return named;
    };
    EXPECT_GT(hits_named(collar_groups(results, frame)), 5u);
    EXPECT_EQ(hits_named({{{0.0, 0.0}, {results.intercepts.met.front().hole}, {{0.0, 0.0}}, false}}), 0u);
}

// A window narrower than the vein is long: it leaves at both sides; a wide one holds it all.
TEST(VeinsAtGround, GoOnWhereTheyLeaveTheWindow) {
    const MadeUpPack& pack = made_up_pack();
    const Results results = pack.results();
    DrawnSigns drawn;
    PaperFrame frame = wide_frame(results);
    frame.metres_per_mm = 20.0;
    for (const VeinAtGround& vein : veins_at_ground(results, frame, drawn, pack.tools())) EXPECT_TRUE(vein.goes_on.empty());
    const std::vector<VeinAtGround> whole = veins_at_ground(results, frame, drawn, pack.tools());
    ASSERT_FALSE(whole.empty());
    const std::vector<Point>& piece = whole.front().pieces.front();
    frame.centre = frame.drawn_from_paper(piece[piece.size() / 2]);
    frame.metres_per_mm = 0.1;
    const std::vector<VeinAtGround> seen = veins_at_ground(results, frame, drawn, pack.tools());
    ASSERT_FALSE(seen.empty());
    EXPECT_GE(seen.front().goes_on.size(), 1u);
    for (const Point& at : seen.front().goes_on) {
        EXPECT_GE(at.x, frame.window.left);
        EXPECT_LE(at.y, frame.window.top);
    }
}

}  // namespace
}  // namespace selvage::sheets
