#pragma once

#include "studies/study.h"
#include "support/made_up_vein.h"

#include <array>
#include <cstddef>
#include <functional>
#include <vector>

// The studies. Every seed was fixed beforehand.
namespace selvage::studies {

using Coverages = std::array<made_up::Coverage, 3>;  // inside the holes, about one spacing out, about two
const std::array<const char*, 3>& group_names();

// How often the ranges of the surface model hold on `count` made-up veins.
Coverages coverages_of(std::size_t count, const std::function<made_up::Vein(std::size_t)>& vein);

Study surface_ranges();                         // 1,500 veins of 4 to 40 holes, with and without oriented core
Study against_plug_in();                        // 720 veins: CRPS over that of plug-in maximum likelihood
Study first_holes();                            // from outcrops or a stated plane alone
Study pierce_depths(std::size_t worlds = 500);  // through the tables, survey errors on
Study shared_errors();                          // a fan whose azimuths are all off by the same
Study not_seen_yet();                           // chance that the vein lies ahead
Study unknown_fault();                          // a step that nobody knows of
Study presence();                               // 160 worlds, beside indicator kriging
Study thickness_and_grade();                    // 500 worlds
Study step_outs_worth();                        // 50 projects: ten chosen holes against a ring and against the best hits

std::vector<Study> all_studies();

}  // namespace selvage::studies
