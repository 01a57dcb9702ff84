#include "sheets/vein_field.h"

#include "base/parallel.h"
#include "base/segment.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <utility>

namespace selvage::sheets {

namespace {

using Places = std::vector<Eigen::Vector2d>;
constexpr double unknown = std::numeric_limits<double>::quiet_NaN();
// A vein's logarithms change little within a tenth of the extrapolation distance (a fifth of the hole spacing); and asking the
// model is the dear part, so that a grid has no more than so many nodes.
constexpr double coarse_share = 0.1;
constexpr double coarse_nodes_most = 4000.0;
constexpr double median = 0.5;

std::size_t nodes_over(double length, double step) { return static_cast<std::size_t>(std::ceil(length / step)) + 1; }

double nearest_of(const Places& hits, const Eigen::Vector2d& place) {
    double nearest = std::numeric_limits<double>::infinity();
    for (const Eigen::Vector2d& hit : hits) nearest = std::min(nearest, (hit - place).norm());
    return nearest;
}

VeinField grid_over(const Eigen::Vector2d& lower_left, const Eigen::Vector2d& upper_right, double step) {
    VeinField field;
    field.corner = lower_left;
    field.step = step;
    field.across = nodes_over(upper_right.x() - lower_left.x(), step);
    field.up = nodes_over(upper_right.y() - lower_left.y(), step);
    field.log_value.assign(field.across * field.up, unknown);
    return field;
}

// Weights of four neighbouring nodes for a place `t` between the middle two: the cubic through them with the slopes of its
// neighbours (Catmull & Rom 1974).
std::array<double, 4> cubic_weights(double t) {
    const double t2 = t * t, t3 = t2 * t;
    return {0.5 * (-t3 + 2.0 * t2 - t), 0.5 * (3.0 * t3 - 5.0 * t2 + 2.0), 0.5 * (-3.0 * t3 + 4.0 * t2 + t), 0.5 * (t3 - t2)};
}

double smooth_at(const VeinField& coarse, const Eigen::Vector2d& place) {
    const Eigen::Vector2d at = (place - coarse.corner) / coarse.step;
    if (at.x() < 1.0 || at.y() < 1.0) return unknown;
    const auto column = static_cast<std::size_t>(at.x()), row = static_cast<std::size_t>(at.y());
    if (column + 2 >= coarse.across || row + 2 >= coarse.up) return unknown;
    const std::array<double, 4> x_weights = cubic_weights(at.x() - static_cast<double>(column));
    const std::array<double, 4> y_weights = cubic_weights(at.y() - static_cast<double>(row));
    double sum = 0.0;
    for (std::size_t j = 0; j < 4; ++j)
        for (std::size_t i = 0; i < 4; ++i)
            sum += x_weights[i] * y_weights[j] * coarse.log_value[coarse.index(column + i - 1, row + j - 1)];
    return sum;
}

// Calls visit(index, place) for the nodes within `by` of the box round a and b.
template <typename Visit>
void visit_near(const VeinField& field, const Eigen::Vector2d& a, const Eigen::Vector2d& b, double by, const Visit& visit) {
    const auto clamped = [&](double value, std::size_t count) {
        return static_cast<std::size_t>(std::clamp(value, 0.0, static_cast<double>(count)));
    };
    const Eigen::Vector2d low = (a.cwiseMin(b) - field.corner).array() / field.step - by / field.step;
    const Eigen::Vector2d high = (a.cwiseMax(b) - field.corner).array() / field.step + by / field.step;
    const std::size_t right = clamped(std::ceil(high.x()) + 1.0, field.across),
                      top = clamped(std::ceil(high.y()) + 1.0, field.up);
    for (std::size_t row = clamped(std::floor(low.y()), field.up); row < top; ++row)
        for (std::size_t column = clamped(std::floor(low.x()), field.across); column < right; ++column)
            visit(field.index(column, row), field.place(column, row));
}

// Metres by which a node lies within `reach` of the nearest line between linked hits (of the nearest hit where not `linked`).
std::vector<double> within_reach(const VeinField& field, const Places& hits, double reach, std::optional<double> linked) {
    std::vector<double> by(field.across * field.up, -2.0 * field.step);
    const auto spread = [&](const Eigen::Vector2d& a, const Eigen::Vector2d& b) {
        visit_near(field, a, b, reach + 2.0 * field.step, [&](std::size_t node, const Eigen::Vector2d& place) {
            by[node] = std::max(by[node], reach - base::distance_to_segment(place, a, b));
        });
    };
    for (std::size_t i = 0; i < hits.size(); ++i) {
        if (!linked) spread(hits[i], hits[i]);
        for (std::size_t j = i + 1; linked && j < hits.size(); ++j)
            if ((hits[i] - hits[j]).norm() <= *linked) spread(hits[i], hits[j]);
    }
    return by;
}

// Metres by which a node lies within the extent, up to two steps either way: the edge is all that counts.
std::vector<double> within_extent(const VeinField& field, const VeinExtent& extent) {
    const double most = 2.0 * field.step;
    std::vector<double> by(field.across * field.up, most);
    for (const VeinExtent::Piece& piece : extent.pieces)
        visit_near(field, piece.a, piece.b, most, [&](std::size_t node, const Eigen::Vector2d& place) {
            by[node] = std::min(by[node], base::distance_to_segment(place, piece.a, piece.b));
        });
    // A node is inside where a ray to the right crosses the edge an odd number of times.
    for (std::size_t row = 0; row < field.up; ++row) {
        const double y = field.place(0, row).y();
        std::vector<double> crossings;
        for (const auto& [a, b] : extent.pieces)
            if ((a.y() > y) != (b.y() > y)) crossings.push_back(a.x() + (b.x() - a.x()) * (y - a.y()) / (b.y() - a.y()));
        std::sort(crossings.begin(), crossings.end());
        for (std::size_t column = 0, passed = 0; column < field.across; ++column) {
            while (passed < crossings.size() && crossings[passed] <= field.place(column, row).x()) ++passed;
            if ((crossings.size() - passed) % 2 == 0) by[field.index(column, row)] *= -1.0;
        }
    }
    return by;
}

// Drawn, or so near that a line between its nodes may be.
bool bears_lines(const VeinField& field, std::size_t node) {
    return field.drawn[node] > -1.5 * field.step && std::isfinite(field.log_value[node]);
}

// The part of the field on one side of a level that a node belongs to, joined over the sides of its cells.
std::vector<std::size_t> part_from(const VeinField& field, std::size_t start, double level, bool above, std::vector<char>& seen) {
    std::vector<std::size_t> part{start};
    const auto take = [&](std::size_t node) {
        if (seen[node] != 0 || !bears_lines(field, node) || (field.log_value[node] >= level) != above) return;
        seen[node] = 1;
        part.push_back(node);
    };
    seen[start] = 1;
    for (std::size_t next = 0; next < part.size(); ++next) {
        const std::size_t column = part[next] % field.across, row = part[next] / field.across;
        if (column > 0) take(field.index(column - 1, row));
        if (column + 1 < field.across) take(field.index(column + 1, row));
        if (row > 0) take(field.index(column, row - 1));
        if (row + 1 < field.up) take(field.index(column, row + 1));
    }
    return part;
}

void level_one_side(VeinField& field, double level, bool above, const std::vector<std::size_t>& hit_nodes) {
    constexpr double below_by = 0.05;  // of a logarithm: no line is cut there, and levels stand much further apart
    std::vector<char> seen(field.log_value.size(), 0);
    std::vector<std::size_t> hits_at(field.log_value.size(), 0);
    for (const std::size_t node : hit_nodes) ++hits_at[node];
    for (std::size_t node = 0; node < field.log_value.size(); ++node) {
        if (seen[node] != 0 || !bears_lines(field, node) || (field.log_value[node] >= level) != above) continue;
        const std::vector<std::size_t> part = part_from(field, node, level, above, seen);
        std::size_t hits = 0;
        for (const std::size_t inside : part) hits += hits_at[inside];
        if (hits >= 2) continue;
        for (const std::size_t inside : part) field.log_value[inside] = above ? level - below_by : level + below_by;
    }
}

}  // namespace

MappedQuantity median_thickness() {
    return [](const veins::Content& there) -> std::optional<double> {
        if (there.log_thickness.empty()) return std::nullopt;
        return there.log_thickness.quantile(median);
    };
}

MappedQuantity median_accumulation(std::size_t modelled_analyte) {
    return [modelled_analyte](const veins::Content& there) -> std::optional<double> {
        if (there.log_thickness.empty() || modelled_analyte >= there.log_grades.size()) return std::nullopt;
        const numerics::NormalMixture& log_grade = there.log_grades[modelled_analyte];
        if (log_grade.empty()) return std::nullopt;
        return there.log_thickness.quantile(median) + log_grade.quantile(median);
    };
}

AskContents contents_in_block(const veins::Vein& vein, std::size_t block) {
    return [&vein, block](const std::vector<Eigen::Vector3d>& points) { return vein.contents_at(points, block); };
}

CoarseField sample_vein(const AskContents& contents_at, const PlaneLayout& layout, const Places& hits, const FieldReach& reach,
                        const MappedQuantity& quantity) {
    if (hits.empty()) return {};
    Eigen::Vector2d least = hits.front(), most = hits.front();
    for (const Eigen::Vector2d& hit : hits) {
        least = least.cwiseMin(hit);
        most = most.cwiseMax(hit);
    }
    const Eigen::Vector2d around = Eigen::Vector2d::Constant(reach.of_a_hit), size = most - least + 2.0 * around;
    const double step = std::max(coarse_share * reach.of_a_hit, std::sqrt(size.x() * size.y() / coarse_nodes_most));
    const Eigen::Vector2d margin = around + Eigen::Vector2d::Constant(3.0 * step);
    CoarseField field{grid_over(least - margin, most + margin, step)};
    base::parallel_for(field.grid.up, [&](std::size_t row) {
        std::vector<std::size_t> nodes;
        std::vector<Eigen::Vector3d> points;
        for (std::size_t column = 0; column < field.grid.across; ++column) {
            const Eigen::Vector2d place = field.grid.place(column, row);
            if (nearest_of(hits, place) > reach.of_a_hit + 3.0 * step) continue;
            nodes.push_back(field.grid.index(column, row));
            points.push_back(layout.world_from_layout(place));
        }
        const std::vector<veins::Content> contents = contents_at(points);
        for (std::size_t i = 0; i < nodes.size(); ++i)
            if (const std::optional<double> log_value = quantity(contents[i])) field.grid.log_value[nodes[i]] = *log_value;
    });
    return field;
}

VeinField fine_field(const CoarseField& sampled, const VeinExtent& extent, const Places& hits, const FieldReach& reach,
                     const Eigen::Vector2d& lower_left, const Eigen::Vector2d& upper_right, double fine_step) {
    if (hits.empty()) return {};
    const VeinField& coarse = sampled.grid;
    VeinField field = grid_over(lower_left, upper_right, fine_step);
    field.drawn = within_reach(field, hits, reach.of_a_hit, std::nullopt);
    field.solid = within_reach(field, hits, reach.near_hits, reach.linked);
    const std::vector<double> inside = within_extent(field, extent);
    for (std::size_t node = 0; node < inside.size(); ++node) {
        field.log_value[node] = smooth_at(coarse, field.place(node % field.across, node / field.across));
        field.drawn[node] = std::min(field.drawn[node], inside[node]);
        field.solid[node] = std::min(field.solid[node], field.drawn[node]);
    }
    return field;
}

void level_lone_parts(VeinField& field, const std::vector<double>& log_levels, const Places& hits) {
    std::vector<std::size_t> hit_nodes;
    for (const Eigen::Vector2d& hit : hits) {
        const Eigen::Vector2d at = (hit - field.corner) / field.step;
        const auto column = static_cast<std::size_t>(std::max(0.0, std::round(at.x())));
        const auto row = static_cast<std::size_t>(std::max(0.0, std::round(at.y())));
        if (column < field.across && row < field.up) hit_nodes.push_back(field.index(column, row));
    }
    for (const double level : log_levels) level_one_side(field, level, true, hit_nodes);
    for (auto level = log_levels.rbegin(); level != log_levels.rend(); ++level) level_one_side(field, *level, false, hit_nodes);
}

}  // namespace selvage::sheets
