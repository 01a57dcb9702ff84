#include "sheets/vein_tables.h"

#include "base/text.h"
#include "sheets/flag_words.h"
#include "sheets/label_text.h"

#include <cstddef>
#include <string>

namespace selvage::sheets {

namespace {

// A second group of columns stands beside the first where rows are short: two fit rows on one line of the table.
constexpr std::size_t groups_beside = 2;

// Share of the intercepts whose thickness came within its range of 8 in 10, percent; nothing where none is foretold.
std::string thickness_coverage(const std::vector<veins::FitRow>& fit) {
    double foretold = 0.0, within = 0.0;
    for (const veins::FitRow& row : fit) {
        if (!row.actual_thickness || !row.thickness_p10 || !row.thickness_p90) continue;
        ++foretold;
        within += *row.actual_thickness >= *row.thickness_p10 && *row.actual_thickness <= *row.thickness_p90 ? 1.0 : 0.0;
    }
    return foretold > 0.0 ? base::fixed(100.0 * within / foretold, 0) : "";
}

}  // namespace

TypesetTable vein_table(const Results& results) {
    const base::MapFrame& frame = results.records.frame;
    const std::string unit = base::symbol_of(frame.unit);
    TypesetTable table;
    table.heading = "Veins as modelled";
    table.columns = {{"Vein", "", Cells::words, true},
                     {"Intercepts", "", Cells::figures, false},
                     {"No vein", "", Cells::figures, false},
                     {"Oriented", "", Cells::figures, false},
                     {"Dip", "°", Cells::figures, false},
                     {"Dip direction", "°", Cells::figures, false},
                     {"Area", unit + "²", Cells::figures, false},
                     {"TW median", unit, Cells::figures, false},
                     {"Hole spacing", unit, Cells::figures, false},
                     {"Modelled to", unit, Cells::figures, false},
                     {"Fit, rms", unit, Cells::figures, true},
                     {"Within 8 in 10", "% of depths", Cells::figures, true},
                     {"Within 8 in 10", "% of TW", Cells::figures, true},
                     {"Remarks", "", Cells::words, false}};
    const double square = base::metres_per(frame.unit) * base::metres_per(frame.unit);
    for (const veins::Vein& vein : results.veins) {
        const veins::VeinSummary& summary = vein.summary();
        TableRow row;
        const auto add = [&row](std::string text) { row.cells.push_back({std::move(text), {}, 1}); };
        add(vein.name());
        add(std::to_string(summary.intercepts));
        add(std::to_string(summary.no_vein));
        add(std::to_string(summary.oriented));
        add(base::fixed(summary.attitude.dip.degrees(), 0));
        add(base::fixed(summary.attitude.dip_direction.degrees(), 0));
        add(base::significant(summary.area / square, 3));
        add(length_figure(summary.thickness_median, frame, 2));
        add(length_figure(summary.hole_spacing, frame, 0));
        add(length_figure(summary.step_out, frame, 0));
        add(vein.fit().empty() ? "" : length_figure(summary.residual_rms, frame, 1));
        add(vein.fit().empty() ? "" : base::fixed(100.0 * summary.coverage80, 0));
        add(thickness_coverage(vein.fit()));
        add(summary.prior_only ? "fewer than three intercepts: errors come from the prior" : "");
        table.rows.push_back(std::move(row));
    }
    table.end_words =
        "Fit: each intercept foretold from all the others, rms: root of the mean squared difference of depth; 80 % should come "
        "within their range of 8 in 10. "
        "% of TW: of core that was lost in a pick half counts, since it may not have been vein; the intercept table counts all "
        "of it. "
        "Modelled to: the distance from a hit or outcrop beyond which nothing is drawn.";
    return table;
}

TypesetTable fit_table(const Results& results) {
    const base::MapFrame& frame = results.records.frame;
    const std::string unit = base::symbol_of(frame.unit);
    TypesetTable table;
    table.heading = "Fit: each intercept's depth down the hole (DH), foretold from all the others, and what came";
    for (std::size_t group = 0; group < groups_beside; ++group) {
        for (const char* head : {"Hole", "Vein"}) table.columns.push_back({head, "", Cells::words, *head == 'H'});
        for (const char* head : {"Foretold", "from", "to", "Came", "Difference"})
            table.columns.push_back({head,
                                     std::string(head) == "from" ? "1 in 10"
                                     : std::string(head) == "to" ? "9 in 10"
                                                                 : unit,
                                     Cells::figures, std::string(head) == "Came"});
        table.columns.push_back({"Range", "8 in 10", Cells::words, false});
    }
    std::vector<TableRow> rows;
    for (const veins::Vein& vein : results.veins)
        for (const veins::FitRow& fit : vein.fit()) {
            TableRow row;
            const auto add = [&row](std::string text) { row.cells.push_back({std::move(text), {}, 1}); };
            add(fit.hole);
            add(vein.name());
            add(length_figure(fit.predicted_depth, frame));
            add(length_figure(fit.depth_p10, frame));
            add(length_figure(fit.depth_p90, frame));
            add(length_figure(fit.actual_depth, frame));
            add(signed_length(fit.actual_depth - fit.predicted_depth, frame));
            add(fit.actual_depth >= fit.depth_p10 && fit.actual_depth <= fit.depth_p90 ? "within" : "outside");
            rows.push_back(std::move(row));
        }
    // Down the first group of columns, then down the second.
    const std::size_t lines = (rows.size() + groups_beside - 1) / groups_beside;
    for (std::size_t i = 0; i < lines; ++i) {
        TableRow line = rows[i];
        for (std::size_t k = i + lines; k < rows.size(); k += lines)
            line.cells.insert(line.cells.end(), rows[k].cells.begin(), rows[k].cells.end());
        line.cells.resize(table.columns.size());
        table.rows.push_back(std::move(line));
    }
    table.end_words = std::to_string(rows.size()) + " intercepts foretold.";
    std::string without;  // the vein's material
    for (const veins::Vein& vein : results.veins)
        for (const veins::FitRow& fit : vein.fit())
            if (!fit.present) without += (without.empty() ? "" : ", ") + fit.hole + " " + vein.name();
    if (!without.empty())
        table.end_words += " Logged as structure: " + without + ": " + state_meaning(tables::PickState::structure) + ".";
    return table;
}

}  // namespace selvage::sheets
