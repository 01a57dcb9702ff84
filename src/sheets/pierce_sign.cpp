#include "sheets/pierce_sign.h"

#include "paths/locate.h"
#include "sheets/label_text.h"
#include "sheets/symbols.h"
#include "sheets/vein_ahead.h"

namespace selvage::sheets {

Sign sign_of(const forecast::Pierce& pierce, const Results& results) {
    const VeinAhead ahead = vein_ahead_of(pierce, results.pierces);
    if (&ahead.likeliest() != &pierce && are_alternatives(ahead)) return Sign::less_likely_pierce;
    constexpr double half = 0.5;  // of the holes that cross the vein there
    if (!is_within_reach(pierce) || pierce.chance_reached < half * pierce.crossing.chance) return Sign::beyond_end;
    const paths::Path* path = paths::path_of(results.paths, pierce.hole);
    return path != nullptr && path->status == tables::HoleStatus::active ? Sign::active_pierce : Sign::planned_pierce;
}

Marks pierce_symbol(Sign sign, const Point& at, const Tools& tools, bool round_a_sign) {
    if (sign == Sign::less_likely_pierce) return less_likely_symbol(at, tools);
    if (sign == Sign::beyond_end) return beyond_end_symbol(at, tools);
    return planned_pierce_symbol(at, tools, sign == Sign::active_pierce, round_a_sign);
}

}  // namespace selvage::sheets
