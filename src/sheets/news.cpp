#include "sheets/news.h"

#include "base/calendar.h"
#include "base/text.h"
#include "paths/locate.h"
#include "sheets/section_content.h"
#include "tables/by_hole.h"

#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr long usual_days = 7;
constexpr std::size_t latest_told = 6;
constexpr double point_step = 2.0;  // m, along what was drilled

// Picks, assays and holes looked up by name.
class Lookup {
public:
    explicit Lookup(const Results& results)
        : picks_(tables::by_hole(results.records.picks)), assays_(tables::by_hole(results.records.assays)) {
        for (const tables::Collar& collar : results.records.collars) collars_.emplace(collar.hole, &collar);
    }
    const tables::Collar* collar(const std::string& hole) const {
        const auto found = collars_.find(hole);
        return found == collars_.end() ? nullptr : found->second;
    }
    // Of the newest pick within a hit; empty where none has a date.
    std::string pick_date(const intercepts::Intercept& hit) const {
        std::string date;
        for (const tables::Pick* pick : tables::rows_of(picks_, hit.hole))
            if (pick->from < hit.to && pick->to > hit.from) date = std::max(date, pick->date);
        return date;
    }
    // Of the newest result of the laboratory within a hit.
    std::string assay_date(const intercepts::Intercept& hit) const {
        std::string date;
        for (const tables::Assay* assay : tables::rows_of(assays_, hit.hole))
            if (assay->dispatch && assay->from && assay->to && *assay->from<hit.to&& * assay->to> hit.from)
                date = std::max(date, assay->dispatch->received);
        return date;
    }

private:
    tables::RowsByHole<tables::Pick> picks_;
    tables::RowsByHole<tables::Assay> assays_;
    std::map<std::string, const tables::Collar*> collars_;
};

std::string date_of_hole(const tables::Collar& collar, const RunFacts& run) {
    return collar.status == tables::HoleStatus::active ? run.date : latest_date(collar);
}

// The share of a hole's days that lies in the period; nothing where its days are not known.
std::optional<double> share_of_days(const tables::Collar& collar, const Period& period) {
    const bool active = collar.status == tables::HoleStatus::active;
    const auto first = base::day_number(collar.date_started), last = base::day_number(active ? period.to : latest_date(collar));
    const auto from = base::day_number(period.from), to = base::day_number(period.to);
    if (!last || !from || !to) return std::nullopt;
    if (!first || *first > *last) return !active && period.holds(latest_date(collar)) ? std::optional<double>(1.0) : std::nullopt;
    const long within = std::min(*last, *to) - std::max(*first, *from + 1) + 1;
    return std::max(0.0, static_cast<double>(within) / static_cast<double>(*last - *first + 1));
}

void add_drilled(News& news, const Results& results) {
    const paths::PathIndex index(results.paths);
    for (const tables::Collar& collar : results.records.collars) {
        const paths::Path* path = index.find(collar.hole);
        if (path == nullptr || !tables::is_drill_hole(collar.type) || path->drilled_depth <= path->start_depth) continue;
        const std::optional<double> share = news.period ? share_of_days(collar, *news.period) : 1.0;
        if (!share || *share <= 0.0) continue;
        DrilledHole hole{&collar, *share * (path->drilled_depth - path->start_depth), *share < 1.0};
        news.metres += hole.metres;
        news.metres_estimated = news.metres_estimated || hole.estimated;
        news.drilled.push_back(hole);
    }
}

const veins::FitRow* fit_of(const intercepts::Intercept& hit, const Results& results) {
    const std::size_t vein = vein_number(results, hit.vein);
    if (vein == results.veins.size()) return nullptr;
    for (const veins::FitRow& row : results.veins[vein].fit())
        if (row.hole == hit.hole && row.actual_depth >= hit.from - 1e-6 && row.actual_depth <= hit.to + 1e-6) return &row;
    return nullptr;
}

// Every hit and miss, in collar order, then depth.
std::vector<VeinResult> all_results(const Results& results, const RunFacts& run, const Lookup& lookup) {
    std::vector<VeinResult> all;
    for (const intercepts::Intercept& hit : results.intercepts.met) {
        VeinResult one;
        one.collar = lookup.collar(hit.hole);
        if (one.collar == nullptr) continue;
        one.vein = hit.vein;
        one.hit = &hit;
        one.fit = fit_of(hit, results);
        one.date = lookup.pick_date(hit);
        if (one.date.empty()) one.date = date_of_hole(*one.collar, run);
        all.push_back(std::move(one));
    }
    for (const veins::Vein& vein : results.veins)
        for (const veins::NoVein& none : vein.no_vein()) {
            VeinResult one;
            one.collar = lookup.collar(none.hole);
            if (one.collar == nullptr || !none.is_miss()) continue;
            one.vein = vein.name();
            one.none = &none;
            one.date = date_of_hole(*one.collar, run);
            all.push_back(std::move(one));
        }
    for (VeinResult& one : all)
        if (run.earlier != nullptr)
            one.said = history::last_said(*run.earlier, one.collar->hole, one.collar->planned_as, one.vein);
    std::stable_sort(all.begin(), all.end(), [](const VeinResult& a, const VeinResult& b) {
        return a.collar != b.collar ? a.collar < b.collar : a.depth() < b.depth();
    });
    return all;
}

