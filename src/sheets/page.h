#pragma once

#include "drawing/labels.h"
#include "drawing/sheet.h"
#include "drawing/style.h"
#include "drawing/text_width.h"
#include "sheets/compose.h"

#include <functional>
#include <string>
#include <vector>

// The page round a drawing: frame, strip over it, foot under it, column at its right, title block. One file knows where these
// stand.
namespace selvage::sheets {

struct Tools {
    const drawing::Style& style;
    const drawing::FontMetrics& fonts;
};

// Layers of every sheet, by meaning, in the order of Sheet::layers.
enum class Layer : std::size_t { page, grid, ground, holes, veins, results, forecasts, labels };
const std::vector<std::string>& layer_names();

// Paper in landscape, mm. `project.sheets.paper`: "A4" ... "A0", or "279x432", "559x864" (any order); unknown: A3. A style that
// names its own paper wins; of one that enlarges, the paper before that.
struct Paper {
    std::string name;  // "A3"; empty: the style's own
    double width_mm = 420.0, height_mm = 297.0;
};
Paper paper_of(const settings::Project& project, const drawing::Style& style);

// Where things stand on a page of a given paper.
struct PageBoxes {
    drawing::Box frame;        // frame line
    drawing::Box panel;        // left of the column: strip, window, axis and foot
    drawing::Box strip;        // over the drawing: ends and the one sentence
    drawing::Box window;       // the drawing to scale
    drawing::Box foot;         // cautions left, scale and bar scale right
    drawing::Box column;       // text area of the column, above the title block
    drawing::Box title_block;  // under the column; of a slide the bar over it all
};
PageBoxes page_boxes(double width_mm, double height_mm, drawing::PageLayout layout);

struct EndMark {
    std::string letters, bearing, coordinates;  // "NW", "301°", "E 439 845  N 5 159 490"
};

struct TitleText {
    std::string title, subtitle, identification, document_type, scale;
};

// One sign of the legend: drawn by `draw` into a box of about 9 x 3 mm.
struct LegendEntry {
    std::string words;
    std::function<std::vector<drawing::Mark>(const drawing::Box&)> draw;
};
struct LegendGroup {
    std::string heading;
    std::vector<LegendEntry> entries;
};

struct ClassRow {
    int number = 0;  // index of the class: symbol and colour; the signs beyond the classes: see HitSign in grade_classes.h
    std::string words;
    std::size_t count = 0;
    std::string note;
    bool rule_above = false;   // the cut-off: a line over this row
    bool fill_sample = false;  // a small field with the class's area fill beside the symbol
};

// All that stands round one drawing.
struct PageContent {
    std::string kind, name;  // "cross-section", "S7": file name, and the destination `destination_of_sheet(kind, name)`
    std::string bookmark;    // empty: the title
    TitleText title;
    EndMark left_end, right_end;     // empty where the sheet has none (plan, table)
    std::string sentence;            // what is looked at, which way, slab or projection
    double scale_denominator = 0.0;  // 0: not to scale (a table): no bar scale, no window
    std::string scale_note;          // under the scale: empty "one mm is one metre" and the like; else e.g. "on the vein"
    bool whole_panel = false;        // true: a table sheet: no window line, no strip; foot and column stay
    std::vector<std::string> cautions;
    std::string changed;        // since the last pack; empty: as the run has it
    bool tells_changed = true;  // false: its block is left out, where a slide's legend takes its room
    std::string key_plan_heading;
    std::function<std::vector<drawing::Mark>(const drawing::Box&)> key_plan;  // empty: none
    std::string key_plan_scale;                                               // note at the right of its heading: "1:10 000"
    double key_plan_metres_per_mm = 0.0;                                      // of its measuring window; 0: none
    std::string classes_heading;
    std::string classes_note;  // "hits here"
    std::vector<ClassRow> classes;
    std::vector<LegendGroup> legend;
    bool legend_in_one_column = false;   // long words in the legend; else two half columns
    std::vector<std::string> side_list;  // lines, "**bold part** rest" split at the first tab
    std::string side_list_heading;       // empty: "Side list"
    std::string side_list_note;
};

// A page with its frame, blocks and words drawn; the drawing itself is added by the sheet (window 1 is the drawing window, the
// key plan's is the last). Sheet n of m is put in by `number_pages` once the pack is whole.
drawing::Sheet begin_page(const PageContent& content, const Results& results, const RunFacts& run, const Tools& tools);

// Writes "n of m" into each title block, n by the order of the sheets.
void number_pages(std::vector<drawing::Sheet>& sheets, const Tools& tools);

// The name by which links reach a sheet.
std::string destination_of_sheet(const std::string& kind, const std::string& name);

// The allowed scales, their denominators rising: metres 1:100, 200, 250, 500 ..., feet 1:120, 240, 480, 600 ...
const std::vector<double>& scale_ladder(bool feet);

// Which scales are allowed: of the ladder in metres (or feet), on a page that will be enlarged so many times.
struct Scales {
    bool feet = false;
    double enlarged = 1.0;
};
Scales scales_of(const settings::Project& project, const drawing::Style& style);

// The largest scale of the ladder at which an extent of width x height metres fits the window: its denominator on the page before
// it is enlarged.
double fitting_scale(double width_m, double height_m, const drawing::Box& window, const Scales& scales);

// The height that the column's other blocks leave for the key plan's picture, mm.
double key_plan_height(PageContent content, const PageBoxes& boxes, const Tools& tools);
constexpr double key_plan_width = 68.0;  // mm

}  // namespace selvage::sheets
