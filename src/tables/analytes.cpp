#include "tables/analytes.h"

#include "base/text.h"
#include "tables/table_checks.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>
#include <utility>

namespace selvage::tables {

namespace {

// Exact by definition: the troy ounce (480 grains of 0.06479891 g) and the short ton (2000 lb of 0.45359237 kg).
constexpr double grams_per_troy_ounce = 31.1034768;
constexpr double tonnes_per_short_ton = 0.90718474;
constexpr double everything = 1e6;  // g in a tonne
constexpr double rounding = 1.0 + 1e-9;
constexpr double not_assayed_number = -999.0;

struct UnitWord {
    std::string_view word;
    const char* label;
    double grams_per_tonne;
};
constexpr std::array<UnitWord, 6> units = {{{"gpt", "g/t", 1.0},
                                            {"ppm", "ppm", 1.0},
                                            {"ppb", "ppb", 1e-3},
                                            {"pct", "%", 1e4},
                                            {"oz_per_short_ton", "oz/st", grams_per_troy_ounce / tonnes_per_short_ton},
                                            {"oz_per_tonne", "oz/t", grams_per_troy_ounce}}};

// Symbols of the chemical elements up to uranium (IUPAC).
const std::set<std::string>& element_symbols() {
    static const std::set<std::string> symbols = {
        "H",  "He", "Li", "Be", "B",  "C",  "N",  "O",  "F",  "Ne", "Na", "Mg", "Al", "Si", "P",  "S",  "Cl", "Ar", "K",
        "Ca", "Sc", "Ti", "V",  "Cr", "Mn", "Fe", "Co", "Ni", "Cu", "Zn", "Ga", "Ge", "As", "Se", "Br", "Kr", "Rb", "Sr",
        "Y",  "Zr", "Nb", "Mo", "Tc", "Ru", "Rh", "Pd", "Ag", "Cd", "In", "Sn", "Sb", "Te", "I",  "Xe", "Cs", "Ba", "La",
        "Ce", "Pr", "Nd", "Pm", "Sm", "Eu", "Gd", "Tb", "Dy", "Ho", "Er", "Tm", "Yb", "Lu", "Hf", "Ta", "W",  "Re", "Os",
        "Ir", "Pt", "Au", "Hg", "Tl", "Pb", "Bi", "Po", "At", "Rn", "Fr", "Ra", "Ac", "Th", "Pa", "U"};
    return symbols;
}

std::string as_symbol(std::string_view folded) {
    std::string symbol(folded);
    if (!symbol.empty() && symbol[0] >= 'a' && symbol[0] <= 'z') symbol[0] = static_cast<char>(symbol[0] - 'a' + 'A');
    return symbol;
}

bool is_not_assayed(std::string_view cell) {
    const std::string word = base::folded(cell);
    return word.empty() || word == "ns" || word == "n/a" || word == "is" || word == "lnr";
}

// Names of the columns of one element.
std::vector<AnalyteColumn> of_element(const std::vector<AnalyteColumn>& columns, const std::string& element) {
    std::vector<AnalyteColumn> own;
    for (const AnalyteColumn& column : columns)
        if (analyte_of(column.name)->element == element) own.push_back(column);
    return own;
}

class AnalyteChoice {
public:
    AnalyteChoice(const settings::Project& project, std::vector<base::Finding>& findings)
        : project_(project), findings_(findings) {
        for (const settings::AnalyteSetting& setting : project.analytes) {
            const std::optional<AnalyteName> name = analyte_of(setting.name);
            if (!name)
                report_setting(setting, "is no analyte: write <element>_<unit>, as ag_gpt");
            else if (!settings_.emplace(name->element, &setting).second)
                report_setting(setting, "is a second section of one element: the first is used");
        }
    }