// The newest by their dates, else the last of the collar table; again in collar order.
std::vector<VeinResult> newest(const std::vector<VeinResult>& all) {
    std::vector<VeinResult> last(all.rbegin(), all.rend());
    std::stable_sort(last.begin(), last.end(), [](const VeinResult& a, const VeinResult& b) { return a.date > b.date; });
    last.resize(std::min(last.size(), latest_told));
    std::stable_sort(last.begin(), last.end(), [](const VeinResult& a, const VeinResult& b) {
        return a.collar != b.collar ? a.collar < b.collar : a.depth() < b.depth();
    });
    return last;
}

// Of the run and of a hole at least.
bool has_dates(const tables::Records& records, const std::string& date) {
    return base::day_number(date) && std::any_of(records.collars.begin(), records.collars.end(),
                                                 [](const tables::Collar& collar) { return !latest_date(collar).empty(); });
}

const base::Check news_not_told = {
    "news-not-told", base::Severity::note,
    "Sheets without anything new are not wanted ([sheets] nothing_new), and no dates tell what is new: all sheets are drawn.",
    "Give the holes' dates in the collar table, and the project's date."};

}  // namespace

const std::string& latest_date(const tables::Collar& collar) {
    return !collar.date_finished.empty()  ? collar.date_finished
           : !collar.date_started.empty() ? collar.date_started
                                          : collar.date;
}

std::optional<Period> news_period(const Results& results, const RunFacts& run) {
    if (!has_dates(results.records, run.date)) return std::nullopt;
    if (run.earlier != nullptr && base::day_number(run.earlier->date)) return Period{run.earlier->date, run.date, true};
    return Period{base::date_of_day(*base::day_number(run.date) - usual_days), run.date, false};
}

News news_of(const Results& results, const RunFacts& run) {
    News news;
    news.period = news_period(results, run);
    add_drilled(news, results);
    const Lookup lookup(results);
    const std::vector<VeinResult> all = all_results(results, run, lookup);
    for (const VeinResult& one : all) {
        VeinResult told = one;
        told.assays_came =
            news.period && !news.period->holds(one.date) && one.hit != nullptr && news.period->holds(lookup.assay_date(*one.hit));
        if (news.period && !news.period->holds(one.date) && !told.assays_came) continue;
        ++(told.assays_came ? news.assays : told.hit != nullptr ? news.hits : news.misses);
        news.results.push_back(std::move(told));
    }
    if (news.results.empty() || !news.period) news.latest = newest(all);
    for (const intercepts::Intercept& hit : results.intercepts.met)
        if (hit.sampled == intercepts::SampledState::pending) news.pending.push_back(&hit);
    for (const tables::Assay& assay : results.records.assays)
        news.pending_samples += assay.type == tables::SampleType::primary && (assay.status == tables::SampleStatus::pending ||
                                                                              assay.status == tables::SampleStatus::sent)
                                    ? 1
                                    : 0;
    return news;
}

std::optional<NewPlaces> new_places(const Results& results, const RunFacts& run) {
    const News news = news_of(results, run);
    if (!news.period) return std::nullopt;
    NewPlaces places;
    for (const VeinResult& one : news.results) {
        places.holes.insert(one.collar->hole);
        places.points.push_back(one.hit != nullptr ? one.hit->point : one.none->point);
    }
    for (const DrilledHole& drilled : news.drilled) {
        const paths::Path& path = *paths::path_of(results.paths, drilled.collar->hole);
        places.holes.insert(path.hole);
        for (double up = 0.0; up < drilled.metres; up += point_step)
            places.points.push_back(paths::position_at(path, path.drilled_depth - up));
    }
    return places;
}

std::vector<base::Finding> news_untold(const settings::Project& project, const tables::Records& records,
                                       const std::string& date) {
    if (project.sheets.nothing_new || has_dates(records, date)) return {};
    return {{&news_not_told, {"project", project.file, 0}, "", "what is new cannot be told without dates: all sheets are drawn"}};
}

const base::Check& news_untold_check() { return news_not_told; }

}  // namespace selvage::sheets
