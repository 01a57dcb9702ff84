#pragma once

#include "numerics/normal_mixture.h"

#include <Eigen/Core>

#include <cmath>
#include <vector>

// Scores of what was foretold against what came: the lower the better (Gneiting & Raftery 2007).
namespace selvage::made_up {

// Mean of minus the log density that each mixture gives its value.
inline double log_score(const std::vector<numerics::NormalMixture>& said, const Eigen::VectorXd& came) {
    double sum = 0.0;
    for (std::size_t i = 0; i < said.size(); ++i) {
        double density = 0.0;
        for (std::size_t k = 0; k < said[i].means.size(); ++k)
            density += said[i].weights[k] / said[i].sds[k] *
                       numerics::normal_density((came(static_cast<Eigen::Index>(i)) - said[i].means[k]) / said[i].sds[k]);
        sum -= std::log(density) / static_cast<double>(said.size());
    }
    return sum;
}

}  // namespace selvage::made_up
