#include "paths/minimum_curvature.h"

#include <Eigen/Geometry>

#include <algorithm>
#include <cmath>
#include <limits>

namespace selvage::paths {

namespace {

// Below this angle series take the place of formulas that cancel; their first term left out is then under 1e-13.
constexpr double small_angle = 0.2;
// Keeps the weights finite where two stations point against each other.
constexpr double least_sine_ratio = 1e-12;

// sin(x)/x
double sine_ratio(double x) {
    if (std::abs(x) > 1e-4) return std::sin(x) / x;
    return 1.0 - x * x / 6.0;
}

double divisor(double dogleg) { return std::max(sine_ratio(dogleg), least_sine_ratio); }

// (d/dx log(sin(x)/x)) / x = (x cot x - 1)/x^2
double log_slope(double x) {
    const double s = x * x;
    if (std::abs(x) > small_angle) return (x * std::cos(x) / std::sin(x) - 1.0) / s;
    return -(1.0 / 3.0 + s * (1.0 / 45.0 + s * (2.0 / 945.0 + s * (1.0 / 4725.0 + s * (2.0 / 93555.0)))));
}

// displacement = start_weight * start + end_weight * end, both integrals of the spherical interpolation between the directions.
struct Weights {
    double start, end;
};

Weights displacement_weights(const Arc& arc, double share) {
    const double half = sine_ratio(arc.dogleg * share / 2.0);
    const double over = half / divisor(arc.dogleg);
    return {arc.length * share * (1.0 - share / 2.0) * sine_ratio(arc.dogleg * (1.0 - share / 2.0)) * over,
            arc.length * share * share / 2.0 * half * over};
}

// Derivatives of the weights by the cosine of the dogleg.
Weights weight_slopes(const Arc& arc, double share, const Weights& weights) {
    const double b = arc.dogleg, rest = 1.0 - share / 2.0, half = share / 2.0;
    const double whole = log_slope(b), by_half = half * half * log_slope(b * half);
    const double over = -1.0 / divisor(b);
    return {weights.start * over * (rest * rest * log_slope(b * rest) + by_half - whole),
            weights.end * over * (2.0 * by_half - whole)};
}

}  // namespace

Arc arc_between(const Eigen::Vector3d& start, const Eigen::Vector3d& end, double length) {
    return {length, start, end, 2.0 * std::atan2((end - start).norm(), (end + start).norm())};
}

Eigen::Vector3d displacement_on(const Arc& arc, double share) {
    const Weights weights = displacement_weights(arc, share);
    return weights.start * arc.start + weights.end * arc.end;
}

Eigen::Vector3d direction_on(const Arc& arc, double share) {
    const double over = divisor(arc.dogleg);
    const Eigen::Vector3d sum = (1.0 - share) * sine_ratio(arc.dogleg * (1.0 - share)) / over * arc.start +
                                share * sine_ratio(arc.dogleg * share) / over * arc.end;
    return sum.normalized();
}

Eigen::Vector3d displacement_change_on(const Arc& arc, double share, const Eigen::Vector3d& start_turn,
                                       const Eigen::Vector3d& end_turn) {
    const Weights weights = displacement_weights(arc, share);
    const Weights slopes = weight_slopes(arc, share, weights);
    const double cosine_change = arc.end.dot(start_turn) + arc.start.dot(end_turn);
    return weights.start * start_turn + weights.end * end_turn +
           cosine_change * (slopes.start * arc.start + slopes.end * arc.end);
}

base::Angle dogleg_between(const base::Direction& from, const base::Direction& to) {
    return base::Angle::radians(arc_between(base::unit_vector(from), base::unit_vector(to), 1.0).dogleg);
}

base::Angle dogleg_per_metre(const base::Direction& from, const base::Direction& to, double length) {
    return (1.0 / length) * dogleg_between(from, to);
}

double radius_of(base::Angle dogleg_per_metre) {
    const double curvature = std::abs(dogleg_per_metre.radians());
    return curvature > 0.0 ? 1.0 / curvature : std::numeric_limits<double>::infinity();
}

double ratio_factor(base::Angle dogleg) {
    const double half = dogleg.radians() / 2.0;
    return sine_ratio(half) / std::cos(half);
}

}  // namespace selvage::paths
