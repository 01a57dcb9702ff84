#include "sheets/news.h"

#include "paths/locate.h"
#include "sheets/changed_results.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>
#include <string>

namespace selvage::sheets {
namespace {

RunFacts run_of(const std::string& date) {
    RunFacts run;
    run.date = date;
    return run;
}

TEST(News, CountsSevenDaysWhereThereIsNoEarlierPack) {
    const ChangedResults changed;
    const std::optional<Period> period = news_period(changed.results(), run_of("2026-11-20"));
    ASSERT_TRUE(period.has_value());
    EXPECT_EQ(period->from, "2026-11-13");
    EXPECT_FALSE(period->since_pack);
    EXPECT_FALSE(period->holds("2026-11-13"));
    EXPECT_TRUE(period->holds("2026-11-14"));
    EXPECT_TRUE(period->holds("2026-11-20"));
    EXPECT_FALSE(period->holds("2026-11-21"));
    EXPECT_FALSE(period->holds(""));
}

TEST(News, CountsFromTheEarlierPack) {
    const ChangedResults changed;
    history::EarlierRuns earlier{"2026-10-01", {}};
    RunFacts run = run_of("2026-11-20");
    run.earlier = &earlier;
    const std::optional<Period> period = news_period(changed.results(), run);
    ASSERT_TRUE(period.has_value());
    EXPECT_EQ(period->from, "2026-10-01");
    EXPECT_TRUE(period->since_pack);
}

TEST(News, CannotTellWhatIsNewWithoutDates) {
    ChangedResults changed;
    EXPECT_FALSE(news_period(changed.results(), run_of("")).has_value());
    for (tables::Collar& collar : changed.records.collars) collar.date = collar.date_started = collar.date_finished = "";
    EXPECT_FALSE(news_period(changed.results(), run_of("2026-11-20")).has_value());
    const News news = news_of(changed.results(), run_of("2026-11-20"));
    EXPECT_EQ(news.hits, changed.intercepts.met.size());
    EXPECT_FALSE(news.latest.empty());
}

TEST(News, TakesTheHolesFinishedInThePeriodAndNoOthers) {
    ChangedResults changed;
    for (tables::Collar& collar : changed.records.collars)
        if (collar.status == tables::HoleStatus::active) collar.status = tables::HoleStatus::planned;
    const std::string& hole = changed.intercepts.met.back().hole;
    changed.collar(hole).date_started = "2026-12-24";
    changed.collar(hole).date_finished = "2026-12-31";
    const News news = news_of(changed.results(), run_of("2026-12-31"));
    const auto of_hole = static_cast<std::size_t>(std::count_if(changed.intercepts.met.begin(), changed.intercepts.met.end(),
                                                                [&](const auto& hit) { return hit.hole == hole; }));
    EXPECT_EQ(news.hits, of_hole);
    for (const VeinResult& result : news.results) EXPECT_EQ(result.collar->hole, hole);
    ASSERT_EQ(news.drilled.size(), 1u);
    // Eight days, seven of them in the period that begins after the 24th.
    const auto path = std::find_if(changed.paths.begin(), changed.paths.end(), [&](const auto& one) { return one.hole == hole; });
    EXPECT_NEAR(news.metres, 7.0 / 8.0 * (path->drilled_depth - path->start_depth), 1e-9);
    EXPECT_TRUE(news.metres_estimated);
    EXPECT_TRUE(news.latest.empty());
}

TEST(News, ShowsTheLatestResultsWhereNothingCame) {
    const ChangedResults changed;
    const News news = news_of(changed.results(), run_of("2030-01-01"));
    EXPECT_EQ(news.hits + news.misses, 0u);
    ASSERT_FALSE(news.latest.empty());
    std::string oldest_told = "9999";
    for (const VeinResult& result : news.latest) oldest_told = std::min(oldest_told, result.date);
    std::set<std::string> told, met;
    for (const VeinResult& result : news.latest) told.insert(result.collar->hole);
    for (const intercepts::Intercept& hit : changed.intercepts.met) met.insert(hit.hole);
    for (const tables::Collar& collar : changed.records.collars) {
        if (told.count(collar.hole) != 0 || met.count(collar.hole) == 0) continue;
        EXPECT_LE(latest_date(collar), oldest_told) << collar.hole;
    }
}

TEST(News, PutsWhatAnEarlierPackSaidBesideTheResult) {
    ChangedResults changed;
    const intercepts::Intercept& hit = changed.intercepts.met.front();
    changed.collar(hit.hole).date_finished = "2026-12-30";
    changed.collar(hit.hole).planned_as = "P-9";
    const history::EarlierRuns earlier{"2026-12-24",
                                       {{"2026-12-24", "run of then", "P-9", hit.vein, "", 130.0, 140.0, 150.0, 0.8}}};
    RunFacts run = run_of("2026-12-31");
    run.earlier = &earlier;
    std::size_t said = 0;
    for (const VeinResult& result : news_of(changed.results(), run).results)
        if (result.said) {
            ++said;
            EXPECT_EQ(result.collar->hole, hit.hole);
            EXPECT_EQ(result.said->depth, 140.0);
        }
    EXPECT_GE(said, 1u);
}

// Makes the hole of the last hit the only one that was drilled in the year's last days; its name.
std::string drilled_in_the_last_week(ChangedResults& changed) {
    for (tables::Collar& collar : changed.records.collars)
        if (collar.status == tables::HoleStatus::active) collar.status = tables::HoleStatus::planned;
    tables::Collar& collar = changed.collar(changed.intercepts.met.back().hole);
    collar.date_started = "2026-12-28";
    collar.date_finished = "2026-12-31";
    return collar.hole;
}

// One hole was drilled in the week: its hits and its trace are what is new, by place too.
TEST(News, PlacesAreThoseOfTheHolesDrilledInThePeriod) {
    ChangedResults changed;
    const std::string hole = drilled_in_the_last_week(changed);
    const std::optional<NewPlaces> places = new_places(changed.results(), run_of("2026-12-31"));
    ASSERT_TRUE(places.has_value());
    EXPECT_EQ(places->holes, std::set<std::string>{hole});
    const paths::Path& path = *paths::path_of(changed.paths, hole);
    for (const Eigen::Vector3d& point : places->points) {
        double nearest = 1e9;
        for (double depth = path.start_depth; depth <= path.drilled_depth; depth += 0.5)
            nearest = std::min(nearest, (paths::position_at(path, depth) - point).norm());
        EXPECT_LT(nearest, 1.0);
    }
}

// With [sheets] nothing_new = false a pack holds the sections, levels and logs of what is new, and all its other sheets.
TEST(News, SheetsWithoutAnythingNewAreLeftOutWhereTheyAreNotWanted) {
    ChangedResults changed;
    const std::string hole = drilled_in_the_last_week(changed);
    const MadeUpPack& pack = made_up_pack();
    const auto counts = [&](const std::string& date) {
        std::map<std::string, std::size_t> all;
        RunFacts run = pack.run;
        run.date = date;
        for (const drawing::Sheet& sheet : compose_pack(changed.results(), run, pack.style, pack.fonts.metrics)) {
            ++all[sheet.kind];
            if (sheet.kind == "strip-log" && !changed.project.sheets.nothing_new && !date.empty()) {
                EXPECT_EQ(sheet.name, hole);
            }
        }
        return all;
    };
    const std::map<std::string, std::size_t> everything = counts("2026-12-31");
    changed.project.sheets.nothing_new = false;
    const std::map<std::string, std::size_t> news = counts("2026-12-31");
    for (const auto& [kind, count] : everything) {
        const bool may_go = kind == "cross-section" || kind == "level-plan" || kind == "strip-log";
        const auto left = news.find(kind);
        ASSERT_NE(left, news.end()) << kind;
        if (may_go)
            EXPECT_LT(left->second, count) << kind;
        else
            EXPECT_EQ(left->second, count) << kind;
    }
    EXPECT_EQ(counts("").at("strip-log"), everything.at("strip-log"));  // cannot be told: all
    EXPECT_TRUE(news_untold(changed.project, changed.records, "2026-12-31").empty());
    EXPECT_EQ(news_untold(changed.project, changed.records, "").size(), 1u);
    changed.project.sheets.nothing_new = true;
    EXPECT_TRUE(news_untold(changed.project, changed.records, "").empty());
}

TEST(News, NamesEarlierHitsWhoseAssaysCame) {
    ChangedResults changed;
    const intercepts::Intercept& hit = changed.intercepts.met.front();
    tables::Dispatch dispatch;
    dispatch.received = "2026-12-30";
    for (tables::Assay& assay : changed.records.assays)
        if (assay.hole == hit.hole && assay.from && *assay.from<hit.to&& * assay.to> hit.from)
            assay.dispatch = std::make_shared<tables::Dispatch>(dispatch);
    const News news = news_of(changed.results(), run_of("2026-12-31"));
    EXPECT_EQ(news.assays, 1u);
    ASSERT_EQ(news.results.size(), 1u);
    EXPECT_TRUE(news.results.front().assays_came);
    EXPECT_EQ(news.hits, 0u);
}

}  // namespace
}  // namespace selvage::sheets
