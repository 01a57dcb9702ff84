#include "tables/csv_scan.h"

#include "base/text.h"

#include <algorithm>

namespace selvage::tables {

namespace {

// A quoted cell longer than this has lost its closing quote. It also bounds the work on a file that is full of such.
constexpr std::size_t most_lines_of_a_cell = 200;

bool ends_line(char c) { return c == '\n' || c == '\r'; }

}  // namespace

bool CsvRecord::blank() const {
    return std::all_of(cells.begin(), cells.end(), [](std::string_view cell) { return base::trimmed_view(cell).empty(); });
}

bool CsvScanner::next(CsvRecord& record) {
    record.cells.clear();
    record.unclosed = false;
    unquoted_.clear();
    if (at_ >= text_.size()) return false;
    const std::size_t start = at_;
    record.line = line_;
    for (;;) {
        std::string_view cell;
        if (at_ < text_.size() && text_[at_] == '"') {
            if (!quoted_cell(cell)) {
                line_ = record.line;
                take_line_as_it_stands(record, start);
                return true;
            }
        } else {
            cell = plain_cell();
        }
        record.cells.push_back(cell);
        if (at_ < text_.size() && text_[at_] == delimiter_) {
            ++at_;
            continue;
        }
        pass_line_end();
        return true;
    }
}

bool CsvScanner::quoted_cell(std::string_view& cell) {
    const std::size_t start = ++at_;
    const std::size_t first_line = line_;
    std::string own;
    std::size_t copied = start;  // the text before it is in `own`
    for (;; ++at_) {
        if (at_ >= text_.size() || line_ - first_line > most_lines_of_a_cell) return false;
        const char c = text_[at_];
        if (c == '\n' || (c == '\r' && !(at_ + 1 < text_.size() && text_[at_ + 1] == '\n'))) ++line_;
        if (c != '"') continue;
        if (at_ + 1 >= text_.size() || text_[at_ + 1] != '"') break;
        own += text_.substr(copied, at_ + 1 - copied);
        copied = at_ + 2;
        ++at_;
    }
    const std::string_view last = text_.substr(copied, at_ - copied);
    ++at_;
    const std::string_view behind = plain_cell();  // what stands between the closing quote and the delimiter: nothing, or a slip
    if (copied == start && behind.empty()) {
        cell = last;
        return true;
    }
    own += last;
    own += behind;
    unquoted_.push_back(std::move(own));
    cell = unquoted_.back();
    return true;
}

std::string_view CsvScanner::plain_cell() {
    const std::size_t start = at_;
    while (at_ < text_.size() && text_[at_] != delimiter_ && !ends_line(text_[at_])) ++at_;
    return text_.substr(start, at_ - start);
}

void CsvScanner::pass_line_end() {
    if (at_ >= text_.size()) return;
    at_ += text_[at_] == '\r' && at_ + 1 < text_.size() && text_[at_ + 1] == '\n' ? 2 : 1;
    ++line_;
}

void CsvScanner::take_line_as_it_stands(CsvRecord& record, std::size_t start) {
    at_ = start;
    while (at_ < text_.size() && !ends_line(text_[at_])) ++at_;
    record.cells = {text_.substr(start, at_ - start)};
    record.unclosed = true;
    pass_line_end();
}

}  // namespace selvage::tables
