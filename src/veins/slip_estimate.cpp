#include "faults/fault_checks.h"
#include "veins/surface_model.h"
#include "veins/vein_work.h"

#include "base/text.h"

#include <fmt/format.h>
#include <Eigen/Geometry>

#include <cmath>
#include <set>
#include <utility>

namespace selvage::veins {

namespace {

constexpr double unknown_slip_sd = 50.0;  // m, each way within the fault, where nobody has said anything
constexpr double far_off = 3.0;           // sds of a slip that is given: the data correcting it by more are named

// Within the fault: nothing moves across it.
struct SlipAxes {
    Eigen::Vector3d first, second;
};
SlipAxes axes_of(const faults::Fault& fault) {
    const Eigen::Vector3d first = fault.plane.normal.unitOrthogonal();
    return {first, fault.plane.normal.cross(first)};
}

paths::SourceId source_of(const faults::Fault& fault, bool second) {
    return {second ? paths::SourceKind::fault_slip_north : paths::SourceKind::fault_slip_east, static_cast<int>(fault.number), 0};
}

// Both sides of a fault hold data of the vein.
bool is_seen_on_both_sides(const VeinWork& work, std::size_t fault) {
    std::set<bool> sides;
    for (const Evidence& one : work.evidence)
        if (one.point && one.kind != Evidence::Kind::stated) sides.insert(work.model->blocks.on_hanging_side(one.block, fault));
    return sides.size() == 2;
}

// The data as if each unknown slip were an error of the places on its hanging-wall side.
std::vector<SurfaceDatum> with_unknown_slips(const VeinWork& work, const std::vector<std::size_t>& unknown) {
    std::vector<SurfaceDatum> data = work.surface;
    for (std::size_t i = 0; i < data.size(); ++i) {
        const Evidence& one = work.evidence[i];
        for (const std::size_t f : unknown) {
            if (!one.point || !work.model->blocks.on_hanging_side(one.block, f)) continue;
            const faults::Fault& fault = work.model->blocks.faults()[f];
            const SlipAxes axes = axes_of(fault);
            for (const bool second : {false, true}) {
                const paths::ErrorSource source{source_of(fault, second), paths::Scope::project, unknown_slip_sd};
                const Eigen::Vector3d moved =
                    chart_of(work, one).chart_from_world_rotation * -(second ? axes.second : axes.first);
                data[i].effects.push_back({source, moved, Eigen::Vector3d::Zero()});
            }
        }
    }
    return data;
}

// Covariance of the rows with a unit of a source's error: truth = value + effect x e.
Eigen::VectorXd rows_with(const SurfaceRows& rows, const paths::SourceId& id) {
    Eigen::VectorXd with = Eigen::VectorXd::Zero(rows.values.size());
    for (const RowSource& source : rows.sources)
        if (source.source.id == id)
            for (const auto& [row, effect] : source.effects) with(row) -= effect * source.source.sd * source.source.sd;
    return with;
}

// Mean and covariance of a slip's two parts over all nodes.
SlipEstimate estimate_of(const SurfaceModel& model, const faults::Fault& fault) {
    Eigen::MatrixX2d with(model.rows.values.size(), 2);
    with << rows_with(model.rows, source_of(fault, false)), rows_with(model.rows, source_of(fault, true));
    Eigen::Vector2d mean = Eigen::Vector2d::Zero();
    Eigen::Matrix2d second_moment = Eigen::Matrix2d::Zero();
    for (const SurfaceNode& node : model.nodes) {
        const Eigen::MatrixX2d whitened = node.data.whitener.triangularView<Eigen::Lower>() * with;
        const Eigen::Vector2d part = with.transpose() * node.data.weights;
        const Eigen::Matrix2d covariance =
            unknown_slip_sd * unknown_slip_sd * Eigen::Matrix2d::Identity() - whitened.transpose() * whitened;
        mean += node.weight * part;
        second_moment += node.weight * (covariance + part * part.transpose());
    }
    const SlipAxes axes = axes_of(fault);
    Eigen::Matrix<double, 3, 2> world;
    world << axes.first, axes.second;
    SlipEstimate estimate;
    estimate.fault = fault.name;
    estimate.slip = world * mean;
    estimate.sd = (world * (second_moment - mean * mean.transpose()) * world.transpose()).diagonal().cwiseMax(0.0).cwiseSqrt();
    return estimate;
}

// Where nothing can be offered: data on one side alone, or too many to be solved as one.
void report_unknown(VeinWork& work, const std::string& fault) {
    work.findings.push_back(
        {&faults::slip_not_given,
         {"project", "", 0},
         {},
         fmt::format("fault {} is younger than vein {} and its slip is not given: the vein is cut there but not moved", fault,
                     work.setting->name)});
}

void report_far_slip(VeinWork& work, const SlipEstimate& slip, double across) {
    work.findings.push_back(
        {&faults::slip_against_data,
         {"project", "", 0},
         {},
         fmt::format(
             "the slip of fault {} is given to {} m (one sd), and vein {} on both sides of it says {} m more or less, square "
             "to the vein: it is drawn and forecast with a slip of {} east, {} north, {} up, see slips.csv",
             slip.fault, base::fixed(slip.sd.x(), 1), work.setting->name, base::fixed(std::abs(across), 1),
             base::fixed(slip.used.x(), 1), base::fixed(slip.used.y(), 1), base::fixed(slip.used.z(), 1))});
}

void report_unmoved(VeinWork& work, const SlipEstimate& estimate) {
    work.findings.push_back(
        {&faults::slip_not_given,
         {"project", "", 0},
         {},
         fmt::format("fault {} cuts vein {} and its slip is not given: the vein is cut there but not moved; both sides imply {} "
                     "east, {} north, {} up (sd {}, {}, {}) m, see slips.csv",
                     estimate.fault, work.setting->name, base::fixed(estimate.slip.x(), 1), base::fixed(estimate.slip.y(), 1),
                     base::fixed(estimate.slip.z(), 1), base::fixed(estimate.sd.x(), 1), base::fixed(estimate.sd.y(), 1),
                     base::fixed(estimate.sd.z(), 1))});
}

// A slip that is given, as the vein's data on both sides correct it.
SlipEstimate given_slip(VeinWork& work, std::size_t f) {
    const Vein::Model& model = *work.model;
    const faults::Fault& fault = model.blocks.faults()[f];
    SlipEstimate slip{fault.name, fault.slip, Eigen::Vector3d::Constant(fault.slip_sd), true, fault.slip};
    for (std::size_t block = 0; block < model.parts.size(); ++block) {
        const BlockPart& part = model.parts[block];
        if (!model.blocks.on_hanging_side(block, f) || part.met.empty()) continue;
        std::vector<paths::SourceEffect> of_fault;
        for (const paths::SourceEffect& effect : part.slips)
            if (effect.source.id.owner == static_cast<int>(fault.number)) of_fault.push_back(effect);
        if (of_fault.empty()) break;
        const Eigen::Vector3d error = mean_slip_error(model, part, of_fault);
        slip.used += part.chart.chart_from_world_rotation.transpose() * error;
        if (std::abs(error.z()) > far_off * fault.slip_sd) report_far_slip(work, slip, error.z());
        break;
    }
    return slip;
}

}  // namespace

void find_slips(VeinWork& work) {
    Vein::Model& model = *work.model;
    const std::vector<faults::Fault>& faults = model.blocks.faults();
    std::vector<std::size_t> unknown;
    for (std::size_t f = 0; f < faults.size(); ++f) {
        if (faults[f].slip_given)
            model.slips.push_back(given_slip(work, f));
        else if (is_seen_on_both_sides(work, f) && !model.surface->neighbourhoods)
            unknown.push_back(f);
        else if (model.blocks.is_parted_by(f))
            report_unknown(work, faults[f].name);
    }
    if (unknown.empty()) return;
    const auto surface = fit_surface(with_unknown_slips(work, unknown), model.spacing, SurfaceRules{true});
    for (const std::size_t f : unknown) {
        model.slips.push_back(estimate_of(*surface, faults[f]));
        report_unmoved(work, model.slips.back());
    }
}

}  // namespace selvage::veins
