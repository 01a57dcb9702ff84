#pragma once

#include "base/json.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace selvage::history {

// A forecast that an earlier pack made. Lengths m.
struct Said {
    std::string date;  // ISO 8601 of the pack that said it, or empty
    std::string run;   // its run's name
    std::string hole, vein, block;
    double depth_p10 = 0.0, depth = 0.0, depth_p90 = 0.0;  // m down the hole
    double presence = 0.0;
};

// What earlier packs left behind.
struct EarlierRuns {
    std::string date;        // of the newest of them, ISO 8601, or empty
    std::vector<Said> said;  // oldest first
};

// The date of the pack that a run record speaks of; empty where it has none.
std::string date_of(std::string_view run_record);
// The forecasts of run records as values; one that lacks a depth says nothing and is passed over.
std::vector<Said> said_of(const std::vector<base::JsonValue>& forecasts);

// The last that was said of a hole and vein (names as the records spell them), under the hole's name or the one it was planned
// as; nothing where nobody said anything. Of several blocks the likeliest.
std::optional<Said> last_said(const EarlierRuns& earlier, const std::string& hole, const std::string& planned_as,
                              const std::string& vein);

}  // namespace selvage::history
