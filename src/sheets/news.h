#pragma once

#include "base/finding.h"
#include "history/said.h"
#include "sheets/compose.h"

#include <cstddef>
#include <optional>
#include <set>
#include <string>
#include <vector>

// What came in since the last pack, or where there was none in the seven days up to the project's date.
namespace selvage::sheets {

// The last day that a collar's row tells of: finished, else started, else the row's own; empty where it has no date. Logs stand
// in its order too.
const std::string& latest_date(const tables::Collar& collar);

// The days that a pack reports: after `from`, up to and with `to`; ISO 8601.
struct Period {
    std::string from, to;
    bool since_pack = false;  // `from` is the date of the last pack
    bool holds(const std::string& date) const { return date > from && date <= to; }
};
// Nothing where the run has no date, or no hole has one: then what is new cannot be told.
std::optional<Period> news_period(const Results& results, const RunFacts& run);

// How much of a hole was drilled in the period; without a period, all of it.
struct DrilledHole {
    const tables::Collar* collar = nullptr;
    double metres = 0.0;
    bool estimated = false;  // an even share of the hole's days
};

// A hit, or a hole that passed where the vein should be and found none.
struct VeinResult {
    const tables::Collar* collar = nullptr;
    std::string vein;
    const intercepts::Intercept* hit = nullptr;  // else:
    const veins::NoVein* none = nullptr;
    std::string date;                    // of the pick, else of the hole; of an active hole the pack's; may be empty
    std::optional<history::Said> said;   // by an earlier pack
    const veins::FitRow* fit = nullptr;  // by the other data, worked out now
    bool assays_came = false;            // met earlier, and its assays came in the period
    double depth() const { return hit != nullptr ? hit->middle() : none->depth; }
};

struct News {
    std::optional<Period> period;
    std::vector<DrilledHole> drilled;
    double metres = 0.0;
    bool metres_estimated = false;
    std::vector<VeinResult> results;                    // new ones; without a period all; in collar order, then depth
    std::vector<VeinResult> latest;                     // where there are none: the newest few
    std::size_t hits = 0, misses = 0, assays = 0;       // of `results`: met, missed, of earlier hits now assayed
    std::vector<const intercepts::Intercept*> pending;  // hits that wait for assays
    std::size_t pending_samples = 0;                    // sent or pending, in all holes
};

News news_of(const Results& results, const RunFacts& run);

// What is new by hole and by place.
struct NewPlaces {
    std::set<std::string> holes;          // drilled in the period, or with a new result, or with assays that came
    std::vector<Eigen::Vector3d> points;  // m: of new results, and every few metres along what was drilled in the period
};
// Nothing where what is new cannot be told.
std::optional<NewPlaces> new_places(const Results& results, const RunFacts& run);

// A note where sheets without anything new are not wanted, and what is new cannot be told; `date`: the run's.
std::vector<base::Finding> news_untold(const settings::Project& project, const tables::Records& records, const std::string& date);
const base::Check& news_untold_check();

}  // namespace selvage::sheets
