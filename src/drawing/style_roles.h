#pragma once

#include <string>
#include <vector>

// The list of roles: what a style file must say, and what may be asked of a Style. It stands here once, for the style's reader,
// its reference page and its tests.
namespace selvage::drawing {

enum class RoleKind { text, line, colour, size };

struct StyleRole {
    RoleKind kind;
    const char* name;
    const char* meaning;
};

const std::vector<StyleRole>& style_roles();

// The names of one kind, in the list's order.
std::vector<std::string> role_names(RoleKind kind);

// Keys of a style file that are no roles: those at its top, of [page] and of [content].
struct StyleKey {
    const char* section;  // "" at the top
    const char* name;
    const char* kind;
    const char* default_value;
    const char* meaning;
};
const std::vector<StyleKey>& style_keys();
std::vector<std::string> style_key_names(const std::string& section);

// The kinds of sheet that a style may choose from, in the order of the pack.
const std::vector<std::string>& sheet_kinds();

}  // namespace selvage::drawing
