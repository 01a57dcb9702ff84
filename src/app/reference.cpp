#include "app/reference.h"

#include "app/catalogue.h"
#include "base/text.h"
#include "drawing/style_roles.h"
#include "intercepts/intercept.h"
#include "output/write.h"
#include "settings/read.h"
#include "tables/columns.h"

#include <fmt/format.h>

#include <algorithm>

namespace selvage::app {

namespace {

std::string chapter(const std::string& title, const std::string& words) {
    return fmt::format("{}\n{}\n{}\n", title, std::string(title.size(), '='), words);
}

// "    name  kind, default x" and the meaning under it.
std::string entry(const std::string& name, const std::string& kind, const std::string& meaning) {
    return fmt::format("  {}  ({})\n      {}\n", name, kind, meaning);
}

std::string project_keys() {
    std::string text =
        chapter("Project file", "TOML. Lengths and points are in the project's length unit unless they say otherwise.");
    std::string section = "-";
    for (const settings::Key& key : settings::project_keys()) {
        if (key.section != section) {
            section = key.section;
            text += section.empty() ? "\nat the top\n" : fmt::format("\n[{}]\n", section);
        }
        const bool required = key.default_value == "required";
        const std::string holds = required                    ? "required"
                                  : key.default_value.empty() ? "default empty"
                                                              : "default " + key.default_value;
        text += entry(key.name, key.kind + "; " + holds, key.meaning);
    }
    return text;
}

std::string colour_text(const drawing::Colour& colour) {
    return fmt::format("colour [{}, {}, {}]", colour.red, colour.green, colour.blue);
}

const char* face_word(drawing::FontFace face) {
    switch (face) {
        case drawing::FontFace::semibold: return "semibold";
        case drawing::FontFace::bold: return "bold";
        case drawing::FontFace::italic: return "italic";
        default: return "regular";
    }
}

std::string look_text(const drawing::StyleRole& role, const drawing::Style& style) {
    const auto mm = [](double value) { return base::significant(value, 4) + " mm"; };
    switch (role.kind) {
        case drawing::RoleKind::text: {
            const drawing::TextLook& look = style.text(role.name);
            return fmt::format("text; default {} pt, {}, {}", base::significant(look.size_pt, 4), face_word(look.face),
                               colour_text(look.colour));
        }
        case drawing::RoleKind::line: {
            const drawing::LineLook& look = style.line(role.name);
            return fmt::format("line; default {}, {}, {}", mm(look.width_mm), colour_text(look.colour),
                               look.dash_mm.empty() ? "solid" : "broken");
        }
        case drawing::RoleKind::colour: return "colour; default " + colour_text(style.colour(role.name));
        default: return "size; default " + mm(style.size_mm(role.name));
    }
}

std::string style_roles() {
    const base::Checked<drawing::Style> style = settings::read_style("default");
    std::string text = chapter(
        "Style file",
        "TOML. Type in points, all else in millimetres on paper. A style that starts from no other must have every role.");
    for (const drawing::StyleKey& key : drawing::style_keys())
        text += entry(*key.section == 0 ? key.name : fmt::format("[{}] {}", key.section, key.name),
                      fmt::format("{}; default {}", key.kind, key.default_value), key.meaning);
    text += entry("kinds of sheet", "for [content] sheets", fmt::format("{}", fmt::join(drawing::sheet_kinds(), ", ")));
    const bool readable = style.findings.empty();
    for (const drawing::StyleRole& role : drawing::style_roles())
        text += entry(role.name, readable ? look_text(role, style.value) : "the style that comes with the program cannot be read",
                      role.meaning);
    return text;
}

std::string input_tables() {
    std::string text = chapter("Input tables", "Column names are matched trimmed and without regard to case.");
    for (const tables::TableDescription& table : tables::table_descriptions()) {
        text += fmt::format("\n{}  ({}{})\n    {}\n", table.name, table.required ? "required" : "optional",
                            table.has_effect ? "" : "; read, without effect yet", table.meaning);
        for (const tables::Column& column : table.columns)
            text += entry(
                column.name,
                column.kind + (column.required ? "; required" : "") + (column.has_effect ? "" : "; read, without effect yet"),
                column.meaning);
        if (table.analytes)
            text += entry("<element>_<unit>", "number, any number of columns",
                          "grade of an element: unit gpt, ppm, ppb, pct, oz_per_short_ton or oz_per_tonne (troy ounces); "
                          "<element>_<word>_<unit> for one of several columns of an element");
    }
    return text;
}

const char* words_of(output::Quantity quantity) {
    using Q = output::Quantity;
    switch (quantity) {
        case Q::text: return "text";
        case Q::count: return "whole number";
        case Q::flag: return "1 yes, 0 no";
        case Q::coordinate: return "map coordinate, 3 decimals";
        case Q::length: return "length, 3 decimals";
        case Q::length_sd: return "length, 1 sigma, 3 decimals";
        case Q::angle: return "degrees, 2 decimals";
        case Q::azimuth: return "azimuth in degrees, 2 decimals";
        case Q::presence: return "chance from 0 to 1, 4 decimals";
        case Q::share: return "share from 0 to 1, 4 decimals";
        case Q::percent: return "percent, 2 decimals";
        case Q::grade: return "grade in the unit of its name, 6 significant digits";
        case Q::accumulation: return "grade times length, 6 significant digits";
        case Q::covariance: return "squared length, 8 decimals";
        case Q::area: return "squared length, 3 decimals";
        default: return "rise over run, 4 decimals";
    }
}

std::string output_tables() {
    std::string text =
        chapter("Tables of the pack", "Comma, line feed, point; lengths in the project's length unit; unknown is empty.");
    for (const output::TableDescription& table : output::table_descriptions()) {
        text += fmt::format("\n{}.csv\n    {}\n", table.name, table.meaning);
        for (const output::Column& column : table.columns) text += entry(column.name, words_of(column.quantity), column.meaning);
    }
    text += "\nflags of intercepts.csv\n";
    for (const intercepts::Flag& flag : intercepts::flags()) text += fmt::format("  {}\n      {}\n", flag.word, flag.meaning);
    return text;
}

std::string all_checks() {
    std::string text = chapter("Checks", "What is found wrong or doubtful in the inputs: on stderr and in checks.csv.");
    for (const base::Check* check : catalogue())
        text += fmt::format("  {}  ({})\n      {}\n      {}\n", check->id, base::word_of(check->severity), check->meaning,
                            check->what_to_do);
    return text;
}

}  // namespace

std::string reference_text() {
    return "Selvage " SELVAGE_VERSION "\n\n" + project_keys() + "\n" + style_roles() + "\n" + input_tables() + "\n" +
           output_tables() + "\n" + all_checks();
}

}  // namespace selvage::app
