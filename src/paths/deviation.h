#pragma once

#include "base/angle.h"
#include "paths/survey_choice.h"
#include "settings/project.h"
#include "tables/records.h"

#include <cstddef>
#include <map>
#include <optional>
#include <vector>

// How holes go on where nobody has surveyed them, learnt from the project's own surveyed holes.
//
// Each hole has one steady lift rate (fall of dip) and one steady swing rate (turn of azimuth times cos(dip), right positive),
// drawn about the mean of its kind; along the hole its direction wanders about that as a random walk. So `run` metres past the
// last reading the place is expected to be off the straight line by rate x run^2/2, known to sd x run^2/2 from the rate and
// wander x sqrt(run^3/3) from the walk. A hole not yet begun also starts off its planned azimuth and dip.
//
// Measured rate of hole i: r_i = theta_i + e_i, theta_i ~ N(mean, between^2), e_i ~ N(0, v_i), v_i = 6/5 wander^2/span
// (least-squares slope of a random walk) + sd^2/sum (x - mean x)^2 (errors of the readings). Normal model with its conjugate
// prior (Gelman et al., Bayesian Data Analysis, 3rd ed., section 3.3), v_i taken off by moments: mean shrunk to zero, which
// counts as one hole, between to a usual figure, which counts as three (a scaled inverse chi-squared prior of five degrees of
// freedom, so that `between` is the posterior mean of the variance: the variance of the Student t that is foretold). Wander: by
// how much the rate of a hole's lower half differs from its upper half's. With no hole: no mean, the usual sizes. One hole's
// share is held at three times the middle size, so that one wrong reading does not make the rates.
namespace selvage::paths {

// Of lift or swing, of one kind of hole.
struct RateModel {
    double mean = 0.0, mean_sd = 0.0;  // radians per metre
    double between = 0.0;              // sd of the holes' steady rates, radians per metre
    double wander = 0.0;               // radians per square root of a metre
};

struct Deviation {
    RateModel lift, swing;
    base::Angle start_azimuth, start_dip;  // root mean square of the first reading less the plan
    std::size_t holes = 0, starts = 0;     // how many they were learnt from
};
using DeviationByType = std::map<tables::HoleType, Deviation>;  // every type has one

// A rate as one hole's readings have it.
struct MeasuredRate {
    double rate = 0.0;               // radians per metre
    double span = 0.0;               // m, of the readings
    double reading_variance = 0.0;   // of the rate, from the errors of the readings
    std::optional<double> change;    // rate of the lower half less the upper half's
    double change_per_wander = 0.0;  // standard deviation of `change` per unit of wander
    double change_reading_variance = 0.0;
};

// What one drilled hole tells.
struct DeviationSample {
    std::optional<MeasuredRate> lift, swing;
    std::optional<base::Angle> start_azimuth, start_dip;
};

// Of the chosen readings of a hole with its own collar. Rates: least squares over all readings, where they span 60 m or more; the
// start: the first reading, within 30 m of the collar, less the plan. Nothing of a hole that is no drill hole or has a parent.
DeviationSample deviation_sample(const tables::Collar& collar, const std::vector<Reading>& readings,
                                 const settings::SurveyErrorSizes& errors);

Deviation deviation_of(const std::vector<DeviationSample>& samples);

// The steady rate of one hole below its surveys, radians per metre.
struct RateAhead {
    double mean = 0.0, sd = 0.0;
};

// `own`: what its own surveys tell, among those that the model was learnt from. The mean is w own + (1 - w) model mean with
// w = between^2/(between^2 + v), its variance w v + (1 - w)^2 mean_sd^2 (Gelman et al., section 5.4); own is held at three sd.
RateAhead rate_ahead(const RateModel& model, const std::optional<MeasuredRate>& own);

// Root mean square about zero of the rate of a hole that nobody surveyed.
double size_about_zero(const RateModel& model);

}  // namespace selvage::paths
