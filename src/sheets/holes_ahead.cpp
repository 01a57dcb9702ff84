#include "sheets/holes_ahead.h"

#include "base/parallel.h"
#include "sheets/clearance.h"

namespace selvage::sheets {

HolesAhead holes_ahead(const Results& results) {
    std::vector<const paths::Path*> to_drill;
    for (const paths::Path& path : results.paths)
        if (path.status == tables::HoleStatus::active || path.status == tables::HoleStatus::planned) to_drill.push_back(&path);
    std::vector<planning::NearHoles> near(to_drill.size());
    base::parallel_for(near.size(), [&](std::size_t i) { near[i] = near_ahead(*to_drill[i], results); });
    HolesAhead ahead{{}, targets_to_show(results), site::known_openings(results.records, results.site.ground)};
    for (std::size_t i = 0; i < near.size(); ++i) ahead.near.emplace(to_drill[i]->hole, std::move(near[i]));
    return ahead;
}

}  // namespace selvage::sheets
