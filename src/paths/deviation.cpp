#include "paths/deviation.h"

#include "numerics/median.h"

#include <algorithm>
#include <cmath>

namespace selvage::paths {

namespace {

using base::Angle;

// What is expected before any hole of the project is surveyed, and how many holes' weight that has: common practice, no source.
const double usual_rate = Angle::degrees(2.5).radians() / 100.0;
const double usual_wander = Angle::degrees(0.7).radians() / 10.0;  // per square root of 100 m
const Angle usual_start_azimuth = Angle::degrees(1.5);
const Angle usual_start_dip = Angle::degrees(0.7);
constexpr double weight_of_usual = 3.0;
constexpr double weight_of_no_mean = 1.0;
// A collar's direction is not laid out better than this, however well the first readings agree: common practice, no source.
const Angle least_start_azimuth = Angle::degrees(0.5);
const Angle least_start_dip = Angle::degrees(0.3);

constexpr double least_span = 60.0;  // m of surveys that tell a rate: 0.4 degrees over less drown it
constexpr std::size_t least_readings = 3;
constexpr double deepest_start = 30.0;       // m to the first reading that still speaks of the start
constexpr double held_at = 3.0;              // times the middle size, as a standard deviation
constexpr double middle_of_normal = 0.6745;  // median of |x| of a standard normal
constexpr std::size_t least_for_middle = 5;  // fewer values have no middle to speak of

constexpr double walk_slope = 6.0 / 5.0;  // variance of the least-squares slope of a unit random walk, times its length
constexpr std::size_t least_in_half = 2;
constexpr double least_half_span = 25.0;  // m

struct Slope {
    double value = 0.0;
    double squares = 0.0;  // sum of (x - mean x)^2
    double span = 0.0;
};

// Of angles (radians) over depths: `from` up to before `to`.
Slope slope(const std::vector<double>& x, const std::vector<double>& y, std::size_t from, std::size_t to) {
    const auto count = static_cast<double>(to - from);
    double mean_x = 0.0, mean_y = 0.0, xy = 0.0;
    for (std::size_t i = from; i < to; ++i) {
        mean_x += x[i] / count;
        mean_y += y[i] / count;
    }
    Slope out;
    for (std::size_t i = from; i < to; ++i) {
        out.squares += (x[i] - mean_x) * (x[i] - mean_x);
        xy += (x[i] - mean_x) * (y[i] - mean_y);
    }
    out.value = xy / out.squares;
    out.span = x[to - 1] - x[from];
    return out;
}

void add_change(MeasuredRate& rate, const std::vector<double>& depths, const std::vector<double>& angles, double reading_sd) {
    const double middle = 0.5 * (depths.front() + depths.back());
    const auto half = static_cast<std::size_t>(std::upper_bound(depths.begin(), depths.end(), middle) - depths.begin());
    if (half < least_in_half || depths.size() - half < least_in_half) return;
    if (depths[half - 1] - depths.front() < least_half_span || depths.back() - depths[half] < least_half_span) return;
    const Slope upper = slope(depths, angles, 0, half), lower = slope(depths, angles, half, depths.size());
    rate.change = lower.value - upper.value;
    rate.change_per_wander = std::sqrt(walk_slope * (1.0 / upper.span + 1.0 / lower.span));
    rate.change_reading_variance = reading_sd * reading_sd * (1.0 / upper.squares + 1.0 / lower.squares);
}

std::optional<MeasuredRate> measured_rate(const std::vector<double>& depths, const std::vector<double>& angles,
                                          double reading_sd) {
    if (depths.size() < least_readings || depths.back() - depths.front() < least_span) return std::nullopt;
    const Slope whole = slope(depths, angles, 0, depths.size());
    MeasuredRate rate;
    rate.rate = whole.value;
    rate.span = whole.span;
    rate.reading_variance = reading_sd * reading_sd / whole.squares;
    add_change(rate, depths, angles, reading_sd);
    return rate;
}

std::optional<MeasuredRate> lift_of(const std::vector<Reading>& readings, const settings::SurveyErrorSizes& errors) {
    std::vector<double> depths, lifts;
    for (const Reading& reading : readings) {
        depths.push_back(reading.depth);
        lifts.push_back(-reading.dip.angle().radians());
    }
    return measured_rate(depths, lifts, errors.dip_station.radians());
}

// The turn across the hole so far: each step of azimuth times the cosine of its dip, right positive.
std::optional<MeasuredRate> swing_of(const std::vector<Reading>& readings, const settings::SurveyErrorSizes& errors) {
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
    if (last == nullptr) return std::nullopt;
    return measured_rate(depths, turns, errors.azimuth_station.radians() * last->dip.angle().cos());
}

// Each value's distance from the centre held at three times the middle one's as a standard deviation.
std::vector<double> held(std::vector<double> values, double centre) {
    if (values.size() < least_for_middle) return values;
    std::vector<double> distances = values;
    for (double& distance : distances) distance = std::abs(distance - centre);
    const double most = held_at * numerics::median(distances) / middle_of_normal;
    for (double& value : values) value = std::clamp(value, centre - most, centre + most);
    return values;
}

double sum_of_squares(const std::vector<double>& values, double centre) {
    double sum = 0.0;
    for (const double value : values) sum += (value - centre) * (value - centre);
    return sum;
}

// Variance from a sum of squares of so many values, shrunk towards the usual one.
double pooled(double usual, double squares, std::size_t count) {
    return (weight_of_usual * usual + std::max(0.0, squares)) / (weight_of_usual + static_cast<double>(count));
}

// Root mean square about zero.
double size_of(const std::vector<double>& values, double usual) {
    return std::sqrt(pooled(usual * usual, sum_of_squares(held(values, 0.0), 0.0), values.size()));
}

double wander_of(const std::vector<MeasuredRate>& rates) {
    std::vector<double> walks;
    double reading = 0.0;
    for (const MeasuredRate& rate : rates) {
        if (!rate.change) continue;
        walks.push_back(*rate.change / rate.change_per_wander);
        reading += rate.change_reading_variance / (rate.change_per_wander * rate.change_per_wander);
    }
    return std::sqrt(pooled(usual_wander * usual_wander, sum_of_squares(held(walks, 0.0), 0.0) - reading, walks.size()));
}

double error_variance(const MeasuredRate& rate, double wander) {
    return walk_slope * wander * wander / rate.span + rate.reading_variance;
}

RateModel model_of(const std::vector<MeasuredRate>& rates) {
    RateModel model;
    model.wander = wander_of(rates);
    const auto count = static_cast<double>(rates.size());
    const double weight = weight_of_no_mean + count;
    std::vector<double> values;
    double error = 0.0;
    for (const MeasuredRate& rate : rates) {
        values.push_back(rate.rate);
        error += error_variance(rate, model.wander) / count;
    }
    double scatter = 0.0;
    if (!rates.empty()) {
        values = held(values, numerics::median(values));
        double mean = 0.0;
        for (const double value : values) mean += value / count;
        model.mean = count / weight * mean;
        scatter = sum_of_squares(values, mean) + weight_of_no_mean * count / weight * mean * mean - (count - 1.0) * error;
    }
    // The usual size about zero is the holes' scatter and the mean's, which nothing is known of.
    const double usual = usual_rate * usual_rate / (1.0 + 1.0 / weight_of_no_mean);
    const double between = pooled(usual, scatter, rates.size());
    model.between = std::sqrt(between);
    model.mean_sd = std::sqrt((between + error) / weight);
    return model;
}

template <typename Kind, typename ValueOf>
auto values_of(const std::vector<DeviationSample>& samples, const ValueOf& value_of) {
    std::vector<Kind> all;
    for (const DeviationSample& sample : samples)
        if (const std::optional<Kind> one = value_of(sample)) all.push_back(*one);
    return all;
}

std::optional<double> radians(const std::optional<Angle>& angle) {
    if (!angle) return std::nullopt;
    return angle->radians();
}

}  // namespace

DeviationSample deviation_sample(const tables::Collar& collar, const std::vector<Reading>& readings,
                                 const settings::SurveyErrorSizes& errors) {
    DeviationSample sample;
    if (!tables::is_drill_hole(collar.type) || collar.parent || readings.empty()) return sample;
    sample.lift = lift_of(readings, errors);
    sample.swing = swing_of(readings, errors);
    const Reading& first = readings.front();
    if (first.depth > deepest_start) return sample;
    if (collar.azimuth && first.azimuth) sample.start_azimuth = base::turn_between(*collar.azimuth, *first.azimuth);
    if (collar.dip) sample.start_dip = first.dip.angle() - collar.dip->angle();
    return sample;
}

Deviation deviation_of(const std::vector<DeviationSample>& samples) {
    const auto lifts = values_of<MeasuredRate>(samples, [](const DeviationSample& sample) { return sample.lift; });
    const auto swings = values_of<MeasuredRate>(samples, [](const DeviationSample& sample) { return sample.swing; });
    const auto azimuths = values_of<double>(samples, [](const DeviationSample& sample) { return radians(sample.start_azimuth); });
    const auto dips = values_of<double>(samples, [](const DeviationSample& sample) { return radians(sample.start_dip); });
    Deviation deviation;
    deviation.lift = model_of(lifts);
    deviation.swing = model_of(swings);
    deviation.start_azimuth = std::max(least_start_azimuth, Angle::radians(size_of(azimuths, usual_start_azimuth.radians())));
    deviation.start_dip = std::max(least_start_dip, Angle::radians(size_of(dips, usual_start_dip.radians())));
    deviation.holes = lifts.size();
    deviation.starts = dips.size();
    return deviation;
}

RateAhead rate_ahead(const RateModel& model, const std::optional<MeasuredRate>& own) {
    const double between = model.between * model.between, of_mean = model.mean_sd * model.mean_sd;
    if (!own) return {model.mean, std::sqrt(between + of_mean)};
    const double error = error_variance(*own, model.wander);
    const double weight = between / (between + error);
    const double most = held_at * std::sqrt(between + error + of_mean);
    const double departure = std::clamp(own->rate - model.mean, -most, most);
    return {model.mean + weight * departure, std::sqrt(weight * error + (1.0 - weight) * (1.0 - weight) * of_mean)};
}

double size_about_zero(const RateModel& model) {
    return std::sqrt(model.mean * model.mean + model.mean_sd * model.mean_sd + model.between * model.between);
}

}  // namespace selvage::paths
