#include "faults/fault_checks.h"

#include "faults/fault.h"

namespace selvage::faults {

using base::Check;
using base::Severity;

const Check fault_attitude_unknown{"fault-attitude-unknown", Severity::error,
                                   "Nothing tells where a fault lies and how it dips, so it is left out.",
                                   "Give its point, dip and dip_direction, or pick it in three holes that do not lie in a line."};
const Check slip_off_the_plane{"slip-off-the-plane", Severity::warning,
                               "A fault's slip leaves its plane: its sides would part or overlap.",
                               "Look at slip, dip and dip_direction; the part within the plane is used."};
const Check slip_not_given{"slip-not-given", Severity::warning,
                           "A fault cuts a vein and its slip is not given: the vein is cut there, but not moved.",
                           "Give its slip, or strike_slip and dip_slip; slips.csv offers what both sides of the vein imply."};
const Check slip_against_data{"slip-against-data", Severity::warning,
                              "What a vein shows on both sides of a fault is far from the slip that is given.",
                              "Look at the slip, its slip_sd, and at which vein was met on the other side; slips.csv says both."};
const Check event_without_order{"event-without-order", Severity::warning,
                                "The order of events does not name a vein or a fault, so nothing tells which cut which.",
                                "Name every vein and fault in `order`, the oldest first."};
const Check fault_off_its_plane{"fault-off-its-plane", Severity::warning,
                                "A place where a fault was met lies far off the plane that all its data make.",
                                "Look at the pick; a fault that bends is better given as two."};

const Check fault_cuts_nothing{"fault-cuts-nothing", Severity::note,
                               "A fault that is younger than a vein lies beyond all of it that is modelled.",
                               "Nothing, if that is so; else look at its point, dip and dip_direction."};
const Check slip_out_of_reach{"slip-out-of-reach", Severity::warning,
                              "A fault's slip is longer than all the ground that the collars span.",
                              "Look at its figures and their unit; the fault cuts, and moves nothing."};

const std::vector<const Check*>& checks() {
    static const std::vector<const Check*> all{&fault_attitude_unknown, &slip_off_the_plane,  &slip_not_given,
                                               &slip_against_data,      &event_without_order, &fault_off_its_plane,
                                               &fault_cuts_nothing,     &slip_out_of_reach};
    return all;
}

}  // namespace selvage::faults
