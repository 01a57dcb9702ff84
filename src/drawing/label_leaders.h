#pragma once

#include "drawing/label_layout.h"
#include "drawing/label_obstacles.h"
#include "drawing/label_paper.h"

#include <optional>
#include <vector>

namespace selvage::drawing {

// What is on the sheet already: boxes of words and leaders that no further one may touch.
struct Occupied {
    std::vector<Box> boxes;
    std::vector<Segment> leaders;
};

// Whether a box keeps its distance from all words and leaders.
bool is_free(const Box& box, const Occupied& occupied, double apart_mm);

struct LedPlace {
    Box box;
    Anchor anchor = Anchor::left;
    Segment leader;  // from the edge of the point's symbol to the label
    double cost = 0.0;
};

// One direction in which a leader may go, and what stands in its way whatever else is placed.
struct LeaderRay {
    double cosine = 1.0, sine = 0.0;
    double free_mm = 0.0;            // so far it runs into no symbol and no words
    std::vector<double> crossed_mm;  // where it crosses traces, in order
    double cost = 0.0;               // whatever its length
};
std::vector<LeaderRay> leader_rays(const Label& label, const ObstacleMap& map, const LabelRules& rules);

// The best place away from the point: the shortest leader, straight, that crosses no other and runs through no words or symbols,
// traces crossed and soft lines covered counted as some length more. Nothing within the longest leader allowed: none.
std::optional<LedPlace> place_on_leader(const Label& label, const LabelSize& size, const std::vector<LeaderRay>& rays,
                                        const ObstacleMap& map, const FreePaper& paper, const Occupied& occupied,
                                        const LabelRules& rules);

}  // namespace selvage::drawing
