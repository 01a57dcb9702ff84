#pragma once

#include "base/angle.h"
#include "base/finding.h"
#include "base/units.h"
#include "tables/records.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

// Which of a hole's survey readings make its path.
namespace selvage::paths {

// One depth of one run.
struct Reading {
    double depth = 0.0;                    // m
    std::optional<base::Azimuth> azimuth;  // grid; nothing: a dip-only test
    base::Dip dip;
    std::size_t run = 0;  // which of HoleSurveys::runs it is of
};

// The readings of one tool going down the hole once: rows of one method and one run name.
struct SurveyRun {
    std::string method, name;       // folded method
    std::string newest_date;        // ISO 8601, may be empty
    std::vector<Reading> readings;  // rising depths, each once
    std::string title() const;      // "gyro G1", "survey" where neither has a name
};

struct HoleSurveys {
    std::vector<SurveyRun> runs;  // the best first
    std::vector<Reading> chosen;  // the best run whole; where it ends, what the next one has beyond
};

// Sorts the rows of one hole into runs and chooses. A run is taken whole over its depth range, never station by station: the
// first in the list of preferred methods (folded names), else one that has azimuths before one that has dips alone, else the
// newest date, else the one with most stations, else the first in the table. Beyond its range, from 15 m past it, the next run
// goes on. Rows with use = 0 are left out; a depth that one run has twice is averaged and reported, in the project's unit of
// length.
base::Checked<HoleSurveys> choose_surveys(const std::vector<const tables::Survey*>& rows,
                                          const std::vector<std::string>& preference, const base::MapFrame& frame);

}  // namespace selvage::paths
