#include "paths/locate.h"

#include "base/parallel.h"
#include "base/text.h"
#include "paths/deviation.h"
#include "paths/path_checks.h"
#include "paths/place_hole.h"
#include "paths/run_comparison.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <map>
#include <optional>
#include <set>
#include <string_view>
#include <utility>

namespace selvage::paths {

namespace {

using base::Checked;
using base::Finding;
using Rows = std::vector<const tables::Survey*>;

// Names to numbers in the collar table; the first of a name. Rows of a table mostly come hole by hole, so the last one is tried
// first.
class HoleNumbers {
public:
    explicit HoleNumbers(const std::vector<tables::Collar>& collars) {
        for (std::size_t i = 0; i < collars.size(); ++i) numbers_.try_emplace(collars[i].hole, i);
    }
    std::optional<std::size_t> of(const std::string& hole) {
        if (hole == last_name_) return last_;
        const auto found = numbers_.find(hole);
        last_name_ = hole;
        last_ = found == numbers_.end() ? std::nullopt : std::optional<std::size_t>(found->second);
        return last_;
    }

private:
    std::map<std::string_view, std::size_t> numbers_;
    std::string last_name_;
    std::optional<std::size_t> last_;
};

// All that is known of the holes before they are placed. Everything is by number in the collar table.
struct Holes {
    std::vector<Rows> rows;
    std::vector<HoleSurveys> surveys;
    std::vector<double> deepest_row;
    std::vector<std::optional<std::size_t>> parent;
    std::vector<DeviationSample> samples;
    std::vector<std::vector<Finding>> findings;
};

template <typename Table, typename DepthOf>
void deepen(std::vector<double>& deepest, const std::vector<Table>& rows, HoleNumbers& numbers, const DepthOf& depth_of) {
    for (const Table& row : rows)
        if (const auto number = numbers.of(row.hole)) deepest[*number] = std::max(deepest[*number], depth_of(row));
}

std::vector<double> deepest_rows(const tables::Records& records, HoleNumbers& numbers) {
    std::vector<double> deepest(records.collars.size(), 0.0);
    const auto to = [](const auto& row) { return row.to; };
    const auto depth = [](const auto& row) { return row.depth; };
    deepen(deepest, records.surveys, numbers, depth);
    deepen(deepest, records.picks, numbers, to);
    deepen(deepest, records.geology, numbers, to);
    deepen(deepest, records.assays, numbers, [](const tables::Assay& row) { return row.to.value_or(0.0); });
    deepen(deepest, records.structures, numbers, depth);
    deepen(deepest, records.recovery, numbers, to);
    deepen(deepest, records.minerals, numbers, to);
    deepen(deepest, records.drilling, numbers, [](const tables::DrillingEvent& row) { return row.to.value_or(row.depth); });
    deepen(deepest, records.sizes, numbers, to);
    return deepest;
}

Holes gather(const tables::Records& records, const PathSettings& settings) {
    const std::size_t count = records.collars.size();
    HoleNumbers numbers(records.collars);
    Holes holes{std::vector<Rows>(count), std::vector<HoleSurveys>(count), deepest_rows(records, numbers), {}, {}, {}};
    holes.findings.resize(count);
    for (const tables::Survey& survey : records.surveys)
        if (const auto number = numbers.of(survey.hole)) holes.rows[*number].push_back(&survey);
    for (const tables::Collar& collar : records.collars)
        holes.parent.push_back(collar.parent ? numbers.of(*collar.parent) : std::nullopt);
    base::parallel_for(count, [&](std::size_t i) {
        Checked<HoleSurveys> chosen = choose_surveys(holes.rows[i], settings.survey_preference, records.frame);
        holes.surveys[i] = std::move(chosen.value);
        base::append(holes.findings[i], std::move(chosen.findings));
    });
    return holes;
}

// A steered hole tells nothing of how holes go by themselves.
std::vector<DeviationSample> deviation_samples(const tables::Records& records, const Holes& holes,
                                               const settings::SurveyErrors& errors) {
    std::set<std::string_view> steered;
    for (const tables::SizeInterval& size : records.sizes)
        if (size.steered) steered.insert(size.hole);
    std::vector<DeviationSample> samples(records.collars.size());
    base::parallel_for(samples.size(), [&](std::size_t i) {
        const HoleSurveys& surveys = holes.surveys[i];
        if (surveys.chosen.empty() || steered.count(records.collars[i].hole) != 0) return;
        samples[i] = deviation_sample(records.collars[i], surveys.chosen, errors.of(surveys.runs.front().method));
    });
    return samples;
}

DeviationByType learnt_deviation(const tables::Records& records, const std::vector<DeviationSample>& samples) {
    std::map<tables::HoleType, std::vector<DeviationSample>> by_type;
    for (std::size_t i = 0; i < samples.size(); ++i) by_type[records.collars[i].type].push_back(samples[i]);
    DeviationByType all;
    for (const auto& [type, of_type] : by_type) all[type] = deviation_of(of_type);
    return all;
}

std::vector<std::string> sorted_methods(const tables::Records& records) {
    std::vector<std::string> methods;
    for (const tables::Survey& survey : records.surveys)
        if (survey.use && (methods.empty() || methods.back() != survey.method)) methods.push_back(survey.method);
    std::sort(methods.begin(), methods.end());
    methods.erase(std::unique(methods.begin(), methods.end()), methods.end());
    return methods;
}

// Numbers of the holes in the order in which they can be placed: those of one generation beside each other. A hole whose parent
// is unknown, or that comes from itself, is in none.
std::vector<std::vector<std::size_t>> generations(const tables::Records& records,
                                                  const std::vector<std::optional<std::size_t>>& parent) {
    std::vector<std::vector<std::size_t>> all(1);
    std::vector<std::vector<std::size_t>> daughters(parent.size());
    for (std::size_t i = 0; i < parent.size(); ++i) {
        if (!records.collars[i].parent) all.front().push_back(i);
        if (parent[i]) daughters[*parent[i]].push_back(i);
    }
    while (!all.back().empty()) {
        std::vector<std::size_t> next;
        for (const std::size_t mother : all.back()) next.insert(next.end(), daughters[mother].begin(), daughters[mother].end());
        all.push_back(std::move(next));
    }
    return all;
}

class Locator {
public:
    Locator(const tables::Records& records, const Placing& placing, Holes& holes)
        : records_(records),
          placing_(placing),
          holes_(holes),
          paths_(records.collars.size()),
          reached_(records.collars.size(), 0) {}

