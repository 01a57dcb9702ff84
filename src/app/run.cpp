#include "app/run.h"

#include "app/pack.h"
#include "app/results.h"
#include "app/terminal.h"
#include "base/file.h"
#include "base/json.h"
#include "base/parallel.h"
#include "history/run_record.h"
#include "history/said.h"
#include "output/write.h"
#include "pdf/document.h"
#include "settings/read.h"
#include "sheets/missing_letters.h"
#include "sheets/news.h"

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace selvage::app {

namespace {

using Findings = std::vector<base::Finding>;

void print(const Findings& findings, bool errors_only) {
    for (const base::Finding& finding : findings)
        if (!errors_only || finding.check->severity == base::Severity::error)
            std::fprintf(stderr, "%s\n", message_line(finding).c_str());
}

bool has_errors(const Findings& findings) {
    return std::any_of(findings.begin(), findings.end(),
                       [](const base::Finding& f) { return f.check->severity == base::Severity::error; });
}

// "12 errors, 3 warnings, 1 note": the last line of every run.
void print_counts(const Findings& findings) {
    const auto count = [&](base::Severity severity) {
        return std::count_if(findings.begin(), findings.end(),
                             [severity](const base::Finding& f) { return f.check->severity == severity; });
    };
    const auto errors = count(base::Severity::error), warnings = count(base::Severity::warning),
               notes = count(base::Severity::note);
    std::fprintf(stderr, "selvage: %td error%s, %td warning%s, %td note%s\n", errors, errors == 1 ? "" : "s", warnings,
                 warnings == 1 ? "" : "s", notes, notes == 1 ? "" : "s");
}

// What the pack holds, kind by kind.
void print_contents(const std::filesystem::path& folder, const std::vector<sheets::SheetGroup>& groups) {
    if (groups.empty()) return;
    std::fprintf(stderr, "%s: %zu sheets\n", (folder / "pack.pdf").c_str(), groups.back().last + 1);
    for (const sheets::SheetGroup& group : groups) {
        std::string numbers = std::to_string(group.first + 1);
        if (group.last > group.first) numbers += "-" + std::to_string(group.last + 1);
        std::fprintf(stderr, "  %-9s %s\n", numbers.c_str(), group.words.c_str());
    }
}

int refuse(const std::string& message, int status) {
    std::fprintf(stderr, "selvage: %s\n", message.c_str());
    return status;
}

int refuse_project(const std::string& file) { return refuse(file + ": there is no such project file", status_usage); }

int stop(const Results& results, bool quiet) {
    print(results.findings, quiet);
    return refuse("nothing sound is left to draw: no pack was written, an earlier one is as it was", status_data);
}

}  // namespace

int run(const RunCommand& command) {
    base::set_jobs(command.jobs);
    if (!std::filesystem::exists(command.project)) return refuse_project(command.project);
    base::Checked<settings::Project> project = settings::read_project(command.project);
    Findings findings = std::move(project.findings);
    const std::string style_name = command.style.empty() ? project.value.sheets.style : command.style;
    base::Checked<drawing::Style> style = settings::read_style(style_name);
    base::append(findings, std::move(style.findings));
    if (has_errors(findings)) {
        print(findings, command.quiet);
        return status_usage;
    }
    const std::filesystem::path folder =
        command.out.empty() ? std::filesystem::path(project.value.folder) / "pack" : std::filesystem::path(command.out);
    if (const std::vector<std::string> others = output::foreign_files(folder); !others.empty())
        return refuse(folder.string() + " holds " + others.front() + ", which no earlier run wrote: give another --out",
                      status_usage);

    std::optional<EarlierPack> earlier;
    if (!command.since.empty()) {
        const std::filesystem::path record = std::filesystem::path(command.since) / "run.json";
        if (!std::filesystem::exists(record))
            return refuse(record.string() + " is missing: --since takes the folder of an earlier pack", status_usage);
        const std::string text = base::read_file(record);
        base::Checked<std::vector<base::JsonValue>> forecasts = history::forecasts_of(text, record.string());
        base::append(findings, std::move(forecasts.findings));
        earlier = EarlierPack{history::date_of(text), std::move(forecasts.value)};
    }
    const pdf::Fonts fonts = pdf::find_fonts(style.value.font_family);
    if (fonts.family != style.value.font_family)
        findings.push_back(settings::missing_font(style_name, style.value.font_family, fonts.family));
    Progress progress(!command.quiet);
    progress.at("reading tables, placing holes");
    Results results = read_and_place(std::move(project.value), std::move(findings));
    if (results.paths.empty()) {
        progress.finish();
        return stop(results, command.quiet);
    }
    progress.at("modelling veins, forecasting");
    results = model_and_forecast(std::move(results));
    base::append(results.findings, sheets::missing_letters(results.project, results.records, fonts.metrics, fonts.family));
    base::append(results.findings, sheets::news_untold(results.project, results.records, date_of_pack(results)));
    progress.at("drawing sheets");
    const Pack pack = make_pack(results, style.value, fonts, std::move(earlier));
    output::replace_folder(folder, pack.files);
    progress.finish();
    print(results.findings, command.quiet);
    if (command.quiet) return status_done;
    print_contents(folder, pack.contents);
    print_counts(results.findings);
    return status_done;
}

int check(const CheckCommand& command) {
    if (!std::filesystem::exists(command.project)) return refuse_project(command.project);
    base::Checked<settings::Project> project = settings::read_project(command.project);
    if (has_errors(project.findings)) {
        print(project.findings, false);
        return status_usage;
    }
    const Results results = read_and_place(std::move(project.value), std::move(project.findings));
    print(results.findings, false);
    print_counts(results.findings);
    return results.paths.empty() ? status_data : status_done;
}

}  // namespace selvage::app
