#include "base/parallel.h"
#include "numerics/median.h"
#include "veins/base_plane.h"
#include "veins/vein_work.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace selvage::veins {

namespace {

constexpr double usual_spacing = 50.0;       // m, where neither data nor plan tell it
constexpr double lattice_reach = 1.6;        // step-outs from where the vein was met
constexpr double most_lattice_nodes = 3000;  // a mean costs a fraction of a millisecond

// Zero stands for half of the least that was found.
std::shared_ptr<const LogField> fit_grade(const VeinWork& work, std::size_t analyte) {
    std::optional<double> least;
    for (const Evidence& one : work.evidence) {
        const std::optional<double> grade = grade_of(one, analyte);
        if (grade && *grade > 0.0) least = std::min(least.value_or(*grade), *grade);
    }
    if (!least) return nullptr;
    std::vector<LogDatum> data;
    std::vector<double> logs;
    for (const Evidence& one : work.evidence) {
        const auto datum = grade_datum(one, chart_of(work, one), analyte, *least / 2.0);
        if (!datum) continue;
        data.push_back(*datum);
        logs.push_back(datum->log_value);
    }
    LogFieldPrior prior;
    prior.mean = numerics::median(logs);
    prior.sd = prior.nugget_sd = {0.3, 0.7, 1.4};
    prior.log_weight = {0.0, 0.0, 0.0};
    return fit_log_field(std::move(data), work.model->spacing, prior);
}

bool anything(const Evidence& /*one*/) { return true; }

}  // namespace

void fit_mid_surface(VeinWork& work, const VeinSettings& settings) {
    Vein::Model& model = *work.model;
    for (const Evidence& one : work.evidence)
        work.surface.push_back(surface_datum(one, chart_of(work, one), settings.tool_tilt, settings.alpha_as_data));
    const auto drilled = places_where(work, [](const Evidence& one) { return one.drill_hole; });
    model.spacing = hole_spacing(drilled, settings.plan.spacing.value_or(usual_spacing));
    model.step_out = settings.plan.step_out.value_or(2.0 * model.spacing);
    model.surface = fit_surface(work.surface, model.spacing, SurfaceRules{true});
    const auto not_stated = [](const Evidence& one) { return one.kind != Evidence::Kind::stated; };
    model.met = places_where(work, not_stated);
    const bool stated_alone = model.met.empty();
    if (stated_alone) model.met = places_where(work, anything);
    for (std::size_t block = 0; block < model.parts.size(); ++block)
        model.parts[block].met = stated_alone ? places_where(work, anything, block) : places_where(work, not_stated, block);
    const double reach = lattice_reach * model.step_out;
    Eigen::Vector2d lower = model.met.front(), upper = lower;
    for (const Eigen::Vector2d& place : model.met) {
        lower = lower.cwiseMin(place);
        upper = upper.cwiseMax(place);
    }
    const Eigen::Vector2d box = upper - lower + Eigen::Vector2d::Constant(2.0 * reach);
    const double step = std::max(model.spacing / 4.0, std::sqrt(box.x() * box.y() / most_lattice_nodes));
    model.lattice_reach = reach + 2.0 * step;
    model.lattice = std::make_shared<const MeanLattice>(model.surface, lattice_near(model.met, model.lattice_reach, step));
}

void fit_thickness(VeinWork& work) {
    Vein::Model& model = *work.model;
    const auto places = places_where(work, [](const Evidence& one) { return one.present; });
    const std::vector<Eigen::Vector2d> gradient_sds = gradient_sds_at(*model.surface, places);
    const std::vector<MeanSurface> means = means_at(*model.surface, places);
    std::vector<LogDatum> data;
    std::size_t next = 0;
    for (const Evidence& one : work.evidence) {
        work.thickness.emplace_back();
        if (!one.point || !one.present) continue;
        work.thickness.back() = thickness_datum(one, chart_of(work, one), means[next].gradient, gradient_sds[next]);
        ++next;
        if (work.thickness.back()) data.push_back(*work.thickness.back());
    }
    LogFieldPrior prior;
    prior.mean = usual_log_thickness();
    if (!data.empty()) model.thickness = fit_log_field(std::move(data), model.spacing, prior);
    model.drawn_thickness = std::make_shared<const ThicknessLattice>(model.lattice, model.thickness);
}

void fit_grades(VeinWork& work, const std::vector<std::size_t>& analytes) {
    for (const std::size_t analyte : analytes) work.model->grades.push_back(fit_grade(work, analyte));
}

// Bent as the vein was before the faults: each block's contacts are taken back by what the data say of its slip.
void draw_walls(VeinWork& work) {
    Vein::Model& model = *work.model;
    std::vector<WallContacts> contacts;
    for (const Evidence& one : work.evidence) {
        if (!one.has_walls()) continue;
        contacts.push_back(wall_contacts(one, chart_of(work, one)));
        model.contacts.emplace_back(one.block, contacts.back());
        for (Eigen::Vector3d* contact : {&contacts.back().hanging, &contacts.back().foot})
            contact->z() -= slope_row_of(model.lattice->at(contact->head<2>()).gradient).dot(model.parts[one.block].mean_slip);
    }
    SmoothVein smooth;
    smooth.mid = [&model](const Eigen::Vector2d& place) { return model.lattice->at(place).height; };
    smooth.gradient = [&model](const Eigen::Vector2d& place) { return model.lattice->at(place).gradient; };
    smooth.log_thickness = [&model](const Eigen::Vector2d& place) { return model.drawn_thickness->log_thickness_at(place); };
    model.walls = build_walls(contacts, smooth, model.spacing);
}

}  // namespace selvage::veins
