#pragma once

#include "paths/deviation.h"
#include "paths/path.h"
#include "settings/project.h"
#include "tables/records.h"

#include <string>
#include <vector>

// Which sources of error a path has, and how large they are.
namespace selvage::paths {

// How well this hole's own rates below its surveys are known: sd, radians per metre.
struct RateErrors {
    double lift = 0.0, swing = 0.0;
};

// The sources of a settled path, in the order of SourceId.
//   parent        of a daughter: collar and depth scale are its own, shared whole
//   azimuth_from  for each station, how far the nearest one is that measured an azimuth, m: 0 where it did itself. An azimuth
//                 taken from neighbours is off by as much more as the hole may swing over that distance
//   methods       names by number
std::vector<ErrorSource> hole_sources(const Path& path, const tables::Collar& collar, const Path* parent,
                                      const std::vector<double>& azimuth_from, const settings::SurveyErrors& errors,
                                      const Deviation& deviation, const RateErrors& ahead,
                                      const std::vector<std::string>& methods);

// A parent's sources as its daughter has them from the kick-off on: constant displacements, and their rotation too where the
// daughter goes on in the parent's direction. Collar and depth scale are left out: they are among the daughter's own.
std::vector<SourceEffect> inherited_effects(const Path& parent, double kickoff, bool goes_on_as_parent);

}  // namespace selvage::paths
