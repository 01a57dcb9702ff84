#include "veins/mean_lattice.h"

#include "veins/surface.h"

#include <gtest/gtest.h>

#include <cmath>

namespace selvage::veins {
namespace {

// Nine holes 50 m apart on an undulating vein.
std::shared_ptr<const SurfaceModel> nine_holes(std::vector<Eigen::Vector2d>& places) {
    std::vector<SurfaceDatum> data;
    for (int i = 0; i < 9; ++i) {
        SurfaceDatum datum;
        datum.hole = std::to_string(i);
        datum.place = Eigen::Vector2d(50.0 * (i % 3) + 5.0 * std::sin(i), 50.0 * (i / 3) + 5.0 * std::cos(i));
        datum.height = 3.0 * std::sin(datum.place.x() / 50.0) + 2.0 * std::cos(datum.place.y() / 40.0);
        places.push_back(datum.place);
        data.push_back(datum);
    }
    return fit_surface(std::move(data), 50.0, SurfaceRules{});
}

TEST(MeanLattice, FollowsTheMeanToACentimetre) {
    std::vector<Eigen::Vector2d> places;
    const auto surface = nine_holes(places);
    const MeanLattice lattice(surface, lattice_near(places, 160.0, 12.5));
    for (double u = -100.0; u < 200.0; u += 13.7) {
        for (double v = -100.0; v < 200.0; v += 11.3) {
            const Eigen::Vector2d place(u, v);
            if (!lattice.covers(place)) continue;
            const MeanSurface exact = mean_at(*surface, place), quick = lattice.at(place);
            EXPECT_NEAR(quick.height, exact.height, 0.01);
            EXPECT_NEAR((quick.gradient - exact.gradient).norm(), 0.0, 0.004);
        }
    }
}

TEST(MeanLattice, GradientIsTheSlopeOfItsHeight) {
    std::vector<Eigen::Vector2d> places;
    const MeanLattice lattice(nine_holes(places), lattice_near(places, 160.0, 12.5));
    const double h = 1e-4;
    for (const Eigen::Vector2d& place : {Eigen::Vector2d(12.0, 33.0), Eigen::Vector2d(77.0, 91.0)}) {
        const Eigen::Vector2d u(h, 0.0), v(0.0, h);
        EXPECT_NEAR(lattice.at(place).gradient.x(), (lattice.at(place + u).height - lattice.at(place - u).height) / (2 * h),
                    1e-7);
        EXPECT_NEAR(lattice.at(place).gradient.y(), (lattice.at(place + v).height - lattice.at(place - v).height) / (2 * h),
                    1e-7);
    }
}

TEST(MeanLattice, OffItsNodesItAsksTheModel) {
    std::vector<Eigen::Vector2d> places;
    const auto surface = nine_holes(places);
    const MeanLattice lattice(surface, lattice_near(places, 100.0, 12.5));
    const Eigen::Vector2d far(900.0, -400.0);
    EXPECT_FALSE(lattice.covers(far));
    EXPECT_EQ(lattice.at(far).height, mean_at(*surface, far).height);
}

}  // namespace
}  // namespace selvage::veins
