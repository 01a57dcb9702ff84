#include "drawing/label_choice.h"

#include "base/random.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace selvage::drawing {

namespace {

using Choice = std::vector<std::optional<std::size_t>>;

// A group of at most so many owners is tried exactly, within so many steps of the search.
constexpr std::size_t exact_owners = 14;
constexpr std::size_t exact_steps = 20000;

// Annealing: steps for each owner, and for a whole group; from a temperature at which a low label is given up for a better place
// to one at which hardly anything worse is taken.
constexpr std::size_t steps_per_owner = 300;
constexpr std::size_t most_steps = 30000;
constexpr double first_temperature = 8.0, last_temperature = 0.1;

std::vector<std::vector<std::size_t>> options_by_owner(const ChoiceProblem& problem) {
    std::vector<std::vector<std::size_t>> of(problem.cost_of_none.size());
    for (std::size_t i = 0; i < problem.options.size(); ++i) of[problem.options[i].owner].push_back(i);
    for (auto& options : of)
        std::stable_sort(options.begin(), options.end(),
                         [&](std::size_t a, std::size_t b) { return problem.options[a].cost < problem.options[b].cost; });
    return of;
}

// The search shared by both ways: which options are open to the owners of one group.
struct Group {
    const ChoiceProblem& problem;
    const std::vector<std::vector<std::size_t>>& options_of;
    std::vector<std::size_t> owners;  // dearest to leave out first
};

double cost_in(const ChoiceProblem& problem, std::size_t owner, const std::optional<std::size_t>& option) {
    return option ? problem.options[*option].cost : problem.cost_of_none[owner];
}

bool is_free(const ChoiceProblem& problem, std::size_t option, const Choice& choice) {
    const auto& conflicts = problem.options[option].conflicts;
    return std::none_of(conflicts.begin(), conflicts.end(),
                        [&](std::size_t other) { return choice[problem.options[other].owner] == other; });
}

// Each owner in turn takes its best option that is still free.
void choose_greedily(const Group& group, Choice& choice) {
    for (const std::size_t owner : group.owners) {
        if (choice[owner]) continue;
        for (const std::size_t option : group.options_of[owner])
            if (group.problem.options[option].cost < group.problem.cost_of_none[owner] &&
                is_free(group.problem, option, choice)) {
                choice[owner] = option;
                break;
            }
    }
}

class BranchAndBound {
public:
    BranchAndBound(const Group& group, Choice& best)
        : group_(group), best_(best), now_(best.size()), blocked_(group.problem.options.size(), 0) {
        for (const std::size_t owner : group.owners) best_cost_ += cost_in(group.problem, owner, best[owner]);
    }

    // Whether the whole tree was searched.
    bool search() {
        visit(0, 0.0);
        return steps_ < exact_steps;
    }

private:
    // The least that the owners from the n-th on can cost.
    double bound(std::size_t n) const {
        double sum = 0.0;
        for (; n < group_.owners.size(); ++n) {
            const std::size_t owner = group_.owners[n];
            double least = group_.problem.cost_of_none[owner];
            for (const std::size_t option : group_.options_of[owner])
                if (blocked_[option] == 0) {
                    least = std::min(least, group_.problem.options[option].cost);
                    break;
                }
            sum += least;
        }
        return sum;
    }

    void visit(std::size_t n, double cost) {
        constexpr double rounding = 1e-9;  // sums in another order are no gain
        if (++steps_ >= exact_steps || cost + bound(n) >= best_cost_ - rounding) return;
        if (n == group_.owners.size()) {
            best_cost_ = cost;
            for (const std::size_t owner : group_.owners) best_[owner] = now_[owner];
            return;
        }
        const std::size_t owner = group_.owners[n];
        for (const std::size_t option : group_.options_of[owner]) {
            if (blocked_[option] > 0) continue;
            const auto& conflicts = group_.problem.options[option].conflicts;
            for (const std::size_t other : conflicts) ++blocked_[other];
            now_[owner] = option;
            visit(n + 1, cost + group_.problem.options[option].cost);
            for (const std::size_t other : conflicts) --blocked_[other];
        }
        now_[owner].reset();
        visit(n + 1, cost + group_.problem.cost_of_none[owner]);
    }

