#include "veins/vein_checks.h"

#include "veins/vein.h"

namespace selvage::veins {

using base::Check;
using base::Severity;

const Check vein_without_data{"vein-without-data", Severity::warning,
                              "A vein has neither an intercept, an outcrop nor a stated point.",
                              "Pick the vein in a hole, or give its point, dip and dip_direction in the project file."};
const Check vein_attitude_unknown{"vein-attitude-unknown", Severity::warning,
                                  "The data of a vein cannot tell its dip and strike, so it is not modelled.",
                                  "Give dip and dip_direction of the vein in the project file."};
const Check vein_turns{"vein-turns", Severity::warning, "A vein turns too far from its base plane to be a height over it.",
                       "Give it as two veins that meet, or set its plane by point, dip and dip_direction."};
const Check attitude_disagrees{
    "attitude-disagrees", Severity::warning,
    "An attitude of a vein measured on core or at an outcrop lies far off the vein that all data make.",
    "Look at alpha, beta and the reference line of that core, or at the compass; it stays in the model."};
const Check contacts_turned_over{"contacts-turned-over", Severity::warning,
                                 "The modelled slope at an intercept turns its contacts over: the drawn walls miss them.",
                                 "Look at the pick, the core angles and the neighbouring holes."};
const Check contacts_disagree{"contacts-disagree", Severity::warning,
                              "Two holes within 5 m meet a vein at places that differ by more than four of their joint error.",
                              "Look at both picks, collars and surveys; say so if they are two veins."};
const Check doubtful_intercept{
    "doubtful-intercept", Severity::warning, "An intercept lies where all the others leave it a chance under 1 in 100.",
    "Look at the pick and its vein name, then at the hole's collar and surveys; it stays in the model."};
const Check prior_only{"prior-only", Severity::note,
                       "A vein has fewer than three intercepts: its errors come from what veins are like in general.",
                       "Take the ranges as they are; each further hole makes them its own."};
const Check outcrops_over_half{
    "outcrops-over-half", Severity::note, "More than half of a vein's thicknesses are from outcrops.",
    "Remember that veins crop out where they are wide and hard: such thicknesses speak for the surface."};

const Check vein_out_of_ground{"vein-out-of-ground", Severity::warning,
                               "A part of a vein that was met lies wholly above the ground, off the property or beyond a fault.",
                               "Look at the slip of the faults that moved it, the topography and the property."};
const Check met_near_fault{"met-near-fault", Severity::note,
                           "A vein was met so near to a fault that it may lie on the other side of it.",
                           "Look at the core: on which side of the fault is the vein? A pick of the fault in the hole tells."};
const Check splay_without_end{"splay-without-end", Severity::warning,
                              "A splay was met behind the vein that it leaves, or that vein has no model.",
                              "Look at `splay_of`: a vein that goes on across another one is no splay of it."};
const Check solid_left_out{"solid-left-out", Severity::warning, "A part of a vein could not be made into a closed body.",
                           "Look at the contacts that are named there; tables and sheets do not depend on the body."};
const Check solid_left_uncut{"solid-left-uncut", Severity::warning,
                             "A vein's body could not be cut where another vein, the ground or the property ends it.",
                             "Take its volume there as too large; tables and sheets do not depend on the body."};

const std::vector<const Check*>& checks() {
    static const std::vector<const Check*> all{
        &vein_without_data, &vein_attitude_unknown, &vein_turns,     &attitude_disagrees, &contacts_turned_over,
        &contacts_disagree, &doubtful_intercept,    &prior_only,     &outcrops_over_half, &solid_left_out,
        &solid_left_uncut,  &vein_out_of_ground,    &met_near_fault, &splay_without_end};
    return all;
}

}  // namespace selvage::veins
