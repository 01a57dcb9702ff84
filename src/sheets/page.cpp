#include "sheets/page.h"

#include "base/text.h"
#include "sheets/card_page.h"
#include "sheets/cautions.h"
#include "sheets/column.h"
#include "sheets/frame.h"
#include "sheets/marks.h"
#include "sheets/scale_bar.h"
#include "sheets/title_block.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace selvage::sheets {

namespace {

// ISO 5457 margins: 20 mm on the filing edge, 10 mm elsewhere. A slide is never filed.
constexpr double filing_margin = 20.0, margin = 10.0, slide_margin = 4.0;
constexpr double title_bar_height = 9.2, slide_column_width = 84.0, slide_foot_height = 12.2;
constexpr double column_width = 76.0, column_air = 4.0, title_height = 69.0;
constexpr double strip_height = 9.0, axis_height = 5.5, foot_height = 13.0, side_air = 9.0;
constexpr double narrow_paper = 350.0, narrow_foot_height = 24.0;  // of A4: the cautions take more lines

// ISO 5455, with the intermediate 250 and 2500 and their tens; in feet the inch scales 20, 40, 50, 100, 200 ft to the inch and
// their tens.
const std::vector<double> metre_ladder{100,   200,   250,   500,   1000,   2000,   2500,   5000,
                                       10000, 20000, 25000, 50000, 100000, 200000, 250000, 500000};
const std::vector<double> foot_ladder{120, 240, 480, 600, 1200, 2400, 4800, 6000, 12000, 24000, 48000, 60000, 120000, 240000};

struct NamedPaper {
    const char* name;
    double long_mm, short_mm;
};
constexpr std::array<NamedPaper, 7> papers{{{"A3", 420, 297},
                                            {"A4", 297, 210},
                                            {"A2", 594, 420},
                                            {"A1", 841, 594},
                                            {"A0", 1189, 841},
                                            {"279x432", 432, 279},
                                            {"559x864", 864, 559}}};

constexpr double gap_in_end = 1.6;

// Of the words at an end of the drawing, mm.
double end_width(const EndMark& mark, const Tools& tools) {
    const auto width = [&](const char* role, const std::string& text) {
        return drawing::text_width_mm(tools.fonts, tools.style.text(role), text);
    };
    return std::max(width("end_letters", mark.letters) + gap_in_end + width("end_bearing", mark.bearing),
                    width("end_coordinates", mark.coordinates));
}

void add_strip(Marks& marks, const PageContent& content, const PageBoxes& boxes, const Tools& tools) {
    const double letters_base = boxes.window.top + 4.9, coordinates_base = boxes.window.top + 1.5;
    const auto end = [&](const EndMark& mark, double x, drawing::Anchor anchor) {
        if (mark.letters.empty()) return;
        const double letters = drawing::text_width_mm(tools.fonts, tools.style.text("end_letters"), mark.letters);
        const double bearing = drawing::text_width_mm(tools.fonts, tools.style.text("end_bearing"), mark.bearing);
        const double left = anchor == drawing::Anchor::left ? x : x - letters - gap_in_end - bearing;
        marks.push_back(words({left, letters_base}, mark.letters, tools.style.text("end_letters")));
        marks.push_back(words({left + letters + gap_in_end, letters_base}, mark.bearing, tools.style.text("end_bearing")));
        marks.push_back(words({x, coordinates_base}, mark.coordinates, tools.style.text("end_coordinates"), anchor));
    };
    end(content.left_end, boxes.window.left, drawing::Anchor::left);
    end(content.right_end, boxes.window.right, drawing::Anchor::right);
    // One line in the middle; where the ends leave no room for it, two.
    constexpr double apart = 1.5, upper_line = 5.3, middle_line = 3.4, lower_line = 1.9;
    const drawing::TextLook& look = tools.style.text("sentence");
    const double ends = std::max(end_width(content.left_end, tools), end_width(content.right_end, tools));
    const double room = boxes.window.width() - 2.0 * (ends + apart), x = (boxes.window.left + boxes.window.right) / 2.0;
    std::vector<std::string> lines{content.sentence};
    if (drawing::text_width_mm(tools.fonts, look, content.sentence) > room)
        lines = drawing::wrapped(tools.fonts, look, content.sentence, room);
    for (std::size_t i = 2; i < lines.size(); ++i) lines[1] += " " + lines[i];
    const double first = lines.size() > 1 ? upper_line : middle_line;
    marks.push_back(words({x, boxes.window.top + first}, lines[0], look, drawing::Anchor::centre));
    if (lines.size() > 1)
        marks.push_back(words({x, boxes.window.top + lower_line}, drawing::shortened(tools.fonts, look, lines[1], room), look,
                              drawing::Anchor::centre));
}

void add_foot(Marks& marks, const PageContent& content, const PageBoxes& boxes, base::LengthUnit unit, const RunFacts& run,
              const Tools& tools) {
    const drawing::TextLook& look = tools.style.text("caution");
    marks.push_back(line_of({{boxes.foot.left, boxes.foot.top}, {boxes.foot.right, boxes.foot.top}}, tools.style.line("panel")));
    std::string text;
    for (const std::string& caution : content.cautions) text += (text.empty() ? "" : " ") + caution;
    if (const std::string input = input_caution(run.errors, run.warnings); !input.empty())
        text += (text.empty() ? "" : " ") + input;
    const bool to_scale = content.scale_denominator > 0.0;
    const double denominator = content.scale_denominator / tools.style.page.enlarged;
    const double room = boxes.foot.width() - 8.0 - (to_scale ? scale_bar_room : 0.0);
    const std::vector<std::string> lines = drawing::wrapped(tools.fonts, look, text, room);
    // Many lines stand closer, so that all keep within the foot.
    constexpr double close = 2.9, air = 0.5;
    const double step = lines.size() <= 3 ? tools.style.size_mm("leading")
                                          : std::min(close, (boxes.foot.height() - air) / static_cast<double>(lines.size()));
    const double cap = drawing::cap_height_mm(tools.fonts, look);
    double base = (boxes.foot.bottom + boxes.foot.top - cap) / 2.0 + step * (static_cast<double>(lines.size()) - 1.0) / 2.0;
    for (const std::string& line : lines) {
        marks.push_back(words({boxes.foot.left + 4.0, base}, line, look));
        base -= step;
    }
    if (to_scale) append(marks, scale_bar_marks(boxes.foot, denominator, content.scale_note, unit, tools));
}

TitleText title_with_scale(const PageContent& content, const Tools& tools) {
    TitleText title = content.title;
    if (title.scale.empty())
        title.scale =
            content.scale_denominator > 0.0 ? scale_text(content.scale_denominator / tools.style.page.enlarged) : "not to scale";
    return title;
}

std::string changed_words(const RunFacts& run) {
    if (run.earlier == nullptr) return "first pack: nothing to compare with";
    return run.earlier->date.empty() ? "see the week on a page" : "pack of " + run.earlier->date + ": see the week on a page";
}

drawing::Window window_of(const Box& box, double metres_per_mm, base::LengthUnit unit) {
    drawing::Window window;
    window.box = box;
    window.metres_per_mm = metres_per_mm;
    window.unit = base::symbol_of(unit);
    window.units_per_mm = metres_per_mm / base::metres_per(unit);
    return window;
}

}  // namespace

