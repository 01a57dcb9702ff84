#include "drawing/label_choice.h"

#include "base/random.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace selvage::drawing {
namespace {

using Choice = std::vector<std::optional<std::size_t>>;

ChoiceProblem random_problem(std::uint64_t number, std::size_t owners, std::size_t options_each, double conflict_share) {
    base::RandomStream random("choice test", {number});
    ChoiceProblem problem;
    for (std::size_t owner = 0; owner < owners; ++owner) {
        problem.cost_of_none.push_back(10.0 * (1.0 + static_cast<double>(random.below(6))));
        for (std::size_t i = 0; i < options_each; ++i) problem.options.push_back({owner, random.uniform(0.0, 5.0), {}});
    }
    for (std::size_t a = 0; a < problem.options.size(); ++a)
        for (std::size_t b = a + 1; b < problem.options.size(); ++b)
            if (problem.options[a].owner != problem.options[b].owner && random.uniform() < conflict_share) {
                problem.options[a].conflicts.push_back(b);
                problem.options[b].conflicts.push_back(a);
            }
    return problem;
}

bool has_conflict(const ChoiceProblem& problem, const Choice& choice) {
    for (const auto& chosen : choice) {
        if (!chosen) continue;
        for (const std::size_t other : problem.options[*chosen].conflicts)
            if (choice[problem.options[other].owner] == other) return true;
    }
    return false;
}

// Every combination there is.
double least_cost(const ChoiceProblem& problem, Choice& choice, std::size_t owner) {
    if (owner == choice.size()) return has_conflict(problem, choice) ? 1e9 : cost_of(problem, choice);
    choice[owner].reset();
    double least = least_cost(problem, choice, owner + 1);
    for (std::size_t i = 0; i < problem.options.size(); ++i) {
        if (problem.options[i].owner != owner) continue;
        choice[owner] = i;
        least = std::min(least, least_cost(problem, choice, owner + 1));
    }
    choice[owner].reset();
    return least;
}

TEST(LabelChoice, SmallGroupsAreSolvedExactly) {
    for (std::uint64_t number = 0; number < 60; ++number) {
        const ChoiceProblem problem = random_problem(number, 6, 3, 0.15 + 0.01 * static_cast<double>(number));
        const Choice choice = best_choice(problem);
        ASSERT_FALSE(has_conflict(problem, choice));
        Choice any(problem.cost_of_none.size());
        EXPECT_NEAR(cost_of(problem, choice), least_cost(problem, any, 0), 1e-9) << number;
    }
}

TEST(LabelChoice, AnnealingComesNearTheBestThatCanBeHad) {
    // Pairs of owners in a long chain: option 0 of each conflicts with option 0 of the next, option 1 is free but dearer. The
    // best alternates.
    ChoiceProblem problem;
    constexpr std::size_t owners = 60;
    for (std::size_t owner = 0; owner < owners; ++owner) {
        problem.cost_of_none.push_back(40.0);
        problem.options.push_back({owner, 0.0, {}});
        problem.options.push_back({owner, 3.0, {}});
    }
    for (std::size_t owner = 0; owner + 1 < owners; ++owner) {
        problem.options[2 * owner].conflicts.push_back(2 * (owner + 1));
        problem.options[2 * (owner + 1)].conflicts.push_back(2 * owner);
    }
    const Choice choice = best_choice(problem);
    EXPECT_FALSE(has_conflict(problem, choice));
    EXPECT_LE(cost_of(problem, choice), 3.0 * owners / 2.0 + 9.0);
}

TEST(LabelChoice, LargeGroupsHaveNoConflictsAndRepeat) {
    const ChoiceProblem problem = random_problem(99, 120, 8, 0.02);
    const Choice first = best_choice(problem), second = best_choice(problem);
    EXPECT_FALSE(has_conflict(problem, first));
    EXPECT_EQ(first, second);
}

TEST(LabelChoice, TheDearerOwnerKeepsTheOnlyPlace) {
    ChoiceProblem problem;
    problem.cost_of_none = {10.0, 60.0};
    problem.options = {{0, 0.0, {1}}, {1, 4.0, {0}}};
    const Choice choice = best_choice(problem);
    EXPECT_FALSE(choice[0]);
    EXPECT_EQ(choice[1], std::optional<std::size_t>(1));
}

}  // namespace
}  // namespace selvage::drawing
