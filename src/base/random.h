#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <string_view>

// Random numbers that are the same on every machine. A stream is keyed by its purpose and its item; none is passed round.
namespace selvage::base {

class RandomStream {
public:
    // purpose: what the numbers are for, in words; items: which one (world, hole, node ...).
    RandomStream(std::string_view purpose, std::initializer_list<std::uint64_t> items);
    std::uint64_t next();
    double uniform();  // in (0, 1)
    double uniform(double low, double high);
    double normal();  // mean 0, sd 1, by the quantile of a uniform number
    double log_uniform(double low, double high);
    std::size_t below(std::size_t count);  // whole number in [0, count)

private:
    std::array<std::uint64_t, 4> state_{};
};

}  // namespace selvage::base
