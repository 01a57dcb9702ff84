#include "veins/crossing.h"

#include "faults/faults_ahead.h"
#include "veins/pierce_covariance.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <utility>
#include <vector>

namespace selvage::veins {

namespace {

constexpr double least_chance = 0.05;      // of a crossing that is worth a word
constexpr double least_angle_sine = 0.05;  // 3 degrees: below it the curve's width is found step by step alone
constexpr double knot_spacing = 0.75;      // sds of depth between exact evaluations
constexpr double knot_growth = 1.08;       // of that, outwards
constexpr std::size_t most_knots = 48;     // each way

// How far out a curve is followed, and how many knots are asked for at once on the way.
struct Reach {
    double tail_probability;
    std::size_t knots_together;
};
constexpr Reach six_sd{1e-9, 8}, three_sd{1e-3, 4};
constexpr int depths_between_knots = 8;  // on the curve

double last_depth(const paths::Path& path) { return std::max(path.end_depth, path.start_depth) + longest_prolongation; }

// Height of the mean surface over the path, positive where the path is under it.
class RoughHeight {
public:
    // `exact`: off the lattice too (the base plane stands for the surface there otherwise).
    RoughHeight(const Vein::Model& model, const paths::Path& path, std::size_t block, bool exact)
        : model_(model), path_(path), part_(model.parts[block]), exact_(exact) {}

    double at(double depth) const {
        const Eigen::Vector3d point = part_.chart.chart_from_world(paths::position_at(path_, depth));
        const Eigen::Vector2d place = point.head<2>();
        const double known = model_.lattice->largest_height() + 2.0 * part_.mean_slip.norm();
        const double further = std::max(0.0, nearest_distance(model_.met, place) - model_.step_out);
        // Far from the plane the sign is all that matters, and plain.
        if (std::abs(point.z()) > known + 1.0 + further) return -point.z();
        if (!exact_ && !model_.lattice->covers(place)) return -point.z();
        return mean_in(model_, part_, place).height - point.z();
    }

private:
    const Vein::Model& model_;
    const paths::Path& path_;
    const BlockPart& part_;
    bool exact_;
};

struct Approach {
    double depth = 0.0;
    bool crosses = false;  // else it only comes near
};

// First change of side; else the depth where the path is nearest.
Approach first_approach(const RoughHeight& height, const Vein::Model& model, const paths::Path& path,
                        const faults::Blocks::Stretch& stretch) {
    const double step = std::clamp(model.spacing / 5.0, 2.0, 10.0);
    const double last = stretch.to;
    const double side = height.at(stretch.from);
    double before = stretch.from, gap_before = side;
    Approach nearest{before, false};
    double least = std::abs(side);
    for (double depth = before; depth < last;) {
        depth = std::min(last, depth + step);
        const double gap = height.at(depth);
        if ((gap >= 0.0) != (side >= 0.0)) {
            double low = before, high = depth;
            while (high - low > 1e-3) {
                const double middle = (low + high) / 2.0;
                ((height.at(middle) >= 0.0) == (side >= 0.0) ? low : high) = middle;
            }
            return {(low + high) / 2.0, true};
        }
        if (std::abs(gap) < least) {
            least = std::abs(gap);
            nearest.depth = depth;
        }
        const double rate = std::abs(gap) - std::abs(gap_before);
        // Past the end it bends little: once it moves away, far down, it is not waited for.
        if (depth > path.end_depth + 3.0 * model.step_out && rate > 0.0) break;
        before = depth;
        gap_before = gap;
    }
    return nearest;
}

// An exact evaluation: the surface's height over the path, as components, and the chance that the path is past the surface.
struct Knot {
    double depth = 0.0;
    double level = 0.0;               // the path's own w: its components vary less than the path
    numerics::NormalMixture surface;  // height over the base plane, with the path's errors in it
    double past = 0.0;
};

double chance_past(const numerics::NormalMixture& surface, double level, bool from_hanging_side) {
    const double above = 1.0 - surface.cumulative(level);  // that the surface lies over the path
    return from_hanging_side ? above : 1.0 - above;
}

// Depths on one side, the step growing. They are asked for several at a time, which costs less than one by one even where some
// are asked in vain.
struct Steps {
    double reached = 0.0, step = 1.0;
    std::size_t together = 1;
    std::vector<double> next(double least, double most) {
        std::vector<double> depths;
        for (std::size_t i = 0; i < together; ++i, step *= knot_growth)
            depths.push_back(reached = std::clamp(reached + step, least, most));
        return depths;
    }
};

class Knots {
public:
    Knots(const Vein::Model& model, const paths::Path& path, const faults::Blocks::Stretch& stretch,
          const Eigen::Vector3d& slope_row, bool from_hanging_side, const Reach& reach)
        : model_(model),
          path_(path),
          block_(stretch.block),
          least_(stretch.from),
          most_(model.blocks.is_cut() ? stretch.to : std::numeric_limits<double>::infinity()),
          slope_row_(slope_row),
          from_hanging_side_(from_hanging_side),
          reach_(reach) {}

