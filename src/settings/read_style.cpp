#include "base/text.h"
#include "drawing/style_roles.h"
#include "settings/read.h"
#include "settings/setting_checks.h"
#include "settings/style_files.h"

#include <fmt/format.h>
#include <toml++/toml.h>

#include <algorithm>
#include <optional>
#include <utility>

namespace selvage::settings {

namespace {

using drawing::Colour;
using drawing::FillLook;
using drawing::FontFace;
using drawing::LineLook;
using drawing::PageLayout;
using drawing::PatternMark;
using drawing::RoleKind;
using drawing::Style;
using drawing::TextLook;

// Type may be this large, points: the PDF library refuses more. Under the least nothing can be read in print.
constexpr double least_type_pt = 5.0, largest_type_pt = 600.0;
// No width, length or pitch of a style is larger, mm: the short side of the largest paper.
constexpr double largest_size_mm = 841.0;
// Sides of a page, mm: from half of A4 to A0.
constexpr double least_side_mm = 148.0, largest_side_mm = 1189.0;
// The classes of amount, and their symbols, are five.
constexpr std::size_t class_count = 5;

const std::vector<std::pair<std::string, FontFace>>& faces() {
    static const std::vector<std::pair<std::string, FontFace>> all{
        {"regular", FontFace::regular}, {"semibold", FontFace::semibold}, {"bold", FontFace::bold}, {"italic", FontFace::italic}};
    return all;
}

const std::vector<std::pair<std::string, PatternMark>>& marks() {
    static const std::vector<std::pair<std::string, PatternMark>> all{
        {"none", PatternMark::none},       {"dots", PatternMark::dots},       {"dashes", PatternMark::dashes},
        {"v_marks", PatternMark::v_marks}, {"slashes", PatternMark::slashes}, {"pluses", PatternMark::pluses},
        {"circles", PatternMark::circles}, {"crosses", PatternMark::crosses}, {"waves", PatternMark::waves}};
    return all;
}

const std::vector<std::pair<std::string, PageLayout>>& layouts() {
    static const std::vector<std::pair<std::string, PageLayout>> all{{"drawing", PageLayout::drawing},
                                                                     {"slide", PageLayout::slide}};
    return all;
}

template <typename Value>
std::vector<std::string> words_of(const std::vector<std::pair<std::string, Value>>& known) {
    std::vector<std::string> words;
    words.reserve(known.size());
    for (const auto& entry : known) words.push_back(entry.first);
    return words;
}

// Reads the files of a style, one over another; everything that is wrong becomes a finding with its line.
class StyleReader {
public:
    // Colours of all files first: a role that takes one by its name takes the last one of that name.
    base::Checked<Style> read(const std::vector<StyleLayer>& layers) {
        for (const StyleLayer& layer : layers) {
            enter(layer, layers);
            std::vector<std::string> keys = drawing::style_key_names("");
            for (const char* section :
                 {"page", "content", "colours", "texts", "lines", "sizes", "class", "vein", "rocks", "other_rock"})
                keys.emplace_back(section);
            only(layer.top, keys, "the style");
            read_colours(layer.top);
        }
        for (const StyleLayer& layer : layers) {
            enter(layer, layers);
            read_layer(layer.top);
        }
        return {std::move(style_), std::move(findings_)};
    }

private:
    void enter(const StyleLayer& layer, const std::vector<StyleLayer>& layers) {
        source_ = layer.file;
        starts_here_ = &layer == &layers.front();
    }

    void read_layer(const toml::table& top) {
        if (const auto name = text(top, "name")) style_.name = *name;
        if (const auto font = text(top, "font")) style_.font_family = *font;
        read_page(top);
        read_content(top);
        read_roles(
            top, "texts", RoleKind::text, [&](const toml::node& n, const TextLook& now) { return text_look(n, now); },
            style_.texts);
        read_roles(
            top, "lines", RoleKind::line, [&](const toml::node& n, const LineLook& now) { return line_look(n, now); },
            style_.lines);
        read_roles(
            top, "sizes", RoleKind::size, [&](const toml::node& n, double) { return size_mm(n, "a size"); }, style_.sizes_mm);
        read_pairs(top, "class", style_.classes, style_.classes_pale);
        if (style_.classes.size() != class_count && findings_.empty())
            found(wrong_value, 0, fmt::format("{} of [[class]] stand in it, not {}", style_.classes.size(), class_count));
        read_pairs(top, "vein", style_.veins, style_.veins_pale);
        read_rocks(top);
    }

