#include "sheets/vein_ahead.h"

#include "sheets/flag_words.h"
#include "sheets/label_text.h"

#include <algorithm>

namespace selvage::sheets {

namespace {

// Chances of the pieces that add up to more than this are of a vein that the hole may cross twice.
constexpr double only_one = 1.1;

double met_chance(const forecast::Pierce& piece) { return piece.presence * piece.chance_reached; }
double there_chance(const forecast::Pierce& piece) { return piece.presence * piece.crossing.chance; }

bool is_outside(const forecast::Pierce& piece) {
    return std::find(piece.flags.begin(), piece.flags.end(), "beyond-extent") != piece.flags.end();
}

// The fault of a block that one fault bounds: all but the sign at its end.
std::string fault_of(const std::string& block) { return block.substr(0, block.empty() ? 0 : block.size() - 1); }

std::string place_words(const forecast::Pierce& piece, const forecast::Pierce* before) {
    if (piece.crossing.block.empty()) return "";
    const std::string words = block_words(piece.crossing.block), of = " of " + fault_of(piece.crossing.block);
    const bool same = before != nullptr && fault_of(before->crossing.block) == fault_of(piece.crossing.block) &&
                      words.size() > of.size() && words.compare(words.size() - of.size(), of.size(), of) == 0;
    return same ? "in its " + words.substr(0, words.size() - of.size()) + " " : "in the " + words + " ";
}

std::vector<const forecast::Pierce*> within_reach(const VeinAhead& ahead) {
    std::vector<const forecast::Pierce*> reached;
    for (const forecast::Pierce* piece : ahead.pieces)
        if (is_within_reach(*piece)) reached.push_back(piece);
    std::sort(reached.begin(), reached.end(),
              [](const forecast::Pierce* a, const forecast::Pierce* b) { return a->depth < b->depth; });
    return reached;
}

}  // namespace

std::vector<VeinAhead> veins_ahead(const std::vector<forecast::Pierce>& pierces) {
    std::vector<VeinAhead> all;
    for (const forecast::Pierce& pierce : pierces) {
        const auto same = std::find_if(all.begin(), all.end(), [&](const VeinAhead& one) {
            return one.hole == pierce.hole && one.likeliest().vein_number == pierce.vein_number;
        });
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

bool is_within_reach(const VeinAhead& ahead) { return !within_reach(ahead).empty(); }

double chance_to_meet(const VeinAhead& ahead) {
    double chance = 0.0;
    for (const forecast::Pierce* piece : ahead.pieces) chance += met_chance(*piece);
    return std::min(1.0, chance);
}

double gain_down_to(const VeinAhead& ahead, double depth) {
    double chance = 0.0;
    for (const forecast::Pierce* piece : ahead.pieces)
        chance += piece->presence * std::max(piece->chance_reached, piece->crossing.cumulative_at(depth));
    return std::min(1.0, chance) - chance_to_meet(ahead);
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
        rule.faults.insert(rule.faults.end(), last.faults.begin(), last.faults.end());
    }
    return rule;
}

std::string call_and_stop_words(const VeinAhead& ahead, const Results& results) {
    return call_and_stop_words(call_and_stop(ahead, results), results.records.frame);
}

std::string ahead_words(const VeinAhead& ahead, const base::MapFrame& frame) {
    if (ahead.pieces.size() == 1)
        return pierce_words(ahead.likeliest(), frame) + (is_outside(ahead.likeliest()) ? "; " + flag_words("beyond-extent") : "");
    const bool reached = is_within_reach(ahead);
    double sum = 0.0;
    for (const forecast::Pierce* piece : ahead.pieces) sum += piece->crossing.chance;
    std::string words;
    for (std::size_t i = 0; i < ahead.pieces.size(); ++i) {
        const forecast::Pierce& piece = *ahead.pieces[i];
        words += i == 0 ? "" : sum > only_one ? " and " : " or ";
        words += place_words(piece, i == 0 ? nullptr : ahead.pieces[i - 1]) + "at " + length_text(piece.depth, frame, 0) + " (" +
                 (i > 0     ? ""
                  : reached ? "chance to meet it "
                            : "chance that it is there ") +
                 chance_text(reached ? met_chance(piece) : there_chance(piece)) +
                 (is_outside(piece) ? ", " + flag_words("beyond-extent") : "") + ")";
    }
    return reached ? words : words + "; the hole ends before it";
}

std::string extent_words(const VeinAhead& ahead) {
    return is_outside(ahead.likeliest()) ? ", " + flag_words("beyond-extent") : "";
}

}  // namespace selvage::sheets
