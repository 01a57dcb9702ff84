#include "paths/path_checks.h"

#include "paths/locate.h"

namespace selvage::paths {

using base::Severity;

const base::Check hole_without_direction = {
    "hole-without-direction", Severity::error,
    "A hole has neither surveys nor a planned azimuth and dip nor a target: it cannot be placed.",
    "Give its surveys, or its planned azimuth and dip in the collar table."};
const base::Check parent_not_placed = {"parent-not-placed", Severity::error,
                                       "A daughter hole's parent is unknown, cannot be placed, or is its own daughter.",
                                       "Correct the parent's name in the collar table, or give the parent what it lacks."};
const base::Check daughter_without_kickoff = {"daughter-without-kickoff", Severity::error,
                                              "A daughter hole names its parent but not the depth of its kick-off.",
                                              "Give the kick-off depth, counted from the parent's collar, in the collar table."};
const base::Check hole_not_surveyed = {
    "hole-not-surveyed", Severity::warning,
    "A drilled or active hole has no surveys: it runs by its planned start, with the error of holes that nobody followed.",
    "Survey the hole, or enter its surveys."};
const base::Check azimuth_not_measured = {
    "azimuth-not-measured", Severity::warning,
    "A hole has dips alone: its azimuth is the planned one, with the error of holes that nobody followed.",
    "Survey the hole with a tool that reads azimuths, or enter them."};
const base::Check azimuth_from_neighbours = {
    "azimuth-from-neighbours", Severity::note,
    "A survey row has no azimuth, or one that was set aside: it is taken between its neighbours', with a wider error.",
    "Where none was entered, enter it if it was read. One set aside has a warning of its own, which says what to do."};
const base::Check survey_depth_twice = {"survey-depth-averaged", Severity::warning,
                                        "One run of a hole's surveys has a depth twice: the readings are averaged.",
                                        "Keep the reading that is right, give the other use = 0, or name two runs."};
const base::Check survey_runs_disagree = {
    "survey-runs-disagree", Severity::warning, "Two survey runs of a hole lie further apart than their errors explain.",
    "Find out which run is wrong and give its rows use = 0, or state larger survey errors."};
const base::Check survey_runs_compared = {"survey-runs-compared", Severity::note,
                                          "A hole has several survey runs: one is used, the others are compared with it.",
                                          "Nothing, if the right run is used; else name the methods in [surveys] prefer."};
const base::Check daughter_survey_differs = {
    "daughter-survey-differs", Severity::warning,
    "A daughter hole's survey row above its kick-off differs from its parent's: it is left out.",
    "Correct the row, the kick-off depth, or the parent."};
const base::Check aimed_at_target = {"aimed-at-target", Severity::note,
                                     "A hole has no planned azimuth or dip: it is aimed straight at its target.",
                                     "Give the planned azimuth and dip in the collar table if they are settled."};

const std::vector<const base::Check*>& checks() {
    static const std::vector<const base::Check*> all = {
        &hole_without_direction, &parent_not_placed,       &daughter_without_kickoff, &hole_not_surveyed,
        &azimuth_not_measured,   &azimuth_from_neighbours, &survey_depth_twice,       &survey_runs_disagree,
        &survey_runs_compared,   &daughter_survey_differs, &aimed_at_target};
    return all;
}

}  // namespace selvage::paths
