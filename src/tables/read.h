#pragma once

#include "base/finding.h"
#include "base/table.h"
#include "settings/project.h"
#include "tables/records.h"

#include <string>
#include <string_view>
#include <vector>

// Text cells to records.
namespace selvage::tables {

// CSV bytes to a table: the delimiter (comma, semicolon, tab, bar) found from the header and first rows, quotes by RFC 4180, a
// byte-order mark skipped, Windows-1252 turned to UTF-8 where the bytes are not UTF-8, the line of every row kept. Findings: not
// a text file, empty, an unclosed quote, rows longer or shorter than the header.
base::Checked<base::Table> read_csv(std::string name, std::string source, std::string bytes, const std::string& encoding);

// Reads every table that the project names, in the order of `table_descriptions`. What cannot be used is left out and named; a
// table that is missing or no text gives a finding and no rows. Findings on which `stops_run` leave nothing to draw.
base::Checked<Records> read_records(const settings::Project& project);

// True of a finding that leaves nothing sound to draw: collars or surveys are missing, cannot be read or lack a column that they
// need, or the collar table has no row.
bool stops_run(const base::Finding& finding);

const std::vector<const base::Check*>& checks();

}  // namespace selvage::tables
