#pragma once

#include "veins/surface.h"

#include <Eigen/Core>

#include <memory>
#include <vector>

// What knowing the height of the mid-surface at one place teaches of the others: the posterior covariance between places, node
// by node, and how it shrinks hole after hole. (Krause, Singh & Guestrin 2008 for the greedy choice.)
namespace selvage::veins {

class SurfaceTeaching {
public:
    // places: of the surface as it lies today; of their effects those count alone that the places share with data or each other.
    // The sixteen heaviest nodes, their weights made to add to 1. weights: of each place's variance in the sum that a hole makes
    // fall; error_variances: of a height measured there, m2.
    SurfaceTeaching(const SurfaceModel& model, const std::vector<PathPoint>& places, std::vector<double> weights,
                    std::vector<double> error_variances);

    // Weighted sum of the variances, weights x m2.
    double variance_sum() const;
    // By how much a hole at each place would make it fall.
    std::vector<double> gains() const;
    // As though a hole were there.
    void drill(std::size_t place);

private:
    struct Node {
        double weight = 0.0;
        Eigen::MatrixXd covariance;
    };
    std::vector<Node> nodes_;
    Eigen::VectorXd weights_, error_variances_;
};

}  // namespace selvage::veins
