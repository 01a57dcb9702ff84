#pragma once

#include <Eigen/Core>

#include <optional>
#include <string>

// Where the coordinates of a file are wanted, and how they came there.
namespace selvage::gis {

struct MapTarget {
    std::string crs;               // wanted: "EPSG:26911", or anything else that names a coordinate system; empty: not stated
    std::string source_crs;        // of the file, as somebody states it; empty: what the file says itself
    double metres_per_unit = 1.0;  // of the file's coordinates and elevations
};

// A part of the map, metres.
struct MapBox {
    Eigen::Vector2d low = Eigen::Vector2d::Zero(), high = Eigen::Vector2d::Zero();
};

enum class CrsMatch {
    not_compared,  // one of both is not stated: coordinates as they are
    same,
    reprojected,  // east and north carried over, elevations as they are
    not_degrees,  // said to be in degrees, which its figures cannot be: coordinates as they are
    wanted_unknown
};

// What a file gave: a value, or why there is none. The failure names the file.
template <typename T>
struct Read {
    std::optional<T> value;
    std::string failure;
    CrsMatch crs = CrsMatch::not_compared;
    std::string source_crs;  // the name of the file's own coordinate system; empty: it states none
};

}  // namespace selvage::gis