    Checked<std::vector<Path>> run() {
        for (const std::vector<std::size_t>& generation : generations(records_, holes_.parent))
            base::parallel_for(generation.size(), [&](std::size_t i) { place(generation[i]); });
        Checked<std::vector<Path>> result;
        for (std::size_t i = 0; i < paths_.size(); ++i) {
            if (reached_[i] == 0)
                report(i, parent_not_placed,
                       "its parent " + *records_.collars[i].parent + " is no hole that can be placed: not placed");
            base::append(result.findings, std::move(holes_.findings[i]));
            if (paths_[i]) result.value.push_back(std::move(*paths_[i]));
        }
        return result;
    }

private:
    void report(std::size_t number, const base::Check& check, std::string message) {
        const tables::Collar& collar = records_.collars[number];
        holes_.findings[number].push_back({&check, collar.origin, collar.hole, std::move(message)});
    }

    // The hole that a daughter leaves: its parent, or the parent's own where the kick-off lies above the parent's.
    std::optional<std::size_t> left_hole(std::size_t number, double kickoff) const {
        std::optional<std::size_t> parent = holes_.parent[number];
        while (parent && paths_[*parent] && kickoff < paths_[*parent]->start_depth) parent = holes_.parent[*parent];
        return parent && paths_[*parent] ? parent : std::nullopt;
    }

    void place(std::size_t number) {
        const tables::Collar& collar = records_.collars[number];
        reached_[number] = 1;
        HoleToPlace hole{
            &collar, number, holes_.deepest_row[number], nullptr, nullptr, &holes_.surveys[number], &holes_.samples[number]};
        if (collar.parent) {
            if (!collar.kickoff) return report(number, daughter_without_kickoff, "no kick-off depth: not placed");
            const auto left = left_hole(number, *collar.kickoff);
            if (!left)
                return report(number, parent_not_placed, "its parent " + *collar.parent + " could not be placed: not placed");
            hole.parent = &*paths_[*left];
            hole.parent_rows = &holes_.rows[*left];
        }
        Checked<std::optional<Path>> placed = place_hole(hole, placing_);
        base::append(holes_.findings[number], std::move(placed.findings));
        if (placed.value) base::append(holes_.findings[number], compare_runs(hole, *placed.value, placing_));
        paths_[number] = std::move(placed.value);
    }

    const tables::Records& records_;
    const Placing& placing_;
    Holes& holes_;
    std::vector<std::optional<Path>> paths_;
    std::vector<char> reached_;
};

bool name_before(const Path* a, const Path* b) { return a->hole != b->hole ? a->hole < b->hole : a->number < b->number; }

}  // namespace

Checked<std::vector<Path>> locate(const tables::Records& records, const PathSettings& settings) {
    Holes holes = gather(records, settings);
    holes.samples = deviation_samples(records, holes, settings.survey_errors);
    const Placing placing{settings.survey_errors, learnt_deviation(records, holes.samples), sorted_methods(records),
                          records.frame};
    return Locator(records, placing, holes).run();
}

DeviationByType deviation_of_holes(const tables::Records& records, const PathSettings& settings) {
    const Holes holes = gather(records, settings);
    return learnt_deviation(records, deviation_samples(records, holes, settings.survey_errors));
}

const Path* path_of(const std::vector<Path>& paths, const std::string& hole) {
    const auto found = std::find_if(paths.begin(), paths.end(), [&](const Path& path) { return path.hole == hole; });
    return found == paths.end() ? nullptr : &*found;
}

PathIndex::PathIndex(const std::vector<Path>& paths) {
    for (const Path& path : paths) by_name_.push_back(&path);
    std::sort(by_name_.begin(), by_name_.end(), name_before);
}

const Path* PathIndex::find(const std::string& hole) const {
    const auto found = std::lower_bound(by_name_.begin(), by_name_.end(), hole,
                                        [](const Path* path, const std::string& name) { return path->hole < name; });
    return found == by_name_.end() || (*found)->hole != hole ? nullptr : *found;
}

}  // namespace selvage::paths
