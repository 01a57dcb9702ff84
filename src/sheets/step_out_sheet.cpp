#include "sheets/step_out_sheet.h"

#include "base/text.h"
#include "sheets/cautions.h"
#include "sheets/label_text.h"
#include "sheets/table_page.h"

#include <cmath>
#include <string>
#include <utility>

namespace selvage::sheets {

namespace {

TableRow words_under(const std::string& words, std::size_t columns) {
    TableRow row;
    row.joined = true;
    row.cells.assign(columns, {});
    row.cells[1] = {words, "", columns - 1};
    return row;
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

TypesetTable step_out_table(const Results& results, const GradeClasses& classes) {
    const base::MapFrame& frame = results.records.frame;
    const std::string unit = base::symbol_of(frame.unit);
    TypesetTable table;
    table.heading = "Step-outs: where the next holes should pierce, each as though the earlier ranks were drilled";
    table.columns = {{"Rank", "", Cells::figures, true},
                     {"Target", "", Cells::words, false},
                     {"Chance", "vein", Cells::figures, true},
                     {"TW", unit, Cells::figures, false}};
    if (classes.any) table.columns.push_back({"Worth", classes.unit, Cells::figures, true});
    for (const char* axis : {"East", "North", "Elevation"})
        table.columns.push_back({axis, unit, Cells::figures, false, 0.0, true});
    for (const TableColumn& column : {TableColumn{"From", "", Cells::words, false},
                                      {"Azimuth", "° grid", Cells::figures, false},
                                      {"Dip", "°", Cells::figures, false},
                                      {"Length", unit, Cells::figures, false},
                                      {"Angle", "°", Cells::figures, false},
                                      {"Cost", "", Cells::figures, false}})
        table.columns.push_back(column);
    for (const planning::StepOut& step_out : results.step_outs) {
        const Eigen::Vector3d map = frame.map_from_project(step_out.point);
        TableRow row;
        row.rule_above = true;
        const auto add = [&row](std::string text) { row.cells.push_back({std::move(text), {}, 1}); };
        add(std::to_string(step_out.rank));
        add(step_out.target);
        add(chance_text(step_out.presence));
        add(step_out.true_thickness ? length_figure(*step_out.true_thickness, frame) : "");
        if (classes.any) add(step_out.accumulation ? base::significant(frame.length(*step_out.accumulation), 2) : "");
        for (const double coordinate : {map.x(), map.y(), map.z()}) add(spaced_thousands(coordinate));
        add(step_out.hole.pad.empty() ? "ground" : step_out.hole.pad);
        add(base::fixed(step_out.hole.direction.azimuth.degrees(), 0));
        add(base::fixed(step_out.hole.direction.dip.degrees(), 0));
        add(length_figure(step_out.hole.length, frame, 0));
        add(base::fixed(step_out.hole.angle.degrees(), 0));
        add(spaced_thousands(step_out.hole.cost));
        table.rows.push_back(std::move(row));
        table.rows.push_back(words_under(step_out.reason, table.columns.size()));
    }
    table.end_words =
        "Worth: the chance that the vein is there times the expected grade x thickness, limited at the vein's largest. "
        "Straight holes; deviation, clearance and ground are still to be looked at.";
    return table;
}

}  // namespace

std::vector<drawing::Sheet> step_out_sheet(const Results& results, const RunFacts& run, const GradeClasses& classes,
                                           const Tools& tools) {
    std::vector<TypesetTable> tables;
    if (!results.step_outs.empty()) tables.push_back(step_out_table(results, classes));
    if (tables.empty()) return {};
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
    page.side_list = {"Rank\tgreedy: the most information and value still to be had",
                      "Target\tvein, place along strike and elevation; it stays the same from week to week where the place does",
                      "From\tpad, or the ground where no pad serves", "Angle\tbetween hole and vein: 90 is a right-angle hit"};
    return table_pages(tables, page, results, run, tools);
}

}  // namespace selvage::sheets