    // Outwards from a first depth, until the curve is done there, in the order of depth.
    std::vector<Knot> around(double depth, double spacing) const {
        Steps up{depth, -spacing, reach_.knots_together}, down{depth, spacing, reach_.knots_together};
        std::vector<double> depths = up.next(least_, most_);
        const std::size_t above = depths.size();
        depths.push_back(depth);
        for (const double deeper : down.next(least_, most_)) depths.push_back(deeper);
        const std::vector<Knot> asked = at_all(depths);
        const auto middle = asked.begin() + static_cast<std::ptrdiff_t>(above);
        const Knot& first = *middle;
        std::vector<Knot> knots = outwards(first, up, {asked.begin(), middle}, [&](const Knot& last) {
            return last.past > reach_.tail_probability && last.depth > least_;
        });
        std::reverse(knots.begin(), knots.end());
        knots.push_back(first);
        const std::vector<Knot> below = outwards(first, down, {middle + 1, asked.end()}, [&](const Knot& last) {
            return last.past < 1.0 - reach_.tail_probability && last.depth < most_ &&
                   (last.depth == first.depth || last.past > reach_.tail_probability);
        });
        knots.insert(knots.end(), below.begin(), below.end());
        return knots;
    }

    // Chance at a depth between two knots, their components interpolated: each moves little from one to the next.
    double past_between(const Knot& a, const Knot& b, double depth) const {
        const double share = (depth - a.depth) / (b.depth - a.depth);
        numerics::NormalMixture between = a.surface;
        for (std::size_t k = 0; k < between.means.size(); ++k) {
            between.means[k] += share * (b.surface.means[k] - a.surface.means[k]);
            between.sds[k] += share * (b.surface.sds[k] - a.surface.sds[k]);
        }
        const double level = chart().chart_from_world(paths::position_at(path_, depth)).z();
        return chance_past(between, level, from_hanging_side_);
    }

private:
    const Chart& chart() const { return model_.parts[block_].chart; }

    std::vector<Knot> at_all(const std::vector<double>& depths) const {
        std::vector<PathPoint> points;
        for (const double depth : depths) {
            points.push_back({chart().chart_from_world(paths::position_at(path_, depth)), slope_row_,
                              effects_in(model_, block_, path_, depth)});
        }
        std::vector<numerics::NormalMixture> gaps = heights_over_paths(*model_.surface, points);
        std::vector<Knot> knots(depths.size());
        for (std::size_t i = 0; i < depths.size(); ++i) {
            knots[i].depth = depths[i];
            knots[i].level = points[i].chart_point.z();
            knots[i].surface = numerics::shifted(std::move(gaps[i]), knots[i].level);
            knots[i].past = chance_past(knots[i].surface, knots[i].level, from_hanging_side_);
        }
        return knots;
    }

    // Knots one after the other on one side, the step growing, until `goes_on` says no of the last.
    template <typename GoesOn>
    std::vector<Knot> outwards(const Knot& first, Steps steps, std::vector<Knot> ahead, const GoesOn& goes_on) const {
        std::vector<Knot> knots;
        for (std::size_t next = 0; knots.size() < most_knots && goes_on(knots.empty() ? first : knots.back()); ++next) {
            if (next == ahead.size()) {
                ahead = at_all(steps.next(least_, most_));
                next = 0;
            }
            knots.push_back(std::move(ahead[next]));
        }
        return knots;
    }

