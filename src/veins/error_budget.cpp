#include "veins/model.h"
#include "veins/surface_budget.h"
#include "veins/surface_model.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <utility>

namespace selvage::veins {

namespace {

constexpr double least_share = 0.02;         // of the variance; smaller surveys are told together
constexpr double better_survey = 1.0 / 3.0;  // sds of a gyro beside those of a magnetic shot (common practice, no source)
constexpr Eigen::Index most_rows = 600;      // of a model that is solved as one: with more, a survey made again is not worked out
constexpr std::size_t places_tried = 8;

std::string hole_name(int number, const std::vector<paths::Path>& paths) {
    const auto found = std::find_if(paths.begin(), paths.end(),
                                    [&](const paths::Path& path) { return static_cast<int>(path.number) == number; });
    return found == paths.end() ? "a hole" : found->hole;
}

// Variance of the survey errors by hole; -1 for what is common to the project.
std::map<int, double> by_hole(const SurfaceBudget& budget) {
    constexpr int project = -1;
    std::map<int, double> sums;
    for (const auto& [id, variance] : budget.sources)
        if (!paths::is_fault_slip(id.kind)) sums[id.kind == paths::SourceKind::azimuth_common ? project : id.owner] += variance;
    return sums;
}

std::vector<ErrorBudget::Part> parts_of(const SurfaceBudget& budget, const std::vector<paths::Path>& paths) {
    const double total = budget.total();
    std::vector<ErrorBudget::Part> parts{{"shape of the vein between the holes", budget.shape / total, ErrorKind::shape},
                                         {"depths of the contacts", budget.picks / total, ErrorKind::contacts},
                                         {"core angles and small waves", budget.core / total, ErrorKind::core},
                                         {"where the hole will run", budget.deviation / total, ErrorKind::deviation},
                                         {"settings of the model", budget.settings / total, ErrorKind::settings}};
    double others = 0.0, slips = 0.0;
    for (const auto& [id, variance] : budget.sources) slips += paths::is_fault_slip(id.kind) ? variance : 0.0;
    if (slips > 0.0) parts.push_back({"slips of the faults", slips / total, ErrorKind::slips});
    for (const auto& [hole, variance] : by_hole(budget)) {
        if (hole < 0)
            parts.push_back({"azimuth error common to all surveys", variance / total});
        else if (variance / total >= least_share)
            parts.push_back({"survey and collar of " + hole_name(hole, paths), variance / total});
        else
            others += variance / total;
    }
    if (others > 0.0) parts.push_back({"surveys and collars of the other holes", others});
    std::stable_sort(parts.begin(), parts.end(), [](const auto& a, const auto& b) { return a.share > b.share; });
    return parts;
}

// The hole whose survey errors weigh most, surveyed again.
void add_survey(ErrorBudget& told, const SurfaceModel& model, const PathPoint& point, const SurfaceBudget& budget,
                const paths::Path& path, const std::vector<paths::Path>& paths) {
    // What is not drilled yet cannot be surveyed again.
    const int not_drilled = path.status == tables::HoleStatus::planned ? static_cast<int>(path.number) : -1;
    int worst = -1;
    double most = 0.0;
    for (const auto& [hole, variance] : by_hole(budget))
        if (hole >= 0 && hole != not_drilled && variance > most) {
            most = variance;
            worst = hole;
        }
    if (worst < 0 || most < least_share * budget.total()) return;
    std::map<paths::SourceId, double> better;
    const auto improve = [&](const paths::ErrorSource& source) {
        if (source.id.owner == worst && !paths::is_fault_slip(source.id.kind) &&
            source.id.kind != paths::SourceKind::azimuth_common && source.id.kind != paths::SourceKind::core_turn &&
            !paths::is_deviation(source.id.kind))
            better[source.id] = better_survey * source.sd;
    };
    for (const RowSource& source : model.rows.sources) improve(source.source);
    for (const ChartEffect& effect : point.effects) improve(effect.source);
    told.measurements.push_back({"survey " + hole_name(worst, paths) + " again, to a third of the error",
                                 std::sqrt(variance_with(model, point, better) / budget.total())});
}

// The unoriented hole near by whose core, oriented at the vein, would help most.
void add_core(ErrorBudget& told, const SurfaceModel& model, const PathPoint& point, const SurfaceBudget& budget) {
    const Eigen::Vector2d place = point.chart_point.head<2>() - model.rows.centre;
    std::vector<std::size_t> unoriented;
    for (std::size_t p = 0; p < model.rows.places.size(); ++p)
        if (model.rows.places[p].has_height && !model.rows.places[p].has_slopes && !model.hole_of_place[p].empty())
            unoriented.push_back(p);
    std::stable_sort(unoriented.begin(), unoriented.end(), [&](std::size_t a, std::size_t b) {
        return (model.rows.places[a].place - place).norm() < (model.rows.places[b].place - place).norm();
    });
    if (unoriented.size() > places_tried) unoriented.resize(places_tried);
    std::vector<Eigen::Vector2d> tried;
    for (const std::size_t p : unoriented) tried.push_back(model.rows.places[p].place + model.rows.centre);
    const std::vector<double> left = variances_with_core_at(model, point, tried);
    double least = budget.total();
    std::string best;
    for (std::size_t i = 0; i < unoriented.size(); ++i) {
        if (left[i] >= least) continue;
        least = left[i];
        best = model.hole_of_place[unoriented[i]];
    }
    if (!best.empty())
        told.measurements.push_back({"orient the core of " + best + " at the vein", std::sqrt(least / budget.total())});
}

}  // namespace

ErrorBudget Vein::error_budget(const paths::Path& path, double depth, std::size_t block,
                               const std::vector<paths::Path>& paths) const {
    const Model& model = *model_;
    PathPoint point;
    point.chart_point = model.parts[block].chart.chart_from_world(paths::position_at(path, depth));
    const Eigen::Vector2d gradient = model.lattice->at(point.chart_point.head<2>()).gradient;
    point.slope_row = slope_row_of(gradient);
    point.effects = effects_in(model, block, path, depth);
    const SurfaceBudget budget = budget_over_path(*model.surface, point);
    ErrorBudget told;
    if (!(budget.total() > 0.0)) return told;
    told.parts = parts_of(budget, paths);
    if (model.surface->rows.values.size() <= most_rows || model.surface->neighbourhoods)
        add_survey(told, *model.surface, point, budget, path, paths);
    add_core(told, *model.surface, point, budget);
    std::stable_sort(told.measurements.begin(), told.measurements.end(),
                     [](const auto& a, const auto& b) { return a.sd_factor < b.sd_factor; });
    return told;
}

}  // namespace selvage::veins
