#include "sheets/vein_ahead.h"

#include "sheets/flag_words.h"
#include "sheets/label_text.h"

#include <algorithm>
#include <functional>

namespace selvage::sheets {

namespace {

// Chances of the pieces that add up to more than this are of a vein that the hole may cross twice.
constexpr double only_one = 1.1;

double there_chance(const forecast::Pierce& piece) { return piece.presence * piece.crossing.chance; }

// That one of the pieces alone can come true.
bool are_alternatives(const VeinAhead& ahead) {
    double sum = 0.0;
    for (const forecast::Pierce* piece : ahead.pieces) sum += piece->crossing.chance;
    return sum <= only_one;
}

// Of any of the pieces, from the chance of each.
double chance_of_any(const VeinAhead& ahead, const std::function<double(const forecast::Pierce&)>& chance) {
    double sum = 0.0, none = 1.0;
    for (const forecast::Pierce* piece : ahead.pieces) {
        sum += chance(*piece);
        none *= 1.0 - chance(*piece);
    }
    return are_alternatives(ahead) ? std::min(1.0, sum) : 1.0 - none;
}

// The fault of a block that one fault bounds: all but the sign at its end.
std::string fault_of(const std::string& block) { return block.substr(0, block.empty() ? 0 : block.size() - 1); }

// "foot wall of Cross Fault", and "its hanging wall" after another block of the same fault. Empty: the vein has one block.
std::string side_words(const forecast::Pierce& piece, const forecast::Pierce* before) {
    if (piece.crossing.block.empty()) return "";
    const std::string words = block_words(piece.crossing.block), of = " of " + fault_of(piece.crossing.block);
    const bool same = before != nullptr && fault_of(before->crossing.block) == fault_of(piece.crossing.block) &&
                      words.size() > of.size() && words.compare(words.size() - of.size(), of.size(), of) == 0;
    return same ? "its " + words.substr(0, words.size() - of.size()) : "the " + words;
}

std::vector<const forecast::Pierce*> within_reach(const VeinAhead& ahead) {
    std::vector<const forecast::Pierce*> reached;
    for (const forecast::Pierce* piece : ahead.pieces)
        if (is_within_reach(*piece)) reached.push_back(piece);
    std::sort(reached.begin(), reached.end(),
              [](const forecast::Pierce* a, const forecast::Pierce* b) { return a->depth < b->depth; });
    return reached;
}

// Its chance, or that the hole ends before this piece and not before others; with it that it lies outside the model.
std::string figure_of(const forecast::Pierce& piece, const VeinAhead& ahead) {
    constexpr double seldom = 0.1;  // of the holes that cross the piece
    const bool is_past_end =
        is_within_reach(ahead) && !is_within_reach(piece) && piece.chance_reached < seldom * piece.crossing.chance;
    return is_past_end ? "past the hole's end" : chance_text(chance_among(piece, ahead));
}
std::string chance_words(const forecast::Pierce& piece, const VeinAhead& ahead) {
    return figure_of(piece, ahead) + (is_beyond_extent(piece) ? ", " + flag_words("beyond-extent") : "");
}

// The pieces' words one after another: "a, or b".
std::string choice_words(const VeinAhead& ahead, const std::string& comma,
                         const std::function<std::string(const forecast::Pierce&, const forecast::Pierce*)>& words) {
    std::string all;
    const forecast::Pierce* before = nullptr;
    for (const forecast::Pierce* piece : ahead.pieces) {
        if (before != nullptr) all += comma + (are_alternatives(ahead) ? "or " : "and ");
        all += words(*piece, before);
        before = piece;
    }
    return all;
}

std::vector<std::string> parts_of(const std::string& words) {
    std::vector<std::string> parts;
    std::size_t from = 0;
    for (std::size_t at = words.find("; "); at != std::string::npos; at = words.find("; ", from)) {
        parts.push_back(words.substr(from, at - from));
        from = at + 2;
    }
    parts.push_back(words.substr(from));
    return parts;
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

bool is_within_reach(const VeinAhead& ahead) { return !within_reach(ahead).empty(); }

double chance_to_meet(const forecast::Pierce& piece) { return piece.presence * piece.chance_reached; }

double chance_to_meet(const VeinAhead& ahead) {
    return chance_of_any(ahead, [](const forecast::Pierce& piece) { return chance_to_meet(piece); });
}

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

std::string ahead_words(const VeinAhead& ahead, const base::MapFrame& frame) {
    if (ahead.pieces.size() == 1) return pierce_words(ahead.likeliest(), frame);
    const bool reached = is_within_reach(ahead);
    const std::string words = choice_words(ahead, " ", [&](const forecast::Pierce& piece, const forecast::Pierce* before) {
        const std::string side = side_words(piece, before);
        const char* of_what = before != nullptr ? "" : reached ? "chance to meet it " : "chance that it is there ";
        return (side.empty() ? "" : "in " + side + " ") + "at " + length_text(piece.depth, frame, 0) + " (" + of_what +
               chance_words(piece, ahead) + ")";
    });
    return reached ? words : words + "; the hole ends before it";
}

std::vector<std::string> ahead_lines(const VeinAhead& ahead, const base::MapFrame& frame) {
    if (ahead.pieces.size() == 1) return parts_of(pierce_words(ahead.likeliest(), frame));
    const bool reached = is_within_reach(ahead);
    std::vector<std::string> lines{"likely at " + choice_words(ahead, ", ", [&](const forecast::Pierce& piece, const auto*) {
                                       return length_text(piece.depth, frame, 0) + " (" + chance_words(piece, ahead) + ")";
                                   })};
    lines.push_back("between " +
                    choice_words(ahead, ", ",
                                 [&](const forecast::Pierce& piece, const auto*) {
                                     return length_figure(piece.depth_p10, frame, 0) + " and " +
                                            length_figure(piece.depth_p90, frame, 0);
                                 }) +
                    ", in 8 holes of 10");
    const std::string& block = ahead.likeliest().crossing.block;
    const bool one_block = std::all_of(ahead.pieces.begin(), ahead.pieces.end(),
                                       [&](const forecast::Pierce* piece) { return piece->crossing.block == block; });
    if (!block.empty())
        lines.push_back("in " + (one_block ? side_words(ahead.likeliest(), nullptr) : choice_words(ahead, ", ", side_words)));
    const std::string of_all = are_alternatives(ahead) ? " in one of them " : " at all ";
    if (reached)
        lines.push_back("chance to meet it" + of_all + chance_text(chance_to_meet(ahead)));
    else
        lines.push_back("chance that it is there" + of_all + chance_text(chance_of_any(ahead, there_chance)) +
                        ", the hole ends before it");
    return lines;
}

std::string ahead_sentence(const VeinAhead& ahead, const base::MapFrame& frame) {
    std::string words;
    for (const std::string& line : ahead_lines(ahead, frame)) words += (words.empty() ? "" : "; ") + line;
    return words;
}

std::vector<std::string> piece_lines(const forecast::Pierce& piece, const VeinAhead& ahead, const base::MapFrame& frame) {
    if (ahead.pieces.size() == 1) return parts_of(pierce_words(piece, frame));
    const bool reached = is_within_reach(ahead);
    std::string words = (&piece == ahead.pieces.front() ? "likely " : "") + place_words(piece, frame) +
                        (reached ? "; chance to meet it here " : "; chance that it is here ") + chance_words(piece, ahead);
    for (const forecast::Pierce* other : ahead.pieces)
        if (other != &piece) words += ", at " + length_text(other->depth, frame, 0) + " " + figure_of(*other, ahead);
    return parts_of(reached ? words : words + "; the hole ends before it");
}

std::string extent_words(const VeinAhead& ahead) {
    return is_beyond_extent(ahead.likeliest()) ? ", " + flag_words("beyond-extent") : "";
}

}  // namespace selvage::sheets
