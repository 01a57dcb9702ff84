#pragma once

#include "base/finding.h"

// The checks of this room.
namespace selvage::checks {

// Collars.
extern const base::Check collar_twice;
extern const base::Check collars_differ;
extern const base::Check hole_ambiguous;
extern const base::Check hole_without_length;
extern const base::Check parent_unknown;
extern const base::Check parent_cycle;
extern const base::Check kickoff_missing;
extern const base::Check kickoff_out_of_reach;
extern const base::Check kickoff_without_parent;
extern const base::Check collar_off_parent;
extern const base::Check place_far_away;
extern const base::Check collar_apart;
extern const base::Check elevation_apart;
extern const base::Check target_out_of_reach;
extern const base::Check target_off_line;
extern const base::Check planned_hole_has_rows;
extern const base::Check drilled_too_short;
extern const base::Check dates_out_of_order;
// Names.
extern const base::Check unknown_hole;
extern const base::Check hole_left_out;
extern const base::Check unknown_vein;
// Rows of all kinds.
extern const base::Check row_twice;
extern const base::Check from_after_to;
extern const base::Check below_hole_end;
// Intervals.
extern const base::Check assays_overlap;
extern const base::Check picks_overlap;
extern const base::Check log_overlaps;
extern const base::Check log_gap;
extern const base::Check core_run_long;
extern const base::Check sample_number_twice;
extern const base::Check assay_far_above_others;
extern const base::Check richer_than_mineral;
extern const base::Check structure_without_angles;
extern const base::Check contact_away_from_pick;
// Surveys.
extern const base::Check disturbed_azimuth;
extern const base::Check azimuth_spike;
extern const base::Check dip_spike;
extern const base::Check sharp_bend;
extern const base::Check no_station_at_collar;
extern const base::Check end_not_surveyed;
extern const base::Check start_off_plan;
extern const base::Check dip_sign_doubtful;
extern const base::Check north_doubtful;
// Pads.
extern const base::Check pad_twice;

}  // namespace selvage::checks
