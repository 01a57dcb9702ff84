#include "paths/planned_start.h"

#include <cmath>

namespace selvage::paths {

namespace {

// So steep a plan needs no azimuth.
constexpr double vertical_enough = 89.5;  // degrees

}  // namespace

std::optional<PlannedStart> planned_start(const tables::Collar& collar, const Eigen::Vector3d& start,
                                          const std::optional<base::Direction>& parent,
                                          const std::optional<base::Dip>& measured_dip) {
    const std::optional<base::Dip> dip = collar.dip ? collar.dip : measured_dip;
    if (collar.azimuth && dip) return PlannedStart{{*collar.azimuth, *dip}};
    const bool has_target = collar.target && collar.target->point && (*collar.target->point - start).norm() > 0.0;
    std::optional<base::Direction> otherwise = parent;
    if (has_target) otherwise = base::direction_of(*collar.target->point - start);
    if (otherwise) {
        const base::Direction direction{collar.azimuth.value_or(otherwise->azimuth), dip.value_or(otherwise->dip)};
        return PlannedStart{direction, has_target, !has_target && !collar.azimuth && !dip};
    }
    if (dip && std::abs(dip->degrees()) >= vertical_enough) return PlannedStart{{base::Azimuth(), *dip}};
    return std::nullopt;
}

}  // namespace selvage::paths
