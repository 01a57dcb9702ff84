#include "base/file.h"
#include "base/text.h"
#include "drawing/style_roles.h"
#include "settings/read.h"
#include "settings/setting_checks.h"

#include <fmt/format.h>
#include <toml++/toml.h>

#include <algorithm>
#include <filesystem>
#include <optional>
#include <set>
#include <system_error>
#include <utility>

namespace selvage::settings {

namespace {

namespace fs = std::filesystem;
using drawing::Colour;
using drawing::FillLook;
using drawing::FontFace;
using drawing::LineLook;
using drawing::PatternMark;
using drawing::RoleKind;
using drawing::Style;
using drawing::TextLook;

// Type may be this large, points: the PDF library refuses more. Under the least nothing can be read in print.
constexpr double least_type_pt = 5.0, largest_type_pt = 600.0;
// No width, length or pitch of a style is larger, mm: the short side of the largest paper.
constexpr double largest_size_mm = 841.0;
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

template <typename Value>
std::vector<std::string> words_of(const std::vector<std::pair<std::string, Value>>& known) {
    std::vector<std::string> words;
    for (const auto& entry : known) words.push_back(entry.first);
    return words;
}

std::string guess(const std::string& typed, const std::vector<std::string>& known) {
    const auto nearest = base::nearest_word(typed, known);
    return nearest ? fmt::format("; did you mean \"{}\"?", *nearest) : std::string();
}

// Reads one file; everything that is wrong becomes a finding with its line.
class StyleReader {
public:
    explicit StyleReader(std::string source) : source_(std::move(source)) {}

    base::Checked<Style> read(const toml::table& top) {
        only(top, {"name", "font", "colours", "texts", "lines", "sizes", "class", "vein", "rocks", "other_rock"}, "the style");
        if (const auto name = text(top, "name")) style_.name = *name;
        if (const auto font = text(top, "font")) style_.font_family = *font;
        read_colours(top);
        read_roles(
            top, "texts", RoleKind::text, [&](const toml::node& n) { return text_look(n); }, style_.texts);
        read_roles(
            top, "lines", RoleKind::line, [&](const toml::node& n) { return line_look(n); }, style_.lines);
        read_roles(
            top, "sizes", RoleKind::size, [&](const toml::node& n) { return size_mm(n, "a size"); }, style_.sizes_mm);
        read_pairs(top, "class", style_.classes, style_.classes_pale);
        if (style_.classes.size() != class_count && findings_.empty())
            found(wrong_value, 0, fmt::format("{} of [[class]] stand in it, not {}", style_.classes.size(), class_count));
        read_pairs(top, "vein", style_.veins, style_.veins_pale);
        read_rocks(top);
        return {std::move(style_), std::move(findings_)};
    }

    void found(const base::Check& check, std::size_t line, std::string message) {
        findings_.push_back({&check, {"style", source_, line}, "", std::move(message)});
    }

    base::Checked<Style> failed() { return {Style{}, std::move(findings_)}; }

private:
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
            found(missing_key, table.source().begin.line, fmt::format("\"{}\" is missing", key));
            return std::nullopt;
        }
        const auto value = node->value_exact<std::string>();
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

    const toml::node* part(const toml::table& table, const char* key) {
        const toml::node* node = table.get(key);
        if (node == nullptr) wrong(table, fmt::format("\"{}\" is missing here", key));
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

    std::optional<TextLook> text_look(const toml::node& node) {
        const toml::table* table = as_table(node, {"size", "face", "colour"}, "a text");
        if (table == nullptr) return std::nullopt;
        TextLook look;
        if (const toml::node* size = part(*table, "size"))
            look.size_pt = number(*size, least_type_pt, largest_type_pt, "the size of type").value_or(look.size_pt);
        if (const toml::node* face = part(*table, "face")) look.face = one_of(*face, faces(), "the face").value_or(look.face);
        if (const toml::node* ink = part(*table, "colour")) look.colour = colour(*ink).value_or(look.colour);
        return look;
    }

    std::optional<LineLook> line_look(const toml::node& node) {
        const toml::table* table = as_table(node, {"width", "colour", "dash", "round_ends"}, "a line");
        if (table == nullptr) return std::nullopt;
        LineLook look;
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
            top, "colours", RoleKind::colour, [&](const toml::node& n) { return rgb(n); }, style_.colours);
    }

