#include "support/coverage.h"

#include <cmath>

namespace selvage::made_up {

void Coverage::add(const numerics::NormalMixture& said, double came) {
    add_rank(said.cumulative(came));
    crps_sum += said.crps(came);
}

void Coverage::add_rank(double rank) {
    const double off_centre = std::abs(rank - 0.5);
    ++count;
    within50 += off_centre < 0.25 ? 1 : 0;
    within80 += off_centre < 0.40 ? 1 : 0;
    within95 += off_centre < 0.475 ? 1 : 0;
}

void Coverage::add(const Coverage& other) {
    count += other.count;
    within50 += other.within50;
    within80 += other.within80;
    within95 += other.within95;
    crps_sum += other.crps_sum;
}

}  // namespace selvage::made_up
