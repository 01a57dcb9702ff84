#include "sheets/changed_results.h"
#include "sheets/cross_section.h"
#include "sheets/faulted_sheets.h"
#include "sheets/level_marks.h"
#include "sheets/long_section.h"
#include "sheets/long_section_map.h"
#include "sheets/long_section_marks.h"
#include "sheets/section_content.h"
#include "sheets/symbols.h"

#include "drawing/clipping.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

// What drawings say of hits that one must not take at their face: little core, against the fill, on another block.
namespace selvage::sheets {
namespace {

// ---- little core

TEST(LittleCore, ItsMarkIsTwoStrokesPartedUnderTheSign) {
    const Tools tools = made_up_pack().tools();
    const Point at{50.0, 40.0};
    for (const HitSign sign : {HitSign::class_0, HitSign::class_4, HitSign::pending}) {
        const double lower_edge = at.y - hit_symbol_width_mm(sign, tools) / 2.0;
        const Box box = little_core_box(sign, at, tools);
        const Marks marks = little_core_mark(sign, at, tools);
        ASSERT_EQ(marks.size(), 4u);  // white, then ink
        for (const Mark& mark : marks) {
            const auto& ring = std::get<drawing::Shape>(mark).rings.front();
            const double left = std::min(ring[0].x, ring[1].x), right = std::max(ring[0].x, ring[1].x);
            EXPECT_TRUE(right < at.x || left > at.x);
            for (const Point& point : ring) {
                EXPECT_LT(point.y, lower_edge);
                EXPECT_TRUE(point.x >= box.left && point.x <= box.right && point.y >= box.bottom && point.y <= box.top);
            }
        }
    }
}

TEST(LittleCore, IsOfHitsOfWhichUnderHalfCameUpAndOfLostOnes) {
    intercepts::Intercept hit;
    EXPECT_FALSE(has_little_core(hit));
    hit.flags = {"part-sampled"};
    EXPECT_FALSE(has_little_core(hit));
    hit.flags = {"lost-core", "low-recovery"};
    EXPECT_TRUE(has_little_core(hit));
    hit.flags.clear();
    hit.state = tables::PickState::lost;
    EXPECT_TRUE(has_little_core(hit));
}

std::string long_section_words(const Results& results) {
    const MadeUpPack& pack = made_up_pack();
    const GradeClasses classes = grade_classes(results);
    return all_words(long_section(results, 0, pack.run, classes, section_set(results), key_map(results), pack.tools()));
}

TEST(LittleCore, IsInTheLegendOfALongSectionWhereAHitHasIt) {
    ChangedResults changed;
    for (intercepts::Intercept& hit : changed.intercepts.met) {
        hit.flags.clear();
        if (hit.state == tables::PickState::lost) hit.state = tables::PickState::vein;
    }
    const std::string words = "under half of its core recovered, or core lost";
    EXPECT_FALSE(holds(long_section_words(changed.results()), words));
    const auto hit = std::find_if(changed.intercepts.met.begin(), changed.intercepts.met.end(),
                                  [&](const auto& one) { return one.vein == changed.veins[0].name(); });
    ASSERT_NE(hit, changed.intercepts.met.end());
    hit->flags = {"low-recovery"};
    EXPECT_TRUE(holds(long_section_words(changed.results()), words));
}

TEST(LittleCore, IsMarkedAndNotedOnALevel) {
    const Tools tools = made_up_pack().tools();
    const PaperFrame frame{{0.0, 0.0, 100.0, 100.0}, {0.0, 0.0}, 1.0};
    intercepts::Intercept plain, doubtful;
    doubtful.flags = {"low-recovery"};
    LevelPoints points;
    points.hits.push_back({&plain, 0, {10.0, 10.0}, HitSign::class_2, std::nullopt});
    DrawnSigns drawn;
    const std::size_t signs = point_marks(points, frame, drawn, tools).size(), boxes = point_boxes(points, frame, tools).size();
    EXPECT_EQ(drawn.signs.count(Sign::little_core), 0u);
    points.hits.front().hit = &doubtful;
    EXPECT_EQ(point_marks(points, frame, drawn, tools).size(), signs + 4);
    EXPECT_EQ(point_boxes(points, frame, tools).size(), boxes + 1);
    EXPECT_EQ(drawn.signs.count(Sign::little_core), 1u);
}

// ---- against the fill

struct MapCase {
    const Results results = made_up_pack().results();
    const Tools tools = made_up_pack().tools();
    GradeClasses classes = grade_classes(results);
    LongSectionContent content = long_section_content(results, 0, classes);
    std::vector<CoarseField> sampled = sampled_of(content, results, classes);
    Box window = page_boxes(420.0, 297.0, drawing::PageLayout::drawing).window;
    LongSectionFrame frame = long_section_frame(content, results.site.ground, window, scales_of(results.project, tools.style));

