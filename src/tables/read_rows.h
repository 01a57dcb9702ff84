#pragma once

#include "base/finding.h"
#include "base/table.h"
#include "base/text.h"
#include "settings/project.h"
#include "tables/bind_columns.h"
#include "tables/rows.h"

#include <cstddef>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace selvage::tables {

// A table of text on its way to rows, and what was found on the way.
class TableReading {
public:
    TableReading(const settings::Project& project, const settings::TableEntry& entry, base::Table table);

    const settings::Project& project;
    const settings::TableEntry& entry;
    base::Table table;
    const TableDescription& description;
    BoundColumns bound;
    std::vector<base::Finding> findings;
    std::string newest_date;

    base::Origin origin(std::size_t row) const { return {table.name, table.source, table.line(row)}; }
    // The hole's name in a row, for messages; empty where the table has none.
    std::string hole(std::size_t row) const;
    void report(const base::Check& check, std::size_t row, std::string message);

    // Reads a filled cell into its slot. False where it cannot be understood and the row has to be left out; it is reported.
    bool read_cell(const ColumnTraits& column, std::string_view cell, const CellSlot& slot, std::size_t row);
    // Reports what was only counted.
    void finish();

private:
    bool refuse(const base::Check& check, const ColumnTraits& column, std::size_t row, const std::string& what);
    bool read_number(const ColumnTraits& column, std::string_view cell, const CellSlot& slot, std::size_t row);
    bool read_choice(const ColumnTraits& column, std::string_view cell, const CellSlot& slot, std::size_t row);
    bool read_yes_no(const ColumnTraits& column, std::string_view cell, const CellSlot& slot, std::size_t row);
    void read_date(const ColumnTraits& column, std::string_view cell, const CellSlot& slot, std::size_t row);

    struct OddDates {
        std::size_t count = 0, first_row = 0;
        std::string first;
    };
    double metres_;
    std::map<std::string, OddDates> odd_dates_;  // by column
};

// Reports a required cell that is empty; always false.
bool refuse_empty(TableReading& reading, const ColumnTraits& column, std::size_t row);

// Reads every row and gives those that can be used to take(Row&&, row number).
template <typename Row, typename Take>
void read_rows(TableReading& reading, Take take) {
    if (!reading.bound.usable) return;
    const std::vector<ColumnOf<Row>>& columns = columns_of(static_cast<const Row*>(nullptr));
    for (std::size_t row = 0; row < reading.table.row_count(); ++row) {
        Row one;
        bool usable = true;
        for (std::size_t i = 0; i < columns.size(); ++i) {
            const ColumnTraits& traits = columns[i].traits;
            const std::size_t at = reading.bound.at[i];
            if (at == no_column) continue;
            const std::string_view cell = base::trimmed_view(reading.table.cell(row, at));
            const bool read = !cell.empty() ? reading.read_cell(traits, cell, columns[i].slot(one), row)
                                            : traits.need != Need::required || refuse_empty(reading, traits, row);
            usable = usable && read;
        }
        if (usable) take(std::move(one), row);
    }
    reading.finish();
}

}  // namespace selvage::tables
