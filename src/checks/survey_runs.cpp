#include "checks/survey_runs.h"

#include "base/text.h"

#include <algorithm>
#include <map>
#include <string>
#include <utility>

namespace selvage::checks {

namespace {

constexpr double same_depth = 0.005;  // m: tables print 0.01 m

}  // namespace

std::vector<SurveyRun> survey_runs(const std::vector<tables::Survey>& surveys, const Holes& holes) {
    std::vector<SurveyRun> runs;
    const auto of_holes = rows_by_hole(surveys, holes);
    for (std::size_t hole = 0; hole < of_holes.size(); ++hole) {
        std::map<std::pair<std::string, std::string>, std::size_t> run_of;
        for (const std::size_t row : of_holes[hole]) {
            if (!surveys[row].use) continue;
            const auto [found, is_new] =
                run_of.emplace(std::make_pair(surveys[row].method, base::folded(surveys[row].run)), runs.size());
            if (is_new) runs.push_back({hole, {}});
            runs[found->second].stations.push_back(row);
        }
    }
    for (SurveyRun& run : runs)
        std::stable_sort(run.stations.begin(), run.stations.end(),
                         [&](std::size_t a, std::size_t b) { return surveys[a].depth < surveys[b].depth; });
    return runs;
}

std::vector<std::size_t> distinct_depths(const std::vector<tables::Survey>& surveys, const std::vector<std::size_t>& run) {
    std::vector<std::size_t> distinct;
    for (const std::size_t row : run)
        if (distinct.empty() || surveys[row].depth > surveys[distinct.back()].depth + same_depth) distinct.push_back(row);
    return distinct;
}

}  // namespace selvage::checks