    void found(const base::Check& check, std::size_t line, std::string message) {
        findings_.push_back({&check, {"style", source_, line}, "", std::move(message)});
    }

    static std::size_t line_of(const toml::node& node) { return node.source().begin.line; }

    void wrong(const toml::node& node, const std::string& what) { found(wrong_value, line_of(node), what); }

    // Keys other than these are unknown.
    void only(const toml::table& table, const std::vector<std::string>& known, const std::string& where) {
        for (const auto& [key, value] : table) {
            const std::string name(key.str());
            if (std::find(known.begin(), known.end(), name) != known.end()) continue;
            found(unknown_key, key.source().begin.line, fmt::format("{} has no \"{}\"{}", where, name, guess(name, known)));
        }
    }

    std::optional<std::string> text(const toml::table& table, const char* key) {
        const toml::node* node = table.get(key);
        if (node == nullptr) {
            if (starts_here_) found(missing_key, table.source().begin.line, fmt::format("\"{}\" is missing", key));
            return std::nullopt;
        }
        auto value = node->value_exact<std::string>();
        if (!value || value->empty()) wrong(*node, fmt::format("\"{}\" is not a text", key));
        return value;
    }

    std::optional<double> number(const toml::node& node, double least, double most, const std::string& what) {
        const auto value = node.is_number() ? node.value<double>() : std::nullopt;
        if (value && *value >= least && *value <= most) return value;  // NaN fails both
        wrong(node,
              fmt::format("{} is not a number from {} to {}", what, base::significant(least, 6), base::significant(most, 6)));
        return std::nullopt;
    }

    std::optional<double> size_mm(const toml::node& node, const std::string& what) {
        return number(node, 0.0, largest_size_mm, what);
    }

    // [red, green, blue], or a name of [colours].
    std::optional<Colour> colour(const toml::node& node) {
        if (const auto name = node.value_exact<std::string>()) {
            const auto at = style_.colours.find(*name);
            if (at != style_.colours.end()) return at->second;
            std::vector<std::string> known;
            for (const auto& entry : style_.colours) known.push_back(entry.first);
            wrong(node, fmt::format("no colour is called \"{}\"{}", *name, guess(*name, known)));
            return std::nullopt;
        }
        return rgb(node);
    }

    std::optional<Colour> rgb(const toml::node& node) {
        const toml::array* parts = node.as_array();
        std::vector<int> values;
        if (parts != nullptr)
            for (const toml::node& part : *parts) {
                const auto value = part.value_exact<std::int64_t>();
                if (value && *value >= 0 && *value <= 255) values.push_back(static_cast<int>(*value));
            }
        if (parts == nullptr || parts->size() != 3 || values.size() != 3) {
            wrong(node, "a colour is three whole numbers from 0 to 255, as [26, 26, 26]");
            return std::nullopt;
        }
        return Colour{values[0], values[1], values[2]};
    }

    template <typename Value>
    std::optional<Value> one_of(const toml::node& node, const std::vector<std::pair<std::string, Value>>& known,
                                const std::string& what) {
        const auto word = node.value_exact<std::string>();
        for (const auto& [name, value] : known)
            if (word && name == *word) return value;
        const std::vector<std::string> words = words_of(known);
        wrong(node, fmt::format("{} is not one of {}{}", what, fmt::join(words, ", "), word ? guess(*word, words) : ""));
        return std::nullopt;
    }

    // What must stand in a table, unless another style says it.
    const toml::node* part(const toml::table& table, const char* key) {
        const toml::node* node = table.get(key);
        if (node == nullptr && starts_here_) wrong(table, fmt::format("\"{}\" is missing here", key));
        return node;
    }

    const toml::table* as_table(const toml::node& node, const std::vector<std::string>& keys, const std::string& what) {
        const toml::table* table = node.as_table();
        if (table == nullptr)
            wrong(node, fmt::format("{} is a table of {}", what, fmt::join(keys, ", ")));
        else
            only(*table, keys, what);
        return table;
    }

    std::optional<TextLook> text_look(const toml::node& node, TextLook look) {
        const toml::table* table = as_table(node, {"size", "face", "colour"}, "a text");
        if (table == nullptr) return std::nullopt;
        if (const toml::node* size = part(*table, "size"))
            look.size_pt = number(*size, least_type_pt, largest_type_pt, "the size of type").value_or(look.size_pt);
        if (const toml::node* face = part(*table, "face")) look.face = one_of(*face, faces(), "the face").value_or(look.face);
        if (const toml::node* ink = part(*table, "colour")) look.colour = colour(*ink).value_or(look.colour);
        return look;
    }

