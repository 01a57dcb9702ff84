#include "sheets/vein_ahead.h"

#include "sheets/label_text.h"

#include <algorithm>
#include <functional>
#include <limits>

namespace selvage::sheets {

namespace {

// Chances of the pieces that add up to more than this are of a vein that the hole may cross twice.
constexpr double only_one = 1.1;

// Of any of the pieces, from the chance of each.
double chance_of_any(const VeinAhead& ahead, const std::function<double(const forecast::Pierce&)>& chance) {
    double sum = 0.0, none = 1.0;
    for (const forecast::Pierce* piece : ahead.pieces) {
        sum += chance(*piece);
        none *= 1.0 - chance(*piece);
    }
    return are_alternatives(ahead) ? std::min(1.0, sum) : 1.0 - none;
}

std::vector<const forecast::Pierce*> within_reach(const VeinAhead& ahead) {
    std::vector<const forecast::Pierce*> reached;
    for (const forecast::Pierce* piece : ahead.pieces)
        if (is_within_reach(*piece)) reached.push_back(piece);
    std::sort(reached.begin(), reached.end(),
              [](const forecast::Pierce* a, const forecast::Pierce* b) { return a->depth < b->depth; });
    return reached;
}

bool is_piece(const forecast::Pierce& piece, const VeinAhead& ahead) {
    return piece.hole == ahead.hole && piece.vein_number == ahead.likeliest().vein_number;
}

}  // namespace

std::vector<VeinAhead> veins_ahead(const std::vector<forecast::Pierce>& pierces) {
    std::vector<VeinAhead> all;
    for (const forecast::Pierce& pierce : pierces) {
        const auto same = std::find_if(all.begin(), all.end(), [&](const VeinAhead& one) { return is_piece(pierce, one); });
        if (same == all.end())
            all.push_back({pierce.hole, pierce.vein, {&pierce}});
        else
            same->pieces.push_back(&pierce);
    }
    for (VeinAhead& one : all)
        std::stable_sort(one.pieces.begin(), one.pieces.end(), [](const forecast::Pierce* a, const forecast::Pierce* b) {
            return there_chance(*a) > there_chance(*b);
        });
    return all;
}

std::vector<VeinAhead> veins_ahead(const std::vector<const forecast::Pierce*>& shown,
                                   const std::vector<forecast::Pierce>& pierces) {
    const std::vector<VeinAhead> all = veins_ahead(pierces);
    std::vector<VeinAhead> kept;
    for (const forecast::Pierce* piece : shown) {
        const auto holds = [piece](const VeinAhead& one) { return is_piece(*piece, one); };
        if (std::any_of(kept.begin(), kept.end(), holds)) continue;
        if (const auto found = std::find_if(all.begin(), all.end(), holds); found != all.end()) kept.push_back(*found);
    }
    return kept;
}

VeinAhead vein_ahead_of(const forecast::Pierce& piece, const std::vector<forecast::Pierce>& pierces) {
    return veins_ahead({&piece}, pierces).front();
}

double there_chance(const forecast::Pierce& piece) { return piece.presence * piece.crossing.chance; }

bool are_alternatives(const VeinAhead& ahead) {
    double sum = 0.0;
    for (const forecast::Pierce* piece : ahead.pieces) sum += piece->crossing.chance;
    return sum <= only_one;
}

bool is_within_reach(const VeinAhead& ahead) { return !within_reach(ahead).empty(); }

double chance_to_meet(const forecast::Pierce& piece) { return piece.presence * piece.chance_reached; }

double chance_to_meet(const VeinAhead& ahead) {
    return chance_of_any(ahead, [](const forecast::Pierce& piece) { return chance_to_meet(piece); });
}

double chance_to_be_there(const VeinAhead& ahead) { return chance_of_any(ahead, there_chance); }

double chance_among(const forecast::Pierce& piece, const VeinAhead& ahead) {
    return is_within_reach(ahead) ? chance_to_meet(piece) : there_chance(piece);
}

double gain_down_to(const VeinAhead& ahead, double depth) {
    const double then = chance_of_any(ahead, [&](const forecast::Pierce& piece) {
        return piece.presence * std::max(piece.chance_reached, piece.crossing.cumulative_at(depth));
    });
    return then - chance_to_meet(ahead);
}

CallAndStop call_and_stop(const VeinAhead& ahead, const Results& results) {
    const std::vector<const forecast::Pierce*> reached = within_reach(ahead);
    if (reached.empty()) return call_and_stop(ahead.likeliest(), results);
    CallAndStop rule = call_and_stop(*reached.front(), results);
    for (std::size_t i = 1; i < reached.size(); ++i) {
        CallAndStop last = call_and_stop(*reached[i], results);
        rule.call = std::min(rule.call, last.call);
        rule.stop = std::max(rule.stop, last.stop);
        rule.goes_on_to = std::move(last.goes_on_to);
        rule.past_end = last.past_end;
        // A fault ahead of one piece and short of the stop of another is on the way to both.
        for (faults::FaultAhead& fault : last.faults)
            if (std::none_of(rule.faults.begin(), rule.faults.end(), [&](const faults::FaultAhead& told) {
                    return told.name == fault.name && told.depth == fault.depth;
                }))
                rule.faults.push_back(std::move(fault));
    }
    return rule;
}

std::string call_and_stop_words(const VeinAhead& ahead, const Results& results) {
    return call_and_stop_words(call_and_stop(ahead, results), results.records.frame);
}

std::vector<faults::FaultAhead> faults_on_the_way(const VeinAhead& ahead, const Results& results) {
    const CallAndStop rule = call_and_stop(ahead, results);
    return faults_down_to(ahead.hole, rule.reached ? rule.stop : std::numeric_limits<double>::infinity(), results);
}

std::vector<faults::FaultAhead> further_faults(const VeinAhead& ahead, const Results& results) {
    // The deepest stop of the veins before this one: faults above it stand in their words.
    double told_to = 0.0;
    for (const VeinAhead& other : veins_ahead(results.pierces))
        if (other.hole == ahead.hole && other.vein != ahead.vein && is_within_reach(other) &&
            other.likeliest().depth < ahead.likeliest().depth)
            told_to = std::max(told_to, call_and_stop(other, results).stop);
    std::vector<faults::FaultAhead> faults = faults_on_the_way(ahead, results);
    faults.erase(std::remove_if(faults.begin(), faults.end(), [&](const auto& fault) { return fault.depth_p10 < told_to; }),
                 faults.end());
    return faults;
}

}  // namespace selvage::sheets
