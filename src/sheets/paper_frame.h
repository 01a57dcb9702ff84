#pragma once

#include "drawing/sheet.h"

#include <Eigen/Core>

namespace selvage::sheets {

// A drawing to scale: metres across and up on the drawn plane to millimetres on paper, and back.
struct PaperFrame {
    drawing::Box window;
    Eigen::Vector2d centre = Eigen::Vector2d::Zero();  // what stands in the middle of the window, m
    double metres_per_mm = 1.0;

    drawing::Point paper_from_drawn(const Eigen::Vector2d& drawn) const {
        return {(window.left + window.right) / 2.0 + (drawn.x() - centre.x()) / metres_per_mm,
                (window.bottom + window.top) / 2.0 + (drawn.y() - centre.y()) / metres_per_mm};
    }
    Eigen::Vector2d drawn_from_paper(const drawing::Point& paper) const {
        return {centre.x() + (paper.x - (window.left + window.right) / 2.0) * metres_per_mm,
                centre.y() + (paper.y - (window.bottom + window.top) / 2.0) * metres_per_mm};
    }
};

}  // namespace selvage::sheets
