#pragma once

#include "base/finding.h"

#include <toml++/toml.h>

#include <string>
#include <vector>

// Which files a style is made of.
namespace selvage::settings {

// One file of a style, read.
struct StyleLayer {
    std::string file;
    toml::table top;
};

// The style of that name (in the installed or source styles/ folder) or file, with all that it starts from: the first one starts
// from none, the last one is the style itself. A file that is missing, that is not well-formed or that comes back to itself is a
// finding at the line that asks for it, and there are no layers.
base::Checked<std::vector<StyleLayer>> style_layers(const std::string& name_or_file);

// "; did you mean \"bold\"?", or nothing where no known word is near.
std::string guess(const std::string& typed, const std::vector<std::string>& known);

}  // namespace selvage::settings
