#pragma once

#include "numerics/normal_mixture.h"

#include <cstddef>

namespace selvage::made_up {

// How often what came lay within the central ranges that were said, and how near the whole distribution was.
struct Coverage {
    std::size_t count = 0, within50 = 0, within80 = 0, within95 = 0;
    double crps_sum = 0.0;

    void add(const numerics::NormalMixture& said, double came);
    // Of a distribution of another kind: the chance that it gave to values below what came. It adds no CRPS.
    void add_rank(double rank);
    void add(const Coverage& other);
    double percent50() const { return percent(within50); }
    double percent80() const { return percent(within80); }
    double percent95() const { return percent(within95); }
    double crps() const { return crps_sum / static_cast<double>(count); }

private:
    double percent(std::size_t within) const { return 100.0 * static_cast<double>(within) / static_cast<double>(count); }
};

}  // namespace selvage::made_up
