#include "output/cells.h"

#include "base/parallel.h"
#include "base/text.h"

#include <algorithm>
#include <cassert>

namespace selvage::output {

namespace {

std::string with_name(std::string text, std::string_view mark, std::string_view name) {
    const std::size_t at = text.find(mark);
    if (at != std::string::npos) text.replace(at, mark.size(), name);
    return text;
}

Column for_analyte(const Column& column, const tables::Analyte& analyte, base::LengthUnit unit) {
    Column out = column;
    out.name = with_name(with_name(column.name, "<analyte>", analyte.name), "<unit>", base::symbol_of(unit));
    out.repeats = 0;
    return out;
}

std::string number_text(double value, Quantity quantity, const base::MapFrame& frame) {
    const double unit = base::metres_per(frame.unit);
    switch (quantity) {
        case Quantity::count:
        case Quantity::flag: return base::fixed(value, 0);
        case Quantity::coordinate:
        case Quantity::length:
        case Quantity::length_sd: return base::fixed(value / unit, 3);
        case Quantity::angle:
        case Quantity::percent:
        case Quantity::money: return base::fixed(value, 2);
        case Quantity::azimuth: {
            const std::string text = base::fixed(value, 2);
            return text == "360.00" ? "0.00" : text;
        }
        case Quantity::presence:
        case Quantity::share:
        case Quantity::tangent:
        case Quantity::number: return base::fixed(value, 4);
        case Quantity::grade: return base::significant(value, 6);
        case Quantity::accumulation: return base::significant(value / unit, 6);
        case Quantity::covariance: return base::fixed(value / (unit * unit), 8);
        case Quantity::area: return base::fixed(value / (unit * unit), 3);
        case Quantity::text: break;
    }
    assert(false);  // a column of words has no numbers
    return {};
}

// Rows are written in blocks of this many, a block a thread.
constexpr std::size_t block_rows = 4096;

}  // namespace

Cell cell(const std::optional<double>& value) { return value ? Cell(*value) : Cell(); }
Cell cell(const std::optional<base::Angle>& angle) { return angle ? Cell(angle->degrees()) : Cell(); }
Cell cell(std::size_t count) { return static_cast<double>(count); }

ResultTable empty_table(std::string_view name, const std::vector<tables::Analyte>& analytes, base::LengthUnit unit) {
    const auto& all = table_descriptions();
    const auto description = std::find_if(all.begin(), all.end(), [&](const TableDescription& d) { return d.name == name; });
    assert(description != all.end());
    ResultTable out{std::string(name), {}, {}};
    const std::vector<Column>& columns = description->columns;
    for (std::size_t i = 0; i < columns.size();) {
        std::size_t end = i + 1;
        if (columns[i].repeats == 0) {
            out.columns.push_back(columns[i]);
        } else {
            while (end < columns.size() && columns[end].repeats == columns[i].repeats) ++end;
            for (const tables::Analyte& analyte : analytes)
                for (std::size_t k = i; k < end; ++k) out.columns.push_back(for_analyte(columns[k], analyte, unit));
        }
        i = end;
    }
    return out;
}

std::string text_of(const Cell& cell, Quantity quantity, const base::MapFrame& frame) {
    if (const auto* text = std::get_if<std::string>(&cell)) return *text;
    if (const auto* number = std::get_if<double>(&cell)) return number_text(*number, quantity, frame);
    return {};
}

std::string csv_field(const std::string& text) {
    if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"') out += '"';
        out += c;
    }
    return out + '"';
}

std::string csv_text(const ResultTable& table, const base::MapFrame& frame) {
    std::string text;
    for (const Column& column : table.columns) text += (text.empty() ? "" : ",") + csv_field(column.name);
    text += '\n';
    std::vector<std::string> blocks((table.rows.size() + block_rows - 1) / block_rows);
    base::parallel_for(blocks.size(), [&](std::size_t block) {
        const std::size_t end = std::min(table.rows.size(), (block + 1) * block_rows);
        for (std::size_t row = block * block_rows; row < end; ++row) {
            assert(table.rows[row].size() == table.columns.size());
            for (std::size_t i = 0; i < table.columns.size(); ++i) {
                if (i > 0) blocks[block] += ',';
                blocks[block] += csv_field(text_of(table.rows[row][i], table.columns[i].quantity, frame));
            }
            blocks[block] += '\n';
        }
    });
    for (const std::string& block : blocks) text += block;
    return text;
}

}  // namespace selvage::output
