#pragma once

#include "base/angle.h"
#include "base/finding.h"
#include "orientation/orient.h"
#include "paths/path.h"

#include <cstddef>
#include <string>
#include <vector>

// Core runs whose reference line was drawn on the wrong side, or whose beta was read the other way round.
namespace selvage::orientation {

// A run whose planes agree with those of all other runs only when they are turned about the core's axis.
struct TurnedRun {
    base::Origin origin;  // of its first row
    std::string hole, line;
    std::size_t rows = 0;   // with alpha and beta
    base::Angle turned_by;  // clockwise looking down the hole, that mends it, to 10 degrees
    bool mirrored = false;  // beta was read anticlockwise
    double log_odds = 0.0;  // against the line as drawn, the many turns tried allowed for
};

// Each run of five rows or more against the poles of the same kind (contacts: of the same vein) in all other runs: the likelihood
// of its poles under their density (Fisher kernels of 10 degrees over an even ground), as drawn and under 36 turns, mirrored or
// not. Half a turn, a mirrored beta and both together are each as likely beforehand as all other turns together (common practice,
// no source). Named where the best is over 20 times as likely as the line as drawn.
std::vector<TurnedRun> turned_runs(const std::vector<Orientation>& orientations, const std::vector<paths::Path>& paths);

// The same as findings.
std::vector<base::Finding> audit_core_runs(const std::vector<Orientation>& orientations, const std::vector<paths::Path>& paths);

}  // namespace selvage::orientation