    std::vector<AnalyteColumns> choose(const base::Table* assays, const std::vector<AnalyteColumn>& assay_columns,
                                       const base::Table* outcrops, const std::vector<AnalyteColumn>& outcrop_columns) {
        std::vector<AnalyteColumns> chosen;
        std::set<std::string> met;
        for (const auto* columns : {&assay_columns, &outcrop_columns})
            for (const AnalyteColumn& column : *columns) {
                const std::string element = analyte_of(column.name)->element;
                if (!met.insert(element).second) continue;
                const std::vector<AnalyteColumn> in_assays = of_element(assay_columns, element);
                const std::vector<AnalyteColumn> in_outcrops = of_element(outcrop_columns, element);
                const bool by_assays = !in_assays.empty();
                const std::optional<std::string> name =
                    name_of(element, by_assays ? in_assays : in_outcrops, by_assays ? *assays : *outcrops);
                if (!name) continue;
                AnalyteColumns one = named(*name);
                one.assays = sources(one, in_assays, assays);
                one.outcrops = sources(one, in_outcrops, outcrops);
                chosen.push_back(std::move(one));
            }
        for (const auto& [element, setting] : settings_)
            if (met.count(element) == 0) report_setting(*setting, "has no column in any table");
        return chosen;
    }

private:
    const settings::AnalyteSetting* setting_of(const std::string& element) const {
        const auto found = settings_.find(element);
        return found == settings_.end() ? nullptr : found->second;
    }

    // The name under which an element's values go; nothing where its columns leave it open.
    std::optional<std::string> name_of(const std::string& element, const std::vector<AnalyteColumn>& columns,
                                       const base::Table& table) {
        const settings::AnalyteSetting* setting = setting_of(element);
        if (setting != nullptr && !setting->from.empty()) {
            check_from(*setting, columns);
            return setting->name;
        }
        if (columns.size() > 1) {
            report_several(element, columns, table);
            return std::nullopt;
        }
        return setting != nullptr ? setting->name : columns.front().name;
    }

    void check_from(const settings::AnalyteSetting& setting, const std::vector<AnalyteColumn>& columns) {
        for (const std::string& wanted : setting.from)
            if (std::none_of(columns.begin(), columns.end(), [&](const AnalyteColumn& column) { return column.name == wanted; }))
                report_setting(setting, fmt::format("takes from {}, which is no column of that element", wanted));
    }

    AnalyteColumns named(const std::string& name) const {
        const AnalyteName parts = *analyte_of(name);
        AnalyteColumns one;
        one.analyte = {name, parts.element, parts.unit};
        if (const settings::AnalyteSetting* setting = setting_of(parts.element)) one.below_detection = setting->below_detection;
        return one;
    }

    // Columns of the table in the order of `from`; where that names none of them, the only one.
    std::vector<AnalyteSource> sources(const AnalyteColumns& analyte, const std::vector<AnalyteColumn>& columns,
                                       const base::Table* table) {
        std::vector<AnalyteSource> all;
        if (const settings::AnalyteSetting* setting = setting_of(analyte.analyte.element))
            for (const std::string& wanted : setting->from)
                for (const AnalyteColumn& column : columns)
                    if (column.name == wanted) all.push_back(source(analyte, column));
        if (!all.empty() || columns.empty()) return all;
        if (columns.size() > 1) {
            report_several(analyte.analyte.element, columns, *table);
            return all;
        }
        return {source(analyte, columns.front())};
    }

    AnalyteSource source(const AnalyteColumns& analyte, const AnalyteColumn& column) const {
        const double own = analyte_of(column.name)->grams_per_tonne;
        const double wanted = analyte_of(analyte.analyte.name)->grams_per_tonne;
        return {column.column, own == wanted ? 1.0 : own / wanted, own, {}};
    }

    void report_several(const std::string& element, const std::vector<AnalyteColumn>& columns, const base::Table& table) {
        std::vector<std::string> names;
        for (const AnalyteColumn& column : columns) names.push_back(column.name);
        findings_.push_back(
            {&several_columns_of_element,
             {table.name, table.source, table.header_row},
             "",
             fmt::format("{} has the columns {}, and no [analyte.<name>] from says which is best: all are left out", element,
                         fmt::join(names, ", "))});
    }

