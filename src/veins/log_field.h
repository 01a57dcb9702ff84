#pragma once

#include "numerics/normal_mixture.h"

#include <Eigen/Core>

#include <array>
#include <cstddef>
#include <memory>
#include <vector>

// A positive quantity over the vein (thickness, grade) as a Gaussian process of its logarithm with a nugget that is part of the
// truth.
namespace selvage::veins {

struct LogDatum {
    Eigen::Vector2d place = Eigen::Vector2d::Zero();  // (u, v), m
    double log_value = 0.0;
    double own_variance = 0.0;  // of this measurement of the log, beside the nugget
};

struct LogFieldPrior {
    double mean = 0.0, mean_sd = 1.5;  // of the log
    std::array<double, 3> range_in_spacings{0.8, 2.0, 5.0};
    std::array<double, 3> sd{0.35, 0.7, 1.4};
    std::array<double, 3> nugget_sd{0.15, 0.35, 0.7};
    std::array<double, 3> log_weight{-0.5, 0.0, -0.5};  // of each of the three, for each dimension
};

struct LogField;

// Thickness: the defaults with mean log 0.5. Needs one datum or more. Beyond `most_exact` data (lower in tests alone) the nodes
// are weighed by a likelihood of neighbours and every answer comes from the data about the datum nearest to the place.
constexpr std::size_t most_exact_logs = 1000;
std::shared_ptr<const LogField> fit_log_field(std::vector<LogDatum> data, double spacing, const LogFieldPrior& prior,
                                              std::size_t most_exact = most_exact_logs);
// Mixture of the log of the value at a place, nugget included.
numerics::NormalMixture log_value_at(const LogField& field, const Eigen::Vector2d& place);
std::vector<numerics::NormalMixture> log_values_at(const LogField& field, const std::vector<Eigen::Vector2d>& places);
// Mean of the log at a place without the nugget: what is drawn.
double smooth_log_at(const LogField& field, const Eigen::Vector2d& place);
// Leave-one-out of datum i, weights re-done.
numerics::NormalMixture leave_one_out_log(const LogField& field, std::size_t datum);

}  // namespace selvage::veins
