#include "studies/straight_holes.h"

#include "support/record_builders.h"

#include <Eigen/Geometry>

#include <cmath>

namespace selvage::studies {

namespace {

// Horizontal, to the right of the hole.
Eigen::Vector3d right_of(const Eigen::Vector3d& direction) { return direction.cross(Eigen::Vector3d::UnitZ()).normalized(); }

}  // namespace

paths::Path straight_hole(const std::string& name, std::size_t number, const Eigen::Vector3d& collar, const Eigen::Vector3d& to) {
    const Eigen::Vector3d way = to - collar;
    paths::Path path = test::straight_path(name, number, collar, base::direction_of(way), way.norm());
    path.collar = collar;
    path.methods = {0};
    for (paths::Station& station : path.stations) station.azimuth_method = station.dip_method = 0;
    paths::settle(path.stations);
    return path;
}

void add_deviation(paths::Path& path, double sd) {
    const int owner = static_cast<int>(path.number);
    const Eigen::Vector3d& direction = path.stations.front().tangent;
    const double across = std::hypot(direction.x(), direction.y());
    path.sources.push_back({{paths::SourceKind::start_azimuth, owner, 0}, paths::Scope::hole, sd / across});
    path.sources.push_back({{paths::SourceKind::start_dip, owner, 0}, paths::Scope::hole, sd});
}

Eigen::Vector3d turned_direction(const paths::Path& path, double left, double down) {
    const Eigen::Vector3d direction = path.stations.front().tangent, right = right_of(direction);
    return (direction - left * right + down * direction.cross(right)).normalized();
}

}  // namespace selvage::studies
