#include "sheets/card_sign_key.h"

#include "sheets/ground_line.h"
#include "sheets/symbols.h"

#include <functional>
#include <string>
#include <vector>

namespace selvage::sheets {

namespace {

constexpr double row = 4.4, sign_width = 5.2, after_sign = 1.2, between = 3.0;  // mm

struct KeyEntry {
    std::string words;
    std::function<Marks(const Point&)> draw;  // about the middle of the sign's place; none: words alone
};

KeyEntry line_entry(const std::string& words, const std::string& role, const Tools& tools) {
    return {words, [role, &tools](const Point& at) {
                return Marks{line_of({{at.x - sign_width / 2.0, at.y}, {at.x + sign_width / 2.0, at.y}}, tools.style.line(role))};
            }};
}

KeyEntry entry_of(CardSign sign, const CardFacts& facts, const Tools& tools) {
    const bool active = facts.is_active();
    const CollarState state = collar_state(facts.path->status);
    switch (sign) {
        case CardSign::collar:
            return {active ? "collar, drilling" : "collar",
                    [state, &tools](const Point& at) { return collar_symbol(state, at, tools); }};
        case CardSign::vein_due:
            return {"vein due", [active, &tools](const Point& at) { return planned_pierce_symbol(at, tools, active); }};
        case CardSign::target: return {"target", [&tools](const Point& at) { return target_cross(at, tools); }};
        case CardSign::drilled: return line_entry("drilled", "trace", tools);
        case CardSign::to_drill: return line_entry("still to drill", "trace_planned", tools);
        case CardSign::past_end: return line_entry("past its end", "planned_beyond", tools);
        case CardSign::other_plan: return line_entry("other plan", "planned_beyond", tools);
        case CardSign::other_hole: return line_entry("other hole", "trace_off_slab", tools);
        case CardSign::too_near: return line_entry("too near", "trace", tools);
        case CardSign::ground:
            return {"ground", [&tools](const Point& at) {
                        return ground_line_marks({{at.x - sign_width / 2.0, at.y}, {at.x + sign_width / 2.0, at.y}}, tools);
                    }};
        case CardSign::property: return line_entry("property", "property", tools);
        case CardSign::off_picture: break;
    }
    return {"Behind, in front: of where that hole ends here, square to the picture; not how near it comes.", nullptr};
}

// Lays the entries out, and gives how many rows they take.
std::size_t lay_out(const CardPage& page, const std::vector<KeyEntry>& entries,
                    const std::function<void(const KeyEntry&, double, std::size_t)>& set) {
    std::size_t rows = 1;
    double x = page.left();
    for (const KeyEntry& entry : entries) {
        const double width = (entry.draw ? sign_width + after_sign : 0.0) + page.width_of(entry.words, "card_caption");
        if (x > page.left() && x + width > page.right()) {
            x = page.left();
            ++rows;
        }
        set(entry, x, rows - 1);
        x += width + between;
    }
    return rows;
}

std::vector<KeyEntry> entries_of(const CardSigns& drawn, const CardFacts& facts, const Tools& tools) {
    std::vector<KeyEntry> entries;
    for (const CardSign sign : drawn) entries.push_back(entry_of(sign, facts, tools));
    return entries;
}

}  // namespace

double sign_key_height(const CardPage& page, const CardSigns& drawn, const CardFacts& facts, const Tools& tools) {
    const std::vector<KeyEntry> entries = entries_of(drawn, facts, tools);
    return row * static_cast<double>(lay_out(page, entries, [](const KeyEntry&, double, std::size_t) {}));
}

void write_sign_key(CardPage& page, double down, const CardSigns& drawn, const CardFacts& facts, const Tools& tools) {
    lay_out(page, entries_of(drawn, facts, tools), [&](const KeyEntry& entry, double x, std::size_t in_row) {
        const double base = down + row * static_cast<double>(in_row);
        if (entry.draw) page.draw(entry.draw({x + sign_width / 2.0, page.top() - base + 1.1}));
        page.write(entry.draw ? x + sign_width + after_sign : x, base, entry.words, "card_caption");
    });
}

}  // namespace selvage::sheets
