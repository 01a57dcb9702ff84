#pragma once

#include <cstddef>
#include <optional>
#include <vector>

// Choosing at most one option for each of several owners, so that no two chosen ones conflict and the sum of costs is least.
namespace selvage::drawing {

struct ChoiceProblem {
    struct Option {
        std::size_t owner = 0;
        double cost = 0.0;                   // >= 0
        std::vector<std::size_t> conflicts;  // options of other owners; mutual
    };
    std::vector<Option> options;
    std::vector<double> cost_of_none;  // of each owner, where none of its options is chosen
};

// The option of each owner, or none. Groups of owners whose options conflict are solved one by one: small ones exactly by branch
// and bound, large ones greedily and then by annealing with a fixed seed. The same problem gives the same choice.
std::vector<std::optional<std::size_t>> best_choice(const ChoiceProblem& problem);

// The sum that is made least.
double cost_of(const ChoiceProblem& problem, const std::vector<std::optional<std::size_t>>& choice);

}  // namespace selvage::drawing
