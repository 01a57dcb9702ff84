#include "veins/base_plane.h"

#include "base/angle.h"
#include "base/random.h"
#include "support/made_up_vein.h"

#include <gtest/gtest.h>
#include <Eigen/Geometry>

#include <algorithm>
#include <cmath>
#include <functional>

namespace selvage::veins {
namespace {

constexpr double degree = 3.14159265358979323846 / 180.0;

// A vein that dips 70 degrees to the south-east, in space.
struct World {
    Eigen::Vector3d normal = base::upward_normal({base::Angle::degrees(70.0), base::Azimuth::degrees(130.0)});
    Eigen::Vector3d strike = Eigen::Vector3d::UnitZ().cross(normal).normalized();
    Eigen::Vector3d up_dip = normal.cross(strike);
    Eigen::Vector3d at(const Eigen::Vector2d& place, double height) const {
        return Eigen::Vector3d(500.0, -300.0, 1200.0) + place.x() * strike + place.y() * up_dip + height * normal;
    }
    // Angle between a plane and the mean slope of a surface over this one, degrees.
    double error_of(const base::Plane& plane, const Eigen::Vector2d& slope = Eigen::Vector2d::Zero()) const {
        const Eigen::Vector3d truth = (normal - slope.x() * strike - slope.y() * up_dip).normalized();
        return std::acos(std::min(1.0, std::abs(plane.normal.dot(truth)))) / degree;
    }
};

struct Layout {
    bool contacts = true, normals = true, fence = false, one_far_off = false;
    std::size_t holes = 4;
};

// Errors of the plane over many veins, degrees, sorted.
std::vector<double> errors_of(const Layout& layout, std::uint64_t seed) {
    const World world;
    std::vector<double> errors;
    for (std::uint64_t k = 0; k < 200; ++k) {
        base::RandomStream stream("base plane", {seed, k});
        const made_up::Places holes =
            layout.fence ? made_up::fence_holes(layout.holes, 50.0, stream) : made_up::lattice_holes(layout.holes, 50.0, stream);
        const auto kind = static_cast<made_up::SurfaceKind>(k % 6);
        made_up::Surface surface = made_up::surface_of(kind, holes, 50.0, stream);
        surface.tilt.setZero();
        const Eigen::Vector2d mean_slope = 0.5 * surface.kink_slope * surface.kink_direction;  // about half lies beyond the kink
        const double step = kind == made_up::SurfaceKind::rough ? 5.0 : 1.0;                   // m, of its slopes
        made_up::Places all = holes;
        for (const Eigen::Vector2d& hole : holes) {
            all.emplace_back(hole.x() + step, hole.y());
            all.emplace_back(hole.x(), hole.y() + step);
        }
        const Eigen::VectorXd heights = made_up::heights_of(surface, all, stream);
        std::vector<PlanePoint> points;
        std::vector<PlaneNormal> normals;
        for (std::size_t i = 0; i < holes.size(); ++i) {
            const auto h = static_cast<Eigen::Index>(i), n = static_cast<Eigen::Index>(holes.size());
            const double off = layout.one_far_off && i == k % holes.size() ? 40.0 : 0.0;
            points.push_back({world.at(holes[i], heights(h) + off + stream.normal()), 1.0});
            const double su = std::atan((heights(n + 2 * h) - heights(h)) / step) + 0.12 * stream.normal();
            const double sv = std::atan((heights(n + 2 * h + 1) - heights(h)) / step) + 0.12 * stream.normal();
            const Eigen::Vector3d normal = world.normal - std::tan(su) * world.strike - std::tan(sv) * world.up_dip;
            normals.push_back({(k % 2 == 0 ? -1.0 : 1.0) * normal.normalized(), 0.12});
        }
        if (!layout.contacts) points.resize(1);
        if (!layout.normals) normals.clear();
        const auto plane = base_plane(points, normals);
        if (plane) errors.push_back(world.error_of(*plane, mean_slope));
    }
    std::sort(errors.begin(), errors.end());
    return errors;
}

double quantile(const std::vector<double>& sorted, double share) {
    return sorted[static_cast<std::size_t>(share * static_cast<double>(sorted.size() - 1))];
}

// The authors' own study on other veins of this kind, median (95th percentile): 4 holes spread, both 2.8 (7.1) degrees, contacts
// alone 4.6 (18.5), normals alone 4.8 (11.7); one fence of 4, both 4.3 (9.0). No outside source. Held to a third of the medians;
// contacts alone may be better.
TEST(BasePlane, IsAsNearAsContactsAndNormalsAllow) {
    EXPECT_NEAR(quantile(errors_of({true, true, false, false, 4}, 1), 0.5), 2.8, 0.9);
    EXPECT_LT(quantile(errors_of({true, false, false, false, 4}, 2), 0.5), 4.6);
    EXPECT_NEAR(quantile(errors_of({false, true, false, false, 4}, 3), 0.5), 4.8, 1.6);
}

TEST(BasePlane, TakesTheTiltAboutAFenceFromTheNormals) {
    EXPECT_NEAR(quantile(errors_of({true, true, true, false, 4}, 4), 0.5), 4.3, 1.4);
}

// As above: 8 holes, one contact 40 m off, 2.0 (5.7) degrees with this cost, 6.9 (11.7) with squares.
TEST(BasePlane, IsHardlyMovedByOneContactFarOff) {
    const std::vector<double> errors = errors_of({true, true, false, true, 8}, 5);
    EXPECT_LT(quantile(errors, 0.5), 3.0);
    EXPECT_LT(quantile(errors, 0.95), 8.0);
}

TEST(BasePlane, RefusesWhatTellsNoAttitude) {
    EXPECT_LT(errors_of({true, false, true, false, 4}, 6).size(), 20U);  // one fence: refused in nine of ten at least
    const World world;
    std::vector<PlanePoint> points{{world.at({0.0, 0.0}, 0.0), 1.0}, {world.at({50.0, 0.0}, 0.0), 1.0}};
    EXPECT_FALSE(base_plane(points, {}));
    EXPECT_TRUE(base_plane(points, {{world.normal, 0.1}}));
    points.push_back({world.at({100.0, 1.0}, 0.0), 1.0});
    EXPECT_FALSE(base_plane(points, {}));
    points.push_back({world.at({50.0, 60.0}, 0.0), 1.0});
    EXPECT_TRUE(base_plane(points, {}));
    EXPECT_FALSE(base_plane({}, {}));
}

TEST(BasePlane, GoesThroughPointsThatLieInAPlane) {
    const World world;
    std::vector<PlanePoint> points;
    for (const auto& [u, v] : {std::pair(0.0, 0.0), std::pair(70.0, 10.0), std::pair(20.0, 90.0), std::pair(-40.0, 30.0)})
        points.push_back({world.at({u, v}, 0.0), 1.0});
    const auto plane = base_plane(points, {});
    ASSERT_TRUE(plane);
    EXPECT_LT(world.error_of(*plane), 1e-5);
    for (const PlanePoint& point : points) EXPECT_NEAR(base::signed_distance(*plane, point.position), 0.0, 1e-5);
}

TEST(BasePlane, GivesOneAttitudeItsOwnPlane) {
    const World world;
    const auto plane = base_plane({{world.at({3.0, 4.0}, 0.0), 5.0}}, {{-world.normal, 10.0 * degree}});
    ASSERT_TRUE(plane);
    EXPECT_LT(world.error_of(*plane), 1e-6);
    EXPECT_NEAR(base::signed_distance(*plane, world.at({3.0, 4.0}, 0.0)), 0.0, 1e-6);
}

}  // namespace
}  // namespace selvage::veins