    std::optional<LineLook> line_look(const toml::node& node, LineLook look) {
        const toml::table* table = as_table(node, {"width", "colour", "dash", "round_ends"}, "a line");
        if (table == nullptr) return std::nullopt;
        if (const toml::node* width = part(*table, "width")) look.width_mm = size_mm(*width, "a width").value_or(look.width_mm);
        if (const toml::node* ink = part(*table, "colour")) look.colour = colour(*ink).value_or(look.colour);
        if (const toml::node* dash = table->get("dash")) look.dash_mm = dash_of(*dash);
        if (const toml::node* ends = table->get("round_ends")) {
            if (!ends->is_boolean()) wrong(*ends, "round_ends is true or false");
            look.round_ends = ends->value_or(false);
        }
        return look;
    }

    std::vector<double> dash_of(const toml::node& node) {
        std::vector<double> dash;
        double length = 0.0;
        if (const toml::array* parts = node.as_array())
            for (const toml::node& each : *parts) {
                dash.push_back(size_mm(each, "a part of a dash").value_or(0.0));
                length += dash.back();
            }
        if (!dash.empty() && dash.size() % 2 == 0 && length > 0.0) return dash;
        wrong(node, "a dash is an even list of lengths, on, off, on, off, not all of them 0");
        return {};
    }

    void read_colours(const toml::table& top) {
        read_roles(
            top, "colours", RoleKind::colour, [&](const toml::node& n, const Colour&) { return rgb(n); }, style_.colours);
    }

    // [page] and [content] may be left out, and any key of them.
    const toml::table* optional_table(const toml::table& top, const char* section) {
        const toml::node* node = top.get(section);
        if (node == nullptr) return nullptr;
        const toml::table* table = node->as_table();
        if (table == nullptr)
            wrong(*node, fmt::format("[{}] is a table", section));
        else
            only(*table, drawing::style_key_names(section), fmt::format("[{}]", section));
        return table;
    }

    void read_page(const toml::table& top) {
        const toml::table* page = optional_table(top, "page");
        if (page == nullptr) return;
        if (const toml::node* paper = page->get("paper")) {
            const toml::array* sides = paper->as_array();
            if (sides == nullptr || sides->size() != 2) {
                wrong(*paper, "a paper is two lengths, width and height, as [480, 270]");
            } else {
                style_.page.width_mm =
                    number(*sides->get(0), least_side_mm, largest_side_mm, "a side of the paper").value_or(0.0);
                style_.page.height_mm =
                    number(*sides->get(1), least_side_mm, largest_side_mm, "a side of the paper").value_or(0.0);
            }
        }
        if (const toml::node* times = page->get("enlarged"))
            style_.page.enlarged = number(*times, 0.25, 8.0, "enlarged").value_or(1.0);
        if (const toml::node* layout = page->get("layout"))
            style_.page.layout = one_of(*layout, layouts(), "the layout").value_or(PageLayout::drawing);
    }

    void read_content(const toml::table& top) {
        const toml::table* content = optional_table(top, "content");
        if (content == nullptr) return;
        const auto flag = [&](const char* key, bool& into) {
            const toml::node* node = content->get(key);
            if (node == nullptr) return;
            if (!node->is_boolean()) wrong(*node, fmt::format("{} is true or false", key));
            into = node->value_or(into);
        };
        flag("forecasts", style_.content.forecasts);
        flag("step_outs", style_.content.step_outs);
        flag("modelled_grades", style_.content.modelled_grades);
        flag("model_doubt", style_.content.model_doubt);
        flag("public_draft", style_.content.public_draft);
        if (const toml::node* sheets = content->get("sheets")) style_.content.sheets = kinds_of(*sheets);
    }

    std::vector<std::string> kinds_of(const toml::node& node) {
        std::vector<std::pair<std::string, std::string>> known;
        for (const std::string& kind : drawing::sheet_kinds()) known.emplace_back(kind, kind);
        std::vector<std::string> kinds;
        const toml::array* array = node.as_array();
        if (array == nullptr || array->empty()) {
            wrong(node, "sheets is a list of kinds of sheet");
            return kinds;
        }
        for (const toml::node& each : *array)
            if (const auto kind = one_of(each, known, "a kind of sheet")) kinds.push_back(*kind);
        return kinds;
    }

