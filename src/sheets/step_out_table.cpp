#include "sheets/step_out_table.h"

#include "base/text.h"
#include "planning/holes_passed.h"
#include "planning/left_out_holes.h"
#include "sheets/clearance.h"
#include "sheets/ground.h"
#include "sheets/label_text.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <utility>

namespace selvage::sheets {

namespace {

bool has_costs(const Results& results) {
    const double unset = settings::Rig{}.cost_per_length;
    return results.project.rig.cost_per_length != unset ||
           std::any_of(results.records.pads.begin(), results.records.pads.end(),
                       [](const tables::Pad& pad) { return pad.move_cost.value_or(0.0) > 0.0; });
}

// Rock to drill before the vein is no more than the tail behind it.
bool is_shallow(const planning::StepOut& step_out, const Results& results) {
    return results.site.ground.is_known() && -height_over_ground(results.site.ground, step_out.point) < results.project.plan.tail;
}

bool counts_cost(const settings::Plan& plan) { return plan.weights.size() > 2 && plan.weights[2] != 0.0; }

// What is to be known of a rank besides its figures; the score's are in columns.
std::string remarks_of(const planning::StepOut& step_out, const Results& results) {
    const base::MapFrame& frame = results.records.frame;
    std::string words;
    const auto add = [&words](const std::string& more) { words += (words.empty() ? "" : "; ") + more; };
    if (is_shallow(step_out, results))
        add(length_text(std::max(0.0, -height_over_ground(results.site.ground, step_out.point)), frame, 0) +
            " under the ground: trench or short hole");
    if (const std::string near = holes_beside_words(step_out, results); !near.empty()) add(near);
    if (!step_out.no_pad.empty()) add("no pad serves (" + step_out.no_pad + ")");
    add("takes " + base::fixed(100.0 * step_out.off_variance, 0) + " % off what is left of the variance of " + step_out.vein +
        " itself where no hit is near");
    return words;
}

TableRow words_under(const std::string& words, std::size_t columns) {
    TableRow row;
    row.joined = true;
    row.cells.assign(columns, {});
    row.cells[1] = {words, "", columns - 1};
    return row;
}

std::vector<TableColumn> columns_of(const GradeClasses& classes, const settings::Plan& plan, const std::string& unit,
                                    bool costs) {
    std::vector<TableColumn> columns{{"Rank", "", Cells::figures, true},
                                     {"Target", "vein, place", Cells::words, false, 0.0, false, "", true},
                                     {"Teaches", "% of best", Cells::figures, false},
                                     {"Worth", "% of best", Cells::figures, false}};
    if (counts_cost(plan)) columns.push_back({"Costs", "% of dearest", Cells::figures, false});
    columns.push_back({"Sum", "", Cells::figures, true});
    columns.push_back({"Chance", "of vein", Cells::figures, false});
    columns.push_back({"TW", unit, Cells::figures, false});
    if (classes.any) columns.push_back({"Expected", classes.unit, Cells::figures, false});
    for (const char* axis : {"Pierce E", "Pierce N", "Pierce El"})
        columns.push_back({axis, unit, Cells::figures, true, 0.0, true, "Pierce"});
    columns.push_back({"From", "", Cells::words, false});
    for (const char* axis : {"Collar E", "Collar N", "Collar El"})
        columns.push_back({axis, unit, Cells::figures, false, 0.0, true, "Collar"});
    for (const TableColumn& column : {TableColumn{"Azimuth", "° grid", Cells::figures, false},
                                      {"Dip", "° down", Cells::figures, false},
                                      {"Vein at", unit, Cells::figures, true},
                                      {"End at", unit, Cells::figures, false},
                                      {"Angle", "°", Cells::figures, false}})
        columns.push_back(column);
    if (costs) columns.push_back({"Cost", "money", Cells::figures, false});
    return columns;
}

TableRow row_of(const planning::StepOut& step_out, const settings::Plan& plan, const base::MapFrame& frame, bool worth,
                bool costs) {
    TableRow row;
    row.rule_above = true;
    const auto add = [&row](std::string text) { row.cells.push_back({std::move(text), {}, 1}); };
    const auto add_place = [&](const Eigen::Vector3d& place) {
        const Eigen::Vector3d map = frame.map_from_project(place);
        for (const double coordinate : {map.x(), map.y(), map.z()}) add(spaced_thousands(coordinate));
    };
    const planning::Reach& hole = step_out.hole;
    add(std::to_string(step_out.rank));
    add(step_out.target);
    add(base::fixed(100.0 * step_out.teaches, 0));
    add(base::fixed(100.0 * step_out.worth, 0));
    if (counts_cost(plan)) add(base::fixed(100.0 * step_out.costs, 0));
    add(base::fixed(step_out.score, 2));
    add(chance_text(step_out.presence));
    add(step_out.true_thickness ? length_figure(*step_out.true_thickness, frame) : "");
    if (worth) add(step_out.accumulation ? base::significant(frame.length(*step_out.accumulation), 2) : "");
    add_place(step_out.point);
    add(hole.pad.empty() ? "ground" : hole.pad);
    add_place(hole.collar);
    add(base::fixed(hole.direction.azimuth.degrees(), 0));
    add(base::fixed(hole.direction.dip.degrees(), 1));
    add(length_figure(hole.depth, frame, 0));
    add(length_figure(hole.length, frame, 0));
    add(base::fixed(hole.angle.degrees(), 0));
    if (costs) add(spaced_thousands(hole.cost));
    return row;
}

// Words of the remarks that the table has to explain.
struct NearWords {
    bool passes = false, beside = false;
};

std::string clearance_words(const NearWords& used, const Results& results) {
    if (!used.passes && !used.beside) return "";
    const base::MapFrame& frame = results.records.frame;
    const std::string words = used.passes && used.beside ? "\"Passes\" and \"close beside\""
                              : used.passes              ? "\"Passes\""
                                                         : "\"Close beside\"";
    return " " + words + ": nearer than " + length_text(results.project.plan.clearance, frame, 0) + ", the clearance." +
           (used.beside ? " " + beside_rule_words(frame) : "");
}

// Of collars on ground that nobody measured; empty where none is.
std::string ground_doubt(const Results& results) {
    const bool any = std::any_of(results.step_outs.begin(), results.step_outs.end(), [&](const planning::StepOut& step_out) {
        return step_out.hole.pad.empty() && !results.site.ground.is_given_at(step_out.hole.collar.head<2>());
    });
    if (!any || !results.site.ground.assumed()) return "";
    return " Where no topography is given, the elevation of a collar on the ground is that of a plane through collars and "
           "outcrops, ±" +
           length_text(farthest_from_plane(results.site.ground, results.records), results.records.frame, 0) +
           ": survey it first, and lay direction and depths anew.";
}

}  // namespace

std::string holes_beside_words(const planning::StepOut& step_out, const Results& results) {
    const base::MapFrame& frame = results.records.frame;
    const double clearance = results.project.plan.clearance;
    std::string words;
    const auto add = [&words](const std::string& more) { words += (words.empty() ? "" : "; ") + more; };
    const planning::NearHoles near = planning::holes_passed(step_out.hole, clearance, results.paths);
    if (!near.under.empty()) add("passes " + near_hole_words(near.under, near.under.size(), frame));
    if (!near.beside.empty()) add("starts close beside " + near_hole_words(near.beside, near.beside.size(), frame));
    const std::vector<planning::NearHole> left_out = planning::near_left_out(
        planning::straight_path(step_out.hole), 0.0, step_out.hole.length, clearance, results.records, results.paths);
    if (!left_out.empty())
        add("LEFT OUT by an error in its rows, and as they stand near: " + near_hole_words(left_out, left_out.size(), frame));
    return words;
}

std::string score_words(const settings::Plan& plan) {
    const std::array<const char*, 3> parts{"what it teaches", "what it is worth", "what the hole costs"};
    std::string words;
    for (std::size_t i = 0; i < parts.size() && i < plan.weights.size(); ++i) {
        if (plan.weights[i] == 0.0) continue;
        const bool costs = i == 2;
        words += (words.empty() ? (costs ? "less " : "")
                  : costs       ? " − "
                                : " + ") +
                 base::significant(plan.weights[i], 2) + " × " + parts[i];
    }
    return words.empty() ? "nothing: all weights are 0" : words;
}

TypesetTable step_out_table(const Results& results, const GradeClasses& classes) {
    const base::MapFrame& frame = results.records.frame;
    const bool costs = has_costs(results);
    TypesetTable table;
    table.heading = "Step-outs: where the next holes should pierce, each as though the earlier ranks were drilled";
    table.columns = columns_of(classes, results.project.plan, base::symbol_of(frame.unit), costs);
    NearWords used;
    for (const planning::StepOut& step_out : results.step_outs) {
        const planning::NearHoles near = planning::holes_passed(step_out.hole, results.project.plan.clearance, results.paths);
        used.passes = used.passes || !near.under.empty();
        used.beside = used.beside || !near.beside.empty();
        table.rows.push_back(row_of(step_out, results.project.plan, frame, classes.any, costs));
        table.rows.push_back(words_under(remarks_of(step_out, results), table.columns.size()));
    }
    const std::string tail = length_text(results.project.plan.tail, frame, 0);
    table.end_words =
        "Straight holes, with " + tail + " of foot wall behind the vein; deviation and ground are still to be looked at." +
        clearance_words(used, results) + ground_doubt(results) + (costs ? " Cost: in the money of [rig] cost_per_length." : "");
    return table;
}

}  // namespace selvage::sheets