    void report_setting(const settings::AnalyteSetting& setting, const std::string& what) {
        findings_.push_back(
            {&analyte_setting, {"project", project_.file, 0}, "", fmt::format("analyte.{} {}", setting.name, what)});
    }

    const settings::Project& project_;
    std::vector<base::Finding>& findings_;
    std::map<std::string, const settings::AnalyteSetting*> settings_;  // by element
};

}  // namespace

std::optional<AnalyteName> analyte_of(std::string_view folded_column) {
    for (const UnitWord& unit : units) {
        const std::size_t length = unit.word.size() + 1;
        if (folded_column.size() <= length || folded_column.substr(folded_column.size() - unit.word.size()) != unit.word)
            continue;
        std::string_view front = folded_column.substr(0, folded_column.size() - unit.word.size());
        if (front.back() != '_') continue;
        front.remove_suffix(1);
        const std::string element = as_symbol(front.substr(0, front.find('_')));
        if (element_symbols().count(element) == 0) continue;
        return AnalyteName{element, unit.label, unit.grams_per_tonne};
    }
    return std::nullopt;
}

std::vector<AnalyteColumns> choose_analytes(const settings::Project& project, const base::Table* assays,
                                            const std::vector<AnalyteColumn>& assay_columns, const base::Table* outcrops,
                                            const std::vector<AnalyteColumn>& outcrop_columns,
                                            std::vector<base::Finding>& findings) {
    return AnalyteChoice(project, findings).choose(assays, assay_columns, outcrops, outcrop_columns);
}

std::vector<double> limits_in(const base::Table& table, std::size_t column, char decimal) {
    std::set<double> limits;
    for (std::size_t row = 0; row < table.row_count(); ++row) {
        const std::string_view cell = base::trimmed_view(table.cell(row, column));
        if (cell.empty() || cell.front() != '<') continue;
        if (const std::optional<double> limit = base::parse_number(cell.substr(1), decimal)) limits.insert(*limit);
    }
    return {limits.begin(), limits.end()};
}

AssayCell read_assay(std::string_view cell, const AnalyteSource& source, double below_detection, char decimal) {
    cell = base::trimmed_view(cell);
    if (cell.empty()) return {};
    const bool below = cell.front() == '<';
    const bool over = cell.front() == '>';
    const std::optional<double> number = base::parse_number(below || over ? cell.substr(1) : cell, decimal);
    if (!number) {
        if (!below && !over && is_not_assayed(cell)) return {};
        return {{}, fmt::format("\"{}\" is no assay", cell)};
    }
    const auto below_limit = [&](double limit) { return AssayCell{{below_detection * limit * source.factor, true, false}, ""}; };
    if (*number * source.grams_per_tonne > everything * rounding)
        return {{}, fmt::format("{} is more than the whole rock", cell)};
    if (*number >= 0.0) {
        if (below) return below_limit(*number);
        return {{*number * source.factor, false, over}, ""};
    }
    if (below || over) return {{}, fmt::format("\"{}\" is no assay", cell)};
    if (*number == not_assayed_number) return {};
    if (std::binary_search(source.limits.begin(), source.limits.end(), -*number)) return below_limit(-*number);
    return {{}, fmt::format("{} is negative, and {} is no detection limit of this column", cell, cell.substr(1))};
}

AssayValue better_of(const AssayValue& first, const AssayValue& second) {
    if (first.value && !first.over_limit) return first;
    if (!first.value || (second.value && (!second.over_limit || *second.value > *first.value))) return second;
    return first;
}

std::optional<std::size_t> leading_analyte(const std::vector<Analyte>& analytes, const std::string& name) {
    if (analytes.empty()) return std::nullopt;
    for (std::size_t i = 0; i < analytes.size(); ++i)
        if (base::folded(analytes[i].name) == base::folded(name)) return i;
    return 0;
}

}  // namespace selvage::tables
