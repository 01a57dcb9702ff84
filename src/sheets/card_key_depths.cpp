#include "sheets/card_key_depths.h"

#include "sheets/label_text.h"

#include <algorithm>
#include <string>
#include <vector>

namespace selvage::sheets {

namespace {

constexpr double head = 6.2;                                               // mm, base line of the heads
constexpr double one_row = 11.0, row_of_several = 8.4, row_of_many = 6.4;  // one vein stands in larger figures
constexpr double call_at = 34.0, range_at = 68.0, ask_at = 124.0;          // from the left
constexpr double under = 2.7;
constexpr std::size_t many = 3;  // more veins than that stand in the type of the words

struct KeyRow {
    std::string vein, call, range, ask;
};

// "277 to 308 m", or "289 to 297 or 309 to 317 m" where it may come in two blocks.
std::string range_text(const VeinAhead& ahead, const base::MapFrame& map) {
    std::vector<const forecast::Pierce*> pieces;
    for (const forecast::Pierce* piece : ahead.pieces)
        if (is_within_reach(*piece)) pieces.push_back(piece);
    std::sort(pieces.begin(), pieces.end(),
              [](const forecast::Pierce* a, const forecast::Pierce* b) { return a->depth < b->depth; });
    std::string text;
    for (const forecast::Pierce* piece : pieces)
        text += (text.empty() ? "" : " or ") + length_figure(piece->depth_p10, map, 0) + " to " +
                length_figure(piece->depth_p90, map, 0);
    return text + " " + base::symbol_of(map.unit);
}

std::vector<KeyRow> rows_of(const CardFacts& facts, const Results& results) {
    const base::MapFrame& map = results.records.frame;
    std::vector<KeyRow> rows;
    for (const VeinDue& due : veins_due(facts, results))
        rows.push_back(
            {due.ahead.vein, length_text(due.call, map, 0), range_text(due.ahead, map), length_text(due.stop, map, 0)});
    if (rows.empty()) rows.push_back({"no vein due", "", "", length_text(ask_depth(facts, results).depth, map, 0)});
    return rows;
}

double row_height(std::size_t rows) { return rows > many ? row_of_many : rows > 1 ? row_of_several : one_row; }

}  // namespace

double key_depths_height(const CardFacts& facts, const Results& results) {
    const std::size_t rows = std::max<std::size_t>(1, veins_due(facts, results).size());
    return head + row_height(rows) * static_cast<double>(rows) + under;
}

void key_depths(CardPage& page, const CardFacts& facts, const Results& results) {
    const std::vector<KeyRow> rows = rows_of(facts, results);
    const char* figures = rows.size() > many ? "card_name" : rows.size() > 1 ? "card_angle" : "card_key";
    const double left = page.left();
    if (!rows.front().call.empty()) {
        page.write(left, head, "Vein", "card_strong");
        page.write(left + call_at, head, "CALL AT", "card_name");
        page.write(left + range_at, head, "if there, 8 in 10 at", "card_strong");
    }
    page.write(left + ask_at, head, "NOT MET: ASK AT", "card_name", drawing::Anchor::left, page.width() - ask_at);
    double down = head;
    for (const KeyRow& row : rows) {
        down += row_height(rows.size());
        page.write(left, down, row.vein, "card_name", drawing::Anchor::left, (row.call.empty() ? ask_at : call_at) - 2.0);
        if (!row.call.empty())
            page.write(left + call_at, down, row.call, figures, drawing::Anchor::left, range_at - call_at - 2.0);
        page.write(left + range_at, down, row.range, "card_text", drawing::Anchor::left, ask_at - range_at - 2.0);
        page.write(left + ask_at, down, row.ask, figures, drawing::Anchor::left, page.width() - ask_at);
    }
    page.end_part(key_depths_height(facts, results));
}

}  // namespace selvage::sheets
