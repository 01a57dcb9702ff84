#include "drawing/style.h"

#include <algorithm>
#include <cassert>

namespace selvage::drawing {

namespace {

// The value of a role; a default one where assertions are off and the role is missing.
template <typename Value>
const Value& found(const std::map<std::string, Value>& values, const std::string& role) {
    static const Value none{};
    const auto at = values.find(role);
    assert(at != values.end() && "a role that the style does not have");
    return at == values.end() ? none : at->second;
}

}  // namespace

const TextLook& Style::text(const std::string& role) const { return found(texts, role); }
const LineLook& Style::line(const std::string& role) const { return found(lines, role); }
Colour Style::colour(const std::string& role) const { return found(colours, role); }
double Style::size_mm(const std::string& role) const { return found(sizes_mm, role); }

bool Style::draws(const std::string& sheet_kind) const {
    return content.sheets.empty() || std::find(content.sheets.begin(), content.sheets.end(), sheet_kind) != content.sheets.end();
}

}  // namespace selvage::drawing
