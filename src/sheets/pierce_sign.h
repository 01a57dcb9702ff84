#pragma once

#include "sheets/legend_signs.h"

// How the likely pierce point of a forecast is marked, alike on every sheet.
namespace selvage::sheets {

// beyond_end where the hole, as planned, more likely ends before it than not, less_likely_pierce of the blocks of a vein of which
// one alone can come true all but the likeliest, else active_pierce or planned_pierce.
Sign sign_of(const forecast::Pierce& pierce, const Results& results);

// That it is the sign of a likely pierce point, the only ones drawn large where they go round another sign.
inline bool is_likely(Sign sign) { return sign == Sign::active_pierce || sign == Sign::planned_pierce; }
// `round_a_sign`: to be seen round another sign at the same place.
Marks pierce_symbol(Sign sign, const Point& at, const Tools& tools, bool round_a_sign = false);

}  // namespace selvage::sheets
