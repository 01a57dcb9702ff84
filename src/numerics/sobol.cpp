#include "numerics/sobol.h"

#include <boost/random/sobol.hpp>

#include <algorithm>
#include <array>
#include <cassert>
#include <cstdint>

namespace selvage::numerics {

namespace {

// Digital shift of each dimension: the first fractional digits of pi in base 16.
constexpr std::array<std::uint64_t, most_sobol_dimensions> shifts{
    0x243f6a8885a308d3ULL, 0x13198a2e03707344ULL, 0xa4093822299f31d0ULL, 0x082efa98ec4e6c89ULL,
    0x452821e638d01377ULL, 0xbe5466cf34e90c6cULL, 0xc0ac29b7c97c50ddULL, 0x3f84d5b5b5470917ULL,
    0x9216d5d98979fb1bULL, 0xd1310ba698dfb5acULL, 0x2ffd72dbd01adfb7ULL, 0xb8e1afed6a267e96ULL};

constexpr double least_probability = 1e-4;  // no quantile beyond 3.7 sd

}  // namespace

Eigen::MatrixXd sobol_points(std::size_t count, int dimensions) {
    assert(dimensions >= 1 && dimensions <= most_sobol_dimensions);
    boost::random::sobol_engine<std::uint64_t, 64> sequence(static_cast<std::size_t>(dimensions));
    Eigen::MatrixXd points(static_cast<Eigen::Index>(count), dimensions);
    for (Eigen::Index i = 0; i < points.rows(); ++i)
        for (Eigen::Index j = 0; j < dimensions; ++j) {
            const std::uint64_t unshifted = i == 0 ? 0 : sequence();  // Boost's engine starts after the sequence's point 0
            const std::uint64_t digits = unshifted ^ shifts[static_cast<std::size_t>(j)];
            const double value = (static_cast<double>(digits >> 11U) + 0.5) * 0x1.0p-53;
            points(i, j) = std::clamp(value, least_probability, 1.0 - least_probability);
        }
    return points;
}

}  // namespace selvage::numerics
