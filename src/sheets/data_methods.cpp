#include "sheets/methods_words.h"

#include "base/text.h"
#include "sheets/cautions.h"
#include "sheets/finding_groups.h"
#include "sheets/label_text.h"
#include "sheets/openings_words.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <string>
#include <utility>

namespace selvage::sheets {

namespace {

std::string degrees_text(base::Angle angle, int decimals = 2) { return base::fixed(angle.degrees(), decimals) + "°"; }

std::string north_words(const settings::North& north) {
    const std::string convergence = "grid convergence " + degrees_text(north.grid_convergence);
    const auto signed_text = [](base::Angle angle) {
        return std::string(angle.degrees() < 0.0 ? "- " : "+ ") + degrees_text(base::Angle::degrees(std::abs(angle.degrees())));
    };
    switch (north.surveys) {
        case settings::NorthReference::magnetic:
            if (!north.declination)
                return "Surveys were read from magnetic north: grid azimuth = magnetic reading + the row's declination - " +
                       convergence + ".";
            return "Surveys were read from magnetic north: grid azimuth = magnetic reading " +
                   signed_text(base::Angle::degrees(north.declination->degrees() - north.grid_convergence.degrees())) +
                   " (declination " + degrees_text(*north.declination) + " less " + convergence + ").";
        case settings::NorthReference::true_north:
            return "Surveys were read from true north: grid azimuth = true reading " +
                   signed_text(base::Angle::degrees(-north.grid_convergence.degrees())) + " (less " + convergence + ").";
        default: return "Surveys are taken as grid azimuths.";
    }
}

TextSection input_section(const Results& results, const RunFacts& run) {
    const tables::Records& records = results.records;
    TextSection section{"What went in", {}};
    section.paragraphs.push_back(
        "Run " + run.run_name + ". " + count_words(records.collars.size(), "collar") + ", " +
        std::to_string(results.paths.size()) + " placed; " + count_words(records.surveys.size(), "survey row") + ", " +
        count_words(records.picks.size(), "pick") + ", " + count_words(records.assays.size(), "sample") + ", " +
        count_words(records.structures.size(), "core measurement") + ", " + count_words(records.outcrops.size(), "outcrop") +
        ". Rows that cannot be right are left out and named on the sheet of checks; the tables themselves are never changed.");
    section.paragraphs.push_back("Azimuths and bearings on sheets and in tables are from grid north. " +
                                 north_words(results.project.north));
    return section;
}

std::string error_sizes_words(const settings::SurveyErrorSizes& sizes) {
    return "azimuth " + degrees_text(sizes.azimuth_common) + " common to all, " + degrees_text(sizes.azimuth_hole) + " a hole, " +
           degrees_text(sizes.azimuth_station) + " a station; dip " + degrees_text(sizes.dip_hole) + " a hole, " +
           degrees_text(sizes.dip_station) + " a station; depth " + base::significant(100.0 * sizes.depth_scale, 2) + " %";
}

TextSection path_section(const Results& results) {
    std::set<std::string> methods;
    for (const tables::Survey& survey : results.records.surveys) methods.insert(survey.method);
    std::size_t stations = 0, drilled = 0, unsurveyed = 0;
    for (const paths::Path& path : results.paths) {
        stations += static_cast<std::size_t>(
            std::count_if(path.stations.begin(), path.stations.end(), [](const auto& station) { return station.measured; }));
        if (!tables::is_drilled(path.status) || !tables::is_drill_hole(path.type)) continue;
        ++drilled;
        unsurveyed += path.surveyed_depth > path.start_depth ? 0 : 1;
    }
    TextSection section{"Where the holes run", {}};
    section.paragraphs.push_back(
        "Minimum curvature between " + count_words(stations, "survey station") +
        ", the exact arc and never a chord. One whole survey run of a hole is used over its depths, not one station of this and "
        "one "
        "of that. Past its last station a hole runs on as the project's own holes deviate (figures on the sheet of checks). " +
        (unsurveyed == 0 ? "Every drilled hole is surveyed."
                         : std::to_string(unsurveyed) + " of " + std::to_string(drilled) +
                               " drilled holes are not surveyed: they run by their planned start, with that error."));
    std::string sizes = "Survey errors, one standard deviation: ";
    std::size_t told = 0;
    for (const std::string& method : methods)
        sizes += (told++ == 0 ? "" : ". ") + (method.empty() ? std::string("surveys without a method") : method) + ": " +
                 error_sizes_words(results.project.survey_errors.of(method));
    if (methods.empty()) sizes += error_sizes_words(results.project.survey_errors.usual);
    section.paragraphs.push_back(sizes + ". Collars " + length_text(results.project.survey_errors.collar, results.records.frame) +
                                 " each way where their row says nothing. Each error is followed as a source of its own, so that "
                                 "what two holes share makes "
                                 "them err together.");
    return section;
}

TextSection core_section(const Results& results) {
    std::size_t oriented = 0, alpha = 0;
    for (const orientation::Orientation& one : results.orientations) {
        oriented += one.pole ? 1 : 0;
        alpha += !one.pole && one.alpha ? 1 : 0;
    }
    TextSection section{"Core angles", {}};
    if (oriented + alpha == 0) {
        section.paragraphs.push_back("No core angle is given: the veins' attitude rests on where they were met alone.");
        return section;
    }
    const settings::CoreAngles& rules = results.project.core_angles;
    section.paragraphs.push_back(count_words(oriented, "measurement") + " give a plane in space, " + std::to_string(alpha) +
                                 " the angle to the core axis alone. Beta is read clockwise down the hole from the " +
                                 (rules.beta_from_top ? "top" : "bottom") + " line to the " +
                                 (rules.beta_to_uphole_apex ? "up-hole" : "down-hole") +
                                 " end of the ellipse; near the vertical it says little and is weighed so. A vein's wall is a "
                                 "measurement of kind contact. "
                                 "Angles without a beta " +
                                 (rules.alpha_as_data ? "take part in the model." : "only test the model: they do not make it."));
    return section;
}

TextSection intercept_section(const Results& results) {
    std::map<intercepts::SampledState, std::size_t> sampled;
    for (const intercepts::Intercept& hit : results.intercepts.met) ++sampled[hit.sampled];
    TextSection section{"Intercepts and grades", {}};
    section.paragraphs.push_back(count_words(results.intercepts.met.size(), "intercept") +
                                 ": the envelope of a hole's picks of one vein, by the geologist. " +
                                 std::to_string(sampled[intercepts::SampledState::assayed]) + " assayed, " +
                                 std::to_string(sampled[intercepts::SampledState::part_assayed]) + " in part, " +
                                 std::to_string(sampled[intercepts::SampledState::pending]) + " awaiting assays, " +
                                 std::to_string(sampled[intercepts::SampledState::not_sampled]) +
                                 " not sampled. Picks that are only possible are drawn, not modelled.");
    if (results.records.analytes.empty()) {
        section.paragraphs.push_back("Nothing is assayed for: no grade stands in this pack.");
        return section;
    }
    const settings::CompositeRules& rules = results.project.composites;
    section.paragraphs.push_back(
        std::string("A grade is the mean over the whole pick, weighted by length") +
        (rules.weight_by_density ? " and density" : "") +
        ", samples cut at its edges. Where under 80 % of a pick is assayed, what nobody sampled " +
        (rules.unsampled_is_zero ? "counts as zero" : "is left out") +
        ". Below detection counts as a share of the limit, one half unless the project file says otherwise; over the "
        "laboratory's "
        "limit as that limit, printed with >. Nothing is cut, and no tonnes, ounces or value are worked out.");
    return section;
}

TextSection fault_section(const Results& results) {
    TextSection section{"Faults and their order", {}};
    if (results.project.faults.empty()) {
        section.paragraphs.push_back(
            "No fault is given: the veins are modelled as whole. A fault that nobody entered makes ranges near it too narrow.");
        return section;
    }
    std::string words;
    for (const faults::Fault& fault : results.events.faults)
        words += (words.empty() ? "" : "; ") + fault.name +
                 (fault.slip_given ? " (slip as given)" : " (slip not given: cuts, does not move)");
    section.paragraphs.push_back((words.empty() ? std::string("No fault could be placed") : words) +
                                 ". What is older than a fault is modelled as it lay before it, and moved again by its slip.");
    return section;
}

}  // namespace

std::vector<TextSection> data_methods(const Results& results, const RunFacts& run) {
    return {input_section(results, run), path_section(results), core_section(results), intercept_section(results),
            fault_section(results)};
}

TextSection assumptions(const Results& results) {
    const settings::Project& project = results.project;
    TextSection section{"Assumed, because nobody gave it", {}};
    const auto add = [&section](std::string words) { section.paragraphs.push_back("– " + std::move(words)); };
    if (!results.site.ground.has_given()) add("Ground: a plane through collars and outcrops.");
    if (results.site.property == nullptr) add("Property: no limit is known; nothing ends at one.");
    if (results.site.workings.empty()) add(workings_known_words(results));
    if (project.crs.empty()) add("Coordinates and datum: as they stand in the tables; the coordinate system is not stated.");
    add("Elevations: all on one datum, that of the collar table.");
    if (project.north.surveys != settings::NorthReference::grid && !project.north.convergence_given)
        add("Grid convergence: taken as 0, which nobody has said.");
    std::size_t without = 0;
    for (const tables::Collar& collar : results.records.collars) without += collar.collar_sd ? 0 : 1;
    if (without > 0)
        add("Collar error of " + count_words(without, "hole") + ": " +
            length_text(project.survey_errors.collar, results.records.frame) + ".");
    for (const faults::Fault& fault : results.events.faults)
        if (!fault.slip_given) add("Slip of " + fault.name + ": none.");
    for (const veins::Vein& vein : results.veins)
        if (vein.summary().prior_only)
            add(vein.name() +
                ": fewer than three intercepts. Its errors come from what narrow steep veins usually do, not from its own "
                "holes.");
    for (const std::string& key : project.not_honoured_yet) add("The key " + key + " was read and has no effect so far.");
    return section;
}

TextSection cautions_in_full(const Results& results, const RunFacts& run, const drawing::ContentLook& content) {
    TextSection section{"Cautions", {}};
    section.paragraphs = {head_caution(content, results.project.disclosure, run.run_name), interpretation_caution(results.events),
                          holes_ahead_caution(results)};
    if (section.paragraphs.back().empty()) section.paragraphs.back() = planned_hole_caution({});
    for (std::string& caution : safety_cautions("This pack", results)) section.paragraphs.push_back(std::move(caution));
    section.paragraphs.push_back(public_report_caution(results.project.disclosure));
    section.paragraphs.push_back(judgement_caution());
    section.paragraphs.push_back(thickness_caution());
    if (std::string input = input_caution(run.errors, run.warnings); !input.empty())
        section.paragraphs.push_back(std::move(input));
    return section;
}

}  // namespace selvage::sheets
