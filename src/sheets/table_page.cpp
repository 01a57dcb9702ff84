#include "sheets/table_page.h"

#include "sheets/marks.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double air = 5.0;               // panel to table
constexpr double heading_height = 7.0;    // the words over the head
constexpr double table_gap = 7.0;         // between two tables on a page
constexpr std::size_t rows_to_start = 4;  // fewer rows are not started at the foot of a page
constexpr double head_height = 8.4;       // heads and units
constexpr double end_height = 6.0;        // the count under the last row
constexpr double gap_least = 2.0, gap_most = 5.5;
constexpr double words_least = 12.0;  // a column of words is not made narrower

const drawing::TextLook& look_of(const TableColumn& column, const TableRow& row, const Tools& tools) {
    if (row.soft) return tools.style.text("table_note");
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
        const drawing::TextLook& look = look_of(table.columns[column], row, tools);
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
            if (table.columns[i].cells == Cells::words && layout.width[i] > words_least &&
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
             const std::vector<FigureWidths>& figures, double base, const Tools& tools) {
    for (std::size_t i = 0; i < table.columns.size() && i < row.cells.size(); ++i) {
        const TableCell& cell = row.cells[i];
        if (cell.text.empty() || hidden(row, i)) continue;
        const drawing::TextLook& look = look_of(table.columns[i], row, tools);
        drawing::Text text{{layout.left[i], base}, cell.text, look, drawing::Anchor::left, false, 0.0, cell.link};
        if (table.columns[i].cells == Cells::figures && cell.spans == 1) {
            text.at.x = layout.left[i] + layout.width[i] - figures[i].after -
                        drawing::text_width_mm(tools.fonts, look, before_point(cell.text));
        } else {
            const std::size_t last = std::min(i + cell.spans, layout.left.size()) - 1;
            text.text =
                drawing::shortened(tools.fonts, look, cell.text, layout.left[last] + layout.width[last] - layout.left[i] + 0.01);
        }
        marks.emplace_back(std::move(text));
    }
}

// Fills pages downwards.
class PageFlow {
public:
    struct Page {
        Marks marks;
        std::vector<drawing::Destination> destinations;
    };
    std::vector<Page> pages;

    PageFlow(const Box& panel, const Tools& tools)
        : panel_(panel), tools_(tools), row_height_(tools.style.size_mm("table_row")) {}

    void add(const TypesetTable& table) {
        const Layout layout = layout_of(table, panel_, tools_);
        std::vector<FigureWidths> figures;
        for (std::size_t i = 0; i < table.columns.size(); ++i) figures.push_back(figure_widths(table, i, tools_));
        const double to_start = table_gap + heading_height + head_height +
                                row_height_ * static_cast<double>(std::min(rows_to_start, table.rows.size()));
        if (pages.empty() || top_ - to_start - end_height < panel_.bottom)
            new_page();
        else
            top_ -= table_gap;
        start(table, layout);
        bool first_of_page = true;
        for (const TableRow& row : table.rows) {
            if (top_ - row_height_ - end_height < panel_.bottom) {
                end(layout, "continued on the next sheet");
                new_page();
                start(table, layout);
                first_of_page = true;
            }
            set_row(table, row, layout, figures, first_of_page);
            first_of_page = false;
        }
        end(layout, table.end_words);
    }

private:
    void new_page() {
        pages.emplace_back();
        top_ = panel_.top - 1.0;
    }
    void start(const TypesetTable& table, const Layout& layout) {
        pages.back().marks.push_back(words({layout.left.front(), top_ - 5.0}, table.heading, tools_.style.text("sentence")));
        add_head(pages.back().marks, table, layout, top_ - heading_height, tools_);
        top_ -= heading_height + head_height;
    }
    void set_row(const TypesetTable& table, const TableRow& row, const Layout& layout, const std::vector<FigureWidths>& figures,
                 bool first_of_page) {
        const double cap = drawing::cap_height_mm(tools_.fonts, tools_.style.text("table_text"));
        if (row.rule_above && !first_of_page)
            pages.back().marks.push_back(
                line_of({{layout.left.front(), top_}, {right_of(layout), top_}}, tools_.style.line("table_row_rule")));
        add_row(pages.back().marks, table, row, layout, figures, top_ - (row_height_ + cap) / 2.0, tools_);
        if (!row.destination.empty()) pages.back().destinations.push_back({row.destination, {layout.left.front(), top_}});
        top_ -= row_height_;
    }
    void end(const Layout& layout, const std::string& last_words) {
        pages.back().marks.push_back(
            line_of({{layout.left.front(), top_}, {right_of(layout), top_}}, tools_.style.line("table_rule")));
        pages.back().marks.push_back(words({layout.left.front(), top_ - 4.0}, last_words, tools_.style.text("table_note")));
        top_ -= end_height;
    }

    Box panel_;
    const Tools& tools_;
    double row_height_, top_ = 0.0;
};

std::string with_part(const std::string& words, std::size_t part, std::size_t parts) {
    if (parts < 2) return words;
    return words + (words.empty() ? "" : ", ") + "part " + std::to_string(part) + " of " + std::to_string(parts);
}

}  // namespace

std::vector<double> column_widths(const TypesetTable& table, const Tools& tools) {
    std::vector<double> widths(table.columns.size(), 0.0);
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        const TableColumn& column = table.columns[i];
        widths[i] = std::max(drawing::text_width_mm(tools.fonts, tools.style.text("table_head"), column.head),
                             drawing::text_width_mm(tools.fonts, tools.style.text("table_note"), column.unit));
        if (column.cells == Cells::figures) {
            const FigureWidths figures = figure_widths(table, i, tools);
            widths[i] = std::max(widths[i], figures.before + figures.after);
            continue;
        }
        for (const TableRow& row : table.rows)
            if (i < row.cells.size() && row.cells[i].spans == 1 && !hidden(row, i))
                widths[i] =
                    std::max(widths[i], drawing::text_width_mm(tools.fonts, look_of(column, row, tools), row.cells[i].text));
    }
    return widths;
}

std::vector<drawing::Sheet> table_pages(const std::vector<TypesetTable>& tables, const PageContent& page, const Results& results,
                                        const RunFacts& run, const Tools& tools) {
    const Paper paper = paper_of(results.project);
    const PageBoxes boxes = page_boxes(paper.width_mm, paper.height_mm);
    const Box panel{boxes.panel.left, boxes.foot.top, boxes.panel.right, boxes.panel.top};
    PageFlow flow(panel, tools);
    for (const TypesetTable& table : tables) flow.add(table);

    std::vector<drawing::Sheet> sheets;
    for (std::size_t number = 0; number < flow.pages.size(); ++number) {
        PageContent content = page;
        content.whole_panel = true;
        if (number > 0) content.name = page.name + (page.name.empty() ? "" : " ") + std::to_string(number + 1);
        content.title.subtitle = with_part(page.title.subtitle, number + 1, flow.pages.size());
        content.bookmark = with_part(page.title.title, number + 1, flow.pages.size());
        drawing::Sheet sheet = begin_page(content, results, run, tools);
        put(sheet, Layer::page, 0, std::move(flow.pages[number].marks));
        for (drawing::Destination& destination : flow.pages[number].destinations)
            sheet.destinations.push_back(std::move(destination));
        sheets.push_back(std::move(sheet));
    }
    return sheets;
}

}  // namespace selvage::sheets
