#include "settings/key_reader.h"

#include "base/text.h"
#include "settings/iso_date.h"
#include "settings/read.h"
#include "settings/setting_checks.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>
#include <variant>

namespace selvage::settings {

namespace {

using Value = std::variant<std::string, bool, double, std::vector<std::string>, std::vector<double>>;

// What a value has to be, where it is not.
struct Problem {
    std::string text;
};
using Read = std::variant<Value, Problem>;

double factor_of(Kind kind, double metres) {
    switch (kind) {
        case Kind::length:
        case Kind::grade_by_length:
        case Kind::point:
        case Kind::points:
        case Kind::map_point: return metres;
        case Kind::per_length: return 1.0 / metres;
        default: return 1.0;
    }
}

std::optional<double> number_of(const toml::node& node) {
    if (!node.is_integer() && !node.is_floating_point()) return std::nullopt;
    const double value = *node.value<double>();
    return std::isfinite(value) ? std::optional<double>(value) : std::nullopt;
}

std::string range_text(const Range& range) {
    if (std::isfinite(range.low) && std::isfinite(range.high))
        return fmt::format("from {} to {}", base::significant(range.low, 6), base::significant(range.high, 6));
    return fmt::format("{} or more", base::significant(range.low, 6));
}

bool within(double value, const Range& range) { return value >= range.low && value <= range.high; }

Read read_number(const toml::node& node, const Range& range, double factor) {
    const std::optional<double> value = number_of(node);
    if (!value) return Problem{"a number"};
    if (!within(*value, range)) return Problem{range_text(range)};
    return Value(*value * factor);
}

Read read_count(const toml::node& node, const Range& range) {
    if (!node.is_integer()) return Problem{"a whole number"};
    return read_number(node, range, 1.0);
}

Read read_date(const toml::node& node) {
    if (node.is_date() || node.is_date_time()) {
        const toml::date date = node.is_date() ? node.as_date()->get() : node.as_date_time()->get().date;
        return Value(fmt::format("{:04}-{:02}-{:02}", date.year, date.month, date.day));
    }
    if (const auto* text = node.as_string())
        if (const std::optional<std::string> date = iso_date(text->get())) return Value(*date);
    return Problem{"a date as 2026-11-20"};
}

Read read_texts(const toml::node& node) {
    const toml::array* list = node.as_array();
    std::vector<std::string> texts;
    if (list == nullptr) return Problem{"a list of texts"};
    for (const toml::node& item : *list) {
        if (!item.is_string()) return Problem{"a list of texts"};
        texts.push_back(base::trimmed(item.as_string()->get()));
    }
    return Value(std::move(texts));
}

// A list of numbers, of `count` where that is not 0.
Read read_numbers(const toml::node& node, const Range& range, double factor, std::size_t count, const char* what) {
    const toml::array* list = node.as_array();
    if (list == nullptr || (count != 0 && list->size() != count)) return Problem{what};
    std::vector<double> numbers;
    for (const toml::node& item : *list) {
        const std::optional<double> value = number_of(item);
        if (!value) return Problem{what};
        if (!within(*value, range)) return Problem{range_text(range)};
        numbers.push_back(*value * factor);
    }
    return Value(std::move(numbers));
}

// A list of points, one number after the other.
Read read_points(const toml::node& node, const Range& range, double factor) {
    constexpr const char* what = "a list of points [[east, north, elevation], ...]";
    const toml::array* list = node.as_array();
    if (list == nullptr) return Problem{what};
    std::vector<double> numbers;
    for (const toml::node& item : *list) {
        const Read point = read_numbers(item, range, factor, 3, what);
        if (std::holds_alternative<Problem>(point)) return point;
        const auto& three = std::get<std::vector<double>>(std::get<Value>(point));
        numbers.insert(numbers.end(), three.begin(), three.end());
    }
    return Value(std::move(numbers));
}

Read read_named_numbers(const toml::node& node, const Range& range) {
    const toml::table* table = node.as_table();
    if (table == nullptr) return Problem{"a table of numbers"};
    std::vector<double> numbers;
    for (const auto& [key, item] : *table) {
        const std::optional<double> value = number_of(item);
        if (!value || !within(*value, range)) return Problem{"a table of numbers, " + range_text(range)};
        numbers.push_back(*value);
    }
    return Value(std::move(numbers));
}

Read read_as(const toml::node& node, Kind kind, const Range& range, double metres) {
    const double factor = factor_of(kind, metres);
    switch (kind) {
        case Kind::text:
        case Kind::choice:
            if (!node.is_string()) return Problem{"a text in quotes"};
            return Value(base::trimmed(node.as_string()->get()));
        case Kind::date: return read_date(node);
        case Kind::yes_no:
            if (!node.is_boolean()) return Problem{"true or false"};
            return Value(node.as_boolean()->get());
        case Kind::count: return read_count(node, range);
        case Kind::texts: return read_texts(node);
        case Kind::numbers: return read_numbers(node, range, factor, 0, "a list of numbers");
        case Kind::point: return read_numbers(node, range, factor, 3, "three numbers [east, north, elevation]");
        case Kind::points: return read_points(node, range, factor);
        case Kind::map_point: return read_numbers(node, range, factor, 2, "two numbers [east, north]");
        case Kind::weights: return read_numbers(node, range, factor, 3, "three numbers [information, value, cost]");
        case Kind::named_numbers: return read_named_numbers(node, range);
        default: return read_number(node, range, factor);
    }
}

// Puts a value into its slot; the table of keys gives each kind a slot of its own type.
struct Keep {
    const Value& value;

