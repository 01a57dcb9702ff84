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

}  // namespace selvage::drawing
