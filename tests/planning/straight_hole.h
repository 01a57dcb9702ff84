#pragma once

#include "paths/path.h"

#include <string>

namespace selvage::planning {

// A straight hole towards an azimuth, in degrees; of dip 45 from the origin unless said.
inline paths::Path straight(const std::string& name, double azimuth, double end,
                            const Eigen::Vector3d& collar = Eigen::Vector3d::Zero(), double dip = 45.0) {
    paths::Path path;
    path.hole = name;
    path.collar = collar;
    path.end_depth = path.drilled_depth = end;
    path.stations.resize(1);
    path.stations[0].direction = {base::Azimuth::degrees(azimuth), base::Dip::degrees(dip)};
    path.stations[0].position = collar;
    paths::settle(path.stations);
    path.stations[0].position = collar;
    return path;
}

}  // namespace selvage::planning
