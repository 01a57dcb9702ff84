#pragma once

#include "intercepts/intercept.h"
#include "paths/path.h"
#include "tables/records.h"
#include "veins/model.h"

#include <string>
#include <vector>

namespace selvage::veins {

// What each drilled core or percussion hole without a pick of this vein means for it, by the model of the holes that met it: one
// row for each hole whose median crossing lies within two step-outs of where the vein was met. In the order of the paths.
//   stopped short       the hole ends above the 99 % point
//   not judged          the crossing lies off the ground (one step-out), or under 0.9 of its 1-99 % range is logged
//   lost core           under 0.8 of that range was recovered
//   not logged as vein  else: a miss
//   fault gap           a fault parts the vein there: neither side of it comes to the hole
// Where faults cut the vein, each block that a hole passes is judged by itself.
// A pick `absent` on the ground is a miss whatever was logged, a pick `faulted` a fault gap. A hole with any other pick or log
// row of the vein has none: it met it, or what it met is in doubt. Of an active hole, what
// is drilled counts; until that is past the 99 % point it has a forecast, not a row.
std::vector<NoVein> holes_without(const std::string& vein, const Vein::Model& model, const intercepts::Intercepts& intercepts,
                                  const std::vector<paths::Path>& paths, const tables::Records& records);

}  // namespace selvage::veins
