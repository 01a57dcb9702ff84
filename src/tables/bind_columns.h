#pragma once

#include "base/finding.h"
#include "base/table.h"
#include "settings/project.h"
#include "tables/columns.h"

#include <cstddef>
#include <string>
#include <vector>

namespace selvage::tables {

constexpr std::size_t no_column = static_cast<std::size_t>(-1);

// An analyte column of a file: its folded name of ours, "ag_gpt", and its place.
struct AnalyteColumn {
    std::string name;
    std::size_t column = 0;
};

// Where the columns of a description stand in a file.
struct BoundColumns {
    std::vector<std::size_t> at;          // for each column of the description, no_column where it is not there
    std::vector<AnalyteColumn> analytes;  // in the order of the file
    bool usable = true;                   // false: a required column is missing
};

// Matches names trimmed and without regard to case; the entry's `columns` map ours to the file's, and a column so named is not
// taken for another one as well. Reports what is missing, doubled or mapped in vain.
BoundColumns bind_columns(const base::Table& table, const settings::TableEntry& entry, const TableDescription& description,
                          std::vector<base::Finding>& findings);

}  // namespace selvage::tables
