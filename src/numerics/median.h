#pragma once

#include <algorithm>
#include <cassert>
#include <cstddef>
#include <vector>

namespace selvage::numerics {

// The middle one of some values; of an even number the lower of the two in the middle, so that it is always one of them.
// `values` must not be empty.
inline double lower_median(std::vector<double> values) {
    assert(!values.empty());
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>((values.size() - 1) / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

}  // namespace selvage::numerics
