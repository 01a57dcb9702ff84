#pragma once

#include "checks/holes.h"
#include "tables/records.h"

#include <cstddef>
#include <vector>

namespace selvage::checks {

// The stations of one run of one method in one hole that are to be used, by depth.
struct SurveyRun {
    std::size_t hole = 0;  // in the collar table
    std::vector<std::size_t> stations;
};

// All runs, in the order of the collars, then of their first rows.
std::vector<SurveyRun> survey_runs(const std::vector<tables::Survey>& surveys, const Holes& holes);

// Without the later ones of stations at one depth.
std::vector<std::size_t> distinct_depths(const std::vector<tables::Survey>& surveys, const std::vector<std::size_t>& run);

}  // namespace selvage::checks
