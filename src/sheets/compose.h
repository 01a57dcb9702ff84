#pragma once

#include "base/finding.h"
#include "drawing/sheet.h"
#include "drawing/style.h"
#include "drawing/text_width.h"
#include "forecast/pierce.h"
#include "history/said.h"
#include "intercepts/intercept.h"
#include "orientation/orient.h"
#include "paths/path.h"
#include "planning/step_outs.h"
#include "settings/project.h"
#include "site/site.h"
#include "tables/records.h"
#include "veins/solid.h"
#include "veins/vein.h"

#include <cstddef>
#include <string>
#include <vector>

// Geology to drawings.
namespace selvage::sheets {

// What every sheet prints of the run.
struct RunFacts {
    std::string run_name;                                  // project, date and first eight digits of the fingerprint
    std::string fingerprint;                               // first eight digits
    std::string date;                                      // ISO, or empty
    std::size_t errors = 0, warnings = 0;                  // found in the input
    const std::vector<base::Finding>* findings = nullptr;  // all of the run's; nothing: none are told
    const history::EarlierRuns* earlier = nullptr;         // what earlier packs said; nothing: this is the first
};

struct HolesAhead;

// Everything that may be drawn; each sheet's function takes only what it uses.
struct Results {
    const settings::Project& project;
    const tables::Records& records;
    const std::vector<paths::Path>& paths;
    const std::vector<orientation::Orientation>& orientations;
    const faults::Events& events;
    const intercepts::Intercepts& intercepts;  // completed with true thickness
    const std::vector<veins::Vein>& veins;
    const std::vector<forecast::Pierce>& pierces;
    const std::vector<planning::StepOut>& step_outs;
    const site::Site& site;
    const std::vector<veins::VeinSolid>& solids;  // the veins' bodies
    const HolesAhead* ahead = nullptr;            // of these holes, worked out beforehand; none: whenever it is asked
};

// The pack, in its order: week on a page, long section a vein, cross sections along strike, plan, levels, intercept table,
// forecasts, next holes; of each planned and active hole its card and the section along it; logs of holes; stereonets; checks and
// fit; methods and cautions. Each sheet numbered n of m, and named with its number on the first.
std::vector<drawing::Sheet> compose_pack(const Results& results, const RunFacts& run, const drawing::Style& style,
                                         const drawing::FontMetrics& fonts);

}  // namespace selvage::sheets
