#include "intercepts/checks.h"

#include "intercepts/intercept.h"

namespace selvage::intercepts {

const base::Check vein_met_twice = {"vein-met-twice", base::Severity::error,
                                    "A hole meets one vein in two places that share no zone, do not adjoin and have no fault "
                                    "younger than the vein between them; these picks are left out.",
                                    "Give them one zone, or name one of them as a vein of its own."};
const base::Check pick_of_unplaced_hole = {"pick-of-unplaced-hole", base::Severity::error,
                                           "A pick stands in a hole that could not be placed; it is left out.",
                                           "Mend what keeps the hole from being placed."};
const base::Check pick_above_kickoff = {"pick-above-kickoff", base::Severity::error,
                                        "A pick of a daughter hole lies above its kick-off; it is left out.",
                                        "Give the pick to the parent hole."};
const base::Check pick_of_unknown_vein = {"pick-of-unknown-vein", base::Severity::error,
                                          "A pick names a vein that the project file does not; it is left out.",
                                          "Add the vein to the project file, or mend its name."};

const std::vector<const base::Check*>& checks() {
    static const std::vector<const base::Check*> all = {&vein_met_twice, &pick_of_unplaced_hole, &pick_above_kickoff,
                                                        &pick_of_unknown_vein};
    return all;
}

}  // namespace selvage::intercepts
