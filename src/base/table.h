#pragma once

#include <cassert>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

// A table as text: what any source (CSV file, workbook, database) is turned into before it means anything.
namespace selvage::base {

// Cells are UTF-8 and untrimmed, as many in every row as there are columns. All of them stand in one text, one after the other:
// that of the source itself, so that a large file is in memory once. It holds less than 4 GB (`fits`).
class Table {
public:
    explicit Table(std::string text = {}) : text_(std::move(text)) {}

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
    // What the rows are cut from. A row that is added moves to the front what was before its end.
    std::string_view text() const { return text_; }
    // Adds a row: missing cells are empty, those beyond the last column are dropped. The rows come in the order of the text and
    // their cells are no longer than what stands for them there.
    void add_row(std::size_t line, const std::vector<std::string_view>& cells) {
        lines_.push_back(line);
        std::size_t end = ends_.empty() ? 0 : ends_.back();
        for (std::size_t column = 0; column < columns.size(); ++column) {
            if (column < cells.size() && !cells[column].empty()) {
                assert(end + cells[column].size() <= text_.size());
                std::memmove(text_.data() + end, cells[column].data(), cells[column].size());
                end += cells[column].size();
            }
            ends_.push_back(static_cast<std::uint32_t>(end));
        }
    }
    void reserve(std::size_t rows) {
        lines_.reserve(rows);
        ends_.reserve(rows * columns.size());
    }

private:
    std::string text_;
    std::vector<std::uint32_t> ends_;  // of each cell in text_
    std::vector<std::size_t> lines_;
};

}  // namespace selvage::base
