#pragma once

#include "base/finding.h"
#include "settings/project_keys.h"
#include "settings/setting_checks.h"

#include <fmt/format.h>
#include <toml++/toml.h>

#include <cstddef>
#include <functional>
#include <set>
#include <string>
#include <vector>

// From toml++ to the slots of the table of keys. Private: toml++ is in no header that another room includes.
namespace selvage::settings {

// What is carried while one file is read.
struct KeyReading {
    std::string file;     // for messages
    double metres = 1.0;  // per length unit of the project
    std::vector<base::Finding> findings;
    std::set<std::string> without_effect;  // names of what was set and has no effect yet

    void report(const base::Check& check, std::size_t line, std::string message);
};

std::size_t line_of(const toml::node& node);

bool is_blank_text(const toml::node& node);

// Reads one value into its slot; a message says what is wrong with it.
void read_value(KeyReading& reading, const toml::node& node, const std::string& full_name, Kind kind, const Range& range,
                const Slot& slot);

// Reports every key of the table that `known` lacks, with the nearest that it has.
void report_unknown(KeyReading& reading, const toml::table& table, const std::string& section,
                    const std::vector<std::string>& known);

template <typename T>
void add_names(std::vector<std::string>& names, const Section<T>& section) {
    for (const KeyOf<T>& key : section.keys) names.emplace_back(key.name);
}

inline std::string joined(const std::string& section, const std::string& key) {
    return section.empty() ? key : fmt::format("{}.{}", section, key);
}

// Reads the keys of a section that the table has into `object`, and reports the required ones that it lacks. `shown` is the
// section's name in messages.
template <typename T>
void read_keys(KeyReading& reading, const toml::table& table, const std::string& shown, const Section<T>& section, T& object) {
    for (const KeyOf<T>& key : section.keys) {
        const toml::node* node = table.get(key.name);
        const std::string full = joined(shown, key.name);
        const bool required = std::string(key.default_note) == "required";
        if (node == nullptr || (required && is_blank_text(*node))) {
            if (required)
                reading.report(missing_key, line_of(node == nullptr ? table : *node), fmt::format("{} has to be given", full));
            continue;
        }
        read_value(reading, *node, full, key.kind, key.range, key.slot(object));
        if (!section.has_effect)
            reading.without_effect.insert(section.name);
        else if (!key.has_effect)
            reading.without_effect.insert(joined(section.name, key.name));
    }
}

}  // namespace selvage::settings
