#pragma once

#include "base/finding.h"
#include "intercepts/intercept.h"
#include "paths/path.h"
#include "tables/records.h"
#include "veins/vein.h"

#include <string>
#include <vector>

// Whose vein is it? A logged vein that nobody named, against where each modelled vein should come.
namespace selvage::forecast {

// One row of vein_of.csv.
struct VeinOf {
    std::string hole;
    double from = 0.0, to = 0.0;  // m, as logged
    std::string vein;
    double probability = 0.0;  // the rest to 1 is a vein that is not modelled
};

// Every geology row whose rock says vein and that names none, where no pick lies: for each modelled vein presence x the density
// of its crossing's depth there, against one vein that is not modelled in 200 m of core (common practice, no source). Rows of
// 0.005 or more.
std::vector<VeinOf> veins_of(const tables::Records& records, const intercepts::Intercepts& intercepts,
                             const std::vector<paths::Path>& paths, const std::vector<veins::Vein>& veins);

// Named picks that another vein fits over 20 times as well as their own vein does without them.
std::vector<base::Finding> doubtful_names(const intercepts::Intercepts& intercepts, const std::vector<paths::Path>& paths,
                                          const std::vector<veins::Vein>& veins);

}  // namespace selvage::forecast