    const Group& group_;
    Choice& best_;
    Choice now_;
    std::vector<int> blocked_;
    double best_cost_ = 0.0;
    std::size_t steps_ = 0;
};

// Simulated annealing (Kirkpatrick et al. 1983). A step gives an owner another option, or none; whoever conflicts with that loses
// its own.
void anneal(const Group& group, Choice& choice) {
    const ChoiceProblem& problem = group.problem;
    base::RandomStream random("places of labels", {group.owners.size(), group.owners.front()});
    Choice now = choice;
    double gain = 0.0, best_gain = 0.0;
    const std::size_t steps = std::min(most_steps, steps_per_owner * group.owners.size());
    const double cooling = std::pow(last_temperature / first_temperature, 1.0 / static_cast<double>(steps));
    double temperature = first_temperature;
    std::vector<std::size_t> losers;
    for (std::size_t step = 0; step < steps; ++step, temperature *= cooling) {
        const std::size_t owner = group.owners[random.below(group.owners.size())];
        const auto& options = group.options_of[owner];
        const std::size_t pick = random.below(options.size() + 1);
        const std::optional<std::size_t> wanted = pick < options.size() ? std::optional(options[pick]) : std::nullopt;
        if (wanted == now[owner]) continue;
        double change = cost_in(problem, owner, wanted) - cost_in(problem, owner, now[owner]);
        losers.clear();
        if (wanted)
            for (const std::size_t other : problem.options[*wanted].conflicts) {
                const std::size_t other_owner = problem.options[other].owner;
                if (now[other_owner] != other) continue;
                losers.push_back(other_owner);
                change += problem.cost_of_none[other_owner] - problem.options[other].cost;
            }
        if (change > 0.0 && random.uniform() >= std::exp(-change / temperature)) continue;
        now[owner] = wanted;
        for (const std::size_t loser : losers) now[loser].reset();
        gain -= change;
        if (gain > best_gain) {
            best_gain = gain;
            choice = now;
        }
    }
    choose_greedily(group, choice);
}

// Owners whose best option is in nobody's way take it, and their other options fall away; which may free others in turn.
void settle_the_free(const ChoiceProblem& problem, std::vector<std::vector<std::size_t>>& options_of, Choice& choice) {
    std::vector<bool> open(problem.options.size(), true);
    for (bool changed = true; changed;) {
        changed = false;
        for (std::size_t owner = 0; owner < options_of.size(); ++owner) {
            if (choice[owner] || options_of[owner].empty()) continue;
            const std::size_t best = options_of[owner].front();
            const auto& conflicts = problem.options[best].conflicts;
            if (problem.options[best].cost >= problem.cost_of_none[owner]) continue;
            if (std::any_of(conflicts.begin(), conflicts.end(), [&](std::size_t other) { return open[other]; })) continue;
            for (const std::size_t option : options_of[owner]) open[option] = option == best;
            options_of[owner] = {best};
            choice[owner] = best;
            changed = true;
        }
    }
}

// Owners still without a choice that belong together because their options conflict, directly or through others; in the order of
// their first member.
std::vector<std::vector<std::size_t>> groups_of(const ChoiceProblem& problem, const Choice& settled) {
    std::vector<std::size_t> leader(problem.cost_of_none.size());
    std::iota(leader.begin(), leader.end(), std::size_t{0});
    const auto find = [&](std::size_t owner) {
        while (leader[owner] != owner) owner = leader[owner] = leader[leader[owner]];
        return owner;
    };
    for (const auto& option : problem.options)
        for (const std::size_t other : option.conflicts) {
            const std::size_t other_owner = problem.options[other].owner;
            if (settled[option.owner] || settled[other_owner]) continue;
            const std::size_t a = find(option.owner), b = find(other_owner);
            leader[std::max(a, b)] = std::min(a, b);
        }
    std::vector<std::vector<std::size_t>> by_leader(leader.size()), groups;
    for (std::size_t owner = 0; owner < leader.size(); ++owner)
        if (!settled[owner]) by_leader[find(owner)].push_back(owner);
    for (auto& group : by_leader)
        if (!group.empty()) groups.push_back(std::move(group));
    return groups;
}

}  // namespace

double cost_of(const ChoiceProblem& problem, const Choice& choice) {
    double sum = 0.0;
    for (std::size_t owner = 0; owner < choice.size(); ++owner) sum += cost_in(problem, owner, choice[owner]);
    return sum;
}

Choice best_choice(const ChoiceProblem& problem) {
    auto options_of = options_by_owner(problem);
    Choice choice(problem.cost_of_none.size());
    settle_the_free(problem, options_of, choice);
    for (std::vector<std::size_t>& owners : groups_of(problem, choice)) {
        std::stable_sort(owners.begin(), owners.end(),
                         [&](std::size_t a, std::size_t b) { return problem.cost_of_none[a] > problem.cost_of_none[b]; });
        const Group group{problem, options_of, std::move(owners)};
        choose_greedily(group, choice);
        if (group.owners.size() == 1) continue;
        if (group.owners.size() > exact_owners || !BranchAndBound(group, choice).search()) anneal(group, choice);
    }
    return choice;
}

}  // namespace selvage::drawing
