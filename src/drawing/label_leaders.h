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

// A place on free paper at the end of a leader.
struct LeaderPlace {
    std::size_t ray = 0;
    double length_mm = 0.0;
    bool to_the_right = true;  // the words lie to the right of the leader's end
    double cost = 0.0;         // the leader's length, traces crossed counted as some length more
};

// All places that a label may have on a leader as far as the drawing itself allows, cheapest first. Worked out once; what other
// labels take is looked at each time.
struct LeaderPlaces {
    std::vector<LeaderRay> rays;
    std::vector<LeaderPlace> places;
};
//   others: the other labels' points; words at the end of a leader keep off them
LeaderPlaces leader_places(const Label& label, const LabelSize& size, const std::vector<Point>& others, const ObstacleMap& map,
                           const FreePaper& paper, const LabelRules& rules);

// The best of them that is still free: the shortest straight leader that crosses no other and runs through no words, soft lines
// under the words counted as some length more. None where all are taken.
std::optional<LedPlace> place_on_leader(const Label& label, const LabelSize& size, const LeaderPlaces& choice,
                                        const ObstacleMap& map, const Occupied& occupied, const LabelRules& rules);

}  // namespace selvage::drawing
