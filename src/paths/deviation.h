#pragma once

#include "base/angle.h"
#include "paths/survey_choice.h"
#include "tables/records.h"

#include <cstddef>
#include <optional>
#include <vector>

// How far holes stray where nobody has surveyed them, learnt from the project's own surveyed holes.
//
// A forecast runs straight on, so what counts is the size of the departure from straight: the root mean square about zero, its
// steady part included. A hole keeps its rates: each hole has one lift rate and one swing rate, drawn once, constant along it.
// So `run` metres past the last reading the direction is off by rate x run and the place by rate x run^2/2, upwards in the hole's
// vertical plane (lift, the fall of dip) and to its right (swing, the turn of azimuth times cos(dip)). A hole not yet begun also
// starts off its planned azimuth and dip.
//
// Every figure is shrunk towards a usual one, which counts as three holes, so that two holes give no wild rate; one hole's share
// is held at three times the middle size, so that one wrong reading does not make the rates.
namespace selvage::paths {

struct Deviation {
    double lift_rate = 0.0, swing_rate = 0.0;  // root mean square about zero, radians per metre
    base::Angle start_azimuth, start_dip;      // of the first reading against the plan
    std::size_t holes = 0, starts = 0;         // how many they were learnt from
};

// What one drilled hole tells.
struct DeviationSample {
    std::optional<double> lift_rate, swing_rate;  // radians per metre
    std::optional<base::Angle> start_azimuth, start_dip;
};

// Of the chosen readings of a hole with its own collar. Rates: least squares over all readings, where they span 60 m or more; the
// start: the first reading, within 30 m of the collar, less the plan. Nothing of a hole that is no drill hole or has a parent.
DeviationSample deviation_sample(const tables::Collar& collar, const std::vector<Reading>& readings);

Deviation deviation_of(const std::vector<DeviationSample>& samples);

}  // namespace selvage::paths
