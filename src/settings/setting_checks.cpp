#include "settings/setting_checks.h"

#include "settings/read.h"

#include <fmt/format.h>

namespace selvage::settings {

using base::Severity;

const base::Check file_syntax = {"file-syntax", Severity::error, "A settings file is not well-formed TOML.",
                                 "Correct the line and column that the message names."};
const base::Check unknown_key = {"unknown-key", Severity::error, "A key of a settings file is not one that is known.",
                                 "Take the key that the message suggests, or look it up in the reference."};
const base::Check wrong_value = {"wrong-value", Severity::error,
                                 "A value of a settings file has the wrong type or lies out of range.",
                                 "Write a value as the message asks."};
const base::Check missing_key = {"missing-key", Severity::error, "A settings file lacks a key that it needs.",
                                 "Add the key that the message names."};
const base::Check not_honoured_yet = {"not-honoured-yet", Severity::warning, "Something was given that has no effect yet.",
                                      "Nothing, but do not read its effect into the results."};
const base::Check no_veins = {"no-veins", Severity::warning, "The project file names no vein.",
                              "Add a [[vein]] with its name for every vein that is to be modelled."};
const base::Check font_missing = {
    "font-missing", Severity::warning, "The font that the style names is not installed.",
    "Install it as TrueType files, or name another font in the style; the pack is drawn all the same."};

base::Finding missing_font(const std::string& style, const std::string& family, const std::string& taken) {
    return {&font_missing,
            {"style", style, 0},
            "",
            fmt::format("the font \"{}\" is not installed; \"{}\" is taken in its place", family, taken)};
}

const std::vector<const base::Check*>& checks() {
    static const std::vector<const base::Check*> all = {&file_syntax,      &unknown_key, &wrong_value, &missing_key,
                                                        &not_honoured_yet, &no_veins,    &font_missing};
    return all;
}

}  // namespace selvage::settings
