#pragma once

#include "base/finding.h"
#include "paths/path.h"
#include "paths/place_hole.h"

#include <vector>

// A hole's other survey runs against the one that was used.
namespace selvage::paths {

// One finding for each run that was not chosen: how far its path lies at most from the hole's, and at which depth of its range;
// a warning where that is over three times what the errors of both allow (the collar's left out, which both have).
std::vector<base::Finding> compare_runs(const HoleToPlace& hole, const Path& path, const Placing& placing);

}  // namespace selvage::paths
