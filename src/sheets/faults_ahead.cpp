#include "sheets/faults_ahead.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace selvage::sheets {

namespace {

constexpr double step = 5.0, precision = 1e-3;  // m along the hole
constexpr double waves_sd = 2.0;                // m: of a fault off its plane
constexpr double tenth_point = 1.2815515655;    // of a standard normal: its 90 % point
constexpr double least_sine = 0.05;             // of the angle between hole and fault: a flatter crossing is told no better

std::optional<double> crossing_of(const paths::Path& path, const base::Plane& plane, double from, double to) {
    const auto over = [&](double depth) { return base::signed_distance(plane, paths::position_at(path, depth)); };
    const bool starts_over = over(from) >= 0.0;
    for (double low = from; low < to;) {
        double high = std::min(to, low + step);
        if ((over(high) >= 0.0) == starts_over) {
            low = high;
            continue;
        }
        while (high - low > precision) {
            const double middle = (low + high) / 2.0;
            ((over(middle) >= 0.0) == starts_over ? low : high) = middle;
        }
        return (low + high) / 2.0;
    }
    return std::nullopt;
}

}  // namespace

std::vector<FaultAhead> faults_ahead(const paths::Path& path, const std::vector<faults::Fault>& faults, double from, double to) {
    std::vector<FaultAhead> ahead;
    for (const faults::Fault& fault : faults) {
        const std::optional<double> depth = crossing_of(path, fault.plane, from, to);
        if (!depth) continue;
        const Eigen::Vector3d normal = fault.plane.normal;
        const double place_sd = faults::offset_sd(fault, paths::position_at(path, *depth));
        const double across = normal.dot(paths::covariance_at(path, *depth) * normal);
        const double sine = std::max(least_sine, std::abs(normal.dot(paths::direction_at(path, *depth))));
        const double half = tenth_point * std::sqrt(place_sd * place_sd + across + waves_sd * waves_sd) / sine;
        ahead.push_back({fault.name, *depth, *depth - half, *depth + half});
    }
    std::stable_sort(ahead.begin(), ahead.end(), [](const FaultAhead& a, const FaultAhead& b) { return a.depth < b.depth; });
    return ahead;
}

}  // namespace selvage::sheets
