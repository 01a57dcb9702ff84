#include "checks/record_checks.h"

#include "checks/check_records.h"

namespace selvage::checks {

using base::Check;
using base::Severity;

const Check collar_twice = {"collar-twice", Severity::warning, "A hole has two identical collar rows; they are merged.",
                            "Remove one of them."};
const Check collars_differ = {"collars-differ", Severity::error,
                              "A hole has collar rows that differ; it is left out with all its rows.",
                              "Keep the row that is right, or give each its own campaign."};
const Check hole_ambiguous = {"hole-ambiguous", Severity::error,
                              "Two campaigns have a hole of one name, and a row does not say which; it is left out.",
                              "Write the hole as \"name (campaign)\" in the row."};
const Check hole_without_length = {"hole-without-length", Severity::error, "A hole's depth is zero; it is left out.",
                                   "Give its final or planned depth."};
const Check parent_unknown = {"parent-unknown", Severity::error,
                              "A daughter's parent is not in the collar table; it is left out.",
                              "Correct the parent's name, or add its collar."};
const Check parent_cycle = {"parent-cycle", Severity::error, "A hole is its own ancestor; it is left out.",
                            "Correct the parents' names."};
const Check kickoff_missing = {"kickoff-missing", Severity::error, "A daughter has no kick-off depth; it is left out.",
                               "Give the depth at which it leaves its parent."};
const Check kickoff_out_of_reach = {"kickoff-out-of-reach", Severity::error,
                                    "A daughter's kick-off lies beyond its parent's or its own ends; it is left out.",
                                    "Correct the kick-off depth, or the parent."};
const Check kickoff_without_parent = {"kickoff-without-parent", Severity::warning,
                                      "A hole has a kick-off and no parent; it starts at its collar.",
                                      "Name its parent, or remove the kick-off."};
const Check collar_off_parent = {"collar-off-parent", Severity::warning,
                                 "A daughter's collar is not its parent's; the parent's is used.",
                                 "Give the daughter its parent's collar coordinates."};
const Check place_far_away = {"place-far-away", Severity::error, "A point lies far from all collars; it is left out.",
                              "Look for swapped or mistyped coordinates, or another grid."};
const Check collar_apart = {"collar-apart", Severity::warning, "A collar lies well apart from the others.",
                            "Compare its coordinates with the others'."};
const Check elevation_apart = {"elevation-apart", Severity::warning, "A collar's elevation is unlike all others.",
                               "Compare it with its neighbours', and look at its unit."};
const Check target_out_of_reach = {"target-out-of-reach", Severity::warning, "A hole is too short for its target.",
                                   "Compare the target's coordinates with the hole's depth."};
const Check target_off_line = {"target-off-line", Severity::warning, "A hole's planned start points well away from its target.",
                               "Compare the planned azimuth and dip with the target's coordinates."};
const Check planned_hole_has_rows = {"planned-hole-has-rows", Severity::warning,
                                     "A hole that is planned or cancelled has rows in other tables.", "Set its status."};
const Check drilled_too_short = {"drilled-too-short", Severity::warning,
                                 "An active hole has rows below what is said to be drilled; the deepest counts.",
                                 "Bring `drilled` up to date, or correct the rows."};
const Check dates_out_of_order = {"dates-out-of-order", Severity::warning, "A hole was finished before it was started.",
                                  "Correct the dates."};
const Check unknown_hole = {"unknown-hole", Severity::error, "Rows name a hole that has no collar; they are left out.",
                            "Correct the name, or add the collar."};
const Check hole_left_out = {"hole-left-out", Severity::error,
                             "Rows belong to a hole whose collar was left out; they are left out too.", "Correct the collar."};
const Check unknown_vein = {"unknown-vein", Severity::error, "A row names a vein that the project file does not.",
                            "Correct the name, or add the vein to the project file."};
const Check row_twice = {"row-twice", Severity::warning, "A row stands twice in its table; it is used once.",
                         "Remove one of them."};
const Check from_after_to = {"from-after-to", Severity::error, "An interval's from is not above its to; it is left out.",
                             "Correct the depths."};
const Check below_hole_end = {"below-hole-end", Severity::error, "A row lies below the hole's end; it is left out, or cut there.",
                              "Correct the row's depth or the hole's."};
const Check assays_overlap = {"assays-overlap", Severity::error,
                              "Two samples of a hole overlap; the lower one is cut, or left out.",
                              "Correct the depths, or give the second its sample_type."};
const Check picks_overlap = {"picks-overlap", Severity::warning, "Picks of two veins overlap.",
                             "Correct the depths, unless the veins cross there."};
const Check log_overlaps = {"log-overlaps", Severity::warning, "Two intervals of a log overlap; both are kept.",
                            "Correct the depths."};
const Check log_gap = {"log-gap", Severity::note, "A log has gaps.", "Fill them, if the core was logged."};
const Check core_run_long = {"core-run-long", Severity::warning, "A core run is longer than a core barrel.",
                             "Correct its depths."};
const Check sample_number_twice = {"sample-number-twice", Severity::warning, "Two samples have one number.",
                                   "Correct one of the numbers."};
const Check assay_far_above_others = {"assay-far-above-others", Severity::warning,
                                      "One assay is far above all others of its analyte.",
                                      "Compare it with the certificate, and its unit."};
const Check richer_than_mineral = {"richer-than-mineral", Severity::warning,
                                   "A grade is higher than that of the metal's pure ore mineral.",
                                   "Compare it with the certificate, and its unit."};
const Check structure_without_angles = {"structure-without-angles", Severity::warning,
                                        "A structure has neither alpha nor dip and dip direction; it is left out.",
                                        "Give its angles."};
const Check contact_away_from_pick = {"contact-away-from-pick", Severity::warning,
                                      "A vein's contact lies well away from its picks.",
                                      "Correct the contact's depth or vein, or the pick."};
const Check disturbed_azimuth = {"disturbed-azimuth", Severity::warning,
                                 "A magnetic azimuth was disturbed; only the station's dip is used.",
                                 "Measure again by gyro, or set use = 0."};
const Check azimuth_spike = {"azimuth-spike", Severity::warning,
                             "A station's azimuth leaves the line of its neighbours; only its dip is used.",
                             "Correct it, or set use = 0."};
const Check dip_spike = {"dip-spike", Severity::error,
                         "A station's dip leaves the line of its neighbours; the station is left out.",
                         "Correct it, or set use = 0."};
const Check sharp_bend = {"sharp-bend", Severity::warning, "A hole bends more sharply between two stations than rods do.",
                          "Look at both stations."};
const Check no_station_at_collar = {"no-station-at-collar", Severity::warning,
                                    "A hole's first station lies below its collar; its direction is carried up.",
                                    "Enter the reading at the collar."};
const Check end_not_surveyed = {"end-not-surveyed", Severity::note, "A drilled hole has a long end without a station.",
                                "Enter the last stations, if there are any."};
const Check start_off_plan = {"start-off-plan", Severity::warning, "A hole's first station is far from its planned start.",
                              "Look for another hole's surveys, a reversed azimuth or a wrong plan."};
const Check dip_sign_doubtful = {"dip-sign-doubtful", Severity::warning, "Most dips of a table point upwards.",
                                 "Give dip_sign = \"negative_down\" in the table's entry, or take it out."};
const Check north_doubtful = {"north-doubtful", Severity::warning,
                              "First stations are turned against the planned azimuths, most holes by the same angle.",
                              "Look at azimuth_reference, and at the sign of declination and grid_convergence."};
const Check pad_twice = {"pad-twice", Severity::warning, "Two pads have one name; the first is used.", "Rename one of them."};

const std::vector<const Check*>& checks() {
    static const std::vector<const Check*> all = {&collar_twice,
                                                  &collars_differ,
                                                  &hole_ambiguous,
                                                  &hole_without_length,
                                                  &parent_unknown,
                                                  &parent_cycle,
                                                  &kickoff_missing,
                                                  &kickoff_out_of_reach,
                                                  &kickoff_without_parent,
                                                  &collar_off_parent,
                                                  &place_far_away,
                                                  &collar_apart,
                                                  &elevation_apart,
                                                  &target_out_of_reach,
                                                  &target_off_line,
                                                  &planned_hole_has_rows,
                                                  &drilled_too_short,
                                                  &dates_out_of_order,
                                                  &unknown_hole,
                                                  &hole_left_out,
                                                  &unknown_vein,
                                                  &row_twice,
                                                  &from_after_to,
                                                  &below_hole_end,
                                                  &assays_overlap,
                                                  &picks_overlap,
                                                  &log_overlaps,
                                                  &log_gap,
                                                  &core_run_long,
                                                  &sample_number_twice,
                                                  &assay_far_above_others,
                                                  &richer_than_mineral,
                                                  &structure_without_angles,
                                                  &contact_away_from_pick,
                                                  &disturbed_azimuth,
                                                  &azimuth_spike,
                                                  &dip_spike,
                                                  &sharp_bend,
                                                  &no_station_at_collar,
                                                  &end_not_surveyed,
                                                  &start_off_plan,
                                                  &dip_sign_doubtful,
                                                  &north_doubtful,
                                                  &pad_twice};
    return all;
}

}  // namespace selvage::checks
