#include "faults/faults_ahead.h"

#include "faults/fault_plane.h"
#include "paths/locate.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace selvage::faults {

namespace {

constexpr double step = 5.0, precision = 1e-7;  // m along the hole
constexpr double fine_step = 1.0;               // m along a hole that does not cross
constexpr double tenth_point = 1.2815515655;    // of a standard normal: its 90 % point
constexpr double least_sine = 0.05;             // of the angle between hole and fault: a flatter crossing is told no better

// Where a path first passes from one side of the plane to the other, within the piece.
std::optional<double> crossing_of(const paths::Path& path, const FaultPiece& piece, double from, double to) {
    const auto over = [&](double depth) { return base::signed_distance(piece.plane, paths::position_at(path, depth)) >= 0.0; };
    for (double low = from; low < to;) {
        const double end = std::min(to, low + step);
        const bool side = over(low);
        if (over(end) != side) {
            double high = end;
            while (high - low > precision) {
                const double middle = (low + high) / 2.0;
                (over(middle) == side ? low : high) = middle;
            }
            if (holds(piece, paths::position_at(path, (low + high) / 2.0))) return (low + high) / 2.0;
        }
        low = end;
    }
    return std::nullopt;
}

// Sd of the distance between a path and a fault, square to that, m.
double sd_between(const paths::Path& path, const Fault& fault, const Shift& moved, double depth) {
    const Eigen::Vector3d& normal = fault.plane.normal;
    const double across = normal.dot(paths::covariance_at(path, depth) * normal);
    return std::hypot(offset_sd(fault, moved, paths::position_at(path, depth)), waves_sd, std::sqrt(across));
}

FaultAhead crossed(const paths::Path& path, const Fault& fault, const Shift& moved, double depth) {
    const double half = tenth_point * crossing_sd(path, fault, moved, depth);
    return {fault.name, true, depth, std::max(path.start_depth, depth - half), depth + half, 1.0};
}

// The stretch of a path so near to a piece that it is crossed in one hole of ten or more.
std::optional<FaultAhead> approached(const paths::Path& path, const Fault& fault, const FaultPiece& piece, double from,
                                     double to) {
    std::optional<FaultAhead> ahead;
    double nearest = 0.0;
    for (double depth = from; depth <= to; depth += fine_step) {
        const Eigen::Vector3d point = paths::position_at(path, depth);
        if (!holds(piece, point)) continue;
        const double away = std::abs(base::signed_distance(piece.plane, point));
        const double sd = sd_between(path, fault, piece.moved, depth);
        if (away > tenth_point * sd) continue;
        if (!ahead) ahead = FaultAhead{fault.name, false, depth, depth, depth, 0.0};
        if (depth == ahead->depth_p10 || away < nearest) {
            nearest = away;
            ahead->depth = depth;
        }
        ahead->depth_p90 = depth;
        ahead->chance = std::max(ahead->chance, std::erfc(away / sd / std::sqrt(2.0)) / 2.0);
    }
    return ahead;
}

}  // namespace

double crossing_sd(const paths::Path& path, const Fault& fault, const Shift& moved, double depth) {
    const double sine = std::max(least_sine, std::abs(fault.plane.normal.dot(paths::direction_at(path, depth))));
    return sd_between(path, fault, moved, depth) / sine;
}

std::vector<FaultAhead> faults_ahead(const paths::Path& path, const Events& events, double from, double to) {
    std::vector<FaultAhead> ahead;
    for (const Fault& fault : events.faults)
        for (const FaultPiece& piece : pieces_of(events, fault)) {
            if (const auto depth = crossing_of(path, piece, from, to))
                ahead.push_back(crossed(path, fault, piece.moved, *depth));
            else if (auto near = approached(path, fault, piece, from, to))
                ahead.push_back(std::move(*near));
        }
    std::stable_sort(ahead.begin(), ahead.end(), [](const FaultAhead& a, const FaultAhead& b) { return a.depth < b.depth; });
    return ahead;
}

}  // namespace selvage::faults