    // A table of roles: each that is asked for must be there, and no others; over another style only those that differ.
    template <typename Value, typename Read>
    void read_roles(const toml::table& top, const char* section, RoleKind kind, Read read, std::map<std::string, Value>& into) {
        const std::vector<std::string> names = drawing::role_names(kind);
        const toml::node* node = top.get(section);
        const toml::table* table = node == nullptr ? nullptr : node->as_table();
        if (table == nullptr) {
            missing(node, fmt::format("the table [{}] is missing", section));
            return;
        }
        only(*table, names, fmt::format("[{}]", section));
        for (const std::string& name : names) {
            const toml::node* value = table->get(name);
            if (value != nullptr) {
                if (const auto look = read(*value, into[name])) into[name] = *look;
            } else if (starts_here_) {
                found(missing_key, line_of(*table), fmt::format("[{}] lacks \"{}\"", section, name));
            }
        }
    }

    // [[class]] and [[vein]]: a colour and its pale form each.
    void read_pairs(const toml::table& top, const char* section, std::vector<Colour>& strong, std::vector<Colour>& pale) {
        if (top.contains(section)) {  // a whole list takes another's place
            strong.clear();
            pale.clear();
        }
        for_each(top, section, [&](const toml::node& node) {
            const toml::table* table = as_table(node, {"colour", "pale"}, fmt::format("[[{}]]", section));
            if (table == nullptr) return;
            const toml::node* first = part(*table, "colour");
            const toml::node* second = part(*table, "pale");
            strong.push_back((first != nullptr ? colour(*first) : std::nullopt).value_or(Colour{}));
            pale.push_back((second != nullptr ? colour(*second) : std::nullopt).value_or(Colour{}));
        });
    }

    // What the first file of a style must have; whatever has the wrong kind is wrong in any.
    void missing(const toml::node* node, const std::string& message) {
        if (starts_here_ || node != nullptr) found(missing_key, node == nullptr ? 0 : line_of(*node), message);
    }

    template <typename Read>
    void for_each(const toml::table& top, const char* section, Read read) {
        const toml::node* node = top.get(section);
        const toml::array* array = node == nullptr ? nullptr : node->as_array();
        if (array == nullptr || array->empty()) {
            missing(node, fmt::format("no [[{}]] stands in it", section));
            return;
        }
        for (const toml::node& each : *array) read(each);
    }

    std::optional<FillLook> rock_look(const toml::node& node, FillLook look) {
        const toml::table* table = as_table(node, {"tint", "mark", "across", "up", "line", "colour"}, "a rock");
        if (table == nullptr) return std::nullopt;
        if (const toml::node* tint = part(*table, "tint")) look.colour = colour(*tint).value_or(look.colour);
        if (const toml::node* mark = table->get("mark"))
            look.pattern.mark = one_of(*mark, marks(), "the mark").value_or(PatternMark::none);
        constexpr double least_pitch_mm = 0.3;  // a finer pattern prints as grey
        if (const toml::node* across = table->get("across"))
            look.pattern.across_mm = number(*across, least_pitch_mm, largest_size_mm, "across").value_or(look.pattern.across_mm);
        if (const toml::node* up = table->get("up"))
            look.pattern.up_mm = number(*up, least_pitch_mm, largest_size_mm, "up").value_or(look.pattern.up_mm);
        if (const toml::node* line = table->get("line"))
            look.pattern.line_mm = size_mm(*line, "line").value_or(look.pattern.line_mm);
        if (const toml::node* ink = table->get("colour")) look.pattern.colour = colour(*ink).value_or(look.pattern.colour);
        return look;
    }

    void read_rocks(const toml::table& top) {
        const toml::node* node = top.get("rocks");
        if (node == nullptr || node->as_table() == nullptr)
            missing(node, "the table [rocks] is missing");
        else
            for (const auto& [key, value] : *node->as_table()) {
                FillLook& rock = style_.rocks[base::folded(key.str())];
                if (const auto look = rock_look(value, rock)) rock = *look;
            }
        if (top.contains("other_rock")) style_.other_rocks.clear();
        for_each(top, "other_rock", [&](const toml::node& each) {
            if (const auto look = rock_look(each, FillLook{})) style_.other_rocks.push_back(*look);
        });
    }

    std::string source_;        // the file that is being read
    bool starts_here_ = false;  // it starts from no other: nothing may be missing
    Style style_;
    std::vector<base::Finding> findings_;
};

}  // namespace

base::Checked<Style> read_style(const std::string& name_or_file) {
    base::Checked<std::vector<StyleLayer>> layers = style_layers(name_or_file);
    if (layers.value.empty()) return {Style{}, std::move(layers.findings)};
    return StyleReader().read(layers.value);
}

}  // namespace selvage::settings
