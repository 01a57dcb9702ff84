#include "sheets/table_page.h"

#include "drawing/shortened_name.h"
#include "sheets/marks.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double air = 5.0;             // panel to table
constexpr double heading_height = 7.0;  // the words over the head
constexpr double table_gap = 7.0;       // between two tables on a page
constexpr std::size_t usual_rows_to_start = 4;
constexpr double head_height = 8.4;  // heads and units
constexpr double end_height = 6.0;   // the count under the last row
constexpr double gap_least = 2.0, gap_most = 5.5;
constexpr double top_air = 1.0;
constexpr double tightest_rows = 0.86, loosest_rows = 1.25;  // of the style's row height
constexpr double words_least = 12.0;                         // a column of words is not made narrower

const drawing::TextLook& look_of(const TableColumn& column, const Tools& tools) {
    return tools.style.text(column.strong ? "table_strong" : "table_text");
}

// A figure's part before its point, with sign: what is right-aligned.
std::string before_point(const std::string& figure) { return figure.substr(0, std::min(figure.find('.'), figure.size())); }

struct FigureWidths {
    double before = 0.0, after = 0.0;
};

FigureWidths figure_widths(const TypesetTable& table, std::size_t column, const Tools& tools) {
    FigureWidths widths;
    for (const TableRow& row : table.rows) {
        if (column >= row.cells.size() || row.cells[column].spans != 1) continue;
        const std::string& text = row.cells[column].text;
        const drawing::TextLook& look = look_of(table.columns[column], tools);
        const double before = drawing::text_width_mm(tools.fonts, look, before_point(text));
        widths.before = std::max(widths.before, before);
        widths.after = std::max(widths.after, drawing::text_width_mm(tools.fonts, look, text) - before);
    }
    return widths;
}

// Cells that a spanning one hides.
bool hidden(const TableRow& row, std::size_t column) {
    for (std::size_t i = 0; i < column && i < row.cells.size(); ++i)
        if (i + row.cells[i].spans > column) return true;
    return false;
}

void leave_out(TypesetTable& table, std::size_t column) {
    table.columns.erase(table.columns.begin() + static_cast<std::ptrdiff_t>(column));
    for (TableRow& row : table.rows) {
        if (column >= row.cells.size()) continue;
        for (std::size_t i = 0; i < column; ++i)
            if (i + row.cells[i].spans > column) --row.cells[i].spans;
        if (row.cells[column].spans > 1 && column + 1 < row.cells.size()) {  // it moves to the next of those that it covers
            row.cells[column + 1] = row.cells[column];
            --row.cells[column + 1].spans;
        }
        row.cells.erase(row.cells.begin() + static_cast<std::ptrdiff_t>(column));
    }
}

bool may_shrink(const TableColumn& column) { return column.cells == Cells::words && !column.whole; }

// Its least width, words shortened as far as they may be.
double least_width(const TypesetTable& table, const Tools& tools) {
    const std::vector<double> widths = column_widths(table, tools);
    double sum = gap_least * static_cast<double>(std::max<std::size_t>(widths.size(), 1) - 1);
    for (std::size_t i = 0; i < widths.size(); ++i)
        sum += may_shrink(table.columns[i]) ? std::min(widths[i], words_least) : widths[i];
    return sum;
}

std::string head_in_group(const TableColumn& column) {
    const bool named = column.head.size() > column.group.size() && column.head.compare(0, column.group.size(), column.group) == 0;
    return named ? column.head.substr(column.group.size() + 1) : column.head;
}

// "Collar E 439 845, N 5 159 490, El 1204 m": cells of columns that are left out together.
std::string words_of_cells(const TypesetTable& table, const TableRow& row, const std::vector<std::size_t>& columns) {
    std::string words;
    for (const std::size_t i : columns) {
        if (i >= row.cells.size() || row.cells[i].text.empty()) continue;
        const TableColumn& column = table.columns[i];
        words += words.empty() ? (column.group.empty() ? "" : column.group + " ") : ", ";
        words += (column.group.empty() ? column.head : head_in_group(column)) + " " + row.cells[i].text;
    }
    const std::string& unit = table.columns[columns.back()].unit;
    return words + (words.empty() || unit.empty() ? "" : " " + unit);
}

