#pragma once

#include "base/finding.h"
#include "output/write.h"
#include "settings/project.h"

#include <vector>

namespace selvage::app {

using output::Results;

// The stages from the tables to the intercepts as measured.
Results read_and_place(settings::Project project, std::vector<base::Finding> findings);
// The stages from there to the forecasts.
Results model_and_forecast(Results results);

}  // namespace selvage::app
