#include "sheets/card_sign_key.h"

#include "sheets/label_text.h"
#include "sheets/symbols.h"

#include <functional>
#include <string>
#include <vector>

namespace selvage::sheets {

namespace {

constexpr double row = 4.4, sign_width = 5.2, after_sign = 1.2, between = 3.0;  // mm

struct KeyEntry {
    std::string words;
    std::function<Marks(const Point&)> draw;  // about the middle of the sign's place
};

KeyEntry line_entry(const std::string& words, const std::string& role, const Tools& tools) {
    return {words, [role, &tools](const Point& at) {
                return Marks{line_of({{at.x - sign_width / 2.0, at.y}, {at.x + sign_width / 2.0, at.y}}, tools.style.line(role))};
            }};
}

std::vector<KeyEntry> entries_of(const CardFacts& facts, const Tools& tools) {
    const CollarState state = collar_state(facts.path->status);
    std::vector<KeyEntry> entries{{facts.is_active() ? "collar, drilling" : "collar",
                                   [state, &tools](const Point& at) { return collar_symbol(state, at, tools); }}};
    bool pierces = false;
    for (const forecast::Pierce* pierce : facts.pierces) pierces = pierces || is_within_reach(*pierce);
    const bool active = facts.is_active();
    if (pierces)
        entries.push_back({"vein due", [active, &tools](const Point& at) { return planned_pierce_symbol(at, tools, active); }});
    if (facts.collar->target && facts.collar->target->point)
        entries.push_back({"target", [&tools](const Point& at) { return target_cross(at, tools); }});
    if (active) entries.push_back(line_entry("drilled", "trace", tools));
    entries.push_back(line_entry("still to drill", "trace_planned", tools));
    entries.push_back(
        line_entry(facts.to > facts.path->end_depth ? "past or other plan" : "other plan", "planned_beyond", tools));
    entries.push_back(line_entry("other hole", "trace_off_slab", tools));
    if (!facts.near.under.empty()) entries.push_back(line_entry("too near", "trace", tools));
    return entries;
}

// Lays the entries out, and gives how many rows they take.
std::size_t lay_out(const CardPage& page, const std::vector<KeyEntry>& entries,
                    const std::function<void(const KeyEntry&, double, std::size_t)>& set) {
    std::size_t rows = 1;
    double x = page.left();
    for (const KeyEntry& entry : entries) {
        const double width = sign_width + after_sign + page.width_of(entry.words, "card_caption");
        if (x > page.left() && x + width > page.right()) {
            x = page.left();
            ++rows;
        }
        set(entry, x, rows - 1);
        x += width + between;
    }
    return rows;
}

}  // namespace

double sign_key_height(const CardPage& page, const CardFacts& facts, const Tools& tools) {
    return row * static_cast<double>(lay_out(page, entries_of(facts, tools), [](const KeyEntry&, double, std::size_t) {}));
}

double write_sign_key(CardPage& page, double down, const CardFacts& facts, const Tools& tools) {
    const std::vector<KeyEntry> entries = entries_of(facts, tools);
    const std::size_t rows = lay_out(page, entries, [&](const KeyEntry& entry, double x, std::size_t in_row) {
        const double base = down + row * static_cast<double>(in_row);
        page.draw(entry.draw({x + sign_width / 2.0, page.top() - base + 1.1}));
        page.write(x + sign_width + after_sign, base, entry.words, "card_caption");
    });
    return row * static_cast<double>(rows);
}

}  // namespace selvage::sheets
