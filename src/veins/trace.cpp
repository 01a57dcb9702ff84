#include "base/parallel.h"
#include "veins/model.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <functional>
#include <optional>
#include <utility>

namespace selvage::veins {

namespace {

constexpr double margin_share = 0.5;  // of the step-out, beyond the extent, that is still traced
constexpr int most_rounds = 40;
constexpr double precision = 1e-7;  // m
constexpr double least_rate = 0.2;  // of the gap's fall with t: a flatter secant would leap
const base::Angle least_angle = base::Angle::degrees(15);

using Height = std::function<double(const Eigen::Vector2d&)>;

// The cutting plane on the chart: its line on the base plane, the way across that line, and how far a height shifts a point
// along it.
struct Cut {
    Eigen::Vector2d start = Eigen::Vector2d::Zero();    // (u, v) of the line's point nearest to the plane's
    Eigen::Vector2d along = Eigen::Vector2d::UnitX();   // unit
    Eigen::Vector2d across = Eigen::Vector2d::UnitY();  // unit, square to it
    double shift = 0.0;                                 // m along `across` for a metre of height
    double half_length = 0.0;                           // m
};

std::optional<Cut> cut_of(const Chart& chart, const base::Plane& plane, double radius) {
    const Eigen::Vector3d normal = chart.chart_from_world_rotation * plane.normal;
    const double level = normal.head<2>().norm();  // sine of the angle between the planes
    if (level < least_angle.sin()) return std::nullopt;
    const Eigen::Vector3d point = chart.chart_from_world(plane.point);
    Cut cut;
    cut.across = normal.head<2>() / level;
    cut.along = Eigen::Vector2d(-cut.across.y(), cut.across.x());
    cut.shift = -normal.z() / level;
    cut.start = point.head<2>() + cut.across * (point.z() * normal.z() / level);
    const double off = point.z() / level;  // from the plane's point to the line, within the cutting plane
    cut.half_length = std::sqrt(std::max(0.0, radius * radius - off * off));
    return cut;
}

// The point of a surface over one point of the line, within the cutting plane: x = t across + h(x) w with t = shift h. Secants,
// from the slope of the smooth surface on.
Eigen::Vector3d on_cut(const Cut& cut, const Eigen::Vector2d& foot, const Height& height, double first, double slope) {
    double t = first, h = height(foot + t * cut.across);
    double rate = std::max(least_rate, 1.0 - cut.shift * slope);
    for (int round = 0; round < most_rounds; ++round) {
        const double gap = t - cut.shift * h;
        if (std::abs(gap) < precision) break;
        const double next = t - gap / rate;
        const double next_h = height(foot + next * cut.across);
        rate = std::max(least_rate, ((next - cut.shift * next_h) - gap) / (next - t));
        t = next;
        h = next_h;
    }
    const Eigen::Vector2d place = foot + t * cut.across;
    return {place.x(), place.y(), h};
}

// No drawn surface is higher over the base plane, m.
double highest(const Vein::Model& model) {
    double bumps = 0.0, slips = 0.0;
    for (const Bump& bump : model.walls.mid.bumps()) bumps = std::max(bumps, std::abs(bump.height));
    for (const BlockPart& part : model.parts) slips = std::max(slips, part.mean_slip.norm());
    return model.lattice->largest_height() + 2.0 * (bumps + slips);
}

TracePoint trace_point(const Vein::Model& model, const BlockPart& part, const Extent& but_for_faults, const Cut& cut,
                       const Eigen::Vector2d& foot, const Eigen::Vector3d& mid) {
    const Eigen::Vector2d place = mid.head<2>();
    const MeanSurface mean = mean_in(model, part, place);
    const double t = (place - foot).dot(cut.across), slope = mean.gradient.dot(cut.across);
    const auto at_offset = [&](double offset) -> Height {
        return [&model, &part, offset](const Eigen::Vector2d& x) { return mean_in(model, part, x).height + offset; };
    };
    const auto wall = [&](double side) -> Height {
        return [&model, &part, side](const Eigen::Vector2d& x) {
            const DrawnVein drawn = drawn_at(model, part, x);
            return drawn.mid + side * drawn.thickness / 2.0;
        };
    };
    const auto world = [&](const Height& surface) { return part.chart.world_from_chart(on_cut(cut, foot, surface, t, slope)); };
    const DrawnBand band = part.band->at(place);
    TracePoint point;
    point.mid = part.chart.world_from_chart(mid);
    point.hanging = world(wall(1.0));
    point.foot = world(wall(-1.0));
    point.low80 = world(at_offset(band.low80));
    point.high80 = world(at_offset(band.high80));
    point.sd = band.height_sd / std::sqrt(1.0 + mean.gradient.squaredNorm());
    point.presence = model.window->at(place) * model.drawn_thickness->at(place).chance_of_more_than_trace;
    point.within_extent = margin_at(part.extent, place).inside >= 0.0;
    point.within_but_for_faults = margin_at(but_for_faults, place).inside >= 0.0;
    return point;
}

}  // namespace

std::vector<TracePoint> Vein::trace(const base::Plane& plane, double radius, double step, std::size_t block) const {
    const Model& model = *model_;
    const BlockPart& part = model.parts[block];
    const auto cut = cut_of(part.chart, plane, radius);
    if (!cut || part.extent.hits.empty()) return {};
    const Height drawn = [&](const Eigen::Vector2d& place) { return drawn_at(model, part, place).mid; };
    const auto half = static_cast<std::size_t>(std::floor(cut->half_length / step));
    // Off the lattice a height is dear, and no place there is traced: how far the line may lie from the place over it.
    const double reach = (1.0 + margin_share) * model.step_out + std::abs(cut->shift) * highest(model);
    std::vector<std::optional<TracePoint>> steps(2 * half + 1);
    Extent but_for_faults = part.extent;
    but_for_faults.within_block = nullptr;
    base::parallel_for(steps.size(), [&](std::size_t i) {
        const double along = (static_cast<double>(i) - static_cast<double>(half)) * step;
        const Eigen::Vector2d foot = cut->start + along * cut->along;
        if (nearest_distance(part.extent.hits, foot) > reach) return;
        const Eigen::Vector3d mid = on_cut(*cut, foot, drawn, 0.0, 0.0);
        if (margin_at(but_for_faults, mid.head<2>()).inside < -margin_share * model.step_out) return;
        steps[i] = trace_point(model, part, but_for_faults, *cut, foot, mid);
    });
    std::vector<TracePoint> trace;
    for (const std::optional<TracePoint>& point : steps) {
        if (point) trace.push_back(*point);
    }
    return trace;
}

std::vector<std::vector<TracePoint>> Vein::traces(const base::Plane& plane, double radius, double step) const {
    std::vector<std::vector<TracePoint>> all;
    for (std::size_t block = 0; block < model_->parts.size(); ++block) {
        all.push_back(trace(plane, radius, step, block));
        if (all.back().empty()) all.pop_back();
    }
    return all;
}

}  // namespace selvage::veins
