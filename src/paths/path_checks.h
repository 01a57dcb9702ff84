#pragma once

#include "base/finding.h"

// What can be found wrong with the holes' ways while they are placed.
namespace selvage::paths {

extern const base::Check hole_without_direction;
extern const base::Check parent_not_placed;
extern const base::Check daughter_without_kickoff;
extern const base::Check hole_not_surveyed;
extern const base::Check azimuth_not_measured;
extern const base::Check azimuth_from_neighbours;
extern const base::Check survey_depth_twice;
extern const base::Check survey_runs_disagree;
extern const base::Check survey_runs_compared;
extern const base::Check daughter_survey_differs;
extern const base::Check aimed_at_target;

}  // namespace selvage::paths
