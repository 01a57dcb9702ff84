#include "orientation/structure_sets.h"

#include "numerics/directions.h"
#include "paths/locate.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace selvage::orientation {

namespace {

const base::Angle half_angle = base::Angle::degrees(30.0);
constexpr std::size_t least_poles = 3;

struct Poles {
    std::vector<Eigen::Vector3d> axes;
    std::vector<double> weights;
};

std::map<std::pair<std::string, std::string>, Poles> poles_by_kind(const std::vector<Orientation>& orientations,
                                                                   const std::vector<paths::Path>& paths) {
    std::map<std::pair<std::string, std::string>, Poles> by_kind;
    const paths::PathIndex index(paths);
    for (const Orientation& row : orientations) {
        const paths::Path* path = index.find(row.hole);
        if (!row.pole || !is_trusted(row) || path == nullptr) continue;
        const double sine = std::abs(row.pole->dot(paths::direction_at(*path, row.depth)));
        Poles& poles = by_kind[{row.kind, row.vein}];
        poles.axes.push_back(*row.pole);
        poles.weights.push_back(numerics::terzaghi_weight(base::Angle::radians(std::asin(std::min(1.0, sine)))));
    }
    return by_kind;
}

}  // namespace

std::vector<StructureSet> structure_sets(const std::vector<Orientation>& orientations, const std::vector<paths::Path>& paths) {
    std::vector<StructureSet> sets;
    for (const auto& [kind, poles] : poles_by_kind(orientations, paths)) {
        const std::vector<int> numbers = numerics::axis_sets(poles.axes, half_angle, least_poles);
        const int count = numbers.empty() ? 0 : *std::max_element(numbers.begin(), numbers.end()) + 1;
        for (int number = 0; number < count; ++number) {
            Poles one;
            for (std::size_t i = 0; i < numbers.size(); ++i) {
                if (numbers[i] != number) continue;
                one.axes.push_back(poles.axes[i]);
                one.weights.push_back(poles.weights[i]);
            }
            const numerics::AxisMean mean = numerics::axis_mean(one.axes, one.weights);
            sets.push_back({kind.first, kind.second, static_cast<std::size_t>(number) + 1, one.axes.size(),
                            base::attitude_of_normal(mean.mean), mean.kappa, mean.cone95});
        }
    }
    return sets;
}

}  // namespace selvage::orientation
