#pragma once

#include "base/finding.h"

// What can be wrong with a table as such, before anyone asks what it means.
namespace selvage::tables {

extern const base::Check table_missing;
extern const base::Check table_unreadable;
extern const base::Check not_a_text_file;
extern const base::Check source_not_read_yet;
extern const base::Check table_empty;
extern const base::Check table_without_rows;
extern const base::Check read_as_windows_1252;
extern const base::Check unclosed_quote;
extern const base::Check row_too_long;
extern const base::Check row_too_short;
extern const base::Check column_missing;
extern const base::Check mapped_column_missing;
extern const base::Check column_twice;
extern const base::Check unknown_column_name;
extern const base::Check cell_missing;
extern const base::Check not_a_number;
extern const base::Check out_of_range;
extern const base::Check unknown_word;
extern const base::Check date_not_iso;
extern const base::Check no_declination;
extern const base::Check several_columns_of_element;
extern const base::Check analyte_setting;
extern const base::Check not_an_assay;

}  // namespace selvage::tables
