#pragma once

#include "drawing/label_layout.h"
#include "drawing/label_obstacles.h"

#include <vector>

namespace selvage::drawing {

// One way to set a label beside its point. The lower the cost the better.
struct Place {
    Box box;
    Anchor anchor = Anchor::left;
    double cost = 0.0;
};

// What it costs words to stand so near to points that are not theirs, the own one being `own_distance` off: nothing where all are
// twice as far or more, more than any place beside a point where one is nearer than the own. At its sides, where words read on,
// a point seems half as far.
double cost_of_other_points(const Box& words, double own_distance, const std::vector<Point>& others);

// The same of lines that are not theirs.
double cost_of_other_lines(const Box& words, double own_distance, const std::vector<Segment>& others);

// What other words keep out of round a label: twice as much at its sides, where words would else read on.
Box kept_apart(const Box& words, double apart_mm);

// Whether a box lies within another.
bool within(const Box& inner, const Box& outer);

// The eight places at two distances that lie in the window and touch nothing, best first: right and above is best (Imhof 1975).
// The cost counts the place, the distance, soft lines underneath and the other points that are about as near.
//   label  its clearance and weights; `at` stands for its point
std::vector<Place> places_beside(const Label& label, const Point& at, const LabelSize& size,
                                 const std::vector<Point>& other_points, const std::vector<Segment>& other_lines,
                                 const ObstacleMap& map, const LabelRules& rules);

}  // namespace selvage::drawing
