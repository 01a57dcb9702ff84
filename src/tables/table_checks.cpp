#include "tables/table_checks.h"

#include "tables/columns.h"
#include "tables/read.h"

#include <algorithm>

namespace selvage::tables {

using base::Check;
using base::Severity;

const Check table_missing = {"table-missing", Severity::error, "A table that the project names, or that is needed, is not there.",
                             "Correct its name in [tables], or put the file in its place."};
const Check table_unreadable = {"table-unreadable", Severity::error, "A table's file cannot be opened.", "Allow it to be read."};
const Check not_a_text_file = {"not-a-text-file", Severity::error, "A CSV table holds bytes that are no text.",
                               "Save it as CSV, UTF-8."};
const Check source_not_read_yet = {"source-not-read-yet", Severity::error, "A table's source is of a kind that is not read yet.",
                                   "Save the table as CSV, UTF-8, and name that file."};
const Check table_empty = {"table-empty", Severity::error, "A table has no header row.",
                           "Write the column names in its first row."};
const Check table_without_rows = {"table-without-rows", Severity::warning, "A table has a header and no row.",
                                  "Fill it, or take it out of [tables]."};
const Check read_as_windows_1252 = {"read-as-windows-1252", Severity::note, "A table is not UTF-8 and was read as Windows-1252.",
                                    "Save it as UTF-8, or give its encoding in [tables]."};
const Check unclosed_quote = {"unclosed-quote", Severity::error, "A quoted cell has no end.", "Close the quote or take it out."};
const Check row_too_long = {"row-too-long", Severity::error, "A row has more cells than the header.",
                            "Put cells that hold the delimiter into quotes."};
const Check row_too_short = {"row-too-short", Severity::warning,
                             "Rows have fewer cells than the header; those missing are empty.",
                             "Nothing, if the last columns are empty there."};
const Check column_missing = {"column-missing", Severity::error, "A table lacks a column that it needs.",
                              "Name the file's column under columns in the table's entry."};
const Check mapped_column_missing = {"mapped-column-missing", Severity::error,
                                     "The project file names a column that the table does not have.", "Correct the name."};
const Check column_twice = {"column-twice", Severity::error, "Two columns of a table have one name; the first is used.",
                            "Rename or remove one of them."};
const Check unknown_column_name = {"unknown-column-name", Severity::error, "The project file maps a column that no table has.",
                                   "Take the name that the message suggests."};
const Check cell_missing = {"cell-missing", Severity::error, "A cell that has to be filled is empty.", "Fill it."};
const Check not_a_number = {"not-a-number", Severity::error, "A cell that should hold a number does not.", "Correct the cell."};
const Check out_of_range = {"out-of-range", Severity::error, "A value lies outside what is possible.", "Correct the cell."};
const Check unknown_word = {"unknown-word", Severity::error, "A cell that takes one of a few words holds another.",
                            "Take one of the words of the reference."};
const Check date_not_iso = {"date-not-iso", Severity::note, "Dates are not written year-month-day and are not used.",
                            "Write dates as 2026-11-20."};
const Check no_declination = {"no-declination", Severity::error, "A magnetic azimuth has no declination.",
                              "Give declination in [project], or in the row."};
const Check several_columns_of_element = {"several-columns-of-element", Severity::error,
                                          "An element has several columns and nothing says which is best.",
                                          "Add [analyte.<name>] from = [\"best\", \"next\"]."};
const Check analyte_setting = {"analyte-setting", Severity::error, "An [analyte.<name>] does not fit the columns of the tables.",
                               "Correct the column names."};
const Check not_an_assay = {"not-an-assay", Severity::error, "An assay is neither a number nor one of the words for none.",
                            "Correct the cell, or write <limit, >limit or nothing."};

const std::vector<const Check*>& checks() {
    static const std::vector<const Check*> all = {&table_missing,        &table_unreadable,    &not_a_text_file,
                                                  &source_not_read_yet,  &table_empty,         &table_without_rows,
                                                  &read_as_windows_1252, &unclosed_quote,      &row_too_long,
                                                  &row_too_short,        &column_missing,      &mapped_column_missing,
                                                  &column_twice,         &unknown_column_name, &cell_missing,
                                                  &not_a_number,         &out_of_range,        &unknown_word,
                                                  &date_not_iso,         &no_declination,      &several_columns_of_element,
                                                  &analyte_setting,      &not_an_assay};
    return all;
}

bool stops_run(const base::Finding& finding) {
    const auto& tables = table_descriptions();
    const auto table =
        std::find_if(tables.begin(), tables.end(), [&](const TableDescription& one) { return one.name == finding.origin.table; });
    if (table == tables.end() || !table->required) return false;
    for (const Check* check : {&table_missing, &table_unreadable, &not_a_text_file, &source_not_read_yet, &table_empty})
        if (finding.check == check) return true;
    if (finding.check == &table_without_rows) return table->name == "collars";
    return finding.check == &column_missing;
}

}  // namespace selvage::tables