// Tells them in the sentences under their rows; gives whether each such row has one.
bool told_under_rows(TypesetTable& table, const std::vector<std::size_t>& columns) {
    bool all = true;
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        const std::string words = table.rows[i].joined ? "" : words_of_cells(table, table.rows[i], columns);
        if (words.empty()) continue;
        const auto sentence = [](const TableCell& cell) { return !cell.text.empty() && cell.spans > 1; };
        std::vector<TableCell>* under =
            i + 1 < table.rows.size() && table.rows[i + 1].joined ? &table.rows[i + 1].cells : nullptr;
        const auto cell =
            under == nullptr ? std::vector<TableCell>::iterator{} : std::find_if(under->begin(), under->end(), sentence);
        if (under == nullptr || cell == under->end())
            all = false;
        else
            cell->text = words + "; " + cell->text;
    }
    return all;
}

// The table with no more columns than the room bears; what goes is told in words: under its row, or where it is written.
TypesetTable fitted(TypesetTable table, double room, const Tools& tools) {
    std::string gone;
    for (std::size_t i = table.columns.size(); i-- > 0 && least_width(table, tools) > room;) {
        if (!table.columns[i].may_go) continue;
        const std::string group = table.columns[i].group;
        std::vector<std::size_t> columns;
        for (std::size_t k = 0; k < table.columns.size(); ++k)
            if (k == i || (!group.empty() && table.columns[k].group == group)) columns.push_back(k);
        if (!told_under_rows(table, columns))
            for (auto k = columns.rbegin(); k != columns.rend(); ++k)
                gone = table.columns[*k].head + (gone.empty() ? "" : ", ") + gone;
        for (auto k = columns.rbegin(); k != columns.rend(); ++k) leave_out(table, *k);
        i = columns.front();
    }
    if (!gone.empty() && !table.written_in.empty())
        table.end_words += (table.end_words.empty() ? "" : " ") + ("No room for " + gone) + ": see " + table.written_in + ".";
    return sentences_broken(std::move(table), room, tools);
}

struct Layout {
    std::vector<double> left, width;  // mm on paper
    double gap = gap_least;
};

Layout layout_of(const TypesetTable& table, const Box& panel, const Tools& tools) {
    Layout layout;
    layout.width = column_widths(table, tools);
    const double room = panel.width() - 2.0 * air;
    const double gaps = static_cast<double>(std::max<std::size_t>(layout.width.size(), 2) - 1);
    double sum = std::accumulate(layout.width.begin(), layout.width.end(), 0.0);
    while (sum + gaps * gap_least > room) {
        std::size_t widest = layout.width.size();
        for (std::size_t i = 0; i < layout.width.size(); ++i)
            if (may_shrink(table.columns[i]) && layout.width[i] > words_least &&
                (widest == layout.width.size() || layout.width[i] > layout.width[widest]))
                widest = i;
        if (widest == layout.width.size()) break;
        const double less = std::min({1.0, sum + gaps * gap_least - room + 1e-6, layout.width[widest] - words_least});
        layout.width[widest] -= less;
        sum -= less;
    }
    layout.gap = std::clamp((room - sum) / gaps, 0.8, gap_most);
    double x = panel.left + air;
    for (const double width : layout.width) {
        layout.left.push_back(x);
        x += width + layout.gap;
    }
    return layout;
}

double right_of(const Layout& layout) { return layout.left.back() + layout.width.back(); }

void add_head(Marks& marks, const TypesetTable& table, const Layout& layout, double top, const Tools& tools) {
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        const bool figures = table.columns[i].cells == Cells::figures;
        const double x = figures ? layout.left[i] + layout.width[i] : layout.left[i];
        const drawing::Anchor anchor = figures ? drawing::Anchor::right : drawing::Anchor::left;
        marks.push_back(words({x, top - 3.4}, table.columns[i].head, tools.style.text("table_head"), anchor));
        if (!table.columns[i].unit.empty())
            marks.push_back(words({x, top - 6.8}, table.columns[i].unit, tools.style.text("table_note"), anchor));
    }
    const double rule = top - head_height;
    marks.push_back(line_of({{layout.left.front(), rule}, {right_of(layout), rule}}, tools.style.line("table_rule")));
}

