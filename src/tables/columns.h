#pragma once

#include <string>
#include <vector>

// What the input tables may hold: described once, for the reader and for the reference page.
namespace selvage::tables {

struct Column {
    std::string name;
    std::string kind;  // "text", "length", "azimuth in degrees", "one of done, active ..."
    bool required = false;
    bool has_effect = true;  // false: accepted, without effect so far
    std::string meaning;
};

struct TableDescription {
    std::string name;
    bool required = false;
    bool has_effect = true;
    bool analytes = false;  // takes analyte columns <element>_<unit>
    std::string meaning;
    std::vector<Column> columns;
};

// In the order in which tables are read.
const std::vector<TableDescription>& table_descriptions();

}  // namespace selvage::tables
