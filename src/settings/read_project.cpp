#include "base/file.h"
#include "base/text.h"
#include "settings/key_reader.h"
#include "settings/project_keys.h"
#include "settings/read.h"
#include "settings/setting_checks.h"

#include <fmt/format.h>
#include <toml++/toml.h>

#include <algorithm>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

namespace selvage::settings {

namespace {

// [name] of the file, nullptr where it is not there; anything but a table is reported.
const toml::table* section_of(KeyReading& reading, const toml::table& root, const std::string& name) {
    const toml::node* node = root.get(name);
    if (node == nullptr || node->is_table()) return node == nullptr ? nullptr : node->as_table();
    reading.report(wrong_value, line_of(*node), fmt::format("{} has to be a section [{}]", name, name));
    return nullptr;
}

// The tables of [[name]], in the order of the file.
std::vector<const toml::table*> entries_of(KeyReading& reading, const toml::table& root, const std::string& name) {
    std::vector<const toml::table*> entries;
    const toml::node* node = root.get(name);
    if (node == nullptr) return entries;
    if (const toml::array* list = node->as_array(); list != nullptr && !list->empty()) {
        for (const toml::node& item : *list)
            if (item.is_table()) entries.push_back(item.as_table());
        if (entries.size() == list->size()) return entries;
    }
    reading.report(wrong_value, line_of(*node), fmt::format("{} has to be written as [[{}]], once for each", name, name));
    return {};
}

// The tables within a section, each with its name.
std::vector<std::pair<std::string, const toml::table*>> tables_within(const toml::table* section) {
    std::vector<std::pair<std::string, const toml::table*>> tables;
    if (section == nullptr) return tables;
    for (const auto& [key, node] : *section)
        if (node.is_table()) tables.emplace_back(std::string(key.str()), node.as_table());
    return tables;
}

void read_plain_sections(KeyReading& reading, const toml::table& root, Project& project) {
    for (const Section<Project>& section : plain_sections()) {
        const std::string name = section.name;
        if (name.empty()) {
            read_keys(reading, root, name, section, project);
        } else if (const toml::table* table = section_of(reading, root, name)) {
            read_keys(reading, *table, name, section, project);
            if (name == usual_errors_section().name) continue;  // its other keys are read beside it
            std::vector<std::string> known;
            add_names(known, section);
            report_unknown(reading, *table, name, known);
        }
    }
    if (root.get("project") == nullptr)
        reading.report(missing_key, 0, "the section [project] with the project's name has to be given");
}

void read_survey_errors(KeyReading& reading, const toml::table& root, SurveyErrors& errors) {
    const Section<SurveyErrorSizes>& usual = usual_errors_section();
    const toml::node* node = root.get(usual.name);
    const toml::table* table = node == nullptr ? nullptr : node->as_table();
    if (table == nullptr) return;
    read_keys(reading, *table, usual.name, usual, errors.usual);
    std::vector<std::string> known;
    add_names(known, usual);
    std::vector<std::string> method_keys = known;
    for (const Section<Project>& plain : plain_sections())
        if (std::string(plain.name) == usual.name) add_names(known, plain);
    for (const auto& [method, sizes] : tables_within(table)) {
        const std::string shown = fmt::format("{}.{}", usual.name, method);
        SurveyErrorSizes& own = errors.by_method[base::folded(method)] = errors.usual;
        read_keys(reading, *sizes, shown, survey_method_section(), own);
        report_unknown(reading, *sizes, shown, method_keys);
        known.push_back(method);
    }
    report_unknown(reading, *table, usual.name, known);
}

void read_columns(KeyReading& reading, const toml::node& node, const std::string& shown, TableEntry& entry) {
    const toml::table* columns = node.as_table();
    if (columns == nullptr)
        return reading.report(wrong_value, line_of(node),
                              fmt::format("{}.columns has to be {{ our name = \"name in the file\" }}", shown));
    for (const auto& [key, value] : *columns) {
        const std::string ours = base::folded(key.str());
        if (const auto* theirs = value.as_string())
            entry.columns[ours] = base::trimmed(theirs->get());
        else
            reading.report(wrong_value, line_of(value), fmt::format("{}.columns.{} has to be a text in quotes", shown, ours));
    }
}

TableEntry read_table_entry(KeyReading& reading, const toml::node& node, const std::string& name) {
    TableEntry entry;
    entry.table = name;
    entry.line = line_of(node);
    const std::string shown = "tables." + name;
    if (const auto* source = node.as_string()) {
        entry.source = base::trimmed(source->get());
    } else if (const toml::table* table = node.as_table()) {
        read_keys(reading, *table, shown, table_section(), entry);
        if (const toml::node* columns = table->get("columns")) read_columns(reading, *columns, shown, entry);
        std::vector<std::string> known = {"columns"};
        add_names(known, table_section());
        report_unknown(reading, *table, shown, known);
    } else {
        reading.report(wrong_value, line_of(node),
                       fmt::format("{} has to be a text in quotes, or {{ source = \"...\" }}", shown));
    }
    return entry;
}

void read_tables(KeyReading& reading, const toml::table& root, Project& project) {
    const toml::table* tables = section_of(reading, root, "tables");
    if (tables == nullptr) {
        if (root.get("tables") == nullptr)
            reading.report(missing_key, 0, "the section [tables] with collars and surveys has to be given");
        return;
    }
    report_unknown(reading, *tables, "tables", table_names());
    for (const std::string& name : table_names())
        if (const toml::node* node = tables->get(name)) project.tables.push_back(read_table_entry(reading, *node, name));
}

template <typename T>
std::vector<T> read_entries(KeyReading& reading, const toml::table& root, const std::string& name, const Section<T>& section) {
    std::vector<std::string> known;
    add_names(known, section);
    std::vector<T> all;
    for (const toml::table* table : entries_of(reading, root, name)) {
        T one;
        read_keys(reading, *table, name, section, one);
        report_unknown(reading, *table, name, known);
        if constexpr (!std::is_same_v<T, EquivalentSetting>) one.line = line_of(*table);
        all.push_back(std::move(one));
    }
    return all;
}

void read_analytes(KeyReading& reading, const toml::table& root, Project& project) {
    const toml::table* analytes = section_of(reading, root, "analyte");
    std::vector<std::string> known;
    std::vector<std::string> names;
    add_names(known, analyte_section());
    for (const auto& [name, table] : tables_within(analytes)) {
        AnalyteSetting one;
        one.name = base::folded(name);
        read_keys(reading, *table, "analyte." + name, analyte_section(), one);
        report_unknown(reading, *table, "analyte." + name, known);
        for (std::string& column : one.from) column = base::folded(column);
        project.analytes.push_back(std::move(one));
        names.push_back(name);
    }
    if (analytes != nullptr) report_unknown(reading, *analytes, "analyte", names);
}

void report_unknown_sections(KeyReading& reading, const toml::table& root) {
    std::vector<std::string> known = {"tables", "vein", "fault", "analyte", "equivalent"};
    for (const Section<Project>& section : plain_sections())
        if (*section.name == '\0')
            add_names(known, section);
        else
            known.emplace_back(section.name);
    report_unknown(reading, root, "", known);
}

// Names are compared folded; contact is always a kind of contact.
void fold_names(Project& project) {
    for (std::string& method : project.survey_preference) method = base::folded(method);
    std::vector<std::string>& kinds = project.core_angles.contact_kinds;
    for (std::string& kind : kinds) kind = base::folded(kind);
    if (std::find(kinds.begin(), kinds.end(), "contact") == kinds.end()) kinds.insert(kinds.begin(), "contact");
}

bool is_magnetic(const Project& project, std::size_t& line) {
    if (project.north.surveys == NorthReference::magnetic) return true;
    for (const TableEntry& entry : project.tables)
        if (entry.azimuth_reference == NorthReference::magnetic) return line = entry.line, true;
    return false;
}

void check_north(KeyReading& reading, const toml::table& root, Project& project) {
    const toml::table* section = root.get("project") == nullptr ? nullptr : root.get("project")->as_table();
    if (section == nullptr) return;
    const toml::node* reference = section->get("azimuth_reference");
    std::size_t line = line_of(reference == nullptr ? *section : *reference);
    if (is_magnetic(project, line) && !project.north.declination)
        reading.report(missing_key, line, "azimuths from magnetic north need project.declination");
    project.north.convergence_given = section->get("grid_convergence") != nullptr;
    if (!project.crs.empty() && !project.north.convergence_given) reading.without_effect.insert("project.crs");
}

template <typename T>
void check_names(KeyReading& reading, const std::vector<T>& entries, const char* section, std::set<std::string>& names) {
    for (const T& entry : entries) {
        const std::string name = base::folded(entry.name);
        if (!name.empty() && !names.insert(name).second)
            reading.report(wrong_value, entry.line, fmt::format("{}.name: {} is given twice", section, entry.name));
    }
}

VeinSetting* find_vein(std::vector<VeinSetting>& veins, const std::string& name) {
    for (VeinSetting& vein : veins)
        if (base::folded(vein.name) == base::folded(name)) return &vein;
    return nullptr;
}

// The vein that a splay leaves is spelled as it spells itself; it must be another one of the project, and no splay of this one.
void check_splay(KeyReading& reading, std::vector<VeinSetting>& veins, VeinSetting& vein) {
    if (vein.splay_of.empty()) return;
    const VeinSetting* parent = find_vein(veins, vein.splay_of);
    if (parent != nullptr) vein.splay_of = parent->name;
    const VeinSetting* ancestor = parent;
    for (std::size_t steps = 0; ancestor != nullptr && ancestor != &vein && steps < veins.size(); ++steps)
        ancestor = find_vein(veins, ancestor->splay_of);
    if (parent != nullptr && ancestor == nullptr) return;
    reading.report(wrong_value, vein.line,
                   fmt::format("vein {}: splay_of names {}, which is no other vein of this project, or a splay of this one",
                               vein.name, vein.splay_of));
    vein.splay_of.clear();
}

void check_veins(KeyReading& reading, Project& project) {
    for (const VeinSetting& vein : project.veins) {
        if (vein.dip.has_value() != vein.dip_direction.has_value() || (vein.point && !vein.dip))
            reading.report(missing_key, vein.line,
                           fmt::format("vein {}: dip and dip_direction are given together, and with every point", vein.name));
    }
    for (VeinSetting& vein : project.veins) check_splay(reading, project.veins, vein);
    if (project.veins.empty()) reading.report(no_veins, 0, "the project file names no vein: none will be modelled");
}

void check_faults(KeyReading& reading, const Project& project) {
    for (const FaultSetting& fault : project.faults) {
        if (fault.dip.has_value() != fault.dip_direction.has_value())
            reading.report(missing_key, fault.line,
                           fmt::format("fault {}: dip and dip_direction are given together", fault.name));
        if (fault.slip && (fault.strike_slip || fault.dip_slip))
            reading.report(wrong_value, fault.line,
                           fmt::format("fault {}: give slip, or strike_slip and dip_slip, not both", fault.name));
    }
}

// Names in the order are spelled as the veins and faults spell themselves.
void check_order(KeyReading& reading, const toml::table& root, Project& project) {
    std::vector<std::string> names;
    for (const VeinSetting& vein : project.veins) names.push_back(vein.name);
    for (const FaultSetting& fault : project.faults) names.push_back(fault.name);
    std::set<std::string> seen;
    for (std::string& name : project.order) {
        const auto known = std::find_if(names.begin(), names.end(),
                                        [&](const std::string& one) { return base::folded(one) == base::folded(name); });
        const std::optional<std::string> nearest = known != names.end() ? std::nullopt : base::nearest_word(name, names);
        if (known != names.end()) name = *known;
        if (known == names.end())
            reading.report(wrong_value, line_of(*root.get("order")),
                           fmt::format("order: {} is neither a vein nor a fault{}", name,
                                       nearest ? "; did you mean " + *nearest + "?" : std::string()));
        else if (!seen.insert(base::folded(name)).second)
            reading.report(wrong_value, line_of(*root.get("order")), fmt::format("order: {} is named twice", name));
    }
}

void report_without_effect(KeyReading& reading, Project& project) {
    project.not_honoured_yet.assign(reading.without_effect.begin(), reading.without_effect.end());
    for (const std::string& name : project.not_honoured_yet)
        reading.report(not_honoured_yet, 0,
                       name == "project.crs"
                           ? std::string("project.crs gives no grid convergence yet: grid_convergence is taken as 0")
                           : name + " is read and has no effect yet");
}

// "key = value" lines of everything below a table, sorted, with numbers in one form.
void add_values(const toml::node& node, const std::string& name, std::string& out) {
    if (const toml::table* table = node.as_table()) {
        for (const auto& [key, value] : *table)
            if (!(name.empty() && key.str() == "tables")) add_values(value, joined(name, std::string(key.str())), out);
    } else if (const toml::array* list = node.as_array()) {
        for (std::size_t i = 0; i < list->size(); ++i) add_values((*list)[i], fmt::format("{}[{}]", name, i), out);
    } else if (const auto number = node.is_string() ? std::nullopt : node.value<double>()) {
        out += fmt::format("{} = {}\n", name, *number);
    } else if (const auto* text = node.as_string()) {
        out += fmt::format("{} = \"{}\"\n", name, text->get());
    } else if (const auto* date = node.as_date()) {
        out += fmt::format("{} = {:04}-{:02}-{:02}\n", name, date->get().year, date->get().month, date->get().day);
    }
}

base::LengthUnit unit_of(const toml::table& root) {
    const std::string word = base::folded(root["project"]["length_unit"].value_or(std::string_view("m")));
    return word == "ft" ? base::LengthUnit::foot : word == "us-ft" ? base::LengthUnit::us_survey_foot : base::LengthUnit::metre;
}

void read_everything(KeyReading& reading, const toml::table& root, Project& project) {
    reading.metres = base::metres_per(unit_of(root));  // before any length
    report_unknown_sections(reading, root);
    read_plain_sections(reading, root, project);
    read_survey_errors(reading, root, project.survey_errors);
    read_tables(reading, root, project);
    project.veins = read_entries(reading, root, "vein", vein_section());
    project.faults = read_entries(reading, root, "fault", fault_section());
    read_entries(reading, root, "equivalent", equivalent_section());
    read_analytes(reading, root, project);
    fold_names(project);
    check_north(reading, root, project);
    std::set<std::string> names;
    check_names(reading, project.veins, "vein", names);
    check_names(reading, project.faults, "fault", names);
    check_veins(reading, project);
    check_faults(reading, project);
    check_order(reading, root, project);
    report_without_effect(reading, project);
    add_values(root, "", project.values);
}

}  // namespace

const SurveyErrorSizes& SurveyErrors::of(const std::string& folded_method) const {
    const auto own = by_method.find(folded_method);
    return own == by_method.end() ? usual : own->second;
}

base::Checked<Project> read_project(const std::filesystem::path& file) {
    Project project;
    project.file = file.string();
    project.folder = file.has_parent_path() ? file.parent_path().string() : ".";
    project.text = base::read_file(file);
    KeyReading reading;
    reading.file = project.file;
    try {
        read_everything(reading, toml::parse(project.text, project.file), project);
    } catch (const toml::parse_error& error) {
        const toml::source_position at = error.source().begin;
        reading.report(file_syntax, at.line, fmt::format("line {}, column {}: {}", at.line, at.column, error.description()));
    }
    std::stable_sort(reading.findings.begin(), reading.findings.end(),
                     [](const base::Finding& a, const base::Finding& b) { return a.origin.row < b.origin.row; });
    return {std::move(project), std::move(reading.findings)};
}

}  // namespace selvage::settings
