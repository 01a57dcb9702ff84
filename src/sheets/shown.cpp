#include "sheets/shown.h"

#include <algorithm>
#include <utility>

namespace selvage::sheets {

namespace {

bool is_begun(tables::HoleStatus status) { return tables::is_drilled(status) || status == tables::HoleStatus::active; }

// Holes that nobody has begun leave, and the pads to drill from; of an active one stays what is drilled, and that it is active: a
// hole that seems finished would seem to have missed what it has not come to. Numbers of holes follow the shorter collar table.
void keep_drilled(tables::Records& records, std::vector<paths::Path>& paths) {
    std::vector<std::size_t> number(records.collars.size(), 0);
    std::vector<tables::Collar> collars;
    for (std::size_t i = 0; i < records.collars.size(); ++i) {
        number[i] = collars.size();
        if (!is_begun(records.collars[i].status)) continue;
        collars.push_back(std::move(records.collars[i]));
    }
    records.collars = std::move(collars);
    records.pads.clear();
    paths.erase(std::remove_if(paths.begin(), paths.end(), [](const paths::Path& path) { return !is_begun(path.status); }),
                paths.end());
    for (paths::Path& path : paths) {
        path.number = number[path.number];
        if (path.parent) path.parent = number[*path.parent];
        if (path.status == tables::HoleStatus::active)
            path.end_depth = std::clamp(path.drilled_depth, path.start_depth, path.end_depth);
    }
}

}  // namespace

Shown::Shown(const Results& all, const drawing::ContentLook& content)
    : records_(content.forecasts ? tables::Records{} : all.records),
      paths_(content.forecasts ? std::vector<paths::Path>{} : all.paths),
      results_{all.project,
               content.forecasts ? all.records : records_,
               content.forecasts ? all.paths : paths_,
               all.orientations,
               all.events,
               all.intercepts,
               all.veins,
               content.forecasts ? all.pierces : pierces_,
               content.step_outs ? all.step_outs : step_outs_,
               all.site,
               all.solids} {
    if (!content.forecasts) keep_drilled(records_, paths_);
}

}  // namespace selvage::sheets
