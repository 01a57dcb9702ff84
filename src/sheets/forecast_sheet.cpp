#include "sheets/forecast_sheet.h"

#include "sheets/cautions.h"
#include "sheets/chance_table.h"
#include "sheets/clearance.h"
#include "sheets/error_bars.h"
#include "sheets/forecast_table.h"
#include "sheets/label_text.h"
#include "sheets/not_seen_chart.h"
#include "sheets/table_page.h"

#include <algorithm>
#include <set>
#include <string>
#include <utility>

namespace selvage::sheets {

namespace {

bool is_ahead(const paths::Path& path, const Results& results) {
    const bool unfinished = path.status == tables::HoleStatus::planned || path.status == tables::HoleStatus::active;
    return unfinished && goes_on(path, results);
}

// Planned and active holes that come to no vein.
std::vector<std::string> without_forecast(const Results& results) {
    std::set<std::string> told;
    for (const forecast::Pierce& pierce : results.pierces) told.insert(pierce.hole);
    std::vector<std::string> holes;
    for (const paths::Path& path : results.paths)
        if (is_ahead(path, results) && told.count(path.hole) == 0) holes.push_back(path.hole);
    return holes;
}

std::string joined(const std::vector<std::string>& names) {
    std::string text;
    for (const std::string& name : names) text += (text.empty() ? "" : ", ") + name;
    return text;
}

// A line in the place of a table that would be empty.
TypesetTable nothing_to_tell(const std::string& heading, const std::string& words) {
    TypesetTable table;
    table.heading = heading;
    table.columns = {{"", "", Cells::words, false}};
    table.rows = {{{{words}}, "", false, false}};
    return table;
}

std::string silence_words(const Results& results) {
    if (results.veins.empty()) return "No vein could be modelled: nothing can be foretold. See the checks.";
    const std::vector<std::string> holes = without_forecast(results);
    if (holes.empty()) return "No hole is planned or active: there is nothing to foretell.";
    return "No forecast: " + joined(holes) + " come" + (holes.size() == 1 ? "s" : "") + " to no vein that is modelled.";
}

}  // namespace

std::vector<drawing::Sheet> forecast_sheet(const Results& results, const RunFacts& run, const GradeClasses& classes,
                                           const SectionSet& sections, const Tools& tools) {
    PageContent page;
    page.kind = forecast_sheet_kind;
    page.title.title = "Forecasts";
    page.title.subtitle = "where the next holes meet a vein";
    page.title.identification = "FC";
    page.title.document_type = "forecasts";
    page.cautions = {working_document_caution(), interpretation_caution(results.events)};
    std::vector<TypesetTable> tables;
    if (results.pierces.empty()) {
        tables.push_back(nothing_to_tell("Forecasts", silence_words(results)));
    } else {
        page.cautions.push_back(holes_ahead_caution(results));
        page.cautions.push_back(thickness_caution());
        page.side_list_heading = "How to read it";
        page.side_list = {
            "8 in 10\tof ten such holes eight meet the vein in the range, one above it, one below",
            "Chance\tto cross: that the hole, run on, comes through the vein in that block; vein if so: that it is there then; "
            "there: both; to meet: both, and the hole gets so deep as planned",
            "Call at\tone hole in fifty has met the vein by then: the geologist is at the rig",
            "Stop at\tall but one in a hundred have met it, and the foot wall was drilled, or the planned end where that comes "
            "sooner; not met down to here it stops and asks, even where a further vein is due"};
        if (has_blocks(results.veins)) page.side_list.insert(page.side_list.begin(), block_signs);
        page.legend_in_one_column = true;
        tables.push_back(forecast_table(results, classes, sections));
        if (const std::vector<std::string> silent = without_forecast(results); !silent.empty())
            tables.back().end_words += " No vein ahead of " + joined(silent) + ".";
        if (const std::string told = told_chances_words(results, false); !told.empty())
            tables.back().end_words += " How such chances came out at drilled holes: " + told + " (Checks and fit).";
        if (TypesetTable charts = not_seen_charts(results, tools); !charts.rows.empty()) tables.push_back(std::move(charts));
        tables.push_back(error_budget_table(results, tools));
    }
    return table_pages(tables, page, results, run, tools);
}

}  // namespace selvage::sheets
