#include "veins/chart.h"

#include <cmath>

namespace selvage::veins {

namespace {

constexpr double flat = 1e-9;  // sine under which a plane has no dip, and a normal no upward part

// The side of the plane that the axes take: upward, else to the east, else to the north.
Eigen::Vector3d positive_side(const Eigen::Vector3d& normal) {
    for (const int axis : {2, 0, 1})
        if (std::abs(normal(axis)) > flat) return normal(axis) > 0.0 ? normal : Eigen::Vector3d(-normal);
    return normal;
}

}  // namespace

Chart chart_of(const base::Plane& base_plane) {
    const Eigen::Vector3d w = positive_side(base_plane.normal.normalized());
    const Eigen::Vector3d strike = Eigen::Vector3d::UnitZ().cross(w);
    const Eigen::Vector3d u = strike.norm() > flat ? Eigen::Vector3d(strike.normalized())
                                                   : Eigen::Vector3d((Eigen::Vector3d::UnitX() - w.x() * w).normalized());
    Chart chart;
    chart.centre = base_plane.point;
    chart.chart_from_world_rotation.row(0) = u;
    chart.chart_from_world_rotation.row(1) = w.cross(u);
    chart.chart_from_world_rotation.row(2) = w;
    return chart;
}

std::vector<ChartEffect> chart_effects(const Chart& chart, const std::vector<paths::SourceEffect>& effects) {
    std::vector<ChartEffect> turned;
    turned.reserve(effects.size());
    for (const paths::SourceEffect& effect : effects)
        turned.push_back({effect.source, chart.chart_from_world_rotation * effect.displacement,
                          chart.chart_from_world_rotation * effect.rotation});
    return turned;
}

}  // namespace selvage::veins