void add_row(Marks& marks, const TypesetTable& table, const TableRow& row, const Layout& layout,
             const std::vector<FigureWidths>& figures, const Box& row_box, const Tools& tools) {
    const double cap = drawing::cap_height_mm(tools.fonts, tools.style.text("table_text"));
    const double base = (row_box.bottom + row_box.top - cap) / 2.0;
    for (std::size_t i = 0; i < table.columns.size() && i < row.cells.size(); ++i) {
        const TableCell& cell = row.cells[i];
        if (hidden(row, i)) continue;
        if (cell.draw) append(marks, cell.draw({layout.left[i], row_box.bottom, layout.left[i] + layout.width[i], row_box.top}));
        if (cell.text.empty()) continue;
        const drawing::TextLook& look = look_of(table.columns[i], tools);
        drawing::Text text{{layout.left[i], base}, cell.text, look, drawing::Anchor::left, false, 0.0, cell.link};
        if (table.columns[i].cells == Cells::figures && cell.spans == 1) {
            text.at.x = layout.left[i] + layout.width[i] - figures[i].after -
                        drawing::text_width_mm(tools.fonts, look, before_point(cell.text));
        } else {
            const std::size_t last = std::min(i + cell.spans, layout.left.size()) - 1;
            const double room = layout.left[last] + layout.width[last] - layout.left[i] + 0.01;
            // Names keep their ends; remarks, in the last column, and sentences their start.
            const bool is_name = cell.spans == 1 && i + 1 < table.columns.size();
            text.text = is_name ? drawing::shortened_name(tools.fonts, look, cell.text, room)
                                : drawing::shortened(tools.fonts, look, cell.text, room);
        }
        marks.emplace_back(std::move(text));
    }
}

// Some rows of a table as they stand on a page.
struct Part {
    std::size_t table = 0, first = 0, end = 0, page = 0;
    double down = 0.0;  // mm from the page's top to its heading
};

bool has_head(const TypesetTable& table) {
    return std::any_of(table.columns.begin(), table.columns.end(),
                       [](const TableColumn& column) { return !column.head.empty() || !column.unit.empty(); });
}

double height_over_rows(const TypesetTable& table) { return heading_height + (has_head(table) ? head_height : 1.0); }

// Fewer rows than these are not started at the foot of a page.
std::size_t rows_to_start(const TypesetTable& table) { return table.rows_high > 1.0 ? 1 : usual_rows_to_start; }

// Where a table that does not fit is broken: not so that the next page gets fewer rows than start a table, nor between joined
// rows.
std::size_t break_of(const TypesetTable& table, std::size_t first, std::size_t fitting) {
    const std::size_t count = table.rows.size();
    std::size_t end = first + std::max<std::size_t>(fitting, 1);
    const std::size_t least = rows_to_start(table);
    if (count - end < least && count > first + 2 * least) end = count - least;
    while (end > first + 1 && table.rows[end].joined) --end;
    return end;
}

// The tables one under another over pages with so much room, mm.
std::vector<Part> paginated(const std::vector<TypesetTable>& tables, double usual_row_height, double room) {
    std::vector<Part> parts;
    std::size_t page = 0;
    double down = 0.0;
    const auto next_page = [&] {
        ++page;
        down = 0.0;
    };
    for (std::size_t table = 0; table < tables.size(); ++table) {
        const std::size_t count = tables[table].rows.size();
        const double row_height = usual_row_height * tables[table].rows_high, over_rows = height_over_rows(tables[table]);
        const double start =
            over_rows + row_height * static_cast<double>(std::min(rows_to_start(tables[table]), count)) + end_height;
        if (down > 0.0) down += table_gap;
        if (down > 0.0 && down + start > room + 1e-9) next_page();
        std::size_t first = 0;
        do {
            const double rows_room = room - down - over_rows - end_height;
            const auto fitting = static_cast<std::size_t>(std::max(0.0, std::floor(rows_room / row_height + 1e-9)));
            const std::size_t end = count - first <= fitting ? count : break_of(tables[table], first, fitting);
            parts.push_back({table, first, end, page, down});
            down += over_rows + row_height * static_cast<double>(end - first) + end_height;
            first = end;
            if (first < count) next_page();
        } while (first < count);
    }
    return parts;
}

std::size_t pages_of(const std::vector<Part>& parts) { return parts.empty() ? 0 : parts.back().page + 1; }

struct Setting {
    double row_height = 0.0, room = 0.0;  // mm
};

// As few pages as rows set close give, the rows then as far apart as these bear, and the pages about equally full.
Setting settled(const std::vector<TypesetTable>& tables, double row_height, double room) {
    const auto pages = [&](const Setting& setting) { return pages_of(paginated(tables, setting.row_height, setting.room)); };
    const std::size_t least = pages({tightest_rows * row_height, room});
    Setting setting{tightest_rows * row_height, room};
    for (double loose = loosest_rows; loose > tightest_rows; loose -= 0.02)
        if (pages({loose * row_height, room}) == least) {
            setting.row_height = loose * row_height;
            break;
        }
    if (least < 2) return setting;
    while (setting.room > room / 2.0 && pages({setting.row_height, setting.room - 1.0}) == least) setting.room -= 1.0;
    return setting;
}

