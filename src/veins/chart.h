#pragma once

#include "base/plane.h"
#include "paths/path.h"

#include <Eigen/Core>

#include <vector>

// The vein's own axes. u along strike, v up dip, w along the base plane's normal: the mid-surface is a height w over (u, v).
// Nobody outside this room sees them.
namespace selvage::veins {

struct Chart {
    Eigen::Vector3d centre = Eigen::Vector3d::Zero();
    Eigen::Matrix3d chart_from_world_rotation = Eigen::Matrix3d::Identity();  // rows u, v, w

    Eigen::Vector3d chart_from_world(const Eigen::Vector3d& point) const { return chart_from_world_rotation * (point - centre); }
    Eigen::Vector3d world_from_chart(const Eigen::Vector3d& point) const {
        return chart_from_world_rotation.transpose() * point + centre;
    }
    Eigen::Vector3d u() const { return chart_from_world_rotation.row(0); }
    Eigen::Vector3d v() const { return chart_from_world_rotation.row(1); }
    Eigen::Vector3d w() const { return chart_from_world_rotation.row(2); }
};

// w up (a vertical plane's to the east, a north-south one's to the north), u = unit(zenith x w) along strike, v = w x u up dip.
// A horizontal plane takes u to the east.
Chart chart_of(const base::Plane& base_plane);

// One source's effect on a point, in chart axes.
struct ChartEffect {
    paths::ErrorSource source;
    Eigen::Vector3d displacement = Eigen::Vector3d::Zero();
    Eigen::Vector3d rotation = Eigen::Vector3d::Zero();
};

std::vector<ChartEffect> chart_effects(const Chart& chart, const std::vector<paths::SourceEffect>& effects);

}  // namespace selvage::veins
