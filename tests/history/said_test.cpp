#include "history/said.h"

#include "history/run_record.h"

#include <gtest/gtest.h>

namespace selvage::history {
namespace {

const char* record = R"({"format": 1, "date": "2026-11-13", "forecasts": [
  {"said": "2026-11-06", "run": "A", "hole": "P-3", "vein": "North", "block": "", "depth_p10": 90, "depth_p50": 100,
   "depth_p90": 110, "presence": 0.8},
  {"said": "2026-11-13", "run": "B", "hole": "P-3", "vein": "North", "block": "East", "depth_p10": 95, "depth_p50": 101,
   "depth_p90": 108, "presence": 0.6},
  {"said": "2026-11-13", "run": "B", "hole": "P-3", "vein": "North", "block": "West", "depth_p10": 195, "depth_p50": 201,
   "depth_p90": 208, "presence": 0.1},
  {"said": "2026-11-13", "run": "B", "hole": "P-4", "vein": "North"}]})";

EarlierRuns earlier() { return {date_of(record), said_of(forecasts_of(record, "run.json").value)}; }

TEST(Said, TakesTheLastThatWasSaidOfAHoleAndOfItsBlocksTheLikeliest) {
    const auto said = last_said(earlier(), "P-3", "", "North");
    ASSERT_TRUE(said.has_value());
    EXPECT_EQ(said->date, "2026-11-13");
    EXPECT_EQ(said->block, "East");
    EXPECT_EQ(said->depth, 101.0);
}

TEST(Said, FindsAHoleByTheNameThatItWasPlannedAs) {
    EXPECT_TRUE(last_said(earlier(), "K-07", "p-3", "north").has_value());
    EXPECT_FALSE(last_said(earlier(), "K-07", "", "North").has_value());
    EXPECT_FALSE(last_said(earlier(), "P-3", "", "South").has_value());
}

TEST(Said, PassesOverAForecastWithoutADepth) {
    EXPECT_EQ(earlier().said.size(), 3u);
    EXPECT_EQ(earlier().date, "2026-11-13");
    EXPECT_EQ(date_of("no record"), "");
}

}  // namespace
}  // namespace selvage::history
