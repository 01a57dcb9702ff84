#pragma once

#include "veins/vein.h"

#include <array>
#include <cstddef>
#include <vector>

// How chances of a vein came out at holes that are drilled.
namespace selvage::veins {

// A chance, 0 to 1, and whether the vein was there.
struct ToldChance {
    double said = 0.0;
    bool came = false;
};

// Of every intercept and every hole that counts as a miss: the chance that all the others gave it.
std::vector<ToldChance> told_chances(const Vein& vein);

struct ChanceClass {
    double low = 0.0, high = 1.0;  // low <= said < high
    std::size_t places = 0, came = 0;
    double expected = 0.0;  // sum of what was said
};

// brier  mean square of chance less what came (1 or 0), less is better (Brier 1950)
// plain  the same, had each place been given the share of hits among all the others
// gain_sd  standard error of plain - brier, by the scatter of the places' own differences. All three 0 without two places
struct ChanceScore {
    std::array<ChanceClass, 4> classes{{{0.0, 0.5}, {0.5, 0.75}, {0.75, 0.9}, {0.9, 1.0}}};
    std::size_t places = 0, came = 0;
    double expected = 0.0, brier = 0.0, plain = 0.0, gain_sd = 0.0;
};
ChanceScore score_of(const std::vector<ToldChance>& told);

}  // namespace selvage::veins
