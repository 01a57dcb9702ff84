#include "settings/values.h"

#include "settings/project_keys.h"

#include <algorithm>
#include <cstddef>
#include <string>
#include <utility>
#include <variant>

namespace selvage::settings {

namespace {

using base::JsonArray;
using base::JsonObject;
using base::JsonValue;

template <typename T>
JsonArray array_of(const std::vector<T>& values) {
    JsonArray out;
    for (const T& value : values) out.emplace_back(value);
    return out;
}

template <int Size>
JsonArray array_of(const Eigen::Matrix<double, Size, 1>& point) {
    JsonArray out;
    for (const double coordinate : point) out.emplace_back(coordinate);
    return out;
}

struct ToJson {
    JsonValue operator()(std::monostate) const { return {}; }
    JsonValue operator()(const Choice& choice) const {
        return choice.now < choice.words.size() ? JsonValue(choice.words[choice.now]) : JsonValue();
    }
    JsonValue operator()(const std::string* text) const { return *text; }
    JsonValue operator()(const std::vector<std::string>* texts) const { return array_of(*texts); }
    JsonValue operator()(const bool* flag) const { return *flag; }
    JsonValue operator()(const double* value) const { return *value; }
    JsonValue operator()(const std::vector<double>* values) const { return array_of(*values); }
    JsonValue operator()(const std::size_t* count) const { return *count; }
    JsonValue operator()(const base::Angle* angle) const { return angle->degrees(); }
    JsonValue operator()(const base::Azimuth* azimuth) const { return azimuth->degrees(); }
    JsonValue operator()(const Eigen::Vector3d* point) const { return array_of(*point); }
    JsonValue operator()(const Eigen::Vector2d* point) const { return array_of(*point); }
    JsonValue operator()(const std::vector<Eigen::Vector3d>* points) const {
        JsonArray out;
        for (const Eigen::Vector3d& point : *points) out.emplace_back(array_of(point));
        return out;
    }
    template <typename T>
    JsonValue operator()(const std::optional<T>* value) const {
        return *value ? (*this)(&**value) : JsonValue();
    }
};

// A section's keys appended; slots point into the copy, so that it outlives them.
template <typename T>
void add_values(JsonObject& object, const Section<T>& section, T copy) {
    for (const KeyOf<T>& key : section.keys) object.emplace_back(key.name, std::visit(ToJson(), key.slot(copy)));
}

template <typename T>
JsonArray list_of(const Section<T>& section, const std::vector<T>& items) {
    JsonArray out;
    for (const T& item : items) {
        JsonObject values;
        add_values(values, section, item);
        out.emplace_back(std::move(values));
    }
    return out;
}

JsonObject tables_of(const Project& project) {
    JsonObject tables;
    for (const TableEntry& entry : project.tables) {
        JsonObject values;
        add_values(values, table_section(), entry);
        JsonObject columns;
        for (const auto& [ours, theirs] : entry.columns) columns.emplace_back(ours, theirs);
        values.emplace_back("columns", std::move(columns));
        tables.emplace_back(entry.table, std::move(values));
    }
    return tables;
}

JsonObject analytes_of(const Project& project) {
    JsonObject analytes;
    for (const AnalyteSetting& analyte : project.analytes) {
        JsonObject values;
        add_values(values, analyte_section(), analyte);
        analytes.emplace_back(analyte.name, std::move(values));
    }
    return analytes;
}

JsonObject survey_errors_of(const Project& project) {
    JsonObject errors;
    add_values(errors, usual_errors_section(), project.survey_errors.usual);
    for (const auto& [method, sizes] : project.survey_errors.by_method) {
        JsonObject values;
        add_values(values, survey_method_section(), sizes);
        errors.emplace_back(method, std::move(values));
    }
    return errors;
}

}  // namespace

JsonValue values_of(const Project& project) {
    JsonObject all;
    for (const Section<Project>& section : plain_sections()) {
        const std::string name = section.name;
        JsonObject values = name == usual_errors_section().name ? survey_errors_of(project) : JsonObject();
        add_values(values, section, project);
        if (name.empty())
            all.insert(all.end(), values.begin(), values.end());
        else
            all.emplace_back(name, std::move(values));
    }
    all.emplace_back("tables", tables_of(project));
    all.emplace_back("vein", list_of(vein_section(), project.veins));
    all.emplace_back("fault", list_of(fault_section(), project.faults));
    all.emplace_back("analyte", analytes_of(project));
    all.emplace_back("without_effect_yet", array_of(project.not_honoured_yet));
    return all;
}

}  // namespace selvage::settings
