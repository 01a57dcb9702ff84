#pragma once

#include "sheets/ground.h"
#include "sheets/long_section_content.h"
#include "sheets/paper_frame.h"

#include <Eigen/Core>

#include <optional>
#include <vector>

namespace selvage::sheets {

// Where the ground crosses the mean plane at the window's sides, layout m.
struct GroundOnPlane {
    Eigen::Vector2d at_left = Eigen::Vector2d::Zero(), at_right = Eigen::Vector2d::Zero();
};

// How the long section lies on its paper.
struct LongSectionFrame {
    PaperFrame paper;
    double denominator = 1000.0;
    std::optional<GroundOnPlane> ground;
};

// The largest scale of the ladder at which points with their labels, the edges of the model and the ground have their free paper.
LongSectionFrame long_section_frame(const LongSectionContent& content, const Ground& ground, const drawing::Box& window,
                                    bool feet);

std::vector<drawing::Point> on_paper(const std::vector<Eigen::Vector2d>& places, const PaperFrame& frame);

}  // namespace selvage::sheets