    // A table of roles: each that is asked for must be there, and no others.
    template <typename Value, typename Read>
    void read_roles(const toml::table& top, const char* section, RoleKind kind, Read read, std::map<std::string, Value>& into) {
        const std::vector<std::string> names = drawing::role_names(kind);
        const toml::node* node = top.get(section);
        const toml::table* table = node == nullptr ? nullptr : node->as_table();
        if (table == nullptr) {
            found(missing_key, node == nullptr ? 0 : line_of(*node), fmt::format("the table [{}] is missing", section));
            return;
        }
        only(*table, names, fmt::format("[{}]", section));
        for (const std::string& name : names) {
            const toml::node* value = table->get(name);
            if (value == nullptr)
                found(missing_key, line_of(*table), fmt::format("[{}] lacks \"{}\"", section, name));
            else if (const auto look = read(*value))
                into[name] = *look;
        }
    }

    // [[class]] and [[vein]]: a colour and its pale form each.
    void read_pairs(const toml::table& top, const char* section, std::vector<Colour>& strong, std::vector<Colour>& pale) {
        for_each(top, section, [&](const toml::node& node) {
            const toml::table* table = as_table(node, {"colour", "pale"}, fmt::format("[[{}]]", section));
            if (table == nullptr) return;
            const toml::node* first = part(*table, "colour");
            const toml::node* second = part(*table, "pale");
            strong.push_back((first != nullptr ? colour(*first) : std::nullopt).value_or(Colour{}));
            pale.push_back((second != nullptr ? colour(*second) : std::nullopt).value_or(Colour{}));
        });
    }

    template <typename Read>
    void for_each(const toml::table& top, const char* section, Read read) {
        const toml::node* node = top.get(section);
        const toml::array* array = node == nullptr ? nullptr : node->as_array();
        if (array == nullptr || array->empty()) {
            found(missing_key, node == nullptr ? 0 : line_of(*node), fmt::format("no [[{}]] stands in it", section));
            return;
        }
        for (const toml::node& each : *array) read(each);
    }

    std::optional<FillLook> rock_look(const toml::node& node) {
        const toml::table* table = as_table(node, {"tint", "mark", "across", "up", "line", "colour"}, "a rock");
        if (table == nullptr) return std::nullopt;
        FillLook look;
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
            found(missing_key, node == nullptr ? 0 : line_of(*node), "the table [rocks] is missing");
        else
            for (const auto& [key, value] : *node->as_table())
                if (const auto look = rock_look(value)) style_.rocks[base::folded(key.str())] = *look;
        for_each(top, "other_rock", [&](const toml::node& each) {
            if (const auto look = rock_look(each)) style_.other_rocks.push_back(*look);
        });
    }

    std::string source_;
    Style style_;
    std::vector<base::Finding> findings_;
};

// The folders of styles that come with the program: beside the installed program, then where it was built from.
std::vector<fs::path> style_folders() {
    std::vector<fs::path> folders;
    std::error_code error;
    const fs::path program = fs::read_symlink("/proc/self/exe", error);
    if (!error) folders.push_back(program.parent_path().parent_path() / "share" / "selvage" / "styles");
    folders.emplace_back(SELVAGE_STYLES_FOLDER);
    return folders;
}

std::optional<fs::path> file_of(const std::string& name_or_file) {
    std::error_code error;
    if (name_or_file.find('/') == std::string::npos)
        for (const fs::path& folder : style_folders())
            if (const fs::path file = folder / (name_or_file + ".toml"); fs::is_regular_file(file, error)) return file;
    if (fs::is_regular_file(name_or_file, error)) return fs::path(name_or_file);
    return std::nullopt;
}

std::vector<std::string> known_styles() {
    std::set<std::string> names;
    std::error_code error;
    for (const fs::path& folder : style_folders())
        for (const auto& entry : fs::directory_iterator(folder, error))
            if (entry.path().extension() == ".toml") names.insert(entry.path().stem().string());
    return {names.begin(), names.end()};
}

}  // namespace

base::Checked<Style> read_style(const std::string& name_or_file) {
    StyleReader reader(name_or_file);
    const auto file = file_of(name_or_file);
    if (!file) {
        const std::vector<std::string> known = known_styles();
        reader.found(
            wrong_value, 0,
            fmt::format("no style \"{}\"; known are {}{}", name_or_file, fmt::join(known, ", "), guess(name_or_file, known)));
        return reader.failed();
    }
    const std::string bytes = base::read_file(*file);
    try {
        return reader.read(toml::parse(bytes, file->string()));
    } catch (const toml::parse_error& error) {
        reader.found(file_syntax, error.source().begin.line, std::string(error.description()));
        return reader.failed();
    }
}

}  // namespace selvage::settings