// One page's marks.
struct TablePage {
    Marks marks;
    std::vector<drawing::Destination> destinations;
    std::vector<LegendGroup> legend;
};

class TableWriter {
public:
    TableWriter(const TypesetTable& table, const Box& panel, double row_height, const Tools& tools)
        : table_(table),
          tools_(tools),
          layout_(layout_of(table, panel, tools)),
          row_height_(row_height * table.rows_high),
          room_(panel.width() - 2.0 * air) {
        for (std::size_t i = 0; i < table.columns.size(); ++i) figures_.push_back(figure_widths(table, i, tools));
    }
    void write(TablePage& page, const Part& part, double top) const {
        page.marks.push_back(words({left(), top - 5.0}, table_.heading, tools_.style.text("sentence")));
        if (has_head(table_)) add_head(page.marks, table_, layout_, top - heading_height, tools_);
        top -= height_over_rows(table_);
        for (std::size_t i = part.first; i < part.end; ++i) {
            TableRow row = table_.rows[i];
            if (i == part.first) take_group_up(row, i);
            if (row.rule_above && i > part.first) page.marks.push_back(rule(top, "table_row_rule"));
            add_row(page.marks, table_, row, layout_, figures_, {left(), top - row_height_, right_of(layout_), top}, tools_);
            if (!row.destination.empty()) page.destinations.push_back({row.destination, {left(), top}});
            top -= row_height_;
        }
        if (has_head(table_)) page.marks.push_back(rule(top, "table_rule"));
        const bool last = part.end == table_.rows.size();
        const drawing::TextLook& note = tools_.style.text("table_note");
        double base = top - 4.0;
        for (const std::string& line :
             drawing::wrapped(tools_.fonts, note, last ? table_.end_words : "continued on the next sheet",
                              std::max(right_of(layout_) - left(), room_))) {
            page.marks.push_back(words({left(), base}, line, note));
            base -= tools_.style.size_mm("leading") - 0.6;
        }
    }

private:
    double left() const { return layout_.left.front(); }
    // A page that starts within a group says whose rows these are, as the group's first row does.
    void take_group_up(TableRow& row, std::size_t i) const {
        if (row.cells.empty() || row.cells.front().spans > 1) return;
        while (row.cells.front().text.empty() && i > 0) row.cells.front().text = table_.rows[--i].cells.front().text;
    }
    Mark rule(double y, const char* role) const {
        return line_of({{left(), y}, {right_of(layout_), y}}, tools_.style.line(role));
    }

    const TypesetTable& table_;
    const Tools& tools_;
    Layout layout_;
    std::vector<FigureWidths> figures_;
    double row_height_, room_;  // mm: of a row, and across the panel
};

std::vector<TablePage> written(std::vector<TypesetTable> tables, const Box& panel, const Tools& tools) {
    for (TypesetTable& table : tables) table = fitted(std::move(table), panel.width() - 2.0 * air, tools);
    const double top = panel.top - top_air;
    const Setting setting = settled(tables, tools.style.size_mm("table_row"), top - panel.bottom);
    std::vector<TableWriter> writers;
    for (const TypesetTable& table : tables) writers.emplace_back(table, panel, setting.row_height, tools);
    std::vector<TablePage> pages;
    for (const Part& part : paginated(tables, setting.row_height, setting.room)) {
        pages.resize(part.page + 1);
        writers[part.table].write(pages[part.page], part, top - part.down);
        for (const LegendGroup& group : tables[part.table].legend) pages[part.page].legend.push_back(group);
    }
    return pages;
}

std::string with_part(const std::string& words, std::size_t part, std::size_t parts) {
    if (parts < 2) return words;
    return words + (words.empty() ? "" : ", ") + "part " + std::to_string(part) + " of " + std::to_string(parts);
}

}  // namespace

TypesetTable sentences_broken(TypesetTable table, double width_mm, const Tools& tools) {
    if (table.columns.empty()) return table;
    const Layout layout = layout_of(table, {-air, 0.0, width_mm + air, 0.0}, tools);
    std::vector<TableRow> rows;
    for (TableRow& row : table.rows) {
        const auto cell =
            std::find_if(row.cells.begin(), row.cells.end(), [](const TableCell& one) { return !one.text.empty(); });
        if (!row.joined || cell == row.cells.end() || cell->spans < 2) {
            rows.push_back(std::move(row));
            continue;
        }
        const auto column = static_cast<std::size_t>(cell - row.cells.begin());
        const double room = right_of(layout) - layout.left[column];
        for (std::string& line : drawing::wrapped(tools.fonts, look_of(table.columns[column], tools), cell->text, room)) {
            TableRow one;
            one.joined = true;
            one.cells.resize(row.cells.size());
            one.cells[column] = {std::move(line), cell->link, cell->spans};
            rows.push_back(std::move(one));
        }
    }
    table.rows = std::move(rows);
    return table;
}