    const Vein::Model& model_;
    const paths::Path& path_;
    std::size_t block_;
    double least_, most_;  // m along the hole
    Eigen::Vector3d slope_row_;
    bool from_hanging_side_;
    Reach reach_;
};

// The running maximum of the chance, less what it is at the start.
Crossing curve_through(const Knots& knots, const std::vector<Knot>& exact) {
    Crossing crossing;
    const double at_start = exact.front().past;
    double highest = at_start;
    crossing.depth.push_back(exact.front().depth);
    crossing.cumulative.push_back(0.0);
    for (std::size_t k = 0; k + 1 < exact.size(); ++k) {
        for (int i = 1; i <= depths_between_knots; ++i) {
            const double share = static_cast<double>(i) / depths_between_knots;
            const double depth = exact[k].depth + share * (exact[k + 1].depth - exact[k].depth);
            highest = std::max(highest,
                               i == depths_between_knots ? exact[k + 1].past : knots.past_between(exact[k], exact[k + 1], depth));
            crossing.depth.push_back(depth);
            crossing.cumulative.push_back(highest - at_start);
        }
    }
    crossing.chance = crossing.cumulative.back();
    return crossing;
}

// Sd of the surface's height over the path, near enough to say how far apart knots should be.
double rough_gap_sd(const Vein::Model& model, const paths::Path& path, std::size_t block, double depth,
                    const Eigen::Vector3d& slope_row) {
    const Eigen::Vector2d place = model.parts[block].chart.chart_from_world(paths::position_at(path, depth)).head<2>();
    double variance = std::pow(model.parts[block].band->at(place).height_sd, 2);
    for (const ChartEffect& effect : chart_effects(model.parts[block].chart, paths::effects_at(path, depth)))
        variance += std::pow(slope_row.dot(effect.displacement) * effect.source.sd, 2);
    return std::sqrt(variance);
}

// A block's stretch of a path as far as anybody knows: it begins and ends where faults lie, give or take their errors.
class DoubtfulStretch {
public:
    DoubtfulStretch(const Vein::Model& model, const paths::Path& path, const faults::Blocks::Stretch& stretch)
        : stretch_(stretch), from_sd_(sd_at(model, path, stretch.from)), to_sd_(sd_at(model, path, stretch.to)) {}

    // With what may still belong to it.
    faults::Blocks::Stretch wide(const paths::Path& path) const {
        constexpr double sds = 3.0;
        return {stretch_.block, std::max(path.start_depth, stretch_.from - sds * from_sd_), stretch_.to + sds * to_sd_};
    }
    // Each part of a curve by the chance that it lies in the block.
    void weigh(Crossing& crossing) const {
        double sum = 0.0, before = crossing.cumulative.front();
        for (std::size_t i = 1; i < crossing.depth.size(); ++i) {
            const double gain = crossing.cumulative[i] - before;
            before = crossing.cumulative[i];
            sum += gain * chance_within((crossing.depth[i - 1] + crossing.depth[i]) / 2.0);
            crossing.cumulative[i] = sum;
        }
        crossing.cumulative.front() = 0.0;
        crossing.chance = sum;
    }

private:
    // 0 where no fault is: at a path's start and at the end of what is looked at.
    static double sd_at(const Vein::Model& model, const paths::Path& path, double depth) {
        if (!model.blocks.is_cut() || depth <= path.start_depth || depth >= last_depth(path)) return 0.0;
        const Eigen::Vector3d point = paths::position_at(path, depth);
        const faults::Blocks::Inside inside = model.blocks.inside(model.blocks.at(point), point);
        return faults::crossing_sd(path, model.blocks.faults()[inside.fault], inside.moved, depth);
    }
    double chance_within(double depth) const {
        const double begun = from_sd_ > 0.0 ? numerics::normal_cumulative((depth - stretch_.from) / from_sd_) : 1.0;
        const double not_ended = to_sd_ > 0.0 ? numerics::normal_cumulative((stretch_.to - depth) / to_sd_) : 1.0;
        return begun * not_ended;
    }

