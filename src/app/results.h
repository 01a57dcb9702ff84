#pragma once

#include "base/finding.h"
#include "forecast/pierce.h"
#include "intercepts/intercept.h"
#include "orientation/orient.h"
#include "paths/path.h"
#include "settings/project.h"
#include "tables/records.h"
#include "veins/vein.h"

#include <vector>

namespace selvage::app {

// All that the stages before the sheets give.
struct Results {
    settings::Project project;
    tables::Records records;
    std::vector<paths::Path> paths;
    std::vector<orientation::Orientation> orientations;
    intercepts::Intercepts intercepts;
    std::vector<veins::Vein> veins;
    std::vector<veins::AlphaTest> alpha_tests;
    forecast::Forecast forecast;
    std::vector<base::Finding> findings;
    bool stopped = false;  // the data leave nothing sound to draw; what follows the stop is empty
};

// The stages from the tables to the intercepts as measured.
Results read_and_place(settings::Project project, std::vector<base::Finding> findings);
// The stages from there to the forecasts.
Results model_and_forecast(Results results);

}  // namespace selvage::app
