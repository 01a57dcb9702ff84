#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

// A table as text: what any source (CSV file, workbook, database) is turned into before it means anything.
namespace selvage::base {

// Cells are UTF-8 and untrimmed, as many in every row as there are columns. All of them stand in one text, one after the other,
// so that a large table costs two allocations, not one a cell; it holds less than 4 GB (`fits`).
class Table {
public:
    std::string name;    // the contract's table name
    std::string source;  // the file as the project file writes it
    std::size_t header_row = 1;
    std::vector<std::string> columns;  // as the file writes them; not changed once there are rows

    std::size_t row_count() const { return lines_.size(); }
    // Line in the file (header = 1), a multi-line record's first; row of the sheet in a workbook.
    std::size_t line(std::size_t row) const { return lines_[row]; }
    std::string_view cell(std::size_t row, std::size_t column) const {
        const std::size_t i = row * columns.size() + column;
        const std::size_t start = i == 0 ? 0 : ends_[i - 1];
        return std::string_view(text_).substr(start, ends_[i] - start);
    }
    static bool fits(std::size_t bytes) { return bytes < UINT32_MAX; }
    // Adds a row: missing cells are empty, those beyond the last column are dropped.
    void add_row(std::size_t line, const std::vector<std::string_view>& cells) {
        lines_.push_back(line);
        for (std::size_t column = 0; column < columns.size(); ++column) {
            if (column < cells.size()) text_ += cells[column];
            ends_.push_back(static_cast<std::uint32_t>(text_.size()));
        }
    }
    void reserve(std::size_t bytes, std::size_t rows) {
        text_.reserve(bytes);
        lines_.reserve(rows);
        ends_.reserve(rows * columns.size());
    }

private:
    std::string text_;
    std::vector<std::uint32_t> ends_;  // of each cell in text_
    std::vector<std::size_t> lines_;
};

}  // namespace selvage::base
