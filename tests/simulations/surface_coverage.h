#pragma once

#include "support/coverage.h"

#include <array>
#include <cstddef>
#include <cstdint>

namespace selvage::veins {

using Coverages = std::array<made_up::Coverage, 3>;  // inside the holes, about one spacing out, about two

// How often the ranges of the surface model hold on `count` made-up veins of so many holes.
Coverages surface_coverages(std::uint64_t seed, std::size_t holes, std::size_t count, bool oriented);

}  // namespace selvage::veins
