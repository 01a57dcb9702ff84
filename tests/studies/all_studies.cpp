#include "studies/studies.h"

namespace selvage::studies {

std::vector<Study> all_studies() {
    return {surface_ranges(), against_plug_in(),     unknown_fault(), first_holes(),  pierce_depths(),
            shared_errors(),  thickness_and_grade(), presence(),      not_seen_yet(), step_outs_worth()};
}

}  // namespace selvage::studies