    void operator()(std::monostate) const {}
    void operator()(const Choice& /*taken by its words*/) const {}
    void operator()(std::string* slot) const { *slot = std::get<std::string>(value); }
    void operator()(std::optional<std::string>* slot) const { *slot = std::get<std::string>(value); }
    void operator()(std::vector<std::string>* slot) const { *slot = std::get<std::vector<std::string>>(value); }
    void operator()(bool* slot) const { *slot = std::get<bool>(value); }
    void operator()(double* slot) const { *slot = std::get<double>(value); }
    void operator()(std::optional<double>* slot) const { *slot = std::get<double>(value); }
    void operator()(std::vector<double>* slot) const { *slot = std::get<std::vector<double>>(value); }
    void operator()(std::size_t* slot) const { *slot = static_cast<std::size_t>(std::get<double>(value)); }
    void operator()(base::Angle* slot) const { *slot = base::Angle::degrees(std::get<double>(value)); }
    void operator()(std::optional<base::Angle>* slot) const { *slot = base::Angle::degrees(std::get<double>(value)); }
    void operator()(base::Azimuth* slot) const { *slot = base::Azimuth::degrees(std::get<double>(value)); }
    void operator()(std::optional<base::Azimuth>* slot) const { *slot = base::Azimuth::degrees(std::get<double>(value)); }
    void operator()(Eigen::Vector3d* slot) const { *slot = point(); }
    void operator()(std::optional<Eigen::Vector3d>* slot) const { *slot = point(); }
    void operator()(std::optional<Eigen::Vector2d>* slot) const {
        const auto& numbers = std::get<std::vector<double>>(value);
        *slot = Eigen::Vector2d(numbers[0], numbers[1]);
    }

    void operator()(std::vector<Eigen::Vector3d>* slot) const {
        const auto& numbers = std::get<std::vector<double>>(value);
        slot->clear();
        for (std::size_t i = 0; i + 2 < numbers.size(); i += 3) slot->emplace_back(numbers[i], numbers[i + 1], numbers[i + 2]);
    }

    Eigen::Vector3d point() const {
        const auto& numbers = std::get<std::vector<double>>(value);
        return {numbers[0], numbers[1], numbers[2]};
    }
};

std::optional<Problem> take_choice(const Choice& choice, const std::string& word) {
    for (std::size_t i = 0; i < choice.words.size(); ++i)
        if (base::folded(choice.words[i]) == base::folded(word)) {
            choice.take(i);
            return std::nullopt;
        }
    return Problem{fmt::format("one of \"{}\"", fmt::join(choice.words, "\", \""))};
}

// Where else in the file a key of this name belongs, as a hint.
std::optional<std::string> section_with(const std::string& key) {
    for (const Key& known : project_keys())
        if (known.name == key && known.section.find('<') == std::string::npos && known.section != "tables") return known.section;
    return std::nullopt;
}

}  // namespace

void KeyReading::report(const base::Check& check, std::size_t line, std::string message) {
    findings.push_back({&check, {"project", file, line}, "", std::move(message)});
}

std::size_t line_of(const toml::node& node) { return node.source().begin.line; }

bool is_blank_text(const toml::node& node) { return node.is_string() && base::trimmed_view(node.as_string()->get()).empty(); }

void read_value(KeyReading& reading, const toml::node& node, const std::string& full_name, Kind kind, const Range& range,
                const Slot& slot) {
    const Read read = read_as(node, kind, range, reading.metres);
    std::optional<Problem> problem;
    if (const auto* wrong = std::get_if<Problem>(&read)) {
        problem = *wrong;
    } else {
        const Value& value = std::get<Value>(read);
        if (const auto* choice = std::get_if<Choice>(&slot))
            problem = take_choice(*choice, std::get<std::string>(value));
        else
            std::visit(Keep{value}, slot);
    }
    if (problem) reading.report(wrong_value, line_of(node), fmt::format("{} has to be {}", full_name, problem->text));
}

void report_unknown(KeyReading& reading, const toml::table& table, const std::string& section,
                    const std::vector<std::string>& known) {
    for (const auto& [key, node] : table) {
        const std::string name(key.str());
        if (std::find(known.begin(), known.end(), name) != known.end()) continue;
        std::string message = fmt::format("{} is not a known key", joined(section, name));
        if (const std::optional<std::string> nearest = base::nearest_word(name, known))
            message += fmt::format("; did you mean {}?", *nearest);
        else if (const std::optional<std::string> home = section_with(name))
            message += home->empty() ? "; it belongs above the first section" : fmt::format("; it belongs into [{}]", *home);
        else if (!known.empty())
            message += fmt::format("; the nearest is {}", base::closest_word(name, known));
        reading.report(unknown_key, key.source().begin.line, std::move(message));
    }
}

}  // namespace selvage::settings
