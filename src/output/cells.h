#pragma once

#include "base/units.h"
#include "output/write.h"
#include "tables/records.h"

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

// Values of a table before they are text: metres, degrees, the analytes' units. Every kind of file writes these.
namespace selvage::output {

// Nothing: unknown.
using Cell = std::variant<std::monostate, double, std::string>;

Cell cell(const std::optional<double>& value);
Cell cell(const std::optional<base::Angle>& angle);  // degrees
Cell cell(std::size_t count);

struct ResultTable {
    std::string name;
    std::vector<Column> columns;  // as they stand in the file: analytes and units put in
    std::vector<std::vector<Cell>> rows;
};

// The described table without rows, "<analyte>" and "<unit>" put in.
ResultTable empty_table(std::string_view name, const std::vector<tables::Analyte>& analytes, base::LengthUnit unit);

// A cell as the number rules of its quantity write it, in the frame's length unit.
std::string text_of(const Cell& cell, Quantity quantity, const base::MapFrame& frame);

// A field as RFC 4180 writes it: in quotes where it holds a comma, a quote or a line's end.
std::string csv_field(const std::string& text);
// Header and rows, line feeds.
std::string csv_text(const ResultTable& table, const base::MapFrame& frame);

}  // namespace selvage::output
