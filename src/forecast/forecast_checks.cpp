#include "forecast/forecast_checks.h"

#include "forecast/pierce.h"

namespace selvage::forecast {

const base::Check no_crossing_ahead{"no-crossing-ahead", base::Severity::warning,
                                    "The forecast path of a planned or active hole comes to no modelled vein.",
                                    "Look at the hole's azimuth, dip and collar, and at the veins' planes."};
const base::Check pick_of_another_vein{"pick-of-another-vein", base::Severity::warning,
                                       "A pick lies where another vein is over twenty times as likely as the one that it names.",
                                       "Look at the core again; rename the pick, or confirm it."};

const std::vector<const base::Check*>& checks() {
    static const std::vector<const base::Check*> all{&no_crossing_ahead, &pick_of_another_vein};
    return all;
}

}  // namespace selvage::forecast