const std::vector<std::string>& layer_names() {
    static const std::vector<std::string> names{"page", "grid", "ground", "holes", "veins", "results", "forecasts", "labels"};
    return names;
}

Paper paper_of(const settings::Project& project, const drawing::Style& style) {
    const double times = style.page.enlarged;
    if (style.page.width_mm > 0.0) return {"", style.page.width_mm / times, style.page.height_mm / times};
    const std::string asked = base::folded(project.sheets.paper);
    for (const NamedPaper& paper : papers) {
        const std::string turned = base::fixed(paper.long_mm, 0) + "x" + base::fixed(paper.short_mm, 0);
        if (asked == base::folded(paper.name) || asked == turned)
            return {paper.name, paper.long_mm / times, paper.short_mm / times};
    }
    return {papers.front().name, papers.front().long_mm / times, papers.front().short_mm / times};
}

PageBoxes page_boxes(double width_mm, double height_mm, drawing::PageLayout layout) {
    PageBoxes boxes;
    const bool slide = layout == drawing::PageLayout::slide;
    boxes.frame = slide ? Box{slide_margin, slide_margin, width_mm - slide_margin, height_mm - slide_margin}
                        : Box{filing_margin, margin, width_mm - margin, height_mm - margin};
    const Box& frame = boxes.frame;
    const double top = slide ? frame.top - title_bar_height : frame.top;
    const double right = frame.right - (slide ? slide_column_width : column_width);
    boxes.panel = {frame.left, frame.bottom, right, top};
    boxes.strip = {frame.left, top - strip_height, boxes.panel.right, top};
    boxes.foot = {frame.left, frame.bottom, slide ? frame.right : right,
                  frame.bottom + (slide                     ? slide_foot_height
                                  : width_mm < narrow_paper ? narrow_foot_height
                                                            : foot_height)};
    boxes.window = {frame.left + side_air, boxes.foot.top + axis_height, boxes.panel.right - side_air, boxes.strip.bottom};
    boxes.title_block = slide ? Box{frame.left, top, frame.right, frame.top}
                              : Box{boxes.panel.right, frame.bottom, frame.right, frame.bottom + title_height};
    boxes.column = {boxes.panel.right + column_air, slide ? boxes.foot.top : boxes.title_block.top, frame.right - column_air,
                    top};
    return boxes;
}

