#pragma once

#include "base/finding.h"
#include "paths/deviation.h"
#include "paths/path.h"
#include "settings/project.h"
#include "tables/records.h"

#include <string>
#include <vector>

namespace selvage::paths {

// What `locate` needs of the project file.
struct PathSettings {
    settings::SurveyErrors survey_errors;
    std::vector<std::string> survey_preference;  // folded methods, best first
};

// Places every hole that can be placed, in the order of the collar table: chosen survey run (whole runs, by preference, else the
// newest date, else the most stations), minimum curvature, daughters from their parent's path at the kick-off, dip-only rows
// between their neighbours, unsurveyed, planned and active holes on from their last direction as the project's holes deviate,
// each with its sources of error. Path::number is the index in Records::collars; a collar that cannot be placed has no path (see
// `path_of`).
base::Checked<std::vector<Path>> locate(const tables::Records& records, const PathSettings& settings);

// How the project's own surveyed holes deviate, by the type of hole: what `locate` runs holes on by.
DeviationByType deviation_of_holes(const tables::Records& records, const PathSettings& settings);

// The path of a hole, by its name as the records spell it; nullptr where it could not be placed.
const Path* path_of(const std::vector<Path>& paths, const std::string& hole);

// The same for many names: the index is made once. It holds pointers into the vector of paths.
class PathIndex {
public:
    explicit PathIndex(const std::vector<Path>& paths);
    const Path* find(const std::string& hole) const;

private:
    std::vector<const Path*> by_name_;  // sorted; holes of one name in the order of the collar table
};

// The checks that this room can find.
const std::vector<const base::Check*>& checks();

}  // namespace selvage::paths
