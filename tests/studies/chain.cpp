#include "studies/chain.h"

#include "settings/read.h"
#include "support/temporary_folder.h"

#include <algorithm>
#include <utility>

namespace selvage::studies {

app::Results results_of(const made_up::MadeUpProject& project, const std::string& folder) {
    const TemporaryFolder temporary(folder);
    project.write(temporary.path());
    base::Checked<settings::Project> read = settings::read_project(temporary.path() / "project.toml");
    return app::model_and_forecast(app::read_and_place(std::move(read.value), std::move(read.findings)));
}

const forecast::Pierce* pierce_of(const app::Results& results, const std::string& hole) {
    const auto& all = results.forecast.pierces;
    const auto found = std::find_if(all.begin(), all.end(), [&](const forecast::Pierce& pierce) { return pierce.hole == hole; });
    return found == all.end() ? nullptr : &*found;
}

double rank_in(const veins::Crossing& crossing, double depth) { return crossing.cumulative_at(depth) / crossing.chance; }

}  // namespace selvage::studies
