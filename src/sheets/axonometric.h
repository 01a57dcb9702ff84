#pragma once

#include "sheets/compose.h"
#include "sheets/page.h"
#include "sheets/paper_frame.h"
#include "sheets/visible_surface.h"

#include <Eigen/Core>

#include <string>
#include <vector>

// A parallel view at a slant: what is equally long in one direction is equally long all over the paper.
namespace selvage::sheets {

struct ViewDirection {
    base::Azimuth looking;                          // level direction in which one looks
    base::Angle down = base::Angle::degrees(30.0);  // by which the line of sight falls
    std::string hanging_wall_of;                    // the vein from whose hanging wall; empty: none
    bool foot_wall = false;                         // from its foot wall instead
};

// From the hanging wall of the first vein that holds a hit, turned from square to its strike by 35 degrees to the side from which
// the other veins and the faults are seen less on edge (of equals to the right), to whole 5 degrees; 30 degrees down, 45 where
// the vein dips under 30. Without a vein to the north-east.
ViewDirection view_direction(const Results& results);
// That one first, then the others that show every vein and fault with a fair part of its face: turned by 35 or 60 degrees to
// either side, from the hanging wall or the foot wall.
std::vector<ViewDirection> view_directions(const Results& results);

struct AxonometricView {
    ViewDirection direction;
    Eigen::Vector3d right = Eigen::Vector3d::UnitX(), up = Eigen::Vector3d::UnitZ();  // on paper; unit
    Eigen::Vector3d to_eye = -Eigen::Vector3d::UnitY();
    PaperFrame paper;
    double denominator = 1000.0;  // of lengths square to the line of sight

    SeenPoint seen(const Eigen::Vector3d& point) const {
        return {paper.paper_from_drawn({right.dot(point), up.dot(point)}), to_eye.dot(point)};
    }
};

// The largest scale at which these points (at least one) have free paper round them.
AxonometricView axonometric_view(const ViewDirection& direction, const std::vector<Eigen::Vector3d>& points,
                                 const drawing::Box& window, const Scales& scales);

}  // namespace selvage::sheets
