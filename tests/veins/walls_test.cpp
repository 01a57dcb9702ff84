#include "veins/model.h"

#include "vein_scene.h"
#include "veins/walls.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace selvage::veins {
namespace {

SmoothVein flat_smooth() {
    return {[](const Eigen::Vector2d& x) { return 0.5 * std::sin(x.x() / 70.0); },
            [](const Eigen::Vector2d& x) { return Eigen::Vector2d(0.5 / 70.0 * std::cos(x.x() / 70.0), 0.0); },
            [](const Eigen::Vector2d&) { return std::log(0.6); }};
}

double largest_gap(const Walls& walls, const SmoothVein& smooth, const std::vector<WallContacts>& contacts) {
    double largest = 0.0;
    for (const WallContacts& one : contacts) {
        for (const double side : {0.5, -0.5}) {
            const Eigen::Vector3d& contact = side > 0.0 ? one.hanging : one.foot;
            const Eigen::Vector2d place = contact.head<2>();
            const DrawnVein drawn = drawn_vein(walls, smooth.mid(place), smooth.log_thickness(place), place);
            const double wall = drawn.mid + side * drawn.thickness;
            largest = std::max(largest, std::abs(wall - contact.z()));
        }
    }
    return largest;
}

// Fifteen holes at 20 to 85 degrees to the plane, thickness 0.2 to 1.5 m, mid-points 1-2 m off the smooth surface.
std::vector<WallContacts> fifteen_holes() {
    std::vector<WallContacts> contacts;
    for (int i = 0; i < 15; ++i) {
        const double angle = (20.0 + 65.0 * i / 14.0) * std::acos(-1.0) / 180.0, heading = 2.4 * i;
        const Eigen::Vector3d along(std::cos(heading) / std::tan(angle), std::sin(heading) / std::tan(angle), 1.0);
        const Eigen::Vector3d middle(50.0 * (i % 4) + 7.0 * std::sin(i), 50.0 * (i / 4) + 6.0 * std::cos(3.0 * i),
                                     2.0 * std::sin(5.0 * i));
        const double thickness = 0.2 + 1.3 * (0.5 + 0.5 * std::sin(8.0 * i));
        contacts.push_back({"H", middle + along * thickness / 2.0, middle - along * thickness / 2.0});
    }
    return contacts;
}

TEST(Walls, PassThroughEveryContactAtAnglesOf20To85Degrees) {
    const auto contacts = fifteen_holes();
    const SmoothVein smooth = flat_smooth();
    const Walls walls = build_walls(contacts, smooth, 50.0);
    EXPECT_LT(largest_gap(walls, smooth, contacts), 1e-6);
    EXPECT_LT(walls.largest_gap, 1e-6);
    EXPECT_TRUE(walls.upside_down.empty());
}

TEST(Walls, TwoHolesTwoMetresApartThatDisagreeMakeNoSpikeElsewhere) {
    auto contacts = fifteen_holes();
    const Eigen::Vector3d shift(2.0, 0.0, 3.0);
    contacts.push_back({"W", contacts[5].hanging + shift, contacts[5].foot + shift});
    const SmoothVein smooth = flat_smooth();
    const Walls walls = build_walls(contacts, smooth, 50.0);
    EXPECT_LT(largest_gap(walls, smooth, contacts), 1e-6);
    double largest = 0.0;
    for (double u = -60.0; u < 220.0; u += 1.0) {
        for (double v = -60.0; v < 220.0; v += 1.0) largest = std::max(largest, std::abs(walls.mid.at({u, v})));
    }
    EXPECT_LT(largest, 8.0);  // residuals reach 6 m
}

// Four metres of height over two of distance: at 43 degrees to the plane the hole would leave the vein by the wall that it came
// in by.
TEST(Walls, ContactsThatCannotBePassedAreNamed) {
    auto contacts = fifteen_holes();
    const Eigen::Vector3d shift(2.0, 0.0, 4.0);
    contacts.push_back({"W", contacts[5].hanging + shift, contacts[5].foot + shift});
    const Walls walls = build_walls(contacts, flat_smooth(), 50.0);
    EXPECT_FALSE(walls.upside_down.empty());
    EXPECT_LT(walls.largest_gap, 0.1);
}

TEST(Walls, ALoneContactBendsTheVeinWithinItsRadiusOnly) {
    const std::vector<WallContacts> contacts{{"H", {0.0, 0.0, 3.0}, {0.0, 0.0, 2.0}}};
    const SmoothVein smooth = flat_smooth();
    const Walls walls = build_walls(contacts, smooth, 50.0);
    EXPECT_LT(largest_gap(walls, smooth, contacts), 1e-6);
    EXPECT_EQ(walls.mid.at({50.0, 0.0}), 0.0);
}

TEST(Walls, ContactsTurnedOverByTheSlopeAreNamedAndLeftOut) {
    std::vector<WallContacts> contacts = fifteen_holes();
    contacts.push_back({"over", {300.0, 0.0, -1.0}, {300.0, 0.0, 1.0}});
    const Walls walls = build_walls(contacts, flat_smooth(), 50.0);
    ASSERT_EQ(walls.upside_down.size(), 1u);
    EXPECT_EQ(walls.upside_down.front(), "over");
}

// Wendland 1995: (1 - r)^4 (4 r + 1), which is 1 at 0, 0.1875 at 1/2, 0 with two derivatives at 1.
TEST(Walls, BumpHasItsPublishedShape) {
    const BumpField one({{Eigen::Vector2d::Zero(), 10.0, 2.0}});
    EXPECT_DOUBLE_EQ(one.at({0.0, 0.0}), 2.0);
    EXPECT_DOUBLE_EQ(one.at({5.0, 0.0}), 2.0 * 0.1875);
    EXPECT_EQ(one.at({10.0, 0.0}), 0.0);
    EXPECT_LT(one.at({9.99, 0.0}), 1e-10);
}

// A dozen holes within ten metres, as wedges off one parent bring them: a hole's contacts lie further apart than the holes do.
TEST(Walls, PassThroughTheContactsOfHolesThatLieAsCloseAsTheirOwnContacts) {
    auto contacts = fifteen_holes();
    for (int i = 0; i < 12; ++i) {
        const double heading = 0.3 * i;
        const Eigen::Vector3d along(0.8 * std::cos(heading), 0.8 * std::sin(heading), 0.6);
        const Eigen::Vector3d middle(84.0 + 1.1 * (i % 4) + 0.3 * i, 150.0 + 1.7 * (i / 4), 0.4 * std::sin(9.0 * i));
        contacts.push_back({"W", middle + along, middle - along});
    }
    const SmoothVein smooth = flat_smooth();
    const Walls walls = build_walls(contacts, smooth, 50.0);
    EXPECT_LT(largest_gap(walls, smooth, contacts), 1e-6);
    EXPECT_TRUE(walls.upside_down.empty());
    for (double u = 70.0; u < 110.0; u += 0.25) {
        for (double v = 140.0; v < 170.0; v += 0.25) {
            const DrawnVein drawn = drawn_vein(walls, smooth.mid({u, v}), smooth.log_thickness({u, v}), {u, v});
            EXPECT_LT(std::abs(drawn.mid), 4.0);
            EXPECT_GT(drawn.thickness, 0.0);
            EXPECT_LT(drawn.thickness, 8.0);
        }
    }
}

// The whole way: the trace of the drawn vein on the plane of each hole passes through both of its contacts.
TEST(Walls, TheDrawnVeinPassesThroughTheContactsOfEveryHole) {
    Scene scene;
    scene.lattice(3, 4);
    const auto veins = scene.model();
    ASSERT_EQ(veins.size(), 1u);
    for (const intercepts::Intercept& met : scene.intercepts.met) {
        const paths::Path& path = scene.paths[static_cast<std::size_t>(&met - scene.intercepts.met.data())];
        const Eigen::Vector3d hanging = paths::position_at(path, met.from), foot = paths::position_at(path, met.to);
        // A cut square to the base plane and to strike through each contact: its middle step has that contact's (u, v).
        for (const bool upper : {true, false}) {
            const Eigen::Vector3d& contact = upper ? hanging : foot;
            const Eigen::Vector3d strike = Eigen::Vector3d::UnitZ().cross(veins[0].mean_plane().normal).normalized();
            const auto trace = veins[0].trace({contact, strike}, 40.0, 20.0);
            ASSERT_FALSE(trace.empty());
            double nearest = 1e9;
            for (const TracePoint& point : trace)
                nearest = std::min(nearest, ((upper ? point.hanging : point.foot) - contact).norm());
            EXPECT_LT(nearest, 1e-6) << met.hole;
        }
    }
}

}  // namespace
}  // namespace selvage::veins