    faults::Blocks::Stretch stretch_;
    double from_sd_, to_sd_;  // m
};

// How far off the extent the median point is, in sds of its position.
void place_on_extent(const Vein::Model& model, const BlockPart& part, const paths::Path& path, Crossing& crossing) {
    const double median = crossing.depth_at(0.5);
    const Eigen::Vector2d place = part.chart.chart_from_world(paths::position_at(path, median)).head<2>();
    const double inside = margin_at(part.extent, place).inside;
    crossing.within_extent = inside >= 0.0;
    if (crossing.within_extent) return;
    crossing.beyond_extent_sd = std::numeric_limits<double>::infinity();
    if (!std::isfinite(inside)) return;
    const Eigen::Vector2d gradient = model.lattice->at(place).gradient;
    const Eigen::Vector3d normal = model.chart.chart_from_world_rotation.transpose() * slope_row_of(gradient).normalized();
    const double depth_sd = (crossing.depth_at(0.9) - crossing.depth_at(0.1)) / 2.563;
    const Eigen::Matrix3d in_chart = model.chart.chart_from_world_rotation * pierce_covariance(path, median, normal, depth_sd) *
                                     model.chart.chart_from_world_rotation.transpose();
    const double reach = 1.0;  // m, for the way towards the extent
    const Eigen::Vector2d towards(margin_at(part.extent, place + Eigen::Vector2d(reach, 0.0)).inside - inside,
                                  margin_at(part.extent, place + Eigen::Vector2d(0.0, reach)).inside - inside);
    const Eigen::Vector2d way = towards.norm() > 0.0 ? Eigen::Vector2d(towards.normalized()) : Eigen::Vector2d(1.0, 0.0);
    const double sd = std::sqrt(way.dot(in_chart.topLeftCorner<2, 2>() * way));
    if (sd > 0.0) crossing.beyond_extent_sd = -inside / sd;
}

}  // namespace

std::vector<faults::Blocks::Stretch> stretches_of(const Vein::Model& model, const paths::Path& path) {
    return model.blocks.stretches(path, path.start_depth, last_depth(path));
}

std::optional<double> rough_crossing(const Vein::Model& model, const paths::Path& path, const faults::Blocks::Stretch& stretch) {
    const Approach approach = first_approach(RoughHeight(model, path, stretch.block, false), model, path, stretch);
    return approach.crosses ? std::optional<double>(approach.depth) : std::nullopt;
}

std::optional<Crossing> crossing_curve(const Vein::Model& model, const paths::Path& path, const faults::Blocks::Stretch& nominal,
                                       CurveEnds ends) {
    const DoubtfulStretch doubtful(model, path, nominal);
    const faults::Blocks::Stretch stretch = doubtful.wide(path);
    const BlockPart& part = model.parts[stretch.block];
    const RoughHeight height(model, path, stretch.block, true);
    const Approach approach = first_approach(height, model, path, stretch);
    const Eigen::Vector2d place = part.chart.chart_from_world(paths::position_at(path, approach.depth)).head<2>();
    const Eigen::Vector2d gradient = model.lattice->at(place).gradient;
    const Eigen::Vector3d slope_row = slope_row_of(gradient);
    const double fall = slope_row.dot(part.chart.chart_from_world_rotation * paths::direction_at(path, approach.depth));
    // A hole comes from the side where it starts; behind a fault it may start a stretch beyond the vein already.
    const bool from_hanging_side = model.blocks.is_cut() ? fall < 0.0 : height.at(path.start_depth) < 0.0;
    const Knots knots(model, path, stretch, slope_row, from_hanging_side, ends == CurveEnds::six_sd ? six_sd : three_sd);
    const double sine = std::max(std::abs(fall), least_angle_sine);
    const double depth_sd = rough_gap_sd(model, path, stretch.block, approach.depth, slope_row) / sine;
    const std::vector<Knot> exact = knots.around(approach.depth, knot_spacing * std::max(depth_sd, 0.01));
    if (exact.size() < 2) return std::nullopt;
    Crossing crossing = curve_through(knots, exact);
    if (model.blocks.is_cut()) doubtful.weigh(crossing);
    if (crossing.chance < least_chance) return std::nullopt;
    crossing.block = model.blocks.name(stretch.block);
    crossing.block_number = stretch.block;
    place_on_extent(model, part, path, crossing);
    return crossing;
}

std::vector<Crossing> Vein::crossings(const paths::Path& path) const {
    std::vector<Crossing> crossings;
    for (const faults::Blocks::Stretch& stretch : stretches_of(*model_, path))
        if (auto crossing = crossing_curve(*model_, path, stretch)) crossings.push_back(std::move(*crossing));
    std::stable_sort(crossings.begin(), crossings.end(),
                     [](const Crossing& a, const Crossing& b) { return a.chance > b.chance; });
    return crossings;
}

}  // namespace selvage::veins
