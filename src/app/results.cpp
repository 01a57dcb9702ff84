#include "app/results.h"

#include "base/file.h"
#include "checks/check_records.h"
#include "faults/fault.h"
#include "forecast/pierce.h"
#include "intercepts/intercept.h"
#include "orientation/core_runs.h"
#include "orientation/orient.h"
#include "paths/locate.h"
#include "site/site.h"
#include "tables/read.h"
#include "veins/vein.h"

#include <algorithm>
#include <numeric>
#include <string>
#include <utility>

namespace selvage::app {

namespace {

using Findings = std::vector<base::Finding>;

// Takes the value of a stage and adds its findings to the run's.
template <typename T>
T taken(base::Checked<T> stage, Findings& findings) {
    base::append(findings, std::move(stage.findings));
    return std::move(stage.value);
}

std::vector<std::string> vein_names(const settings::Project& project) {
    std::vector<std::string> names;
    for (const settings::VeinSetting& vein : project.veins) names.push_back(vein.name);
    return names;
}

intercepts::InterceptSettings intercept_settings(const settings::Project& project, const faults::Events& events) {
    intercepts::InterceptSettings settings;
    settings.core_angles = project.core_angles;
    settings.composites = project.composites;
    settings.veins = vein_names(project);
    settings.events = events;
    return settings;
}

veins::VeinSettings vein_settings(const settings::Project& project, const tables::Records& records,
                                  const faults::Events& events) {
    veins::VeinSettings settings;
    settings.veins = project.veins;
    settings.events = events;
    settings.plan = project.plan;
    settings.modelled_analytes.resize(records.analytes.size());  // each has an accumulation column
    std::iota(settings.modelled_analytes.begin(), settings.modelled_analytes.end(), std::size_t{0});
    settings.alpha_as_data = project.core_angles.alpha_as_data;
    settings.tool_tilt = project.survey_errors.tool_tilt;
    return settings;
}

planning::StepOutSettings step_out_settings(const Results& r) {
    planning::StepOutSettings settings;
    settings.plan = r.project.plan;
    settings.rig = r.project.rig;
    settings.survey_errors = r.project.survey_errors.usual;
    settings.collar_sd = r.project.survey_errors.collar;
    settings.analyte = tables::leading_analyte(r.records.analytes, r.project.cut_off.analyte);
    return settings;
}

// The fingerprint and hashes of the run cover what the site's files say too.
void name_inputs_of_site(Results& r) {
    r.records.hashes.insert(r.site.hashes.begin(), r.site.hashes.end());
    if (!r.site.fingerprint.empty()) r.records.fingerprint = base::sha256_hex(r.records.fingerprint + r.site.fingerprint);
}

}  // namespace

Results read_and_place(settings::Project project, Findings findings) {
    Results r;
    r.project = std::move(project);
    r.findings = std::move(findings);
    tables::Records read = taken(tables::read_records(r.project), r.findings);
    if (std::any_of(r.findings.begin(), r.findings.end(), tables::stops_run)) return r;
    std::vector<std::string> names = vein_names(r.project);
    for (const settings::FaultSetting& fault : r.project.faults) names.push_back(fault.name);
    r.records = taken(checks::usable_records(std::move(read), names), r.findings);
    r.site = taken(site::read_site(r.project, r.records), r.findings);
    name_inputs_of_site(r);
    r.paths = taken(paths::locate(r.records, {r.project.survey_errors, r.project.survey_preference}), r.findings);
    if (r.paths.empty()) return r;
    base::append(r.findings, site::audit_site(r.site, r.records, r.paths, r.project));
    r.orientations = taken(orientation::orient(r.records, r.paths), r.findings);
    base::append(r.findings, orientation::audit_core_runs(r.orientations, r.paths));
    r.structure_sets = orientation::structure_sets(r.orientations, r.paths);
    r.events =
        taken(faults::model_faults(r.project.faults, r.project.order, vein_names(r.project), r.records, r.paths, r.orientations),
              r.findings);
    r.intercepts = taken(intercepts::make_intercepts(r.records, r.paths, r.orientations, intercept_settings(r.project, r.events)),
                         r.findings);
    return r;
}

Results model_and_forecast(Results r) {
    r.veins = taken(veins::model_veins(r.intercepts, r.paths, r.records, r.site, vein_settings(r.project, r.records, r.events)),
                    r.findings);
    r.solids = taken(veins::vein_solids(r.veins, r.events, r.site), r.findings);
    r.intercepts.met = veins::completed_by_models(std::move(r.intercepts.met), r.veins, r.records.analytes);
    r.alpha_tests = veins::alpha_tests(r.orientations, r.intercepts, r.paths, r.veins, r.project.core_angles);
    r.forecast = taken(forecast::forecast_pierces(r.paths, r.veins, r.intercepts, r.project.plan), r.findings);
    r.veins_of = forecast::veins_of(r.records, r.intercepts, r.paths, r.veins);
    base::append(r.findings, forecast::doubtful_names(r.intercepts, r.paths, r.veins));
    const double step = r.project.length_unit == base::LengthUnit::metre ? 1.0 : 5.0 * base::metres_per(r.project.length_unit);
    r.not_seen = forecast::not_seen_yet(r.forecast.pierces, r.paths, step);
    r.step_outs =
        planning::step_outs(r.veins, r.intercepts, r.forecast.pierces, r.paths, r.records, r.site, step_out_settings(r));
    return r;
}

}  // namespace selvage::app
