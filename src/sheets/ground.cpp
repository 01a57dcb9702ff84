#include "sheets/ground.h"

#include "veins/ground.h"

namespace selvage::sheets {

double Ground::elevation_at(const Eigen::Vector3d& place) const {
    const Eigen::Vector3d off = place - plane.point;
    return plane.point.z() - (plane.normal.x() * off.x() + plane.normal.y() * off.y()) / plane.normal.z();
}

Ground ground_of(const tables::Records& records) { return {veins::ground_plane(records).value_or(base::Plane{})}; }

}  // namespace selvage::sheets
