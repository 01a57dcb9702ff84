#include "sheets/label_text.h"
#include "sheets/vein_ahead.h"

#include <algorithm>
#include <functional>

namespace selvage::sheets {

namespace {

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

// Its chance, or that the hole ends before this piece and not before others; with it that it lies outside the model.
std::string figure_of(const forecast::Pierce& piece, const VeinAhead& ahead) {
    constexpr double seldom = 0.1;  // of the holes that cross the piece
    const bool is_past_end =
        is_within_reach(ahead) && !is_within_reach(piece) && piece.chance_reached < seldom * piece.crossing.chance;
    return is_past_end ? "past the hole's end" : chance_text(chance_among(piece, ahead));
}
std::string chance_words(const forecast::Pierce& piece, const VeinAhead& ahead) {
    return figure_of(piece, ahead) + place_doubts(piece);
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

}  // namespace

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
        lines.push_back("chance that it is there" + of_all + chance_text(chance_to_be_there(ahead)) +
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

std::string extent_words(const VeinAhead& ahead) { return place_doubts(ahead.likeliest()); }

}  // namespace selvage::sheets
