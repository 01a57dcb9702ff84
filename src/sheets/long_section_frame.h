#pragma once

#include "sheets/long_section_content.h"
#include "sheets/page.h"
#include "sheets/paper_frame.h"
#include "site/ground.h"

#include <Eigen/Core>

#include <optional>
#include <vector>

namespace selvage::sheets {

// Where the ground crosses the vein as far as it is modelled, and its mean plane beyond, from side to side of the window, layout
// m.
struct GroundOnPlane {
    struct Piece {
        std::vector<Eigen::Vector2d> places;
        bool given = false;  // as measured, else assumed
    };
    std::vector<Piece> pieces;
};

// How the long section lies on its paper.
struct LongSectionFrame {
    PaperFrame paper;
    double denominator = 1000.0;
    std::optional<GroundOnPlane> ground;
};

// Free paper round what has labels, mm (the sky takes those of outcrops), round the edges of the model, and over the ground.
struct FreePaper {
    double sides = 20.0, foot = 10.0, sky = 9.0, edges = 2.0, ground = 6.0;
};

// The largest scale of the ladder at which points with their labels, the edges of the model and the ground have their free paper.
LongSectionFrame long_section_frame(const LongSectionContent& content, const site::Ground& ground, const drawing::Box& window,
                                    const Scales& scales, const FreePaper& free = {});

// The same drawn at another scale and place: a part of it.
LongSectionFrame moved_to(const PaperFrame& paper, double denominator, const LongSectionContent& content,
                          const site::Ground& ground);

std::vector<drawing::Point> on_paper(const std::vector<Eigen::Vector2d>& places, const PaperFrame& frame);

}  // namespace selvage::sheets
