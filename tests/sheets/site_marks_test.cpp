#include "sheets/site_marks.h"
#include "sheets/ground.h"
#include "sheets/ground_contours.h"
#include "support/map_files.h"
#include "support/reliefs.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace selvage::sheets {
namespace {

constexpr Box site_window{0.0, 0.0, 200.0, 100.0};
const PaperFrame frame{site_window, {0.0, 0.0}, 1.0};  // 1 m a millimetre, the origin in the middle

double area_of(const Rings& rings) {
    double twice = 0.0;
    for (const std::vector<Point>& ring : rings)
        for (std::size_t i = 0; i < ring.size(); ++i) {
            const Point &a = ring[i], &b = ring[(i + 1) % ring.size()];
            twice += a.x * b.y - a.y * b.x;
        }
    return std::abs(twice) / 2.0;
}

// A slope of 1 in 10: 20 m of relief over 200 mm. At 5 mm between lines the interval is 0.5 m, and 30 levels
// at most make it 20/30, in round figures 1 m.
TEST(GroundContours, StandAtARoundInterval) {
    const site::Ground ground(std::nullopt,
                              test::grid_relief(-150, -100, 150, 100, 2.0, [](double east, double) { return 0.1 * east; }));
    const base::MapFrame metres;
    const GroundContours contours = ground_contours(ground, frame, std::nullopt, metres);
    EXPECT_EQ(contours.interval, 1.0);
    EXPECT_EQ(contours.names[contours.names.size() / 2], "0");
    for (const Isoline& line : contours.numbered)
        for (const Point& at : line.points) {
            const double elevation = 0.1 * frame.drawn_from_paper(at).x();
            EXPECT_NEAR(elevation, 5.0 * std::round(elevation / 5.0), 1e-3);
        }
    EXPECT_EQ(ground_contours(ground, frame, 4.0, metres).interval, 4.0);
    base::MapFrame feet;
    feet.unit = base::LengthUnit::foot;  // 65.6 ft of relief: 2.2 ft at least, so 5 ft
    EXPECT_EQ(ground_contours(ground, frame, std::nullopt, feet).interval, 5.0);
}

TEST(GroundContours, AreNotDrawnOnAssumedOrLevelGround) {
    EXPECT_EQ(ground_contours(site::Ground(base::Plane{}), frame, std::nullopt, {}).interval, 0.0);
    const site::Ground level(std::nullopt, test::grid_relief(-150, -100, 150, 100, 2.0, [](double, double) { return 7.0; }));
    EXPECT_EQ(ground_contours(level, frame, std::nullopt, {}).interval, 0.0);
}

TEST(GroundLine, ChangesItsLookWhereTheTopographyEnds) {
    const site::Ground ground(base::Plane{}, test::grid_relief(0, -50, 50, 50, 2.0, [](double, double) { return 3.0; }));
    const auto place = [](double x) { return Eigen::Vector3d(x, 0.0, 0.0); };
    const auto on_paper = [&](double x) { return Point{x, ground_elevation(ground, place(x))}; };
    const auto pieces = ground_pieces(ground, -50.0, 150.0, place, on_paper);
    ASSERT_EQ(pieces.size(), 3U);
    EXPECT_FALSE(pieces[0].given);
    EXPECT_TRUE(pieces[1].given);
    EXPECT_NEAR(pieces[1].line.front().x, 0.0, 0.51);
    EXPECT_EQ(pieces[1].line.front().y, 3.0);
    EXPECT_EQ(ground_pieces(site::Ground(base::Plane{}), 0.0, 100.0, place, on_paper).front().line.size(), 2U);
}

// A box of 40 x 6 x 10 m seen from above and from the side; and what of it lies in a slab that it sticks out of.
TEST(Shadow, CoversWhatTheSolidCovers) {
    const auto solid = site::prism({test::box_ring(-20.0, -3.0, 20.0, 3.0)}, -5.0, 5.0);
    ASSERT_NE(solid, nullptr);
    const SheetPlane from_above = [](const Eigen::Vector3d& point) {
        return OnSheet{frame.paper_from_drawn(point.head<2>()), point.z()};
    };
    EXPECT_NEAR(area_of(shadow_on_paper(*solid, {}, from_above, 1e9, site_window)), 240.0, 10.0);
    const base::Plane north{Eigen::Vector3d::Zero(), Eigen::Vector3d::UnitY()};
    const SheetPlane looking_north = [](const Eigen::Vector3d& point) {
        return OnSheet{frame.paper_from_drawn({point.x(), point.z()}), point.y()};
    };
    EXPECT_NEAR(area_of(shadow_on_paper(*solid, north, looking_north, 1.0, site_window)), 400.0,
                12.0);  // filled, though its ends are outside
    const base::Plane beside{{0.0, 30.0, 0.0}, Eigen::Vector3d::UnitY()};
    const SheetPlane far = [](const Eigen::Vector3d& point) {
        return OnSheet{frame.paper_from_drawn({point.x(), point.z()}), point.y() - 30.0};
    };
    EXPECT_TRUE(shadow_on_paper(*solid, beside, far, 10.0, site_window).empty());
}

}  // namespace
}  // namespace selvage::sheets
