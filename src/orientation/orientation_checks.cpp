#include "orientation/orientation_checks.h"

#include "orientation/orient.h"

namespace selvage::orientation {

using base::Severity;

const base::Check beta_refused = {
    "beta-refused", Severity::warning,
    "Beta was read in core of a hole steeper than 88 degrees, where its low side is not defined: alpha alone is used.",
    "Nothing; the row counts as unoriented."};
const base::Check beta_near_vertical = {
    "beta-near-vertical", Severity::warning,
    "Beta was read in core of a hole of 80 degrees or steeper: its low side is badly defined.",
    "Trust poles of this hole less, or orient its core in another way."};
const base::Check core_angles_differ = {"core-angles-differ", Severity::warning,
                                        "A structure's alpha and beta give another plane than its dip and dip direction, by more "
                                        "than 10 degrees: alpha and beta are used.",
                                        "Correct the row, or the convention of beta in the project file."};
const base::Check structure_above_kickoff = {"structure-above-kickoff", Severity::warning,
                                             "A structure of a daughter hole lies above its kick-off: it is left out.",
                                             "Enter it for the parent, or correct its depth."};

const base::Check core_run_turned = {
    "core-run-turned", Severity::warning,
    "The planes of a core run fit those of the other runs only when they are turned about the core's axis, or mirrored.",
    "Look at the run's reference line and the sense of beta; correct the rows, or give them quality 4."};

const std::vector<const base::Check*>& checks() {
    static const std::vector<const base::Check*> all = {&beta_refused, &beta_near_vertical, &core_angles_differ,
                                                        &structure_above_kickoff, &core_run_turned};
    return all;
}

}  // namespace selvage::orientation
