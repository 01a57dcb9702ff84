#include "app/pack.h"

#include "base/parallel.h"
#include "output/model_files.h"

#include <algorithm>
#include <string>
#include <utility>

namespace selvage::app {

namespace {

constexpr std::size_t fingerprint_digits = 8;  // enough to tell two weeks apart on paper

sheets::RunFacts facts_of(const Results& r) {
    sheets::RunFacts facts;
    facts.fingerprint = r.records.fingerprint.substr(0, fingerprint_digits);
    facts.date = date_of_pack(r);
    facts.run_name = r.project.name + (facts.date.empty() ? "" : " " + facts.date) + " " + facts.fingerprint;
    const auto found = [&r](base::Severity severity) {
        return static_cast<std::size_t>(
            std::count_if(r.findings.begin(), r.findings.end(),
                          [severity](const base::Finding& finding) { return finding.check->severity == severity; }));
    };
    facts.errors = found(base::Severity::error);
    facts.warnings = found(base::Severity::warning);
    facts.findings = &r.findings;
    return facts;
}

// A run that is done again does not answer to what it said itself.
history::EarlierRuns said_before(const EarlierPack& earlier, const std::string& run_name) {
    history::EarlierRuns runs{earlier.date, history::said_of(earlier.forecasts)};
    runs.said.erase(
        std::remove_if(runs.said.begin(), runs.said.end(), [&](const history::Said& said) { return said.run == run_name; }),
        runs.said.end());
    return runs;
}

}  // namespace

std::string date_of_pack(const Results& r) { return r.project.date.value_or(r.records.newest_date); }

std::vector<output::PackFile> documents(const std::vector<drawing::Sheet>& sheets, const pdf::Fonts& fonts,
                                        const sheets::RunFacts& facts, const std::string& subject) {
    std::vector<output::PackFile> files(sheets.size() + 1);
    base::parallel_for(files.size(), [&](std::size_t i) {
        const bool whole = i == 0;
        const std::vector<drawing::Sheet>& all = sheets;
        files[i].name = whole ? "pack.pdf" : output::sheet_file_name(all[i - 1], i, all.size());
        const std::vector<drawing::Sheet> one = whole ? std::vector<drawing::Sheet>() : std::vector<drawing::Sheet>{all[i - 1]};
        const std::string title = whole ? facts.run_name : all[i - 1].title + ", " + facts.run_name;
        files[i].bytes = pdf::document_bytes(whole ? all : one, fonts, {title, subject, facts.date});
    });
    return files;
}

Pack make_pack(const Results& r, const drawing::Style& style, const pdf::Fonts& fonts, std::optional<EarlierPack> earlier) {
    sheets::RunFacts facts = facts_of(r);
    history::EarlierRuns said;
    if (earlier) {
        said = said_before(*earlier, facts.run_name);
        facts.earlier = &said;
    }
    const std::vector<drawing::Sheet> sheets =
        sheets::compose_pack({r.project, r.records, r.paths, r.orientations, r.events, r.intercepts, r.veins, r.forecast.pierces,
                              r.step_outs, r.site, r.solids},
                             facts, style, fonts.metrics);
    const std::string subject = style.content.public_draft ? "draft, not for release" : "working document, not for release";
    Pack pack{documents(sheets, fonts, facts, subject), sheets::sheet_groups(sheets)};
    std::vector<output::PackFile>& files = pack.files;
    for (output::PackFile& table : output::table_files(r)) files.push_back(std::move(table));
    for (output::PackFile& model : output::model_files(r, style)) files.push_back(std::move(model));
    output::RecordParts parts{
        facts.run_name, facts.date, earlier ? std::move(earlier->forecasts) : std::vector<base::JsonValue>(), {}};
    for (const output::PackFile& file : files) parts.files.push_back(file.name);
    files.push_back(output::run_record(r, sheets, SELVAGE_VERSION, parts));
    return pack;
}

}  // namespace selvage::app
