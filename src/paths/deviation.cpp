#include "paths/deviation.h"

#include <algorithm>
#include <cmath>

namespace selvage::paths {

namespace {

using base::Angle;

// What is expected before any hole of the project is surveyed, and how many holes' weight that has: common practice, no source.
const double usual_rate = Angle::degrees(2.5).radians() / 100.0;
const Angle usual_start_azimuth = Angle::degrees(1.5);
const Angle usual_start_dip = Angle::degrees(0.7);
constexpr double weight_of_usual = 3.0;
// A collar's direction is not laid out better than this, however well the first readings agree: common practice, no source.
const Angle least_start_azimuth = Angle::degrees(0.5);
const Angle least_start_dip = Angle::degrees(0.3);

constexpr double least_span = 60.0;  // m of surveys that tell a rate: 0.4 degrees over less drown it
constexpr std::size_t least_readings = 3;
constexpr double deepest_start = 30.0;       // m to the first reading that still speaks of the start
constexpr double held_at = 3.0;              // times the middle size, as a standard deviation
constexpr double middle_of_normal = 0.6745;  // median of |x| of a standard normal
constexpr std::size_t least_for_middle = 5;  // fewer values have no middle to speak of

double slope(const std::vector<double>& x, const std::vector<double>& y) {
    const auto count = static_cast<double>(x.size());
    double mean_x = 0.0, mean_y = 0.0;
    for (std::size_t i = 0; i < x.size(); ++i) {
        mean_x += x[i] / count;
        mean_y += y[i] / count;
    }
    double xx = 0.0, xy = 0.0;
    for (std::size_t i = 0; i < x.size(); ++i) {
        xx += (x[i] - mean_x) * (x[i] - mean_x);
        xy += (x[i] - mean_x) * (y[i] - mean_y);
    }
    return xy / xx;
}

bool spans_enough(const std::vector<double>& depths) {
    return depths.size() >= least_readings && depths.back() - depths.front() >= least_span;
}

std::optional<double> lift_rate_of(const std::vector<Reading>& readings) {
    std::vector<double> depths, dips;
    for (const Reading& reading : readings) {
        depths.push_back(reading.depth);
        dips.push_back(reading.dip.angle().radians());
    }
    if (!spans_enough(depths)) return std::nullopt;
    return -slope(depths, dips);
}

// The turn across the hole so far: each step of azimuth times the cosine of its dip, right positive.
std::optional<double> swing_rate_of(const std::vector<Reading>& readings) {
    std::vector<double> depths, turns;
    const Reading* last = nullptr;
    for (const Reading& reading : readings) {
        if (!reading.azimuth) continue;
        double turn = 0.0;
        if (last != nullptr) {
            const Angle between = 0.5 * (last->dip.angle() + reading.dip.angle());
            turn = turns.back() + base::turn_between(*last->azimuth, *reading.azimuth).radians() * between.cos();
        }
        depths.push_back(reading.depth);
        turns.push_back(turn);
        last = &reading;
    }
    if (!spans_enough(depths)) return std::nullopt;
    return slope(depths, turns);
}

// Root mean square about zero, one value's share held, shrunk towards the usual size.
double size_of(std::vector<double> values, double usual) {
    for (double& value : values) value = std::abs(value);
    std::sort(values.begin(), values.end());
    double most = values.empty() ? 0.0 : values.back();
    if (values.size() >= least_for_middle) most = held_at * values[values.size() / 2] / middle_of_normal;
    double sum = weight_of_usual * usual * usual;
    for (const double value : values) sum += std::min(value, most) * std::min(value, most);
    return std::sqrt(sum / (weight_of_usual + static_cast<double>(values.size())));
}

template <typename Value>
std::vector<double> values_of(const std::vector<DeviationSample>& samples, const Value& value) {
    std::vector<double> all;
    for (const DeviationSample& sample : samples)
        if (const std::optional<double> one = value(sample)) all.push_back(*one);
    return all;
}

std::optional<double> radians(const std::optional<Angle>& angle) {
    if (!angle) return std::nullopt;
    return angle->radians();
}

}  // namespace

DeviationSample deviation_sample(const tables::Collar& collar, const std::vector<Reading>& readings) {
    DeviationSample sample;
    if (!tables::is_drill_hole(collar.type) || collar.parent || readings.empty()) return sample;
    sample.lift_rate = lift_rate_of(readings);
    sample.swing_rate = swing_rate_of(readings);
    const Reading& first = readings.front();
    if (first.depth > deepest_start) return sample;
    if (collar.azimuth && first.azimuth) sample.start_azimuth = base::turn_between(*collar.azimuth, *first.azimuth);
    if (collar.dip) sample.start_dip = first.dip.angle() - collar.dip->angle();
    return sample;
}

Deviation deviation_of(const std::vector<DeviationSample>& samples) {
    const auto lifts = values_of(samples, [](const DeviationSample& sample) { return sample.lift_rate; });
    const auto swings = values_of(samples, [](const DeviationSample& sample) { return sample.swing_rate; });
    const auto azimuths = values_of(samples, [](const DeviationSample& sample) { return radians(sample.start_azimuth); });
    const auto dips = values_of(samples, [](const DeviationSample& sample) { return radians(sample.start_dip); });
    Deviation deviation;
    deviation.lift_rate = size_of(lifts, usual_rate);
    deviation.swing_rate = size_of(swings, usual_rate);
    deviation.start_azimuth = std::max(least_start_azimuth, Angle::radians(size_of(azimuths, usual_start_azimuth.radians())));
    deviation.start_dip = std::max(least_start_dip, Angle::radians(size_of(dips, usual_start_dip.radians())));
    deviation.holes = lifts.size();
    deviation.starts = dips.size();
    return deviation;
}

}  // namespace selvage::paths
