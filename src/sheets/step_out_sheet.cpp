#include "sheets/step_out_sheet.h"

#include "sheets/cautions.h"
#include "sheets/legend_signs.h"
#include "sheets/paper_choice.h"
#include "sheets/step_out_table.h"
#include "sheets/vein_thumbnail.h"

#include <algorithm>
#include <set>
#include <string>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double air = 5.0, gap = 7.0, least_gap = 2.0;  // mm: panel to table; table to maps, map to map; column to column
constexpr double note_under_table = 3.0;
constexpr double least_map_height = 42.0, most_map_height = 140.0, least_map_width = 90.0;  // mm

double least_width(const TypesetTable& table, const Tools& tools) {
    double sum = -least_gap;
    for (const double width : column_widths(table, tools)) sum += width + least_gap;
    return sum;
}

// What the proposed holes keep, where property or workings are given.
std::string site_caution(const site::Site& site) {
    const bool property = site.property != nullptr, workings = !site.workings.empty();
    if (!property && !workings) return {};
    std::string words = "Step-outs keep ";
    if (property) words += "within the property";
    if (workings) words += std::string(property ? " and " : "") + "clear of old workings whose elevation is given";
    return words + ".";
}

// The long sections of the veins that step-outs pierce, made small, side by side: those of the first ranks where not all fit.
std::vector<VeinThumbnail> maps_within(const Box& box, const Results& results, const GradeClasses& classes, const Tools& tools) {
    std::set<std::size_t> veins;
    const auto most = std::max<std::size_t>(1, static_cast<std::size_t>((box.width() + gap) / (least_map_width + gap)));
    for (const planning::StepOut& step_out : results.step_outs)
        if (veins.size() < most) veins.insert(step_out.vein_number);
    std::vector<VeinThumbnail> maps;
    const double step = (box.width() + gap) / static_cast<double>(veins.size());
    double left = box.left;
    for (const std::size_t vein : veins) {
        maps.push_back(vein_thumbnail(vein, {left, box.bottom, left + step - gap, box.top}, {}, results, classes, tools, true));
        left += step;
    }
    return maps;
}

void add_signs(PageContent& page, const std::vector<VeinThumbnail>& maps, const Results& results, const GradeClasses& classes,
               const Tools& tools) {
    DrawnSigns drawn;
    drawn.step_outs_here = true;
    std::vector<std::size_t> counts(hit_signs, 0);
    for (const VeinThumbnail& map : maps) {
        const DrawnSigns of_map = signs_of(map);
        drawn.signs.insert(of_map.signs.begin(), of_map.signs.end());
        for (std::size_t i = 0; i < hit_signs; ++i) counts[i] += map.counts[i];
    }
    page.classes_heading = classes.quantity.empty() ? "Hits and misses" : classes.quantity;
    page.classes_note = "on the maps";
    page.classes = class_rows(classes, counts);
    page.legend = legend_groups(drawn, results, tools);
    page.legend_in_one_column = true;
    std::vector<drawing::LineLook> edges;
    for (const VeinThumbnail& map : maps) edges.push_back(map.edge);
    page.legend.push_back({"", {{"where a vein's model ends", [edges](const Box& box) {
                                     Marks marks;
                                     double y = (box.bottom + box.top + static_cast<double>(edges.size()) - 1.0) / 2.0;
                                     for (const drawing::LineLook& edge : edges) {
                                         marks.push_back(line_of({{box.left, y}, {box.right, y}}, edge));
                                         y -= 1.0;
                                     }
                                     return marks;
                                 }}}});
}

PageContent page_of(const Results& results) {
    PageContent page;
    page.kind = step_out_sheet_kind;
    page.title.title = "Next holes";
    page.title.subtitle = "step-outs by rank";
    page.title.identification = "NH";
    page.title.document_type = "plan of holes";
    page.cautions = {working_document_caution(), interpretation_caution(results.events), planned_hole_caution({})};
    if (std::string words = site_caution(results.site); !words.empty()) page.cautions.push_back(std::move(words));
    if (!results.site.workings.empty()) page.cautions.push_back(workings_caution());
    page.side_list_heading = "How to read it";
    page.side_list = {
        "Rank\tthe place of the largest sum, of all that are left then",
        "Sum\t" + score_words(results.project.plan) + "; it may rise from rank to rank, since the best left falls",
        "Teaches\tby how much the place of all veins gets surer where no hit is near, as a share of what the best "
        "place left then would teach",
        "Worth\tExpected, as a share of the best left then",
        "Expected\tchance of the vein × expected grade × thickness, no more than the vein's largest",
        "Target\tvein, place along strike and elevation; it stays the same from week to week where the place does",
        "Pierce\ton the middle of the vein",
        "Collar\ta pad, or on the ground where no pad serves",
        "Vein, end at\tdown the hole from the collar",
        "Angle\tbetween hole and vein: 90 is a right-angle hit",
        "Names\ton the maps what is planned, then misses, then hits within two hole spacings of a rank, where there "
        "is room"};
    return page;
}

}  // namespace

std::vector<drawing::Sheet> step_out_sheet(const Results& results, const RunFacts& run, const GradeClasses& classes,
                                           const Tools& tools) {
    if (results.step_outs.empty()) return {};
    const TypesetTable whole = step_out_table(results, classes);
    TypesetTable table = whole;
    table.end_words.clear();
    PageContent page = page_of(results);
    const Paper paper = paper_of(results.project, tools.style);
    const PageBoxes boxes = page_boxes(paper.width_mm, paper.height_mm, tools.style.page.layout);
    const Box panel{boxes.panel.left + air, boxes.foot.top + 1.0, boxes.panel.right - air, boxes.panel.top - 1.0};
    const std::vector<std::string> notes =
        drawing::wrapped(tools.fonts, tools.style.text("table_note"), whole.end_words, panel.width());
    const double note_step = tools.style.size_mm("leading") - 0.6, notes_height = note_step * static_cast<double>(notes.size());
    const double room = panel.height() - table_height(table, tools) - notes_height - gap;
    if (room < least_map_height || least_width(table, tools) > panel.width()) {
        page.side_list.push_back("Holes\t" + whole.end_words);  // there it has room, whatever the table takes
        return table_pages({table}, page, results, run, tools);
    }
    SetTable set = set_table(table, panel, tools);
    for (std::size_t i = 0; i < notes.size(); ++i)
        set.marks.push_back(words({panel.left, set.bottom - note_under_table - note_step * static_cast<double>(i)}, notes[i],
                                  tools.style.text("table_note")));
    const double top = set.bottom - notes_height - gap;
    const Box lower{panel.left, std::max(panel.bottom, top - most_map_height), panel.right, top};
    std::vector<VeinThumbnail> maps = maps_within(lower, results, classes, tools);
    add_signs(page, maps, results, classes, tools);
    page.whole_panel = true;
    page.title.identification += "-1";
    page.title.scale = "maps as stated";
    drawing::Sheet sheet = begin_page(page, results, run, tools);
    put(sheet, Layer::page, 0, std::move(set.marks));
    for (VeinThumbnail& map : maps) put_thumbnail(sheet, std::move(map), results.project.length_unit);
    return {sheet};
}

}  // namespace selvage::sheets
