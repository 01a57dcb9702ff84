#pragma once

#include "base/random.h"
#include "veins/surface.h"

#include <Eigen/Core>

#include <cstdint>
#include <vector>

// Made-up veins whose truth is known, in their own axes (u, v, w), for tests of what the model says of its errors. Everything
// here is invented. Lengths in metres, holes about 50 m apart unless said otherwise.
namespace selvage::made_up {

using Places = std::vector<Eigen::Vector2d>;

constexpr double infinitely_smooth = -1.0;  // as nu: exp(-r^2 / 2 L^2)

// A unit Gaussian field at all these places together, exact but for 1e-8: Matern correlation with argument sqrt(2 nu) r / L, nu
// 0.5, 1.5, 2.5 or infinitely_smooth; ranges L sqrt(ratio) along the direction `axis` (radians from u), L / sqrt(ratio) across.
struct Field {
    double range = 100.0, nu = 1.5, ratio = 1.0, axis = 0.0;
};
Eigen::VectorXd values_of(const Field& field, const Places& places, base::RandomStream& stream);

// Holes on part of a rough lattice, its edge as uneven as drilling leaves it.
Places lattice_holes(std::size_t count, double spacing, base::RandomStream& stream);
// Holes in one line up the dip.
Places fence_holes(std::size_t count, double spacing, base::RandomStream& stream);

// Where the truth is asked for: up to 15 places each within the holes' hull, about one spacing outside it (nearest hole at
// 0.75-1.25 spacings), and about two (1.6-2.1).
struct TruthPlaces {
    Places inside, one_out, two_out;
};
TruthPlaces truth_places(const Places& holes, double spacing, base::RandomStream& stream);

enum class SurfaceKind { rough, once_smooth, twice_smooth, smooth, kinked, flat };

// A surface over the plane: a field, a tilt that the base plane missed, and a kink for that kind. Drawn once, then asked for at
// all places together.
struct Surface {
    SurfaceKind kind = SurfaceKind::once_smooth;
    double sd = 3.0;
    Field field;
    Eigen::Vector2d middle = Eigen::Vector2d::Zero();
    double shift = 0.0;
    Eigen::Vector2d tilt = Eigen::Vector2d::Zero();
    Eigen::Vector2d kink_direction = Eigen::Vector2d::UnitX();
    double kink_from = 0.0, kink_slope = 0.0;
    double step = 0.0;  // m, by which a fault lifts what lies beyond the kink's line
};
Surface surface_of(SurfaceKind kind, const Places& holes, double spacing, base::RandomStream& stream);
Eigen::VectorXd heights_of(const Surface& surface, const Places& places, base::RandomStream& stream);

// A drilled vein: what the model is told, and what is true.
struct Vein {
    SurfaceKind kind = SurfaceKind::once_smooth;
    double spacing = 50.0;
    std::vector<veins::SurfaceDatum> data;
    TruthPlaces places;
    Eigen::VectorXd inside, one_out, two_out;  // true heights at the places
};

// World `number` of a run; the six kinds of surface take turns. The height's sd is told, the core angles' is not.
Vein vein(std::uint64_t seed, std::size_t holes, std::uint64_t number, bool oriented, double spacing = 50.0);
// A gentle vein of kind once_smooth, oriented, that a fault through the holes' middle has stepped by 6 to 15 m; nobody says so.
Vein stepped_vein(std::uint64_t seed, std::size_t holes, std::uint64_t number, double spacing);

}  // namespace selvage::made_up
