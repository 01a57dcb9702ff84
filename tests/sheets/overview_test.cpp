#include "sheets/overview.h"

#include "pdf/document.h"
#include "sheets/axonometric.h"
#include "sheets/made_up_pack.h"
#include "sheets/visible_surface.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

namespace selvage::sheets {
namespace {

const drawing::Box overview_window{0.0, 0.0, 100.0, 100.0};

std::function<int(double)> always(int item) {
    return [item](double) { return item; };
}

// A square of the paper whose nearness rises to the right by `slope` from `at_left`.
void add_square(VisibleSurface& surface, double at_left, double slope, int item) {
    const auto corner = [&](double x, double y) { return SeenPoint{{x, y}, at_left + slope * (x - 20.0), 0.0}; };
    surface.add({corner(20, 20), corner(80, 20), corner(80, 80)}, always(item));
    surface.add({corner(20, 20), corner(80, 80), corner(20, 80)}, always(item));
}

double ring_area(const std::vector<std::vector<drawing::Point>>& rings) {
    double sum = 0.0;
    for (const auto& ring : rings)
        for (std::size_t i = 0; i < ring.size(); ++i) {
            const drawing::Point &a = ring[i], &b = ring[(i + 1) % ring.size()];
            sum += (a.x * b.y - a.y * b.x) / 2.0;
        }
    return sum;
}

TEST(VisibleSurface, OfSurfacesThatRunThroughEachOtherEachIsSeenWhereItIsNearer) {
    VisibleSurface surface(overview_window, 1.0);
    add_square(surface, 0.0, 0.0, 0);    // level
    add_square(surface, -20.0, 1.0, 1);  // comes through it at x = 40
    EXPECT_EQ(surface.item_at({30.0, 50.0}), 0);
    EXPECT_EQ(surface.item_at({60.0, 50.0}), 1);
    EXPECT_EQ(surface.item_at({90.0, 50.0}), VisibleSurface::nothing);
    EXPECT_NEAR(ring_area(surface.outlines([](int item) { return item == 0; })), 20.0 * 60.0, 25.0);
    EXPECT_NEAR(ring_area(surface.outlines([](int item) { return item == 1; })), 40.0 * 60.0, 25.0);
    EXPECT_NEAR(ring_area(surface.outlines([](int) { return true; })), 60.0 * 60.0, 25.0);
}

TEST(VisibleSurface, WhatIsSeenDoesNotDependOnTheOrder) {
    VisibleSurface one(overview_window, 1.0), other(overview_window, 1.0);
    add_square(one, 0.0, 0.0, 0);
    add_square(one, -20.0, 1.0, 1);
    add_square(other, -20.0, 1.0, 1);
    add_square(other, 0.0, 0.0, 0);
    for (double x = 1.0; x < 100.0; x += 3.0) EXPECT_EQ(one.item_at({x, 50.0}), other.item_at({x, 50.0})) << x;
}

TEST(VisibleSurface, ALineIsCutWhereItGoesBehind) {
    VisibleSurface surface(overview_window, 1.0);
    add_square(surface, 0.0, 0.0, 0);
    const std::vector<SeenPart> behind = surface.parts_of({{{10.0, 50.0}, -30.0}, {{90.0, 50.0}, -30.0}});
    ASSERT_EQ(behind.size(), 3u);
    EXPECT_FALSE(behind[0].hidden);
    EXPECT_TRUE(behind[1].hidden);
    EXPECT_FALSE(behind[2].hidden);
    EXPECT_NEAR(behind[1].points.front().x, 20.0, 0.5);
    EXPECT_NEAR(behind[1].points.back().x, 80.0, 0.5);
    const std::vector<SeenPart> before = surface.parts_of({{{10.0, 50.0}, 30.0}, {{90.0, 50.0}, 30.0}});
    ASSERT_EQ(before.size(), 1u);
    EXPECT_FALSE(before[0].hidden);
}

TEST(VisibleSurface, AHoleInASurfaceIsARingOfItsOwn) {
    VisibleSurface surface(overview_window, 1.0);
    add_square(surface, 0.0, 0.0, 0);
    const auto corner = [](double x, double y) { return SeenPoint{{x, y}, 5.0, 0.0}; };
    surface.add({corner(40, 40), corner(60, 40), corner(60, 60)}, always(1));
    surface.add({corner(40, 40), corner(60, 60), corner(40, 60)}, always(1));
    const auto rings = surface.outlines([](int item) { return item == 0; });
    EXPECT_EQ(rings.size(), 2u);
    EXPECT_NEAR(ring_area(rings), 3600.0 - 400.0, 30.0);
}

TEST(Axonometric, AxesAreSquareAndForeshortenedAsTheLineOfSightSays) {
    const MadeUpPack& pack = made_up_pack();
    ViewDirection direction;
    direction.looking = base::Azimuth::degrees(0.0);
    const AxonometricView view = axonometric_view(direction, {Eigen::Vector3d::Zero(), Eigen::Vector3d(100, 100, 100)},
                                                  overview_window, scales_of(pack.run_results.project, pack.style));
    EXPECT_NEAR(view.right.dot(view.up), 0.0, 1e-12);
    EXPECT_NEAR(view.right.cross(view.up).dot(view.to_eye), 1.0, 1e-12);
    // Looking north, 30 degrees down: east is as it is, north short by sin 30, up by cos 30.
    EXPECT_NEAR(view.right.x(), 1.0, 1e-12);
    EXPECT_NEAR(view.up.y(), 0.5, 1e-12);
    EXPECT_NEAR(view.up.z(), std::sqrt(3.0) / 2.0, 1e-12);
    const SeenPoint a = view.seen({0, 0, 0}), b = view.seen({100, 0, 0});
    EXPECT_NEAR((b.at.x - a.at.x) * view.denominator / 1000.0, 100.0, 1e-9);
}

TEST(Axonometric, OneStandsOnTheHangingWallAndSeesNoOtherVeinOnEdge) {
    const MadeUpPack& pack = made_up_pack();
    const ViewDirection direction = view_direction(pack.results());
    const veins::Vein& vein = pack.run_results.veins.front();
    EXPECT_EQ(direction.hanging_wall_of, vein.name());
    const AxonometricView view = axonometric_view(direction, {Eigen::Vector3d::Zero()}, overview_window, Scales{});
    EXPECT_GT(view.to_eye.dot(vein.mean_plane().normal), 0.5);
    for (const veins::Vein& other : pack.run_results.veins)
        EXPECT_GT(std::abs(view.to_eye.dot(other.mean_plane().normal)), 0.3) << other.name();
}

const drawing::Sheet& overview_sheet() {
    const auto& sheets = made_up_pack().sheets;
    return *std::find_if(sheets.begin(), sheets.end(), [](const drawing::Sheet& sheet) { return sheet.kind == overview_kind; });
}

TEST(Overview, SaysWhereOneLooksAndNamesItsVeins) {
    const MadeUpPack& pack = made_up_pack();
    std::string all;
    for (const SetWords& words : words_of(overview_sheet(), pack.fonts.metrics)) all += words.text->text + "\n";
    EXPECT_NE(all.find("Looking down 30° toward"), std::string::npos);
    for (const veins::Vein& vein : pack.run_results.veins) EXPECT_NE(all.find(vein.name() + " vein"), std::string::npos);
    for (const char* axis : {" m east", " m north", " m up"}) EXPECT_NE(all.find(axis), std::string::npos) << axis;
}

// What stands behind a vein is marked and named: every hit and miss is told, in sight or not.
TEST(Overview, NamesEveryHoleThatAVeinHides) {
    const MadeUpPack& pack = made_up_pack();
    const Results results = pack.results();
    const AxonometricView view = axonometric_view(view_direction(results), {{-600.0, -600.0, -600.0}, {600.0, 600.0, 600.0}},
                                                  {0.0, 0.0, 300.0, 250.0}, scales_of(results.project, pack.style));
    OverviewSigns signs;
    const VisibleSurface surface = bodies_seen(results, view);
    const PointsInSpace points = points_in_space(results, grade_classes(results), surface, view, signs, pack.tools());
    std::size_t seen = 0, hidden = 0, named = 0, asked = results.intercepts.met.size();
    for (const std::size_t count : points.counts) seen += count;
    for (const std::size_t count : points.hidden) hidden += count;
    for (const auto& holes : points.holes_hidden) named += holes.size();
    for (const veins::Vein& vein : results.veins)
        for (const veins::NoVein& none : vein.no_vein()) asked += none.is_miss() ? 1 : 0;
    EXPECT_EQ(seen + hidden, asked);
    EXPECT_EQ(named, hidden);
    ASSERT_GT(hidden, 0u);
    EXPECT_TRUE(signs.hidden_points);
    std::string all;
    for (const SetWords& words : words_of(overview_sheet(), pack.fonts.metrics)) all += words.text->text + " ";
    OverviewSigns drawn;
    const AxonometricView best =
        axonometric_view(overview_direction(results, pack.tools()), {{-600.0, -600.0, -600.0}, {600.0, 600.0, 600.0}},
                         {0.0, 0.0, 300.0, 250.0}, scales_of(results.project, pack.style));
    const PointsInSpace shown =
        points_in_space(results, grade_classes(results), bodies_seen(results, best), best, drawn, pack.tools());
    std::size_t hidden_there = 0;
    for (const std::size_t count : shown.hidden) hidden_there += count;
    EXPECT_LE(hidden_there, hidden);
    for (const auto& holes : shown.holes_hidden)
        for (const std::string& hole : holes) EXPECT_NE(all.find(hole), std::string::npos) << hole;
}

TEST(Overview, IsOneSheetOfModestSizeAndTheSameEveryTime) {
    const MadeUpPack& pack = made_up_pack();
    const auto bytes = [&] {
        return pdf::document_bytes(overview(pack.results(), pack.run, grade_classes(pack.results()), pack.tools()), pack.fonts,
                                   {"overview", "test", ""});
    };
    const std::string first = bytes();
    EXPECT_LT(first.size(), 300000u);
    EXPECT_TRUE(first == bytes());
}

TEST(Overview, ThereIsNoneWithoutABody) {
    const MadeUpPack& pack = made_up_pack();
    const std::vector<veins::VeinSolid> none;
    const Results all = pack.results();
    const Results results{all.project, all.records, all.paths,     all.orientations, all.events, all.intercepts,
                          all.veins,   all.pierces, all.step_outs, all.site,         none};
    EXPECT_TRUE(overview(results, pack.run, grade_classes(results), pack.tools()).empty());
}

}  // namespace
}  // namespace selvage::sheets
