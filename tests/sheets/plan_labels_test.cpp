#include "sheets/plan_labels.h"

#include "sheets/changed_results.h"
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

// Names of hits never lead away from their sign nor fill the side list; a hole that starts by itself needs none.
TEST(PlanPointLabels, NameHitsOfPadsBesideTheirSignsAlone) {
    const MadeUpPack& pack = made_up_pack();
    const Results results = pack.results();
    const PaperFrame frame = wide_frame(results);
    const auto hits_named = [&](const std::vector<CollarGroup>& groups) {
        std::size_t named = 0;
        const std::vector<drawing::Label> labels = plan_point_labels(results, groups, {}, frame, pack.tools());
        for (const drawing::Label& label : labels) {
            if (label.priority > 0) continue;
            EXPECT_FALSE(label.may_lead || label.may_be_listed) << label.owner;
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
