#pragma once

#include "base/finding.h"
#include "base/units.h"
#include "paths/deviation.h"
#include "paths/path.h"
#include "paths/survey_choice.h"
#include "settings/project.h"
#include "tables/records.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

// One hole's path from its collar, its chosen readings and, of a daughter, its parent's path.
namespace selvage::paths {

// What all holes share.
struct Placing {
    settings::SurveyErrors errors;
    DeviationByType deviation;
    std::vector<std::string> methods;  // sorted: a method's place is its number
    base::MapFrame frame;
};

// What one hole brings along.
struct HoleToPlace {
    const tables::Collar* collar = nullptr;
    std::size_t number = 0;        // in the collar table
    double deepest_row = 0.0;      // in any table, m: how far an active hole has come that does not say so
    const Path* parent = nullptr;  // of a daughter: the hole whose path it leaves at its kick-off
    const std::vector<tables::Survey const*>* parent_rows = nullptr;  // that hole's own survey rows
    const HoleSurveys* surveys = nullptr;
    const DeviationSample* sample = nullptr;  // what its own surveys tell of how it goes on
};

// Nothing where there is neither a survey nor a plan to start by. The findings name what was assumed.
base::Checked<std::optional<Path>> place_hole(const HoleToPlace& hole, const Placing& placing);

// The same hole by another of its runs, to compare with: azimuths that the run lacks are those of `path`.
Path placed_by_run(const HoleToPlace& hole, const SurveyRun& run, const Path& path, const Placing& placing);

}  // namespace selvage::paths
