#pragma once

#include "drawing/labels.h"
#include "sheets/axonometric.h"
#include "sheets/doubt.h"
#include "sheets/grade_classes.h"
#include "sheets/legend_signs.h"
#include "sheets/level_set.h"
#include "sheets/marks.h"
#include "sheets/opening_signs.h"

#include <array>
#include <cstddef>
#include <functional>
#include <set>
#include <string>
#include <vector>

// The parts of the overview. What stands behind a vein's body is drawn fainter and broken.
namespace selvage::sheets {

// How strongly a body's colour is printed, by how well the vein is known there.
constexpr std::array<double, 3> tone_share{0.42, 0.25, 0.10};

struct OverviewSigns {
    DrawnSigns drawn;
    std::set<WallStyle> tones;
    bool hidden = false, hidden_points = false, levels = false;
};

// The bodies of the veins as they stand before one another. Items of the surface are 3 x the number of the body + the tone.
VisibleSurface bodies_seen(const Results& results, const AxonometricView& view);
constexpr int tones = 3;

Marks body_fills(const Results& results, const VisibleSurface& surface, OverviewSigns& signs, const Tools& tools);
Marks body_edges(const Results& results, const VisibleSurface& surface, const Tools& tools);
// Lines of equal elevation on what one sees of the bodies, at the levels of the level plans.
Marks level_lines(const Results& results, const LevelSet& levels, const VisibleSurface& surface, const AxonometricView& view,
                  OverviewSigns& signs, const Tools& tools);

// A piece of a fault's plane beside the veins: within a rectangle of the plane round what of their bodies lies near it, within
// the box of all data. A fault that comes near no vein has none.
struct FaultSurface {
    std::string name;
    std::vector<Eigen::Vector3d> corners;
    std::function<double(const Eigen::Vector3d&)> sd;  // m, square to it, of its place at a point
};
std::vector<FaultSurface> faults_beside_veins(const Results& results, const Eigen::Vector3d& low, const Eigen::Vector3d& high);

// The outline of such a piece on paper, and how well it is known along it.
struct FaultOutline {
    struct Part {
        SeenPart seen;
        WallStyle style = WallStyle::accurate;
    };
    std::string name;
    std::vector<Part> parts;
};
std::vector<FaultOutline> fault_outlines(const std::vector<FaultSurface>& faults, const VisibleSurface& surface,
                                         const AxonometricView& view);
Marks fault_lines(const std::vector<FaultOutline>& faults, OverviewSigns& signs, const Tools& tools);
// The border of a rectangle of the map on the ground.
Marks ground_border(const Results& results, const Eigen::Vector3d& low, const Eigen::Vector3d& high,
                    const VisibleSurface& surface, const AxonometricView& view, OverviewSigns& signs, const Tools& tools);

Marks traces_in_space(const Results& results, const VisibleSurface& surface, const AxonometricView& view, OverviewSigns& signs,
                      const Tools& tools);
// What stands for a hit or miss behind a body: its sign, hollow and grey.
Marks hidden_sign(HitSign sign, const Point& at, const Tools& tools);

// Collars, hits, misses and likely pierce points; of hits and misses that a body hides the hollow sign.
struct PointsInSpace {
    Marks marks;
    std::vector<Box> boxes;
    std::vector<std::size_t> counts, hidden;             // of hits by HitSign: drawn, and behind a body
    std::vector<std::vector<std::string>> holes_hidden;  // of hits and misses behind a body, by vein
    OpeningSigns openings;                               // among marks and boxes
};
PointsInSpace points_in_space(const Results& results, const GradeClasses& classes, const VisibleSurface& surface,
                              const AxonometricView& view, OverviewSigns& signs, const Tools& tools);

}  // namespace selvage::sheets
