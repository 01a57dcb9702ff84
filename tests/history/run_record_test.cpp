#include "history/run_record.h"

#include <gtest/gtest.h>

namespace selvage::history {
namespace {

TEST(EarlierForecasts, AreReadWithAllTheirMembers) {
    const auto read = forecasts_of(R"({"format": 1, "forecasts": [{"hole": "K-07", "vein": "North", "mood": "good"},
                                       {"hole": "K-08", "vein": "North"}]})",
                                   "old/run.json");
    EXPECT_TRUE(read.findings.empty());
    ASSERT_EQ(read.value.size(), 2U);
    EXPECT_EQ(std::get<std::string>(base::member(read.value[0], "mood")->value), "good");
}

TEST(EarlierForecasts, OfAnUnknownFormAreRefusedByName) {
    const auto read = forecasts_of(R"({"format": 2, "forecasts": []})", "old/run.json");
    EXPECT_TRUE(read.value.empty());
    ASSERT_EQ(read.findings.size(), 1U);
    EXPECT_EQ(base::line_of(read.findings[0]), "old/run.json: warning: has form 2, known is 1; no forecasts are carried on");
}

TEST(EarlierForecasts, OfSomethingElseAreNone) {
    for (const char* text :
         {"", "[]", "not json", "{}", R"({"format": "1"})", R"({"format": 1})", R"({"format": 1, "forecasts": {}})",
          R"({"format": 1, "forecasts": [{"hole": "K-07"}]})", R"({"format": 1, "forecasts": [3]})"}) {
        const auto read = forecasts_of(text, "run.json");
        EXPECT_TRUE(read.value.empty()) << text;
        ASSERT_EQ(read.findings.size(), 1U) << text;
        EXPECT_STREQ(read.findings[0].check->id, "run-record-unreadable") << text;
    }
}

}  // namespace
}  // namespace selvage::history
