#include "tables/bind_columns.h"

#include "base/text.h"
#include "tables/analytes.h"
#include "tables/table_checks.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <utility>

namespace selvage::tables {

namespace {

class Binder {
public:
    Binder(const base::Table& table, const settings::TableEntry& entry, const TableDescription& description,
           std::vector<base::Finding>& findings)
        : table_(table), entry_(entry), description_(description), findings_(findings) {
        for (std::size_t i = 0; i < table.columns.size(); ++i) {
            const std::string name = base::folded(table.columns[i]);
            if (!name.empty() && !place_.emplace(name, i).second) doubled_.insert(name);
        }
        for (const auto& [ours, theirs] : entry.columns) claimed_.insert(base::folded(theirs));
    }

    BoundColumns bind() {
        BoundColumns bound;
        for (const Column& column : description_.columns) {
            const std::size_t at = place_of(column.name);
            bound.at.push_back(at);
            if (at == no_column && column.required) {
                bound.usable = false;
                report_missing(column.name);
            }
        }
        if (description_.analytes) bound.analytes = analyte_columns();
        check_map();
        return bound;
    }

private:
    std::size_t place_of(const std::string& ours) {
        const auto mapped = entry_.columns.find(ours);
        const std::string name = mapped == entry_.columns.end() ? ours : base::folded(mapped->second);
        if (mapped == entry_.columns.end() && claimed_.count(name) > 0) return no_column;
        const auto found = place_.find(name);
        if (found == place_.end()) return no_column;
        if (doubled_.count(name) > 0)
            report(column_twice, fmt::format("two columns are called \"{}\": the first is used", table_.columns[found->second]));
        return found->second;
    }

    void report_missing(const std::string& ours) {
        const auto mapped = entry_.columns.find(ours);
        const std::string wanted = mapped == entry_.columns.end() ? ours : mapped->second;
        const std::string nearest = base::closest_word(wanted, table_.columns);
        report(column_missing, fmt::format("the column {}{} is missing; the nearest that the file has is \"{}\"", ours,
                                           wanted == ours ? "" : fmt::format(" (\"{}\")", wanted), nearest));
    }

    std::vector<AnalyteColumn> analyte_columns() {
        std::vector<AnalyteColumn> analytes;
        for (const auto& [ours, theirs] : entry_.columns)
            if (analyte_of(ours) && place_.count(base::folded(theirs)) > 0) analytes.push_back({ours, place_of(ours)});
        for (const auto& [name, column] : place_)
            if (analyte_of(name) && claimed_.count(name) == 0 && entry_.columns.count(name) == 0)
                analytes.push_back({name, place_of(name)});
        std::sort(analytes.begin(), analytes.end(), [](const auto& a, const auto& b) { return a.column < b.column; });
        return analytes;
    }

    // Every entry of `columns` has to name one of our columns, and one of the file's.
    void check_map() {
        std::vector<std::string> known;
        for (const Column& column : description_.columns) known.push_back(column.name);
        for (const auto& [ours, theirs] : entry_.columns) {
            const auto column = std::find(known.begin(), known.end(), ours);
            const bool required =
                column != known.end() && description_.columns[static_cast<std::size_t>(column - known.begin())].required;
            if (column == known.end() && !(description_.analytes && analyte_of(ours)))
                report(unknown_column_name, fmt::format("columns: the table {} has no column {}; the nearest is {}",
                                                        description_.name, ours, base::closest_word(ours, known)));
            else if (!required && place_.count(base::folded(theirs)) == 0)
                report(mapped_column_missing,
                       fmt::format("the column \"{}\" for {} is missing; the nearest that the file has is \"{}\"", theirs, ours,
                                   base::closest_word(theirs, table_.columns)));
        }
    }

    void report(const base::Check& check, std::string message) {
        findings_.push_back({&check, {table_.name, table_.source, table_.header_row}, "", std::move(message)});
    }

    const base::Table& table_;
    const settings::TableEntry& entry_;
    const TableDescription& description_;
    std::vector<base::Finding>& findings_;
    std::map<std::string, std::size_t> place_;  // folded name -> first column of that name
    std::set<std::string> doubled_, claimed_;
};

}  // namespace

BoundColumns bind_columns(const base::Table& table, const settings::TableEntry& entry, const TableDescription& description,
                          std::vector<base::Finding>& findings) {
    return Binder(table, entry, description, findings).bind();
}

}  // namespace selvage::tables
