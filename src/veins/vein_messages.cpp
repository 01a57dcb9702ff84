#include "veins/vein_messages.h"

#include "base/text.h"
#include "faults/fault_checks.h"
#include "faults/fault_plane.h"
#include "paths/locate.h"
#include "veins/parent_wall.h"
#include "veins/vein_checks.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace selvage::veins {

namespace {

constexpr double steep_share_allowed = 0.02;
constexpr double neighbours = 5.0;  // m between two intercepts that ought to agree
constexpr double sds_of_disagreement = 4.0;
constexpr double errors_of_attitude = 4.0;
constexpr double edge_at_fault = 5.0;  // m
constexpr double behind_wall = 1.0;    // m: nearer than that it may lie on the wall itself

void report(VeinWork& work, const base::Check& check, const Evidence* about, std::string message) {
    base::Finding finding{&check, {}, {}, std::move(message)};
    finding.origin.table = "project";
    if (about != nullptr && about->intercept != nullptr) {
        finding.origin = about->intercept->origin;
        finding.hole = about->name;
    }
    if (about != nullptr && about->outcrop != nullptr) finding.origin = about->outcrop->origin;
    work.findings.push_back(std::move(finding));
}

void report_turns(VeinWork& work) {
    for (const Evidence& one : work.evidence) {
        if (!turns_over(one, work.model->chart)) continue;
        const double angle =
            base::Angle::radians(std::acos(std::min(1.0, std::abs(one.normal->dot(work.model->chart.w()))))).degrees();
        report(
            work, vein_turns, &one,
            fmt::format("vein {} turns {} degrees from its plane near {}: that attitude is left out; give the vein as two veins "
                        "that meet, or set its plane",
                        work.setting->name, base::fixed(angle, 0), one.name));
    }
}

// Measured attitudes four of their usual errors off: those of one vein contradict each other, or a line was misread.
void report_attitudes(VeinWork& work) {
    const Vein::Model& model = *work.model;
    for (const Evidence& one : work.evidence) {
        if (!one.normal || !one.point || one.kind == Evidence::Kind::stated || turns_over(one, model.chart)) continue;
        const Eigen::Vector2d slope = model.lattice->at(place_of(work, one)).gradient;
        const Eigen::Vector3d modelled =
            model.chart.chart_from_world_rotation.transpose() * Eigen::Vector3d(-slope.x(), -slope.y(), 1.0).normalized();
        const double off = std::acos(std::min(1.0, std::abs(modelled.dot(*one.normal))));
        if (off < errors_of_attitude * std::hypot(usual_attitude_sd, one.normal_sd)) continue;
        const base::Attitude measured = base::attitude_of_normal(*one.normal), drawn = base::attitude_of_normal(modelled);
        report(
            work, attitude_disagrees, &one,
            fmt::format("vein {} measured here dips {} towards {}, where all its data make it dip {} towards {}: {} degrees off; "
                        "it is kept",
                        work.setting->name, base::fixed(measured.dip.degrees(), 0),
                        base::fixed(measured.dip_direction.degrees(), 0), base::fixed(drawn.dip.degrees(), 0),
                        base::fixed(drawn.dip_direction.degrees(), 0), base::fixed(base::Angle::radians(off).degrees(), 0)));
    }
}

void report_turned_over(VeinWork& work) {
    for (const std::string& hole : work.model->walls.upside_down) {
        const auto one =
            std::find_if(work.evidence.begin(), work.evidence.end(), [&](const Evidence& e) { return e.name == hole; });
        report(work, contacts_turned_over, &*one,
               fmt::format(
                   "the slope of vein {} at this intercept turns its contacts over; the drawn walls do not pass through them",
                   work.setting->name));
    }
}

// Variance of the difference of two heights: what their paths share cancels as far as it moves both alike.
double joint_variance(const SurfaceDatum& a, const SurfaceDatum& b, const Eigen::Vector3d& slope_row) {
    std::map<paths::SourceId, std::pair<double, double>> moves;  // difference, sd
    for (const ChartEffect& effect : a.effects) {
        moves[effect.source.id] = {slope_row.dot(effect.displacement), effect.source.sd};
    }
    for (const ChartEffect& effect : b.effects) {
        auto& move = moves[effect.source.id];
        move.first -= slope_row.dot(effect.displacement);
        move.second = effect.source.sd;
    }
    double variance = a.scaled_variance + a.fixed_variance + b.scaled_variance + b.fixed_variance;
    for (const auto& [id, move] : moves) variance += move.first * move.first * move.second * move.second;
    return variance;
}

void report_disagreement(VeinWork& work) {
    const Vein::Model& model = *work.model;
    for (std::size_t i = 0; i < work.evidence.size(); ++i) {
        for (std::size_t j = i + 1; j < work.evidence.size(); ++j) {
            const SurfaceDatum &a = work.surface[i], &b = work.surface[j];
            if (!work.evidence[i].has_walls() || !work.evidence[j].has_walls()) continue;
            if ((a.place - b.place).norm() > neighbours) continue;
            const Eigen::Vector2d slope = model.lattice->at((a.place + b.place) / 2.0).gradient;
            const double apart = std::abs(*a.height - *b.height - slope.dot(a.place - b.place));
            const double sd = std::sqrt(joint_variance(a, b, {-slope.x(), -slope.y(), 1.0}));
            if (apart <= sds_of_disagreement * sd) continue;
            report(
                work, contacts_disagree, &work.evidence[i],
                fmt::format("holes {} and {} meet vein {} {} m apart across it, {} m apart along it; their joint error is {} m",
                            a.hole, b.hole, work.setting->name, base::fixed(apart, 1), base::fixed((a.place - b.place).norm(), 1),
                            base::fixed(sd, 1)));
        }
    }
}

void report_doubtful(VeinWork& work) {
    std::size_t row = 0;
    for (const Evidence& one : work.evidence) {
        if (one.kind != Evidence::Kind::intercept) continue;
        const FitRow& fit = work.model->fit[row++];
        if (!fit.is_doubtful() || work.model->summary.prior_only) continue;
        report(work, doubtful_intercept, &one,
               fmt::format(
                   "meets vein {} at {} m where all the other holes put it at {} m (8 in 10: {} to {}); a difference this large "
                   "has a chance of {}; it is kept",
                   work.setting->name, base::fixed(fit.actual_depth, 1), base::fixed(fit.predicted_depth, 1),
                   base::fixed(fit.depth_p10, 1), base::fixed(fit.depth_p90, 1), base::fixed(fit.two_sided_probability, 4)));
    }
}

void report_few(VeinWork& work) {
    const VeinSummary& summary = work.model->summary;
    if (summary.prior_only) {
        report(work, prior_only, nullptr,
               fmt::format("vein {} has {}: its errors come from what veins are like in general (prior only)", work.setting->name,
                           summary.intercepts == 0   ? std::string("no intercept")
                           : summary.intercepts == 1 ? std::string("one intercept")
                                                     : fmt::format("{} intercepts", summary.intercepts)));
    }
    std::size_t all = 0, outcrops = 0;
    for (std::size_t i = 0; i < work.evidence.size(); ++i) {
        all += work.thickness[i] ? 1 : 0;
        outcrops += work.thickness[i] && work.evidence[i].outcrop != nullptr ? 1 : 0;
    }
    if (2 * outcrops <= all) return;
    report(work, outcrops_over_half, nullptr,
           fmt::format("{} of the {} thicknesses of vein {} are from outcrops, which are found where a vein is wide and hard",
                       outcrops, all, work.setting->name));
}

// A hit that may lie on the other side of a fault.
struct NearFault {
    const Evidence* hit;
    double away, sd;  // m
};

// Hits within two sds of a fault, their own error, its place and its waves together; by fault.
std::map<std::size_t, std::vector<NearFault>> near_faults(const VeinWork& work) {
    std::map<std::size_t, std::vector<NearFault>> near;
    const faults::Blocks& blocks = work.model->blocks;
    if (!blocks.is_cut()) return near;
    for (const Evidence& one : work.evidence) {
        if (!one.point || one.intercept == nullptr || one.path == nullptr) continue;
        const faults::Blocks::Inside inside = blocks.inside(one.block, *one.point);
        const faults::Fault& fault = blocks.faults()[inside.fault];
        const Eigen::Matrix3d error = paths::covariance_at(*one.path, one.intercept->middle());
        const double sd = std::hypot(faults::offset_sd(fault, inside.moved, *one.point), faults::waves_sd,
                                     std::sqrt(inside.normal.dot(error * inside.normal)));
        if (inside.distance <= 2.0 * sd) near[inside.fault].push_back({&one, inside.distance, sd});
    }
    return near;
}

void report_near_faults(VeinWork& work) {
    constexpr std::size_t most_named = 6;
    for (const auto& [number, hits] : near_faults(work)) {
        const faults::Fault& fault = work.model->blocks.faults()[number];
        std::string holes;
        for (std::size_t i = 0; i < std::min(hits.size(), most_named); ++i)
            holes += fmt::format("{}{} ({} m, known to {})", i == 0 ? "" : ", ", hits[i].hit->name, base::fixed(hits[i].away, 1),
                                 base::fixed(hits[i].sd, 1));
        if (hits.size() > most_named) holes += fmt::format(" and {} more", hits.size() - most_named);
        const std::string off = fault.slip_given ? fmt::format("on the other it would be {} m off",
                                                               base::fixed(std::abs(fault.slip.dot(work.model->chart.w())), 1))
                                                 : std::string("how far off it would be on the other nobody has said");
        report(work, met_near_fault, hits.size() == 1 ? hits.front().hit : nullptr,
               fmt::format(
                   "vein {} is met near fault {} by {}: it is taken to lie on the side where the fault's plane puts it, and {}",
                   work.setting->name, fault.name, holes, off));
    }
}

// Where a splay does not end as its setting says.
void report_splay(VeinWork& work) {
    if (work.setting->splay_of.empty()) return;
    const std::shared_ptr<const ParentWall>& wall = work.model->parent_wall;
    if (!wall) {
        report(work, splay_without_end, nullptr,
               fmt::format("vein {} is a splay of {}, of which there is no model: nothing ends it there", work.setting->name,
                           work.setting->splay_of));
        return;
    }
    for (const Evidence& one : work.evidence) {
        if (!one.point || wall->before(*one.point).distance > -behind_wall) continue;
        report(work, splay_without_end, &one,
               fmt::format("meets vein {} {} m behind the wall of vein {} that it leaves: it tells where the vein lies, and is "
                           "no part of what is modelled",
                           work.setting->name, base::fixed(-wall->before(*one.point).distance, 1), work.setting->splay_of));
    }
}

// On the fault, or where younger ones moved that.
bool is_at_fault(const faults::Blocks& blocks, std::size_t fault, const Eigen::Vector3d& point) {
    for (std::size_t block = 0; block < blocks.count(); ++block) {
        const faults::Blocks::Inside inside = blocks.inside(block, point);
        if (inside.fault == fault && std::abs(inside.distance) < edge_at_fault) return true;
    }
    return false;
}

// Faults that come nowhere near, and blocks of which nothing is left within the ground and the property.
void report_blocks(VeinWork& work) {
    const Vein::Model& model = *work.model;
    const std::vector<faults::Fault>& faults = model.blocks.faults();
    const auto block_seen = [&](std::size_t block) {
        return std::any_of(model.edges.begin(), model.edges.end(),
                           [&](const EdgeLine& edge) { return edge.block == model.blocks.name(block); });
    };
    for (std::size_t f = 0; f < faults.size(); ++f) {
        std::set<bool> sides;
        for (const Evidence& one : work.evidence)
            if (one.point) sides.insert(model.blocks.on_hanging_side(one.block, f));
        const bool reached = std::any_of(model.edges.begin(), model.edges.end(), [&](const EdgeLine& edge) {
            return edge.reason == EdgeReason::fault && is_at_fault(model.blocks, f, edge.points.front());
        });
        if (sides.size() < 2 && !reached)
            report(work, faults::fault_cuts_nothing, nullptr,
                   fmt::format("fault {} does not come to vein {} as it is modelled", faults[f].name, work.setting->name));
    }
    for (std::size_t block = 0; block < model.parts.size(); ++block)
        if (!model.parts[block].extent.hits.empty() && !block_seen(block))
            report(
                work, vein_out_of_ground, nullptr,
                fmt::format("nothing of vein {}{} lies below the ground, within the property and before the faults",
                            work.setting->name, model.blocks.is_cut() ? " in block " + model.blocks.name(block) : std::string()));
}

}  // namespace

