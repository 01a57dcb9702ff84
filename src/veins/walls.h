#pragma once

#include "veins/bump_field.h"

#include <Eigen/Core>

#include <functional>
#include <string>
#include <vector>

// The drawn vein: the model's smooth mid-surface and thickness, bent by local bumps so that both walls pass through every
// contact.
namespace selvage::veins {

// Both contacts of one intercept, in chart axes; hanging is the +w one.
struct WallContacts {
    std::string hole;
    Eigen::Vector3d hanging = Eigen::Vector3d::Zero(), foot = Eigen::Vector3d::Zero();
    Eigen::Vector3d middle() const { return (hanging + foot) / 2.0; }
};

// The smooth surface that the bumps are laid on.
struct SmoothVein {
    std::function<double(const Eigen::Vector2d&)> mid;                // w, m
    std::function<Eigen::Vector2d(const Eigen::Vector2d&)> gradient;  // of mid
    std::function<double(const Eigen::Vector2d&)> log_thickness;      // log of the thickness along w in m
};

struct Walls {
    BumpField mid;                         // m
    BumpField log_thickness;               // of the log
    BumpField hanging, foot;               // m: what those leave at one wall, where holes lie closer than one hole's contacts do
    double largest_gap = 0.0;              // m, between a wall and its contact, along w
    std::vector<std::string> upside_down;  // holes whose contacts the local slope turns over: the walls miss them
};

// `lone_radius`: how far the bump of a vein's only contact reaches, m.
Walls build_walls(const std::vector<WallContacts>& contacts, const SmoothVein& smooth, double lone_radius);

// The drawn vein at a place, along w, m, from the smooth one there. Its thickness is above 0 everywhere.
struct DrawnVein {
    double mid = 0.0, thickness = 0.0;
};
DrawnVein drawn_vein(const Walls& walls, double smooth_mid, double smooth_log_thickness, const Eigen::Vector2d& place);

}  // namespace selvage::veins
