#pragma once

#include "sheets/compose.h"
#include "sheets/left_out.h"
#include "sheets/log_layout.h"

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <vector>

// All that was logged of one hole, picked out of the tables.
namespace selvage::sheets {

// Where the other holes (or a forecast) say that a vein should be met.
struct SaidDepth {
    std::string vein;
    double depth = 0.0, p10 = 0.0, p90 = 0.0;  // m
    bool is_forecast = false;                  // not drilled so far; else left-one-out
    std::optional<veins::NoVeinReason> unmet;  // why the hole has no pick of the vein; nothing where it has one or may yet
    bool missed = false;                       // it passed where the vein should be: no vein is the result
};

struct LoggedHole {
    const paths::Path* path = nullptr;
    const tables::Collar* collar = nullptr;
    std::vector<const tables::GeologyInterval*> geology;
    std::vector<const tables::Assay*> assays;  // primary ones with a depth
    std::vector<const tables::Recovery*> recovery;
    std::vector<const orientation::Orientation*> structures;
    std::vector<const intercepts::Intercept*> hits;
    std::vector<const intercepts::NoVeinPick*> not_there;
    std::vector<LeftOutPick> left_out;                   // picks that an error leaves out, those whose depths are known
    std::vector<const tables::Pick*> commented;          // picks with a comment
    std::vector<const tables::DrillingEvent*> drilling;  // water loss, voids and the like
    std::vector<SaidDepth> said;
    std::vector<const base::Finding*> findings;
};

// A pack holds no more logs than this.
constexpr std::size_t most_logs = 30;

// The core holes that are logged on sheets of their own: those with core that has a pick or was logged; active ones first,
// else in collar order. Where there are more than `most_logs`, the newest.
std::vector<LoggedHole> logged_holes(const Results& results, const RunFacts& run);

// The names by which links reach the logs, by hole.
std::map<std::string, std::string> log_destinations(const Results& results);

// What was picked, to be shown large; `not_there`: with the core that was looked at for a vein in vain.
std::vector<DepthRange> picked_ranges(const LoggedHole& hole, bool not_there = true);

// Lines of facts: where it stands and how it runs; how it was surveyed and when it was drilled, up to the run's date (ISO 8601,
// may be empty) where it goes on.
std::vector<std::string> log_facts(const LoggedHole& hole, const Results& results, const std::string& date);
// What was said of the picks before, what casts doubt on them, and what the checks found, for the side list.
std::vector<std::string> log_remarks(const LoggedHole& hole, const Results& results);

}  // namespace selvage::sheets
