#include "tables/read_rows.h"

#include "settings/iso_date.h"
#include "settings/setting_checks.h"
#include "tables/table_checks.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace selvage::tables {

namespace {

const TableDescription& description_of(const std::string& table) {
    const auto& all = table_descriptions();
    return *std::find_if(all.begin(), all.end(), [&](const TableDescription& one) { return one.name == table; });
}

bool is_required(const ColumnTraits& column) { return column.need == Need::required || column.need == Need::matters; }

std::string limits_text(const Limits& limits, double unit) {
    if (std::isinf(limits.high)) return fmt::format("below {}", base::significant(limits.low / unit, 6));
    return fmt::format("not from {} to {}", base::significant(limits.low / unit, 6), base::significant(limits.high / unit, 6));
}

void put_number(const CellSlot& slot, double value) {
    if (auto* const* optional = std::get_if<std::optional<double>*>(&slot))
        **optional = value;
    else if (auto* const* whole = std::get_if<int*>(&slot))
        **whole = static_cast<int>(value);
    else
        *std::get<double*>(slot) = value;
}

// Words of a choice are compared with "_" and "-" as blanks.
std::string choice_word(std::string_view cell) {
    std::string word = base::folded(cell);
    std::replace(word.begin(), word.end(), '_', ' ');
    std::replace(word.begin(), word.end(), '-', ' ');
    return word;
}

// Columns and tables that are filled and have no effect so far, in one finding.
void report_without_effect(TableReading& reading) {
    std::vector<std::string> names;
    for (std::size_t i = 0; i < reading.description.columns.size(); ++i)
        if (!reading.description.columns[i].has_effect && reading.bound.at[i] != no_column)
            names.push_back(reading.description.columns[i].name);
    const base::Origin whole{reading.table.name, reading.table.source, 0};
    if (!reading.description.has_effect)
        reading.findings.push_back({&settings::not_honoured_yet, whole, "",
                                    fmt::format("the table {} is read and has no effect yet", reading.table.name)});
    else if (!names.empty())
        reading.findings.push_back({&settings::not_honoured_yet, whole, "",
                                    fmt::format("{} {}: read, without effect yet",
                                                names.size() == 1 ? "the column" : "the columns", fmt::join(names, ", "))});
}

}  // namespace

TableReading::TableReading(const settings::Project& of_project, const settings::TableEntry& of_entry, base::Table of_table)
    : project(of_project),
      entry(of_entry),
      table(std::move(of_table)),
      description(description_of(table.name)),
      metres_(base::metres_per(entry.length_unit.value_or(project.length_unit))) {
    if (table.columns.empty()) {
        bound.usable = false;
        return;
    }
    bound = bind_columns(table, entry, description, findings);
    report_without_effect(*this);
}

std::string TableReading::hole(std::size_t row) const {
    const bool has_hole = description.columns.front().name == "hole" && !bound.at.empty() && bound.at.front() != no_column;
    return has_hole ? base::trimmed(table.cell(row, bound.at.front())) : std::string();
}

void TableReading::report(const base::Check& check, std::size_t row, std::string message) {
    findings.push_back({&check, origin(row), hole(row), std::move(message)});
}

bool TableReading::refuse(const base::Check& check, const ColumnTraits& column, std::size_t row, const std::string& what) {
    const bool left_out = is_required(column);
    report(check, row,
           fmt::format("{} {}: {}", column.name, what, left_out ? "the row is left out" : "the cell counts as empty"));
    return !left_out;
}

bool refuse_empty(TableReading& reading, const ColumnTraits& column, std::size_t row) {
    reading.report(cell_missing, row, fmt::format("{} is empty: the row is left out", column.name));
    return false;
}

bool TableReading::read_cell(const ColumnTraits& column, std::string_view cell, const CellSlot& slot, std::size_t row) {
    switch (column.kind) {
        case CellKind::text: *std::get<std::string*>(slot) = cell; return true;
        case CellKind::word: *std::get<std::string*>(slot) = base::folded(cell); return true;
        case CellKind::choice: return read_choice(column, cell, slot, row);
        case CellKind::yes_no: return read_yes_no(column, cell, slot, row);
        case CellKind::date: read_date(column, cell, slot, row); return true;
        default: return read_number(column, cell, slot, row);
    }
}

bool TableReading::read_number(const ColumnTraits& column, std::string_view cell, const CellSlot& slot, std::size_t row) {
    const std::optional<double> number = base::parse_number(cell, entry.decimal);
    if (!number) return refuse(not_a_number, column, row, fmt::format("\"{}\" is no number", cell));
    double value = *number;
    double unit = 1.0;
    if (column.kind == CellKind::length) unit = metres_;
    if (column.kind == CellKind::percent) unit = 0.01;
    if (column.kind == CellKind::dip && entry.dip_negative_down) value = 0.0 - value;
    value *= unit;
    if (value < column.limits.low || value > column.limits.high)
        return refuse(out_of_range, column, row, fmt::format("{} is {}", cell, limits_text(column.limits, unit)));
    if (column.kind == CellKind::whole && value != std::floor(value))
        return refuse(not_a_number, column, row, fmt::format("{} is no whole number", cell));
    put_number(slot, value);
    return true;
}

bool TableReading::read_choice(const ColumnTraits& column, std::string_view cell, const CellSlot& slot, std::size_t row) {
    const std::string word = choice_word(cell);
    const std::vector<std::string>& words = *column.words;
    const auto found = std::find(words.begin(), words.end(), word);
    if (found == words.end())
        return refuse(unknown_word, column, row,
                      fmt::format("\"{}\" is none of {}; the nearest is {}", cell, fmt::join(words, ", "),
                                  base::closest_word(word, words)));
    *std::get<int*>(slot) = static_cast<int>(found - words.begin());
    return true;
}

bool TableReading::read_yes_no(const ColumnTraits& column, std::string_view cell, const CellSlot& slot, std::size_t row) {
    const std::string word = base::folded(cell);
    const bool yes = word == "1" || word == "yes" || word == "true";
    if (!yes && word != "0" && word != "no" && word != "false")
        return refuse(unknown_word, column, row, fmt::format("\"{}\" is neither 0 nor 1", cell));
    *std::get<bool*>(slot) = yes;
    return true;
}

void TableReading::read_date(const ColumnTraits& column, std::string_view cell, const CellSlot& slot, std::size_t row) {
    if (std::optional<std::string> date = settings::iso_date(cell)) {
        if (*date > newest_date) newest_date = *date;
        *std::get<std::string*>(slot) = std::move(*date);
        return;
    }
    OddDates& odd = odd_dates_[column.name];
    if (odd.count++ == 0) odd = {1, row, std::string(cell)};
}

void TableReading::finish() {
    for (const auto& [column, odd] : odd_dates_)
        findings.push_back({&date_not_iso, origin(odd.first_row), "",
                            fmt::format("{}: {} {} not written year-month-day, \"{}\" first: not used", column, odd.count,
                                        odd.count == 1 ? "date is" : "dates are", odd.first)});
    odd_dates_.clear();
}

}  // namespace selvage::tables