void report_no_plane(VeinWork& work) {
    const bool has_point =
        std::any_of(work.evidence.begin(), work.evidence.end(), [](const Evidence& one) { return one.point.has_value(); });
    if (!has_point) {
        report(work, vein_without_data, nullptr,
               fmt::format("vein {} has neither an intercept, an outcrop nor a stated point; it is not modelled",
                           work.setting->name));
        return;
    }
    report(
        work, vein_attitude_unknown, nullptr,
        fmt::format("the data of vein {} cannot tell its attitude (fewer than three holes, or one fence, and no core angles or "
                    "outcrop attitudes); it is not modelled: give its dip and dip_direction",
                    work.setting->name));
}

void report_steepness(VeinWork& work, double share) {
    if (share <= steep_share_allowed) return;
    report(work, vein_turns, nullptr,
           fmt::format(
               "vein {} lies more than 45 degrees off its plane over {} % of its extent; give it as two veins that meet, or set "
               "its plane",
               work.setting->name, base::fixed(100.0 * share, 0)));
}

void report_data(VeinWork& work) {
    report_turns(work);
    report_attitudes(work);
    report_turned_over(work);
    report_disagreement(work);
    report_doubtful(work);
    report_few(work);
    report_near_faults(work);
    report_splay(work);
    report_blocks(work);
}

}  // namespace selvage::veins
