#include "veins/extent.h"

#include "veins/outline.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>

namespace selvage::veins {

namespace {

constexpr double most_nodes_each_way = 240.0;  // of the outline's lattice
constexpr double near_share = 0.4;    // of the extrapolation distance, outside of which ground and property are not asked for
constexpr double even_chance = 0.5;   // a chance changes by one over a step-out or more, as a rule
constexpr double steepest_cut = 0.2;  // sine of the angle to the ground below which its cut is not spread further

const Eigen::Vector2d* nearest(const std::vector<Eigen::Vector2d>& places, const Eigen::Vector2d& place) {
    const Eigen::Vector2d* best = nullptr;
    double least = std::numeric_limits<double>::infinity();
    for (const Eigen::Vector2d& one : places) {
        const double squared = (one - place).squaredNorm();
        if (squared >= least) continue;
        least = squared;
        best = &one;
    }
    return best;
}

// Distance from the line half way between the nearest hit and the nearest miss, positive on the hit's side.
double before_half_way(const Eigen::Vector2d& hit, const Eigen::Vector2d& miss, const Eigen::Vector2d& place) {
    const double apart = std::max((hit - miss).norm(), 1e-6);
    return ((place - miss).squaredNorm() - (place - hit).squaredNorm()) / (2.0 * apart);
}

// A distance square to a plane of unit normal `normal`, as one along the vein.
double along_vein(const Extent& extent, const Eigen::Vector3d& normal, double distance) {
    const double level = normal.dot(extent.chart.w());
    return distance / std::sqrt(std::max(steepest_cut * steepest_cut, 1.0 - level * level));
}

double below_ground(const Extent& extent, const Eigen::Vector3d& point) {
    const std::optional<base::Plane> ground = extent.ground.plane_at(point.head<2>());
    if (!ground) return std::numeric_limits<double>::infinity();
    return along_vein(extent, ground->normal, -base::signed_distance(*ground, point));
}

double before(const Extent& extent, const faults::Blocks::Inside& inside) {
    return along_vein(extent, inside.normal, inside.distance);
}

std::vector<OutlinePiece> pieces_of(const Extent& extent, const Loop& loop) {
    const std::size_t count = loop.size();
    std::vector<EdgeReason> reasons(count);
    for (std::size_t i = 0; i < count; ++i) reasons[i] = margin_at(extent, (loop[i] + loop[(i + 1) % count]) / 2.0).reason;
    std::size_t start = 0;
    while (start < count && reasons[start] == reasons[(start + count - 1) % count]) ++start;
    start %= count;
    std::vector<OutlinePiece> pieces;
    for (std::size_t step = 0; step < count; ++step) {
        const std::size_t i = (start + step) % count;
        if (pieces.empty() || pieces.back().reason != reasons[i]) pieces.push_back({reasons[i], {loop[i]}});
        pieces.back().places.push_back(loop[(i + 1) % count]);
    }
    return pieces;
}

}  // namespace

double nearest_distance(const std::vector<Eigen::Vector2d>& places, const Eigen::Vector2d& place) {
    const Eigen::Vector2d* one = nearest(places, place);
    return one == nullptr ? std::numeric_limits<double>::infinity() : (*one - place).norm();
}

Margin margin_at(const Extent& extent, const Eigen::Vector2d& place) {
    const Eigen::Vector2d* hit = nearest(extent.hits, place);
    if (hit == nullptr) return {-std::numeric_limits<double>::infinity(), EdgeReason::extrapolation_distance};
    Margin margin{extent.step_out - (place - *hit).norm(), EdgeReason::extrapolation_distance};
    if (const Eigen::Vector2d* miss = nearest(extent.misses, place)) {
        const double inside = before_half_way(*hit, *miss, place);
        if (inside <= margin.inside) margin = {inside, EdgeReason::half_way_to_miss};
    }
    if (extent.presence && margin.inside > -near_share * extent.step_out) {
        const double inside = (extent.presence(place) - even_chance) * extent.step_out;
        if (inside < margin.inside) margin = {inside, EdgeReason::presence};
    }
    // Faults, other veins, ground and property are only asked for where the rest has not cut yet by much: the height there costs
    // more.
    if ((extent.within_block || extent.before_parent || extent.ground.is_known() || extent.property) &&
        margin.inside > -near_share * extent.step_out) {
        const Eigen::Vector3d point = extent.chart.world_from_chart({place.x(), place.y(), extent.height(place)});
        const double to_fault =
            extent.within_block ? before(extent, extent.within_block(point)) + extent.overstep : margin.inside;
        if (to_fault < margin.inside) margin = {to_fault, EdgeReason::fault};
        const double to_vein =
            extent.before_parent ? before(extent, extent.before_parent(point)) + extent.overstep : margin.inside;
        if (to_vein < margin.inside) margin = {to_vein, EdgeReason::other_vein};
        const double below = below_ground(extent, point) + extent.overstep;
        if (below < margin.inside) margin = {below, EdgeReason::topography};
        const double inside = extent.property ? extent.property->inside_by(point.head<2>()) + extent.overstep : margin.inside;
        if (inside < margin.inside) margin = {inside, EdgeReason::property};
    }
    return margin;
}

std::vector<Loop> outline_loops(const Extent& extent, double spacing) {
    if (extent.hits.empty()) return {};
    Eigen::Vector2d lower = extent.hits.front(), upper = lower;
    for (const Eigen::Vector2d& hit : extent.hits) {
        lower = lower.cwiseMin(hit);
        upper = upper.cwiseMax(hit);
    }
    const double widest = (upper - lower).maxCoeff() + 2.0 * extent.step_out;
    const double step = std::max(std::min(spacing / 8.0, extent.step_out / 8.0), widest / most_nodes_each_way);
    const Eigen::Vector2d rim = Eigen::Vector2d::Constant(extent.step_out + 1.5 * step);
    const auto inside = [&](const Eigen::Vector2d& place) { return margin_at(extent, place).inside; };
    return zero_contours(inside, lower - rim, upper + rim, step);
}

ExtentOutline outline_of(const Extent& extent, double spacing) {
    ExtentOutline outline;
    for (const Loop& loop : outline_loops(extent, spacing)) {
        outline.area += signed_area(loop);
        for (OutlinePiece& piece : pieces_of(extent, loop)) outline.pieces.push_back(std::move(piece));
    }
    return outline;
}

}  // namespace selvage::veins
