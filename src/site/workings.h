#pragma once

#include "base/plane.h"
#include "mesh/search.h"
#include "mesh/slice.h"
#include "mesh/triangle_mesh.h"
#include "site/property.h"

#include <Eigen/Core>

#include <limits>
#include <memory>
#include <string>
#include <vector>

namespace selvage::site {

// Room that was mined, as a solid relative to the project origin, m.
struct MinedSolid {
    mesh::TriangleMesh mesh;
    bool is_closed = true;
    mesh::Bounds box;
    mesh::MeshSearch search;

    explicit MinedSolid(mesh::TriangleMesh solid);
    // Of a point, m: 0 within a closed solid. Where it is over `beyond`, something over `beyond` may be given.
    double distance(const Eigen::Vector3d& point, double beyond = std::numeric_limits<double>::infinity()) const;
};

// One of the old workings: a solid, an outline on the map with bottom and top (which makes a solid too), or an outline of which
// nobody knows the elevation.
struct Working {
    std::string name;
    std::vector<Ring> outline;                // empty where it was given as a solid
    std::shared_ptr<const MinedSolid> solid;  // nothing: elevation not known
};
using Workings = std::vector<Working>;

// The solid between two elevations over some rings; nothing where a ring crosses itself or has no area.
std::shared_ptr<const MinedSolid> prism(const std::vector<Ring>& rings, double bottom, double top);

// A stretch along a line that comes nearer to a working than the clearance.
struct NearWorking {
    std::size_t working = 0;
    double from = 0.0, to = 0.0;  // m along the line
    double nearest = 0.0;         // m
};
// All of them along a line of points, working by working, each in its order along the line.
std::vector<NearWorking> near_workings(const Workings& workings, const std::vector<Eigen::Vector3d>& line, double clearance);

}  // namespace selvage::site
