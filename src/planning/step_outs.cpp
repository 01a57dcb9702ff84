#include "planning/step_outs.h"

#include "base/parallel.h"
#include "base/text.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

namespace selvage::planning {

namespace {

constexpr double nearest_in_spacings = 0.5;  // of a candidate to what is drilled, planned or ranked
constexpr double drilled_in_spacings = 0.5;  // ground so near to a hit is drilled ground, the rest is extrapolated
constexpr double most_places = 300.0;        // of the ground of one vein: matrices of its square are kept for each node
constexpr double finest_in_spacings = 0.25;
constexpr double pick_sd = 0.15;            // m, of a contact's depth
constexpr std::size_t heaviest_parts = 10;  // of thickness and of grade, for their product

// A vein while its step-outs are chosen.
struct Search {
    std::size_t vein = 0;
    double spacing = 50.0;
    std::vector<veins::GroundPlace> ground;
    std::vector<std::optional<Reach>> holes;  // that reach each place; nothing: no candidate, or none does
    std::vector<double> weights, values;      // of the ground's variances; expected accumulation of each place
    std::vector<char> open;                   // still a candidate
    double extrapolated = 0.0;                // sum of the weights
    std::optional<veins::Teaching> teaching;
    std::vector<double> gains;
};

double ground_step(const veins::VeinSummary& summary) {
    return std::max(finest_in_spacings * summary.hole_spacing, std::sqrt(summary.area / most_places));
}

// Variance along the vein's normal of a contact at the end of a surveyed straight hole, m2.
double error_variance(const Reach& hole, const veins::GroundPlace& place, const StepOutSettings& settings) {
    const Eigen::Vector3d down_hole = base::unit_vector(hole.direction), run = place.point - hole.collar;
    const Eigen::Vector3d level = Eigen::Vector3d::UnitZ().cross(down_hole);
    const double by_azimuth = place.normal.dot(Eigen::Vector3d::UnitZ().cross(run));
    const double by_dip = level.norm() > 1e-6 ? place.normal.dot(level.normalized().cross(run)) : run.norm();
    const double azimuth_sd =
        std::hypot(settings.survey_errors.azimuth_common.radians(), settings.survey_errors.azimuth_hole.radians());
    const double along = pick_sd * place.normal.dot(down_hole);
    return along * along + settings.collar_sd * settings.collar_sd + std::pow(by_azimuth * azimuth_sd, 2) +
           std::pow(by_dip * settings.survey_errors.dip_hole.radians(), 2);
}

// Largest accumulation of a vein's intercepts (of the thickness where no analyte counts): the limit of what is expected.
double largest_of(const std::string& vein, const intercepts::Intercepts& intercepts, std::optional<std::size_t> analyte) {
    double largest = 0.0;
    for (const intercepts::Intercept& met : intercepts.met) {
        if (met.vein != vein) continue;
        if (!analyte)
            largest = std::max(largest, met.true_thickness.value_or(0.0));
        else if (*analyte < met.accumulations.size())
            largest = std::max(largest, met.accumulations[*analyte].value_or(0.0));
    }
    return largest;
}

double expected_value(const veins::GroundPlace& place, double limit, std::optional<std::size_t> analyte) {
    if (limit <= 0.0 || place.content.log_thickness.empty()) return 0.0;
    if (!analyte) return place.presence * numerics::limited_mean_of_exponential(place.content.log_thickness, limit);
    if (*analyte >= place.content.log_grades.size() || place.content.log_grades[*analyte].empty()) return 0.0;
    const numerics::NormalMixture log_metal =
        numerics::sum_of_independent(place.content.log_thickness, place.content.log_grades[*analyte], heaviest_parts);
    return place.presence * numerics::limited_mean_of_exponential(log_metal, limit);
}

void close_near(Search& search, const Eigen::Vector3d& point) {
    const double apart = nearest_in_spacings * search.spacing;
    for (std::size_t i = 0; i < search.ground.size(); ++i)
        if ((search.ground[i].point - point).norm() < apart) search.open[i] = 0;
}

std::size_t nearest_place(const Search& search, const Eigen::Vector3d& point) {
    std::size_t nearest = 0;
    for (std::size_t i = 1; i < search.ground.size(); ++i)
        if ((search.ground[i].point - point).norm() < (search.ground[nearest].point - point).norm()) nearest = i;
    return nearest;
}

// What planned and active holes will teach is known already.
void drill_what_is_planned(Search& search, const std::vector<forecast::Pierce>& pierces) {
    for (const forecast::Pierce& pierce : pierces) {
        if (pierce.vein_number != search.vein || search.ground.empty()) continue;
        const std::size_t place = nearest_place(search, pierce.point);
        if ((search.ground[place].point - pierce.point).norm() < search.spacing) search.teaching->drill(place);
        close_near(search, pierce.point);
    }
}

Search search_of(std::size_t number, const veins::Vein& vein, const intercepts::Intercepts& intercepts,
                 const std::vector<forecast::Pierce>& pierces, const ReachRules& rules, const StepOutSettings& settings) {
    Search search;
    search.vein = number;
    search.spacing = vein.summary().hole_spacing;
    search.ground = vein.ground(ground_step(vein.summary()));
    const double limit = largest_of(vein.name(), intercepts, settings.analyte);
    std::vector<double> errors;
    for (const veins::GroundPlace& place : search.ground) {
        const bool drilled = place.nearest_hit < drilled_in_spacings * search.spacing;
        search.holes.push_back(drilled ? std::nullopt : best_reach(place.point, place.normal, rules));
        search.open.push_back(search.holes.back() ? 1 : 0);
        search.weights.push_back(drilled ? 0.0 : place.area * place.presence);
        search.values.push_back(expected_value(place, limit, settings.analyte));
        search.extrapolated += search.weights.back();
        errors.push_back(search.holes.back() ? error_variance(*search.holes.back(), place, settings) : 1.0);
    }
    search.teaching = vein.teaching(search.ground, search.weights, errors);
    for (const veins::NoVein& none : vein.no_vein())
        if (none.is_miss()) close_near(search, none.point);
    drill_what_is_planned(search, pierces);
    search.gains = search.teaching->gains();
    return search;
}

// Of the places still open: the most that any could give, and the dearest hole.
struct Best {
    double gain = 0.0, value = 0.0, cost = 0.0;
};

Best best_of(const std::vector<Search>& searches) {
    Best best;
    for (const Search& search : searches)
        for (std::size_t i = 0; i < search.ground.size(); ++i) {
            if (search.open[i] == 0) continue;
            best.gain = std::max(best.gain, search.gains[i]);
            best.value = std::max(best.value, search.values[i]);
            best.cost = std::max(best.cost, search.holes[i]->cost);
        }
    return best;
}

double share_of(double part, double whole) { return whole > 0.0 ? part / whole : 0.0; }

struct Weights {
    double information, value, cost;
};

struct Choice {
    std::size_t search = 0, place = 0;
    double score = -std::numeric_limits<double>::infinity();
};

Choice choose(const std::vector<Search>& searches, const Best& best, const Weights& weights) {
    Choice choice;
    for (std::size_t s = 0; s < searches.size(); ++s)
        for (std::size_t i = 0; i < searches[s].ground.size(); ++i) {
            if (searches[s].open[i] == 0) continue;
            const double score = weights.information * share_of(searches[s].gains[i], best.gain) +
                                 weights.value * share_of(searches[s].values[i], best.value) -
                                 weights.cost * share_of(searches[s].holes[i]->cost, best.cost);
            if (score > choice.score) choice = {s, i, score};
        }
    return choice;
}

// "Sorrel 3180E 450": the vein, its place along strike by the coordinate that runs with it, the elevation; in tens of the unit.
std::string target_name(const veins::Vein& vein, const Eigen::Vector3d& point, const base::MapFrame& frame,
                        std::set<std::string>& taken) {
    const Eigen::Vector3d map = frame.map_from_project(point);
    const Eigen::Vector3d normal = vein.mean_plane().normal;
    const bool along_east = std::abs(normal.y()) >= std::abs(normal.x());  // the strike runs east rather than north
    const auto tens = [](double value) { return base::fixed(std::round(value / 10.0) * 10.0, 0); };
    const double within = std::fmod(along_east ? map.x() : map.y(), 10000.0);
    const std::string name = vein.name() + " " + tens(within) + (along_east ? "E " : "N ") + tens(map.z());
    std::string unique = name;
    for (char letter = 'b'; !taken.insert(unique).second && letter <= 'z'; ++letter) unique = name + letter;
    return unique;
}

std::string percent(double share) { return base::fixed(100.0 * share, 0) + " %"; }

std::string reason_of(const StepOut& step_out) {
    return "teaches " + percent(step_out.teaches) + " and is worth " + percent(step_out.worth) +
           " of the best left with the earlier ranks drilled; takes " + percent(step_out.off_variance) +
           " off what is left of the variance of " + step_out.vein + " itself where no hit is near";
}

// `before`: the variance left, over which the gain is a share.
void tell_choice(StepOut& step_out, const Search& search, const Choice& choice, const Best& best, double before) {
    step_out.teaches = share_of(search.gains[choice.place], best.gain);
    step_out.worth = share_of(search.values[choice.place], best.value);
    step_out.costs = share_of(step_out.hole.cost, best.cost);
    step_out.score = choice.score;
    step_out.off_variance = share_of(search.gains[choice.place], before);
    step_out.reason = reason_of(step_out);
}

StepOut step_out_of(const Search& search, const Choice& choice, const veins::Vein& vein) {
    const veins::GroundPlace& place = search.ground[choice.place];
    StepOut step_out;
    step_out.vein = vein.name();
    step_out.vein_number = search.vein;
    step_out.point = place.point;
    step_out.presence = place.presence;
    if (!place.content.log_thickness.empty()) step_out.true_thickness = std::exp(place.content.log_thickness.quantile(0.5));
    step_out.information = share_of(search.gains[choice.place], search.extrapolated);
    step_out.hole = *search.holes[choice.place];
    return step_out;
}

}  // namespace

std::vector<StepOut> step_outs(const std::vector<veins::Vein>& veins, const intercepts::Intercepts& intercepts,
                               const std::vector<forecast::Pierce>& pierces, const std::vector<paths::Path>& paths,
                               const tables::Records& records, const site::Site& site, const StepOutSettings& settings) {
    const std::vector<HolePoints> holes = hole_points(paths);
    const ReachRules rules{
        settings.rig, settings.plan.angle_min, settings.plan.tail, &records.pads, site.ground, settings.plan.clearance,
        &holes,       site.property.get(),     &site.workings};
    const Weights weights{settings.plan.weights[0], settings.plan.weights[1], settings.plan.weights[2]};
    std::vector<Search> searches(veins.size());
    base::parallel_for(veins.size(),
                       [&](std::size_t i) { searches[i] = search_of(i, veins[i], intercepts, pierces, rules, settings); });
    std::vector<StepOut> ranked;
    std::set<std::string> targets;
    while (ranked.size() < settings.plan.count) {
        const Best best = best_of(searches);
        const Choice choice = choose(searches, best, weights);
        if (std::isinf(choice.score)) break;
        Search& search = searches[choice.search];
        const veins::Vein& vein = veins[search.vein];
        const veins::GroundPlace& place = search.ground[choice.place];
        StepOut step_out = step_out_of(search, choice, vein);
        step_out.rank = ranked.size() + 1;
        if (search.values[choice.place] > 0.0 && settings.analyte) step_out.accumulation = search.values[choice.place];
        step_out.target = target_name(vein, step_out.point, records.frame, targets);
        tell_choice(step_out, search, choice, best, search.teaching->variance_sum());
        if (step_out.hole.pad.empty()) step_out.no_pad = why_no_pad(place.point, place.normal, rules);
        search.teaching->drill(choice.place);
        close_near(search, step_out.point);
        search.gains = search.teaching->gains();
        ranked.push_back(std::move(step_out));
    }
    return ranked;
}

}  // namespace selvage::planning
