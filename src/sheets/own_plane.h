#pragma once

#include "paths/path.h"
#include "sheets/section_set.h"

namespace selvage::sheets {

constexpr const char* hole_section_kind = "hole-section";

// A set of one section: the upright plane along a hole, from its start to its deepest point `to` (m down the hole); of a hole
// that goes straight down, the plane across strike. Its slab is as thick as the pack's, wider where the hole itself bends out of
// it.
//   pack  outlives what comes back: what lies elsewhere is named by its sections
SectionSet own_plane(const paths::Path& path, double to, const SectionSet& pack);

}  // namespace selvage::sheets
