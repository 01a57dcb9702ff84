#pragma once

#include <algorithm>
#include <cassert>
#include <cstddef>
#include <vector>

namespace selvage::numerics {

// The middle one of some values; of an even number the mean of the two in the middle. `values` must not be empty.
inline double median(std::vector<double> values) {
    assert(!values.empty());
    const auto upper = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), upper, values.end());
    if (values.size() % 2 == 1) return *upper;
    return 0.5 * (*std::max_element(values.begin(), upper) + *upper);
}

}  // namespace selvage::numerics
