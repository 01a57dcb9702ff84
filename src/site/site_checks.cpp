#include "site/site_checks.h"

#include "site/site.h"

namespace selvage::site {

using base::Check;
using base::Severity;

const Check source_unusable{"map-source-unusable", Severity::error,
                            "A file of [topography], [property] or [workings] is missing or cannot be read.",
                            "Correct source or layer, or save the file in another format; the run goes on without it."};
const Check source_empty{"map-source-empty", Severity::error,
                         "A file of [topography], [property] or [workings] holds nothing that serves.",
                         "Look at its layer and its elevations; the run goes on without it."};
const Check crs_carried_over{"crs-carried-over", Severity::note,
                             "A file's coordinate system is not the project's: east and north were carried over.",
                             "Nothing, if both are stated rightly; elevations are as the file has them."};
const Check crs_doubtful{"crs-doubtful", Severity::warning,
                         "A file's coordinate system and the project's cannot be brought together: coordinates are taken as they "
                         "are.",
                         "State crs in [project] and in the file's section."};
const Check topography_elsewhere{"topography-elsewhere", Severity::error, "The topography has no data where the project is.",
                                 "Look at its coordinate system and length unit; the ground is the plane meanwhile."};
const Check topography_too_small{"topography-too-small", Severity::warning,
                                 "The topography does not reach all collars, outcrops and hole ends.",
                                 "Give a larger one; beyond it the ground is the plane through collars and outcrops."};
const Check topography_has_holes{"topography-has-holes", Severity::warning, "The topography has gaps among the holes.",
                                 "Fill them; there the ground is the plane through collars and outcrops."};
const Check topography_off_collars{"topography-off-collars", Severity::warning,
                                   "Collars stand off the topography all the same way.",
                                   "Look at its length unit and height datum before anything else: nothing was moved."};
const Check off_the_ground{"off-the-ground", Severity::warning, "A collar or outcrop stands more than 5 m off the topography.",
                           "Look at its coordinates; a few in a hundred are usual where the topography is coarse."};
const Check pick_above_ground{"pick-above-ground", Severity::warning, "A pick lies above the topography.",
                              "Look at the hole's collar, dip and surveys, and at the pick's depth."};
const Check ring_crosses_itself{"ring-crosses-itself", Severity::warning, "The outline of an area crosses itself.",
                                "Put its corners in order; what lies within is decided by the even-odd rule."};
const Check property_without_holes{"property-without-holes", Severity::warning, "No hole starts on the property.",
                                   "Look at its coordinate system, length unit and layer."};
const Check outside_property{"outside-property", Severity::warning,
                             "A pad, a target, or a hole that is not drilled yet lies outside the property.",
                             "Move it, or make sure of the right to drill there."};
const Check workings_depth_unknown{"workings-depth-unknown", Severity::warning, "Old workings are given without their elevation.",
                                   "Give bottom and top; until then holes keep no clearance from them."};
const Check workings_open{"workings-open", Severity::warning, "The solid of old workings is not closed.",
                          "Close it; distances are from its faces, and within it they are too large."};
const Check near_old_workings{"near-old-workings", Severity::warning,
                              "A planned or active hole passes within the clearance of old workings.",
                              "Move the hole, or prepare for voids, water and bad air; maps of workings are often incomplete."};

const std::vector<const Check*>& checks() {
    static const std::vector<const Check*> all{
        &source_unusable,      &source_empty,           &crs_carried_over,     &crs_doubtful,
        &topography_elsewhere, &topography_too_small,   &topography_has_holes, &topography_off_collars,
        &off_the_ground,       &pick_above_ground,      &ring_crosses_itself,  &property_without_holes,
        &outside_property,     &workings_depth_unknown, &workings_open,        &near_old_workings};
    return all;
}

}  // namespace selvage::site
