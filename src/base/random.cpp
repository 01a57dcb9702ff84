#include "base/random.h"

#include <boost/math/special_functions/erf.hpp>

#include <cmath>

namespace selvage::base {

namespace {

// Mixing step splitmix64 (Steele, Lea & Flood 2014), from memory.
std::uint64_t mixed(std::uint64_t& state) {
    state += 0x9e3779b97f4a7c15ULL;
    std::uint64_t z = state;
    z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9ULL;
    z = (z ^ (z >> 27U)) * 0x94d049bb133111ebULL;
    return z ^ (z >> 31U);
}

std::uint64_t rotated(std::uint64_t x, unsigned by) { return (x << by) | (x >> (64U - by)); }

}  // namespace

RandomStream::RandomStream(std::string_view purpose, std::initializer_list<std::uint64_t> items) {
    std::uint64_t key = 0x5e1fa9e0ULL;
    for (const char c : purpose) {
        key ^= static_cast<unsigned char>(c);
        key = mixed(key);
    }
    for (const std::uint64_t item : items) {
        key ^= item;
        key = mixed(key);
    }
    for (std::uint64_t& word : state_) word = mixed(key);
}

// Generator xoshiro256** (Blackman & Vigna 2018), from memory.
std::uint64_t RandomStream::next() {
    const std::uint64_t result = rotated(state_[1] * 5U, 7U) * 9U;
    const std::uint64_t t = state_[1] << 17U;
    state_[2] ^= state_[0];
    state_[3] ^= state_[1];
    state_[1] ^= state_[2];
    state_[0] ^= state_[3];
    state_[2] ^= t;
    state_[3] = rotated(state_[3], 45U);
    return result;
}

double RandomStream::uniform() { return (static_cast<double>(next() >> 11U) + 0.5) * 0x1.0p-53; }

double RandomStream::uniform(double low, double high) { return low + (high - low) * uniform(); }

double RandomStream::normal() { return -std::sqrt(2.0) * boost::math::erfc_inv(2.0 * uniform()); }

double RandomStream::log_uniform(double low, double high) { return std::exp(uniform(std::log(low), std::log(high))); }

std::size_t RandomStream::below(std::size_t count) { return static_cast<std::size_t>(uniform() * static_cast<double>(count)); }

}  // namespace selvage::base