const std::vector<double>& scale_ladder(bool feet) { return feet ? foot_ladder : metre_ladder; }

Scales scales_of(const settings::Project& project, const drawing::Style& style) {
    return {project.length_unit != base::LengthUnit::metre, style.page.enlarged};
}

double fitting_scale(double width_m, double height_m, const drawing::Box& window, const Scales& scales) {
    const double needed = std::max(width_m / window.width(), height_m / window.height()) * 1000.0 / scales.enlarged;
    const std::vector<double>& ladder = scale_ladder(scales.feet);
    for (const double step : ladder)
        if (needed <= step * (1.0 + 1e-9)) return step * scales.enlarged;
    return ladder.back() * std::pow(2.0, std::ceil(std::log2(needed / ladder.back()))) * scales.enlarged;
}

std::string destination_of_sheet(const std::string& kind, const std::string& name) { return "sheet " + kind + " " + name; }

drawing::Sheet begin_page(const PageContent& asked, const Results& results, const RunFacts& run, const Tools& tools) {
    PageContent content = asked;
    std::replace(content.cautions.begin(), content.cautions.end(), working_document_caution(),
                 head_caution(tools.style.content, results.project.disclosure, run.run_name));
    if (content.changed.empty()) content.changed = changed_words(run);
    const Paper paper = paper_of(results.project, tools.style);
    const drawing::PageLayout layout = tools.style.page.layout;
    const PageBoxes boxes = page_boxes(paper.width_mm, paper.height_mm, layout);
    const bool slide = layout == drawing::PageLayout::slide;
    const base::LengthUnit unit = results.project.length_unit;
    drawing::Sheet sheet;
    sheet.kind = content.kind;
    sheet.name = content.name;
    sheet.title = content.bookmark.empty() ? content.title.title : content.bookmark;
    sheet.width_mm = paper.width_mm;
    sheet.height_mm = paper.height_mm;
    sheet.layers = layer_names();
    sheet.destinations.push_back({destination_of_sheet(content.kind, content.name), {0.0, paper.height_mm}});

    Marks marks = slide ? Marks{box_outline(boxes.frame, tools.style.line("panel"))} : frame_marks(boxes.frame, tools);
    marks.push_back(
        line_of({{boxes.panel.right, slide ? boxes.foot.top : boxes.frame.bottom}, {boxes.panel.right, boxes.panel.top}},
                tools.style.line("panel")));
    if (!content.whole_panel) {
        add_strip(marks, content, boxes, tools);
        sheet.windows.push_back(window_of(boxes.window, content.scale_denominator / 1000.0, unit));
    }
    add_foot(marks, content, boxes, unit, run, tools);
    const TitleText title = title_with_scale(content, tools);
    append(marks, slide ? title_bar_marks(boxes.title_block, title, results, run, tools)
                        : title_block_marks(boxes.title_block, title, paper, results, run, tools));
    ColumnMarks column = column_marks(content, boxes, tools);
    append(marks, std::move(column.marks));
    put(sheet, Layer::page, 0, std::move(marks));
    if (content.key_plan && column.key_plan.width() > 0.0) {
        if (content.key_plan_metres_per_mm > 0.0)
            sheet.windows.push_back(window_of(column.key_plan, content.key_plan_metres_per_mm, unit));
        put(sheet, Layer::page, content.key_plan_metres_per_mm > 0.0 ? sheet.windows.size() : 0,
            content.key_plan(column.key_plan));
        put(sheet, Layer::page, 0, {box_outline(column.key_plan, tools.style.line("window"))});
    }
    return sheet;
}

void number_pages(std::vector<drawing::Sheet>& sheets, const Tools& tools) {
    for (std::size_t i = 0; i < sheets.size(); ++i) {
        const drawing::PageLayout layout = tools.style.page.layout;
        const PageBoxes boxes = page_boxes(sheets[i].width_mm, sheets[i].height_mm, layout);
        const bool slide = layout == drawing::PageLayout::slide;
        put(sheets[i], Layer::page, 0,
            {sheets[i].kind == card_kind ? card_number_mark(i + 1, sheets.size(), tools)
             : slide                     ? bar_number_mark(boxes.title_block, i + 1, sheets.size(), tools)
                                         : sheet_number_mark(boxes.title_block, i + 1, sheets.size(), tools)});
    }
}

}  // namespace selvage::sheets