std::vector<double> column_widths(const TypesetTable& table, const Tools& tools) {
    std::vector<double> widths(table.columns.size(), 0.0);
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        const TableColumn& column = table.columns[i];
        widths[i] = std::max(drawing::text_width_mm(tools.fonts, tools.style.text("table_head"), column.head),
                             drawing::text_width_mm(tools.fonts, tools.style.text("table_note"), column.unit));
        widths[i] = std::max(widths[i], column.width_mm);
        if (column.cells == Cells::figures) {
            const FigureWidths figures = figure_widths(table, i, tools);
            widths[i] = std::max(widths[i], figures.before + figures.after);
            continue;
        }
        for (const TableRow& row : table.rows)
            if (i < row.cells.size() && row.cells[i].spans == 1 && !hidden(row, i))
                widths[i] = std::max(widths[i], drawing::text_width_mm(tools.fonts, look_of(column, tools), row.cells[i].text));
    }
    return widths;
}

double table_height(const TypesetTable& table, const Tools& tools) {
    return height_over_rows(table) + tools.style.size_mm("table_row") * table.rows_high * static_cast<double>(table.rows.size()) +
           (table.end_words.empty() ? 1.0 : end_height);
}

std::size_t rows_within(const TypesetTable& table, double height_mm, const Tools& tools) {
    const double room = height_mm - height_over_rows(table) - (table.end_words.empty() ? 1.0 : end_height);
    const double rows = std::max(0.0, std::floor(room / (tools.style.size_mm("table_row") * table.rows_high) + 1e-9));
    return std::min(table.rows.size(), static_cast<std::size_t>(rows));
}

SetTable set_table(const TypesetTable& table, const Box& box, const Tools& tools) {
    SetTable set;
    set.rows = rows_within(table, box.height(), tools);
    TypesetTable shown = table;
    shown.rows.resize(set.rows);
    shown.heading = drawing::shortened(tools.fonts, tools.style.text("sentence"), table.heading, box.width());
    shown.end_words = drawing::shortened(tools.fonts, tools.style.text("table_note"), table.end_words, box.width());
    const Box panel{box.left - air, box.bottom, box.right + air, box.top};
    TablePage page;
    TableWriter(shown, panel, tools.style.size_mm("table_row"), tools).write(page, {0, 0, set.rows, 0, 0.0}, box.top);
    set.marks = std::move(page.marks);
    set.destinations = std::move(page.destinations);
    set.bottom = box.top - table_height(shown, tools);
    return set;
}

std::vector<drawing::Sheet> table_pages(const std::vector<TypesetTable>& tables, const PageContent& page, const Results& results,
                                        const RunFacts& run, const Tools& tools) {
    const Paper paper = paper_of(results.project, tools.style);
    const PageBoxes boxes = page_boxes(paper.width_mm, paper.height_mm, tools.style.page.layout);
    const Box panel{boxes.panel.left, boxes.foot.top, boxes.panel.right, boxes.panel.top};
    std::vector<TablePage> pages = written(tables, panel, tools);
    std::vector<drawing::Sheet> sheets;
    for (std::size_t number = 0; number < pages.size(); ++number) {
        PageContent content = page;
        content.whole_panel = true;
        if (number > 0) content.name = page.name + (page.name.empty() ? "" : " ") + std::to_string(number + 1);
        content.title.identification = page.title.identification + "-" + std::to_string(number + 1);
        content.title.subtitle = with_part(page.title.subtitle, number + 1, pages.size());
        content.bookmark = with_part(page.title.title, number + 1, pages.size());
        for (LegendGroup& group : pages[number].legend) content.legend.push_back(std::move(group));
        drawing::Sheet sheet = begin_page(content, results, run, tools);
        put(sheet, Layer::page, 0, std::move(pages[number].marks));
        for (drawing::Destination& destination : pages[number].destinations) sheet.destinations.push_back(std::move(destination));
        sheets.push_back(std::move(sheet));
    }
    return sheets;
}

}  // namespace selvage::sheets
