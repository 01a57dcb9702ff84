#pragma once

#include <cstddef>
#include <deque>
#include <string>
#include <string_view>
#include <vector>

namespace selvage::tables {

// One record of a CSV text. The cells point into the text or into the scanner and hold until the next record.
struct CsvRecord {
    std::size_t line = 0;                 // its first line, the text's first being 1
    std::vector<std::string_view> cells;  // without their quotes
    bool unclosed = false;                // a quote has no end: the record is that line alone, as it stands

    bool blank() const;  // no cell holds anything but blanks
};

// Cuts a text into records by RFC 4180: cells may stand in double quotes and then hold delimiters, line ends and doubled quotes.
// A line ends with LF, CR LF or CR alone. A quote within an unquoted cell is a letter like others.
class CsvScanner {
public:
    CsvScanner(std::string_view text, char delimiter) : text_(text), delimiter_(delimiter) {}
    // False at the end of the text.
    bool next(CsvRecord& record);

private:
    // Reads a quoted cell whose quote stands at `at_`; false where it has no end.
    bool quoted_cell(std::string_view& cell);
    std::string_view plain_cell();
    void pass_line_end();
    void take_line_as_it_stands(CsvRecord& record, std::size_t start);

    std::string_view text_;
    char delimiter_;
    std::size_t at_ = 0;
    std::size_t line_ = 1;
    std::deque<std::string> unquoted_;  // cells with doubled quotes, of the present record
};

}  // namespace selvage::tables
