#include "paths/survey_choice.h"

#include "base/text.h"
#include "paths/path_checks.h"

#include <fmt/format.h>
#include <Eigen/Core>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <tuple>
#include <utility>

namespace selvage::paths {

namespace {

// Depths nearer than this are one: tables print 0.01 m.
constexpr double same_depth = 0.005;
// A run that reaches this much further goes on where the chosen one ends: half the usual distance of stations (common practice,
// no source). A shorter rest is not worth a change of tools.
constexpr double worth_going_on = 15.0;

using Rows = std::vector<const tables::Survey*>;

// The mean of readings at one depth. Azimuths and dips are averaged as directions; a dip-only row adds to the dip alone.
Reading mean_of(const Rows& rows) {
    Reading mean;
    mean.depth = rows.front()->depth;
    Eigen::Vector3d sum = Eigen::Vector3d::Zero();
    double dips = 0.0;
    for (const tables::Survey* row : rows) {
        dips += row->dip.degrees();
        if (row->azimuth) sum += base::unit_vector({*row->azimuth, base::Dip()});
    }
    mean.dip = base::Dip::degrees(dips / static_cast<double>(rows.size()));
    if (rows.size() == 1)
        mean.azimuth = rows.front()->azimuth;
    else if (sum.norm() > 0.0)
        mean.azimuth = base::direction_of(sum).azimuth;
    return mean;
}

base::Finding averaged(const Rows& rows, const base::MapFrame& frame) {
    double azimuth = 0.0, dip = 0.0;
    const tables::Survey& first = *rows.front();
    for (const tables::Survey* row : rows) {
        if (row->azimuth && first.azimuth)
            azimuth = std::max(azimuth, std::abs(base::turn_between(*first.azimuth, *row->azimuth).degrees()));
        dip = std::max(dip, std::abs(row->dip.degrees() - first.dip.degrees()));
    }
    return {&survey_depth_twice, rows.back()->origin, first.hole,
            fmt::format("{} readings of one run at {} {} differ by {} degrees in azimuth and {} in dip: averaged", rows.size(),
                        base::fixed(frame.length(first.depth), 2), base::symbol_of(frame.unit), base::fixed(azimuth, 2),
                        base::fixed(dip, 2))};
}

SurveyRun run_of(Rows rows, const base::MapFrame& frame, std::vector<base::Finding>& findings) {
    SurveyRun run;
    run.method = rows.front()->method;
    run.name = base::trimmed(rows.front()->run);
    for (const tables::Survey* row : rows) run.newest_date = std::max(run.newest_date, row->date);
    std::stable_sort(rows.begin(), rows.end(), [](const auto* a, const auto* b) { return a->depth < b->depth; });
    for (std::size_t begin = 0; begin < rows.size();) {
        std::size_t end = begin + 1;
        while (end < rows.size() && rows[end]->depth - rows[begin]->depth < same_depth) ++end;
        const Rows same(rows.begin() + static_cast<std::ptrdiff_t>(begin), rows.begin() + static_cast<std::ptrdiff_t>(end));
        if (same.size() > 1) findings.push_back(averaged(same, frame));
        run.readings.push_back(mean_of(same));
        begin = end;
    }
    return run;
}

bool has_azimuth(const SurveyRun& run) {
    return std::any_of(run.readings.begin(), run.readings.end(),
                       [](const Reading& reading) { return reading.azimuth.has_value(); });
}

void sort_best_first(std::vector<SurveyRun>& runs, const std::vector<std::string>& preference) {
    const auto rank = [&](const SurveyRun& run) {
        return std::find(preference.begin(), preference.end(), run.method) - preference.begin();
    };
    std::stable_sort(runs.begin(), runs.end(), [&](const SurveyRun& a, const SurveyRun& b) {
        const auto better = std::make_tuple(rank(a), !has_azimuth(a)), other = std::make_tuple(rank(b), !has_azimuth(b));
        if (better != other) return better < other;
        if (a.newest_date != b.newest_date) return a.newest_date > b.newest_date;
        return a.readings.size() > b.readings.size();
    });
    for (std::size_t i = 0; i < runs.size(); ++i)
        for (Reading& reading : runs[i].readings) reading.run = i;
}

std::vector<Reading> joined(const std::vector<SurveyRun>& runs) {
    std::vector<Reading> chosen;
    for (const SurveyRun& run : runs) {
        if (chosen.empty()) {
            chosen = run.readings;
            continue;
        }
        const double from = chosen.front().depth - worth_going_on, to = chosen.back().depth + worth_going_on;
        std::vector<Reading> above, below;
        for (const Reading& reading : run.readings) {
            if (reading.depth < from) above.push_back(reading);
            if (reading.depth > to) below.push_back(reading);
        }
        chosen.insert(chosen.begin(), above.begin(), above.end());
        chosen.insert(chosen.end(), below.begin(), below.end());
    }
    return chosen;
}

}  // namespace

std::string SurveyRun::title() const {
    const std::string title = base::trimmed(method + " " + name);
    return title.empty() ? "survey" : title;
}

base::Checked<HoleSurveys> choose_surveys(const std::vector<const tables::Survey*>& rows,
                                          const std::vector<std::string>& preference, const base::MapFrame& frame) {
    base::Checked<HoleSurveys> result;
    std::map<std::pair<std::string, std::string>, std::size_t> number_of;  // method and run, in the order of the table
    std::vector<Rows> groups;
    for (const tables::Survey* row : rows) {
        if (!row->use) continue;
        const auto [found, is_new] = number_of.try_emplace({row->method, base::folded(row->run)}, groups.size());
        if (is_new) groups.emplace_back();
        groups[found->second].push_back(row);
    }
    for (Rows& group : groups) result.value.runs.push_back(run_of(std::move(group), frame, result.findings));
    sort_best_first(result.value.runs, preference);
    result.value.chosen = joined(result.value.runs);
    return result;
}

}  // namespace selvage::paths
