#include "base/text.h"
#include "tables/csv_scan.h"
#include "tables/read.h"
#include "tables/table_checks.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <tuple>
#include <utility>

namespace selvage::tables {

namespace {

constexpr std::array<char, 4> delimiters = {',', ';', '\t', '|'};
constexpr std::size_t rows_to_find_delimiter = 20;
constexpr std::string_view byte_order_mark = "\xef\xbb\xbf";

bool starts_with(std::string_view text, std::string_view start) { return text.substr(0, start.size()) == start; }

// Why these bytes cannot be a CSV text.
std::optional<std::string> not_text(std::string_view bytes) {
    if (starts_with(bytes, "\xff\xfe") || starts_with(bytes, "\xfe\xff")) return "it is UTF-16 text: save it as UTF-8";
    if (starts_with(bytes, "PK\x03\x04")) return "it is a workbook or another packed file: save the sheet as CSV";
    if (bytes.find('\0') != std::string_view::npos) return "it holds zero bytes: it is binary or UTF-16, not CSV";
    if (!base::Table::fits(2 * bytes.size())) return "it is too large: split it";  // letters may grow when they become UTF-8
    return std::nullopt;
}

// The delimiter that gives the most rows the header's number of cells; of equal ones the most cells, then the order above.
char delimiter_of(std::string_view text) {
    char best = ',';
    std::tuple<std::size_t, std::size_t> most{0, 0};
    for (const char delimiter : delimiters) {
        CsvScanner scanner(text, delimiter);
        CsvRecord record;
        std::size_t columns = 0;
        std::size_t alike = 0;
        for (std::size_t rows = 0; rows < rows_to_find_delimiter && scanner.next(record);) {
            if (record.blank()) continue;
            if (columns == 0) columns = record.cells.size();
            alike += record.cells.size() == columns ? 1U : 0U;
            ++rows;
        }
        const std::tuple<std::size_t, std::size_t> score{alike, columns};
        if (columns > 1 && score > most) {
            most = score;
            best = delimiter;
        }
    }
    return best;
}

class TableBuilder {
public:
    TableBuilder(base::Table& table, std::vector<base::Finding>& findings) : table_(table), findings_(findings) {}

    void take(const CsvRecord& record) {
        if (record.blank()) return;
        if (record.unclosed) {
            report(unclosed_quote, record.line, "a quote in this row has no end: the row is left out");
        } else if (table_.columns.empty()) {
            table_.header_row = record.line;
            for (const std::string_view cell : record.cells) table_.columns.push_back(base::trimmed(cell));
        } else {
            take_row(record);
        }
    }

    void finish() {
        if (short_rows_ > 0)
            report(row_too_short, first_short_row_,
                   fmt::format("{} {} fewer cells than the header, this row first: the missing ones are taken as empty",
                               short_rows_, short_rows_ == 1 ? "row has" : "rows have"));
        if (table_.columns.empty())
            report(table_empty, 0, "it has no header row");
        else if (table_.row_count() == 0)
            report(table_without_rows, 0, "it has no rows");
    }

private:
    void take_row(const CsvRecord& record) {
        const std::size_t columns = table_.columns.size();
        const bool spill = record.cells.size() > columns &&
                           std::any_of(record.cells.begin() + static_cast<std::ptrdiff_t>(columns), record.cells.end(),
                                       [](std::string_view cell) { return !base::trimmed_view(cell).empty(); });
        if (spill)
            return report(row_too_long, record.line,
                          fmt::format("the row has {} cells, the header {}: it is left out", record.cells.size(), columns));
        if (record.cells.size() < columns && short_rows_++ == 0) first_short_row_ = record.line;
        table_.add_row(record.line, record.cells);
    }

    void report(const base::Check& check, std::size_t row, std::string message) {
        findings_.push_back({&check, {table_.name, table_.source, row}, "", std::move(message)});
    }

    base::Table& table_;
    std::vector<base::Finding>& findings_;
    std::size_t short_rows_ = 0;
    std::size_t first_short_row_ = 0;
};

}  // namespace

base::Checked<base::Table> read_csv(std::string name, std::string source, std::string bytes, const std::string& encoding) {
    base::Checked<base::Table> read;
    base::Table& table = read.value;
    const base::Origin whole{name, source, 0};
    const std::optional<std::string> reason = not_text(bytes);
    if (reason) {
        read.findings.push_back({&not_a_text_file, whole, "", *reason});
        bytes.clear();
    } else if (encoding == "windows-1252" || !base::is_utf8(bytes)) {
        bytes = base::utf8_from_windows_1252(bytes);
        if (encoding != "windows-1252")
            read.findings.push_back({&read_as_windows_1252, whole, "", "it is not UTF-8: read as Windows-1252"});
    }
    table = base::Table(std::move(bytes));
    table.name = std::move(name);
    table.source = std::move(source);
    if (reason) return read;
    std::string_view text = table.text();
    if (starts_with(text, byte_order_mark)) text.remove_prefix(byte_order_mark.size());

    CsvScanner scanner(text, delimiter_of(text));
    TableBuilder builder(table, read.findings);
    CsvRecord record;
    while (scanner.next(record)) {
        const bool header = table.columns.empty();
        builder.take(record);
        if (header && !table.columns.empty()) table.reserve(static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n')));
    }
    builder.finish();
    return read;
}

}  // namespace selvage::tables
