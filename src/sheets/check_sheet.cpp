#include "sheets/check_sheet.h"

#include "sheets/alpha_table.h"
#include "sheets/cautions.h"
#include "sheets/chance_table.h"
#include "sheets/check_table.h"
#include "sheets/fit_chart.h"
#include "sheets/table_page.h"
#include "sheets/vein_tables.h"

#include <string>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr std::size_t fit_rows_most = 45;  // more are in the table of the run alone

std::string rows_words(const tables::Records& records) {
    std::string words;
    const auto add = [&words](std::size_t count, const char* what) {
        if (count > 0) words += (words.empty() ? "" : ", ") + std::to_string(count) + " " + what;
    };
    add(records.collars.size(), "collars");
    add(records.surveys.size(), "surveys");
    add(records.picks.size(), "picks");
    add(records.geology.size(), "geology");
    add(records.assays.size(), "assays");
    add(records.structures.size(), "structures");
    add(records.recovery.size(), "recovery");
    add(records.outcrops.size(), "outcrops");
    return words;
}

TypesetTable findings_table(const Results& results, const RunFacts& run, const Tools& tools) {
    static const std::vector<base::Finding> none;
    TypesetTable table = check_table(results, run.findings == nullptr ? none : *run.findings, tools);
    if (table.rows.empty()) {
        TypesetTable clear;
        clear.heading = "What the checks found";
        clear.columns = {{"", "", Cells::words, false}};
        clear.rows = {
            {{{"Nothing: no error, no warning, no note. What a check cannot see may still be wrong."}}, "", false, false}};
        table = std::move(clear);
    }
    table.end_words += (table.end_words.empty() ? "Rows in use: " : " Rows in use: ") + rows_words(results.records) + ".";
    return table;
}

}  // namespace

std::vector<drawing::Sheet> check_sheet(const Results& results, const RunFacts& run, const Tools& tools) {
    PageContent page;
    page.kind = check_sheet_kind;
    page.title.title = "Checks and fit";
    page.title.subtitle = "data, veins against their own holes";
    page.title.identification = "CK";
    page.title.document_type = "checks";
    page.cautions = {working_document_caution()};
    std::vector<TypesetTable> tables{findings_table(results, run, tools)};
    if (!results.veins.empty()) {
        page.cautions.push_back(interpretation_caution(results.events));
        page.cautions.push_back(thickness_caution());
        tables.push_back(vein_table(results));
    }
    page.legend_in_one_column = true;
    if (TypesetTable charts = fit_charts(results, tools); !charts.rows.empty()) tables.push_back(std::move(charts));
    if (TypesetTable chances = chance_table(results); !chances.rows.empty()) tables.push_back(std::move(chances));
    if (TypesetTable fit = fit_table(results); !fit.rows.empty() && fit.rows.size() <= fit_rows_most)
        tables.push_back(std::move(fit));
    if (TypesetTable alpha = alpha_table(results); !alpha.rows.empty()) tables.push_back(std::move(alpha));
    if (TypesetTable deviation = deviation_table(results); !deviation.rows.empty()) tables.push_back(std::move(deviation));
    return table_pages(tables, page, results, run, tools);
}

}  // namespace selvage::sheets
