#pragma once

#include "drawing/sheet.h"
#include "sheets/page.h"

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

// A typeset table over as many pages as it takes: units in the head, figures on their point, heads repeated, rows counted.
namespace selvage::sheets {

enum class Cells { words, figures, drawing };

struct TableColumn {
    std::string head;  // "TW"
    std::string unit;  // under the head, in the note's look: "m"; may be empty
    Cells cells = Cells::words;
    bool strong = false;
    double width_mm = 0.0;  // of a column of drawings
    bool may_go = false;    // where the page is too narrow for all columns, such columns are left out, the last one first
    std::string group{};    // columns of one group ("Collar") go together: nobody can use a part of a coordinate
    bool whole = false;     // its words are never cut
};

struct TableCell {
    std::string text;
    std::string link{};     // destination that a click leads to
    std::size_t spans = 1;  // this cell runs over so many columns (the following cells of the row are not printed)
    std::function<std::vector<drawing::Mark>(const drawing::Box&)> draw{};  // instead of words: into the cell's box
};

struct TableRow {
    std::vector<TableCell> cells;  // one a column
    std::string destination;       // by which links reach this row; may be empty
    bool rule_above = false;       // a group starts here
    bool joined = false;           // belongs to the row above: no page starts with it
};

struct TypesetTable {
    std::vector<TableColumn> columns;
    std::vector<TableRow> rows;
    std::string heading;              // over the head, on every page
    std::string end_words;            // under the last row: "34 rows: ..."
    std::vector<LegendGroup> legend;  // of its drawings, on the pages where it stands
    double rows_high = 1.0;           // a row's height in those of the style: more where cells hold drawings
    std::string written_in{};         // the file that has the columns left out for want of room: named under the last row
};

// The table with joined rows that are a sentence too long for the room between its start and the right of a table `width_mm`
// wide broken over several.
TypesetTable sentences_broken(TypesetTable table, double width_mm, const Tools& tools);

// The column widths that the cells need, mm, without the gaps between.
std::vector<double> column_widths(const TypesetTable& table, const Tools& tools);

// A table set into a box, by itself: as many of its rows as the box holds.
struct SetTable {
    std::vector<drawing::Mark> marks;
    std::vector<drawing::Destination> destinations;
    double bottom = 0.0;  // where what follows may start
    std::size_t rows = 0;
};
SetTable set_table(const TypesetTable& table, const drawing::Box& box, const Tools& tools);
// The height that it takes with all its rows, mm; and how many of them a height holds.
double table_height(const TypesetTable& table, const Tools& tools);
std::size_t rows_within(const TypesetTable& table, double height_mm, const Tools& tools);

// The tables one after another over as few pages as they take, a new one on the same page where there is room for its start; the
// pages about equally full. `page` says what stands round them on each page; its identification gets the page's number, its
// subtitle n of m where there are several. A table wider than the panel has its gaps, then its words, made smaller: columns of
// words are shortened.
std::vector<drawing::Sheet> table_pages(const std::vector<TypesetTable>& tables, const PageContent& page, const Results& results,
                                        const RunFacts& run, const Tools& tools);

}  // namespace selvage::sheets