    Mapped mapped() const { return mapped_of(content, sampled, results, classes, frame, tools); }
    Point paper(const HitOnPlane& hit) const { return frame.paper.paper_from_drawn(hit.place); }
    // The highest class whose fill covers the hit; 0: none.
    std::size_t fill_at(const HitOnPlane& hit) const {
        std::size_t number = 0;
        for (const Tint& tint : mapped().isolines.tints)
            if (drawing::inside(paper(hit), tint.rings)) number = std::max(number, tint.level + 1);
        return number;
    }
    bool is_left_out(const HitOnPlane& hit) const {
        const std::vector<ContraryHit> contrary = mapped().contrary;
        return std::any_of(contrary.begin(), contrary.end(), [&](const ContraryHit& one) {
            return std::hypot(one.at.x - paper(hit).x, one.at.y - paper(hit).y) < 1e-9;
        });
    }
};

TEST(ContraryHits, AreThoseTwoClassesOrMoreOffTheFillUnderThem) {
    MapCase one;
    ASSERT_TRUE(one.classes.any);
    std::size_t filled = 0;
    for (HitOnPlane& hit : one.content.hits) {
        if (hit.sign > HitSign::class_4) continue;
        const std::size_t fill = one.fill_at(hit);
        filled += fill > 0 ? 1 : 0;
        const HitSign before = hit.sign;
        for (int sign = 0; sign <= 4; ++sign) {
            hit.sign = static_cast<HitSign>(sign);
            EXPECT_EQ(one.is_left_out(hit), fill > 0 && std::abs(static_cast<int>(fill) - sign) >= 2)
                << hit.hit->hole << ", class " << sign << " on fill " << fill;
        }
        hit.sign = before;
    }
    EXPECT_GT(filled, 3u);
}

// A quarter of the hole spacing, never past half way to another hit, and never so small that the sign hides it.
TEST(ContraryHits, AreWhiteAsFarAsTheyMaySpeak) {
    MapCase one;
    for (HitOnPlane& hit : one.content.hits)
        if (hit.sign <= HitSign::class_4) hit.sign = one.fill_at(hit) >= 2 ? HitSign::class_0 : HitSign::class_4;
    const Mapped mapped = one.mapped();
    ASSERT_GT(mapped.contrary.size(), 1u);
    ASSERT_TRUE(mapped.words.has_value());
    EXPECT_TRUE(mapped.words->contrary);
    const double spacing = one.results.veins[0].summary().hole_spacing / one.frame.paper.metres_per_mm;
    for (const ContraryHit& round : mapped.contrary) {
        EXPECT_LE(round.radius_mm, spacing / 4.0 + 1e-9);
        EXPECT_GT(round.radius_mm, hit_symbol_width_mm(HitSign::class_0, one.tools) / 2.0);
    }
    const std::size_t tints = mapped.isolines.tints.size();
    const Marks marks = tint_marks(mapped, one.tools);
    ASSERT_EQ(marks.size(), tints + mapped.contrary.size());
    for (std::size_t i = tints; i < marks.size(); ++i)
        EXPECT_EQ(std::get<drawing::Shape>(marks[i]).fill->colour, one.tools.style.colour("white"));
}

// ---- on another block

// Which side of the fault a point is on, by the plane itself.
bool on_hanging_side(const faults::Fault& fault, const Eigen::Vector3d& point) {
    return fault.plane.normal.dot(point - fault.plane.point) > 0.0;
}

TEST(BeyondAFault, IsSaidOfHitsThatTheSectionDrawsOnItsWrongSide) {
    FaultedSheets made(true);
    const faults::Fault& fault = made.world.fault;
    const double azimuth = std::atan2(fault.plane.normal.x(), fault.plane.normal.y()) * 180.0 / std::acos(-1.0);
    made.project.sections.azimuth = base::Azimuth::degrees(azimuth + 55.0);  // oblique to it
    made.project.sections.spacing = 200.0;
    const Results results = made.results();
    const SectionSet set = section_set(results);
    const std::vector<drawing::Sheet> sheets =
        cross_sections(results, set, grade_classes(results), key_map(results), made.run, made.tools());
    std::size_t beyond = 0, said = 0, hits = 0;
    for (const Section& section : set.sections)
        for (const intercepts::Intercept* hit : section_content(results, set, section).hits) {
            ++hits;
            const Eigen::Vector3d drawn = hit->point - section.frame.offset(hit->point) * section.frame.away;
            beyond += on_hanging_side(fault, drawn) != on_hanging_side(fault, hit->point) ? 1 : 0;
        }
    for (const drawing::Sheet& sheet : sheets)
        for (const drawing::Item& item : sheet.items)
            if (const auto* text = std::get_if<drawing::Text>(&item.mark))
                said += text->text.find("m beyond Cross Fault, ") != std::string::npos ? 1 : 0;
    EXPECT_GT(beyond, 1u);
    EXPECT_LT(beyond, hits);
    EXPECT_EQ(said, beyond);
}

}  // namespace
}  // namespace selvage::sheets
