#include "sheets/card_facts.h"

#include "base/text.h"
#include "paths/locate.h"
#include "planning/reach.h"
#include "sheets/call_and_stop.h"
#include "sheets/card_page.h"
#include "sheets/clearance.h"
#include "sheets/label_text.h"

#include <algorithm>
#include <cmath>

namespace selvage::sheets {

namespace {

constexpr double steep_dip = 88.0;       // degrees: the azimuth of a steeper hole cannot be set with use
constexpr double eight_in_ten = 1.2816;  // sds either side
constexpr std::size_t most_dangers = 5;

bool gets_card(const tables::Collar& collar, const paths::Path* path) {
    const bool ahead = collar.status == tables::HoleStatus::planned || collar.status == tables::HoleStatus::active;
    return ahead && tables::is_drill_hole(collar.type) && path != nullptr;
}

base::Direction start_of(const tables::Collar& collar, const paths::Path& path) {
    base::Direction start = path.stations.front().direction;
    if (collar.azimuth) start.azimuth = *collar.azimuth;
    if (collar.dip) start.dip = *collar.dip;
    return start;
}

std::string pad_at(const tables::Records& records, const Eigen::Vector3d& collar) {
    const tables::Pad* nearest = nullptr;
    double least = 0.0;
    for (const tables::Pad& pad : records.pads) {
        const double away = (pad.position - collar).head<2>().norm();
        if (away > pad.radius.value_or(planning::one_pad) || (nearest != nullptr && away >= least)) continue;
        nearest = &pad;
        least = away;
    }
    return nearest == nullptr ? "" : nearest->pad;
}

// The limits from how a reading there is expected to scatter: the path's own sources, and the reading's errors.
ExpectedDirection expected_at(const paths::Path& path, double depth, const settings::SurveyErrorSizes& reading) {
    ExpectedDirection expected;
    expected.depth = depth;
    const Eigen::Vector3d tangent = paths::direction_at(path, depth);
    expected.expected = base::direction_of(tangent);
    const double level = paths::held_dip_cosine(std::hypot(tangent.x(), tangent.y()));
    const Eigen::Vector3d right = Eigen::Vector3d(tangent.y(), -tangent.x(), 0.0) / level, down = tangent.cross(right);
    double azimuth = std::pow(reading.azimuth_hole.radians(), 2.0) + std::pow(reading.azimuth_station.radians(), 2.0);
    double dip = std::pow(reading.dip_hole.radians(), 2.0) + std::pow(reading.dip_station.radians(), 2.0);
    for (const paths::SourceEffect& effect : paths::effects_at(path, depth)) {
        if (!paths::is_deviation(effect.source.id.kind)) continue;
        const Eigen::Vector3d turned = effect.source.sd * effect.rotation.cross(tangent);
        azimuth += std::pow(turned.dot(right) / level, 2.0);
        dip += std::pow(turned.dot(down), 2.0);
    }
    expected.azimuth_off = base::Angle::radians(eight_in_ten * std::sqrt(azimuth));
    expected.dip_off = base::Angle::radians(eight_in_ten * std::sqrt(dip));
    return expected;
}

std::vector<ExpectedDirection> line_of(const CardFacts& facts, const Results& results) {
    const SurveyInterval interval = survey_interval(results.project);
    constexpr double beside_end = 2.0;  // m: a survey so near the end is the one there
    const double end = facts.path->end_depth;
    std::vector<double> depths{end};
    for (double depth = interval.first; depth < end - beside_end; depth += interval.every) depths.push_back(depth);
    std::sort(depths.begin(), depths.end());
    std::vector<ExpectedDirection> line;
    for (const double depth : depths)
        if (depth > facts.from + 1e-6) line.push_back(expected_at(*facts.path, depth, results.project.survey_errors.usual));
    return line;
}

std::optional<double> leaves_property(const CardFacts& facts, const site::Site& site) {
    if (site.property == nullptr) return std::nullopt;
    for (double depth = facts.from; depth <= facts.to; depth += 1.0)
        if (!site.property->holds(paths::position_at(*facts.path, depth).head<2>())) return depth;
    return std::nullopt;
}

// An opening, then what stops a rig or costs it core and water, then faults.
int harm_of(const planning::Danger& danger) {
    const bool is_modelled = danger.seen_in.empty();
    if (danger.what == "void" || (is_modelled && danger.nearest)) return 0;
    return is_modelled || danger.what.find("fault") != std::string::npos ? 2 : 1;
}

// Parted in their order of depth: those that the front's line of depths shows are all openings, all that is modelled, and so many
// of the others, the most harmful, that there are no more than `most_dangers` in all.
void part_dangers(CardFacts& facts, const std::vector<planning::Danger>& dangers) {
    const auto always = [](const planning::Danger& danger) { return danger.seen_in.empty() || harm_of(danger) == 0; };
    auto kept = static_cast<std::size_t>(std::count_if(dangers.begin(), dangers.end(), always));
    std::vector<bool> shown(dangers.size());
    for (const std::size_t i : by_harm(dangers)) {
        shown[i] = always(dangers[i]) || kept < most_dangers;
        if (shown[i] && !always(dangers[i])) ++kept;
    }
    for (std::size_t i = 0; i < dangers.size(); ++i) (shown[i] ? facts.dangers : facts.further_dangers).push_back(dangers[i]);
}

planning::NearHoles without_too_near(const CardFacts& facts, const Results& results) {
    const std::vector<planning::NearHole>& under = facts.near.under;
    if (under.empty()) return {};
    std::vector<paths::Path> others;
    for (const paths::Path& path : results.paths)
        if (std::none_of(under.begin(), under.end(), [&](const planning::NearHole& one) { return one.hole == path.hole; }))
            others.push_back(path);
    return planning::near_holes(*facts.path, facts.from, facts.to, results.project.plan.clearance, others);
}

CardFacts facts_of(const tables::Collar& collar, const paths::Path& path, const planning::Surroundings& surroundings,
                   const Results& results) {
    CardFacts facts;
    facts.collar = &collar;
    facts.path = &path;
    for (const forecast::Pierce& pierce : results.pierces)
        if (pierce.hole == collar.hole) facts.pierces.push_back(&pierce);
    std::stable_sort(facts.pierces.begin(), facts.pierces.end(),
                     [](const forecast::Pierce* a, const forecast::Pierce* b) { return a->depth < b->depth; });
    facts.veins = veins_ahead(facts.pierces, results.pierces);
    facts.start = start_of(collar, path);
    facts.steep = std::abs(facts.start.dip.degrees()) >= steep_dip;
    facts.norths = three_norths(facts.start.azimuth, results.project.north);
    facts.pad = pad_at(results.records, collar.position);
    const WayAhead way = way_ahead(path, results);
    facts.from = way.from;
    facts.to = way.to;
    part_dangers(facts, planning::on_the_way(path, facts.from, facts.to, surroundings));
    facts.faults = faults_on_way(path, results);
    facts.near = near_ahead(path, results);
    facts.others = without_too_near(facts, results);
    facts.left_out = left_out_ahead(path, results);
    facts.leaves_property = leaves_property(facts, results.site);
    facts.line = line_of(facts, results);
    return facts;
}

// " (3 m left, 2 m low)" as one looks along a line: what of an offset lies square to it; nothing under half a unit either way.
// Where the offset itself runs another way, `square` says so: the parts then do not make the whole.
std::string aside_words(const Eigen::Vector3d& off, const Eigen::Vector3d& along, const base::MapFrame& map,
                        const std::string& square = "") {
    const Eigen::Vector3d level = along.cross(Eigen::Vector3d::UnitZ());
    if (level.norm() < 1e-6) return "";  // straight down there is no left and no right
    const Eigen::Vector3d right = level.normalized(), up = right.cross(along);
    const double half_unit = base::metres_per(map.unit) / 2.0;
    std::string words;
    const auto add = [&](double metres, const char* plus, const char* minus) {
        if (std::abs(metres) < half_unit) return;
        words += (words.empty() ? " (" + square : ", ") + length_text(std::abs(metres), map, 0) + (metres > 0.0 ? plus : minus);
    };
    add(off.dot(right), " right", " left");
    add(off.dot(up), " high", " low");
    return words.empty() ? "" : words + ")";
}

// From the collar to the target, which there is.
Eigen::Vector3d straight_way(const CardFacts& facts) { return (*facts.collar->target->point - facts.path->collar).normalized(); }

std::string distance_to_target(const CardFacts& facts, const Results& results) {
    const tables::Target& target = *facts.collar->target;
    const base::MapFrame& map = results.records.frame;
    const std::optional<OffTarget> off = off_target(*facts.collar, results);
    if (!off) return "No vein of its target lies ahead: ask the geologist.";
    const std::string tolerance = target.radius ? (off->outside ? ", outside" : ", within") + std::string(" its tolerance of ") +
                                                      length_text(*target.radius, map, 0)
                                                : "";
    return "Left alone it pierces " + off->pierce->vein + " " + length_text(off->metres, map, 0) +
           " from its target along the vein" + aside_words(off->aside, straight_way(facts), map, "square to the hole ") +
           ", known to ±" + length_text(off->sd, map, 0) + tolerance + "; the target itself lies " +
           length_text(off->off_model, map, 0) + " off the modelled vein.";
}

}  // namespace

std::vector<std::size_t> by_harm(const std::vector<planning::Danger>& dangers) {
    std::vector<std::size_t> ranked = planning::by_telling(dangers);
    std::stable_sort(ranked.begin(), ranked.end(),
                     [&](std::size_t a, std::size_t b) { return harm_of(dangers[a]) < harm_of(dangers[b]); });
    return ranked;
}

SurveyInterval survey_interval(const settings::Project& project) {
    const double foot = base::metres_per(project.length_unit);
    return project.length_unit == base::LengthUnit::metre ? SurveyInterval{15.0, 30.0}
                                                          : SurveyInterval{50.0 * foot, 100.0 * foot};
}

std::string card_destination(const Results& results, const std::string& hole) {
    for (const tables::Collar& collar : results.records.collars)
        if (collar.hole == hole && gets_card(collar, paths::path_of(results.paths, hole)))
            return destination_of_sheet(card_kind, hole + " front");
    return "";
}

std::vector<CardFacts> card_facts(const Results& results) {
    std::vector<CardFacts> all;
    const planning::Surroundings surroundings =
        planning::surroundings(results.records, results.paths, results.events, results.site.workings);
    for (const tables::Collar& collar : results.records.collars) {
        const paths::Path* path = paths::path_of(results.paths, collar.hole);
        if (gets_card(collar, path)) all.push_back(facts_of(collar, *path, surroundings, results));
    }
    return all;
}

constexpr double least_aim_off = 0.5;  // degrees: a planned direction is rounded

std::string aim_off_words(const CardFacts& facts) {
    const std::optional<tables::Target>& target = facts.collar->target;
    if (facts.collar->parent) return "Kicked off from " + *facts.collar->parent + ": direction as the geologist says.";
    if (!target || !target->point) return "No target is given: whether it includes aim-off is not known.";
    const base::Direction straight = base::direction_of(*target->point - facts.collar->position);
    const double turn = base::turn_between(straight.azimuth, facts.start.azimuth).degrees();
    const double steeper = facts.start.dip.degrees() - straight.dip.degrees();
    const std::string sideways = base::fixed(std::abs(turn), 1), dip = base::fixed(std::abs(steeper), 1);
    std::string words;
    if (sideways != "0.0" && !facts.steep) words = sideways + "° to the " + (turn < 0.0 ? "left" : "right");
    if (dip != "0.0") words += (words.empty() ? "" : ", ") + dip + "° " + (steeper > 0.0 ? "steeper" : "flatter");
    if (std::hypot(facts.steep ? 0.0 : turn, steeper) < least_aim_off)
        words = "Straight at the target, no aim-off";
    else
        words = "Aim-off is included (" + words + ")";
    return words + (facts.is_active() ? ", as it was planned." : ": set it as it stands.");
}

std::string start_words(const CardFacts& facts, const Results& results) {
    const bool told = facts.collar->target && facts.collar->target->point && !facts.collar->parent;  // with the aim-off
    if (!facts.is_active() || (told && set_up_warning(facts, results).empty())) return "";
    if (facts.collar->azimuth && facts.collar->dip) return "Azimuth and dip as planned";
    return facts.path->stations.front().measured ? "Azimuth and dip as surveyed at the start"
                                                 : "Azimuth and dip from surveys further down";
}

std::string set_up_warning(const CardFacts& facts, const Results& results) {
    if (!facts.is_active())
        return facts.near.under.empty() ? "" : "DO NOT SET UP before it is moved: too near another hole, see below.";
    const std::optional<OffTarget> off = off_target(*facts.collar, results);
    if (!off || !off->outside) return "";
    return "OFF TARGET, " + length_text(off->metres, results.records.frame, 0) +
           " along the vein if left alone: ask about steering.";
}

std::vector<std::string> progress_words(const CardFacts& facts, const Results& results) {
    if (!facts.is_active()) return {};
    const base::MapFrame& map = results.records.frame;
    const paths::Path& path = *facts.path;
    std::vector<std::string> words{"Drilled " + length_text(path.drilled_depth, map, 1) + "."};
    const auto last = std::find_if(path.stations.rbegin(), path.stations.rend(), [](const auto& one) { return one.measured; });
    if (last == path.stations.rend())
        words.front() += " No survey yet: its place is the plan's.";
    else
        words.front() += " Last survey at " + length_text(last->depth, map, 1) + ": azimuth " +
                         azimuth_figure(last->direction.azimuth) + " grid, dip " + base::fixed(last->direction.dip.degrees(), 1) +
                         "° down.";
    const std::optional<tables::Target>& target = facts.collar->target;
    if (!target || !target->point) {
        words.emplace_back("No target is given: how far off it is cannot be told.");
        return words;
    }
    const Eigen::Vector3d along = straight_way(facts);
    const Eigen::Vector3d here = paths::position_at(path, path.drilled_depth) - path.collar,
                          aside = here - here.dot(along) * along;
    words.push_back("It now is " + length_text(aside.norm(), map, 1) + " off the straight line from collar to target" +
                    aside_words(aside, along, map) + ". " + distance_to_target(facts, results));
    words.emplace_back(
        "Wedge: how far one would turn it the data do not tell. Whether one is set, where and which way: ask the geologist.");
    return words;
}

}  // namespace selvage::sheets
