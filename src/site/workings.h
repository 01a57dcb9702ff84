#pragma once

#include "base/plane.h"
#include "mesh/triangle_mesh.h"
#include "site/property.h"

#include <Eigen/Core>

#include <array>
#include <limits>
#include <optional>
#include <string>
#include <vector>

namespace selvage::site {

// Old workings: a solid, or an outline on the map of which the elevation may not be known. Relative to the project origin, m.
struct Working {
    std::string name;
    std::vector<Ring> outline;          // of one given so; else empty
    std::optional<double> bottom, top;  // m relative, of an outline
    mesh::TriangleMesh solid;            // of a solid
    bool is_closed = true;              // of a solid: every side has a triangle on both sides of it
    Eigen::Vector3d low = Eigen::Vector3d::Zero(), high = Eigen::Vector3d::Zero();  // box; of an outline its level part

    bool has_elevation() const { return outline.empty() || (bottom && top); }
};

struct Workings {
    std::vector<Working> all;
    bool empty() const { return all.empty(); }
};

// Distance of a point from a working of known elevation, m; 0 within it. May be cut short: where it is over `beyond`, something
// over `beyond`.
double distance_to(const Working& working, const Eigen::Vector3d& point, double beyond = std::numeric_limits<double>::infinity());

// A stretch along a straight run that comes nearer to a working than `clearance`.
struct NearWorking {
    const Working* working = nullptr;
    double from = 0.0, to = 0.0;  // m along the run
    double nearest = 0.0;         // m
};
// Those of a line of points, in order along it; distances along it, m.
std::vector<NearWorking> near_workings(const Workings& workings, const std::vector<Eigen::Vector3d>& run, double clearance);

// The lines in which a plane cuts a working, in pieces of two points.
std::vector<std::array<Eigen::Vector3d, 2>> cut_by(const Working& working, const base::Plane& plane);

}  // namespace selvage::site
