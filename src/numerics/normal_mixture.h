#pragma once

#include <cstddef>
#include <vector>

// Distributions: the normal one, and mixtures of normals, which are kept to the end. Nobody stores mean and sd of a mixture.
namespace selvage::numerics {

double normal_density(double z);
double normal_cumulative(double z);
// z with normal_cumulative(z) = probability, probability in (0, 1).
double normal_quantile(double probability);
// log of normal_cumulative(z), without loss far below zero.
double log_normal_cumulative(double z);

// Sum of weights[k] N(means[k], sds[k]^2); weights add to 1. Empty: nothing is known.
struct NormalMixture {
    std::vector<double> weights;
    std::vector<double> means;
    std::vector<double> sds;

    bool empty() const { return weights.empty(); }
    double cumulative(double value) const;
    double density(double value) const;
    // Value with cumulative(value) = probability, to 1e-9 of its spread: Newton's steps within a bracket that halves.
    double quantile(double probability) const;
    double mean() const;
    double variance() const;
    // Continuous ranked probability score against what came (Grimit et al. 2006), the unit of the value.
    double crps(double came) const;
};

// Weights that add to 1 from their logs, of any common offset; minus infinity weighs nothing, at least one must be finite.
std::vector<double> weights_from_logs(const std::vector<double>& log_weights);

// The mixture of value + shift, and of value * factor.
NormalMixture shifted(NormalMixture mixture, double shift);
NormalMixture scaled(NormalMixture mixture, double factor);

// The sum of two independent values, over the pairs of the `most` heaviest parts of each.
NormalMixture sum_of_independent(const NormalMixture& a, const NormalMixture& b, std::size_t most);

// E[min(exp(X), limit)] for X ~ the mixture: the limited mean of a log-normal mixture.
double limited_mean_of_exponential(const NormalMixture& log_value, double limit);

}  // namespace selvage::numerics
