#pragma once

#include "base/finding.h"
#include "drawing/style.h"
#include "settings/project.h"

#include <filesystem>
#include <string>
#include <vector>

namespace selvage::settings {

// A key of the project file or of a style file: described once, for the reader, the defaults and the reference page.
struct Key {
    std::string section;  // "project", "survey_errors", "[vein]" for an array of tables, "" at the top
    std::string name;
    std::string kind;  // "text", "length", "angle", "azimuth", "number", "yes or no", "list of text", "point", "date" ...
    std::string default_value;  // as the reference prints it
    std::string meaning;
};
const std::vector<Key>& project_keys();

// The project file. Findings of severity error mean that it cannot be used (exit status 2): each names its line, an unknown key
// names the nearest known one. Throws base::MachineError where the file cannot be read.
base::Checked<Project> read_project(const std::filesystem::path& file);

// A style by name (found in the installed or source styles/ folder) or by file, over the style that it starts from. Missing roles
// are errors, unknown ones too.
base::Checked<drawing::Style> read_style(const std::string& name_or_file);

// What is said where a style's font is not installed and another is taken.
base::Finding missing_font(const std::string& style, const std::string& family, const std::string& taken);

const std::vector<const base::Check*>& checks();

}  // namespace selvage::settings
