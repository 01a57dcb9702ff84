#include "numerics/normal_mixture.h"

#include <boost/math/special_functions/erf.hpp>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numeric>

namespace selvage::numerics {

namespace {

constexpr double pi = 3.14159265358979323846;
constexpr double root_two = 1.41421356237309504880;

// E|X| for X ~ N(mean, sd^2).
double mean_absolute(double mean, double sd) {
    if (sd <= 0.0) return std::abs(mean);
    const double z = mean / sd;
    return 2.0 * sd * normal_density(z) + mean * (2.0 * normal_cumulative(z) - 1.0);
}

}  // namespace

double normal_density(double z) { return std::exp(-0.5 * z * z) / std::sqrt(2.0 * pi); }

double normal_cumulative(double z) { return 0.5 * std::erfc(-z / root_two); }

double normal_quantile(double probability) {
    assert(probability > 0.0 && probability < 1.0);
    return -root_two * boost::math::erfc_inv(2.0 * probability);
}

double log_normal_cumulative(double z) {
    constexpr double tail = -30.0;  // beyond it erfc nears the smallest numbers there are
    if (z > tail) return std::log(normal_cumulative(z));
    // Mills' ratio as an asymptotic series; its first term left out is below 1e-10 here.
    const double x = 1.0 / (z * z);
    return -0.5 * z * z - std::log(-z) - 0.5 * std::log(2.0 * pi) + std::log1p(-x * (1.0 - 3.0 * x * (1.0 - 5.0 * x)));
}

double NormalMixture::cumulative(double value) const {
    double sum = 0.0;
    for (std::size_t k = 0; k < weights.size(); ++k)
        sum += weights[k] * (sds[k] > 0.0 ? normal_cumulative((value - means[k]) / sds[k]) : (value >= means[k] ? 1.0 : 0.0));
    return sum;
}

double NormalMixture::density(double value) const {
    double sum = 0.0;
    for (std::size_t k = 0; k < weights.size(); ++k)
        if (sds[k] > 0.0) sum += weights[k] * normal_density((value - means[k]) / sds[k]) / sds[k];
    return sum;
}

double NormalMixture::quantile(double probability) const {
    assert(!empty());
    // The quantile of a mixture lies between the least and the greatest of its parts' quantiles.
    const double z = normal_quantile(probability);
    double low = means[0] + z * sds[0], high = low;
    for (std::size_t k = 1; k < means.size(); ++k) {
        low = std::min(low, means[k] + z * sds[k]);
        high = std::max(high, means[k] + z * sds[k]);
    }
    const double tolerance = 1e-9 * std::sqrt(variance());
    double value = std::clamp(mean() + z * std::sqrt(variance()), low, high);
    constexpr int most_steps = 200;  // far more than halving a bracket needs
    for (int step = 0; step < most_steps && high - low > tolerance; ++step) {
        const double excess = cumulative(value) - probability;
        (excess < 0.0 ? low : high) = value;
        const double slope = density(value);
        const double newton = slope > 0.0 ? value - excess / slope : low;
        const bool inside = newton > low && newton < high;
        const double next = inside ? newton : 0.5 * (low + high);
        if (inside && std::abs(next - value) < 0.1 * tolerance) return next;
        value = next;
    }
    return value;
}

double NormalMixture::mean() const {
    double sum = 0.0;
    for (std::size_t k = 0; k < weights.size(); ++k) sum += weights[k] * means[k];
    return sum;
}

double NormalMixture::variance() const {
    const double centre = mean();
    double sum = 0.0;
    for (std::size_t k = 0; k < weights.size(); ++k)
        sum += weights[k] * (sds[k] * sds[k] + (means[k] - centre) * (means[k] - centre));
    return sum;
}

double NormalMixture::crps(double came) const {
    double to_value = 0.0, among = 0.0;
    for (std::size_t k = 0; k < weights.size(); ++k) {
        to_value += weights[k] * mean_absolute(came - means[k], sds[k]);
        for (std::size_t j = 0; j < weights.size(); ++j)
            among += weights[k] * weights[j] * mean_absolute(means[k] - means[j], std::hypot(sds[k], sds[j]));
    }
    return to_value - 0.5 * among;
}

std::vector<double> weights_from_logs(const std::vector<double>& log_weights) {
    const double largest = *std::max_element(log_weights.begin(), log_weights.end());
    std::vector<double> weights;
    double sum = 0.0;
    for (const double log_weight : log_weights) {
        weights.push_back(std::exp(log_weight - largest));
        sum += weights.back();
    }
    for (double& weight : weights) weight /= sum;
    return weights;
}

NormalMixture shifted(NormalMixture mixture, double shift) {
    for (double& mean : mixture.means) mean += shift;
    return mixture;
}

NormalMixture scaled(NormalMixture mixture, double factor) {
    for (double& mean : mixture.means) mean *= factor;
    for (double& sd : mixture.sds) sd *= std::abs(factor);
    return mixture;
}

namespace {

// The heaviest parts, their weights made to add to 1; equal ones in their order.
NormalMixture heaviest(const NormalMixture& mixture, std::size_t most) {
    std::vector<std::size_t> order(mixture.weights.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return mixture.weights[a] > mixture.weights[b]; });
    order.resize(std::min(order.size(), most));
    double sum = 0.0;
    for (const std::size_t k : order) sum += mixture.weights[k];
    NormalMixture kept;
    for (const std::size_t k : order) {
        kept.weights.push_back(mixture.weights[k] / sum);
        kept.means.push_back(mixture.means[k]);
        kept.sds.push_back(mixture.sds[k]);
    }
    return kept;
}

}  // namespace

NormalMixture sum_of_independent(const NormalMixture& a, const NormalMixture& b, std::size_t most) {
    const NormalMixture first = heaviest(a, most), second = heaviest(b, most);
    NormalMixture sum;
    for (std::size_t i = 0; i < first.weights.size(); ++i)
        for (std::size_t j = 0; j < second.weights.size(); ++j) {
            sum.weights.push_back(first.weights[i] * second.weights[j]);
            sum.means.push_back(first.means[i] + second.means[j]);
            sum.sds.push_back(std::hypot(first.sds[i], second.sds[j]));
        }
    return sum;
}

// For log X ~ N(a, b^2): E[min(X, c)] = e^(a + b^2/2) Phi((log c - a - b^2)/b) + c Phi((a - log c)/b).
double limited_mean_of_exponential(const NormalMixture& log_value, double limit) {
    if (limit <= 0.0) return 0.0;
    const double log_limit = std::log(limit);
    double sum = 0.0;
    for (std::size_t k = 0; k < log_value.weights.size(); ++k) {
        const double a = log_value.means[k], b = log_value.sds[k];
        if (b <= 0.0) {
            sum += log_value.weights[k] * std::exp(std::min(a, log_limit));
            continue;
        }
        const double below = std::exp(a + 0.5 * b * b + log_normal_cumulative((log_limit - a - b * b) / b));
        sum += log_value.weights[k] * (below + limit * normal_cumulative((a - log_limit) / b));
    }
    return sum;
}

}  // namespace selvage::numerics
