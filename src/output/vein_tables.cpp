#include "output/table_rows.h"

#include <cmath>

namespace selvage::output {

namespace {

// Point of a log-normal mixture, in the value's own unit; nothing where the mixture is empty.
Cell quantile_of_log(const numerics::NormalMixture& log_value, double probability) {
    return log_value.empty() ? Cell() : Cell(std::exp(log_value.quantile(probability)));
}

void append_forecast(const numerics::NormalMixture& log_value, std::vector<Cell>& row) {
    for (const double probability : {0.5, 0.1, 0.9}) row.push_back(quantile_of_log(log_value, probability));
}

std::vector<Cell> pierce_row(const forecast::Pierce& pierce, const tables::Records& records) {
    const Eigen::Vector3d at = pierce.point + records.frame.origin;
    std::vector<Cell> row = {pierce.hole, pierce.vein, pierce.depth, pierce.depth_sd(),     pierce.depth_p10, pierce.depth_p90,
                             at.x(),      at.y(),      at.z(),       pierce.angle.degrees()};
    append_forecast(pierce.log_thickness, row);
    row.emplace_back(pierce.presence);
    for (std::size_t i = 0; i < records.analytes.size(); ++i)
        append_forecast(i < pierce.log_grades.size() ? pierce.log_grades[i] : numerics::NormalMixture(), row);
    const std::vector<Cell> rest = {pierce.crossing.block, pierce.call_depth, pierce.stop_depth, pierce.chance_reached,
                                    words(pierce.flags)};
    row.insert(row.end(), rest.begin(), rest.end());
    return row;
}

std::vector<Cell> fit_row(const std::string& vein, const veins::FitRow& fit) {
    return {vein,
            fit.hole,
            fit.predicted_depth,
            fit.depth_sd,
            fit.actual_depth,
            fit.actual_depth - fit.predicted_depth,
            cell(fit.predicted_thickness),
            cell(fit.actual_thickness),
            fit.depth_p10,
            fit.depth_p90,
            cell(fit.thickness_p10),
            cell(fit.thickness_p90),
            fit.presence,
            fit.present ? 1.0 : 0.0};
}

std::vector<Cell> vein_row(const VeinFigures& vein) {
    const veins::VeinSummary& summary = vein.summary;
    const auto where = [](bool known, double value) { return known ? Cell(value) : Cell(); };
    return {vein.name,
            cell(summary.intercepts),
            cell(summary.no_vein),
            cell(summary.oriented),
            summary.attitude.dip.degrees(),
            summary.attitude.dip_direction.degrees(),
            summary.area,
            summary.range,
            summary.slope_sd,
            where(summary.thickness_median > 0.0, summary.thickness_median),
            where(!vein.fit.empty(), summary.residual_rms),
            where(!vein.fit.empty(), summary.coverage80)};
}

}  // namespace

std::vector<VeinFigures> figures_of(const std::vector<veins::Vein>& veins) {
    std::vector<VeinFigures> out;
    out.reserve(veins.size());
    for (const veins::Vein& vein : veins) out.push_back({vein.name(), vein.summary(), vein.fit(), vein.no_vein(), vein.slips()});
    return out;
}

ResultTable no_vein_table(const tables::Records& records, const std::vector<VeinFigures>& veins) {
    ResultTable table = empty_table("no_vein", records.analytes, records.frame.unit);
    const NameOrder holes(records.collars);
    std::vector<PlacedRow> rows;
    for (std::size_t i = 0; i < veins.size(); ++i)
        for (const veins::NoVein& item : veins[i].no_vein)
            rows.push_back({holes.of(item.hole),
                            i,
                            item.depth,
                            {item.hole, veins[i].name, item.depth, item.depth_p10, item.depth_p90,
                             std::string(veins::words_of(item.reason)), item.is_miss() ? Cell(item.presence) : Cell()}});
    table.rows = in_order(std::move(rows));
    return table;
}

ResultTable slips_table(const tables::Records& records, const std::vector<VeinFigures>& veins) {
    ResultTable table = empty_table("slips", records.analytes, records.frame.unit);
    for (const VeinFigures& vein : veins)
        for (const veins::SlipEstimate& one : vein.slips)
            table.rows.push_back({one.fault, vein.name, one.slip.x(), one.slip.y(), one.slip.z(), one.sd.x(), one.sd.y(),
                                  one.sd.z(), one.given ? 1.0 : 0.0, one.used.x(), one.used.y(), one.used.z()});
    return table;
}

ResultTable pierce_points_table(const tables::Records& records, const forecast::Forecast& forecast) {
    ResultTable table = empty_table("pierce_points", records.analytes, records.frame.unit);
    const NameOrder holes(records.collars);
    std::vector<PlacedRow> rows;
    for (const forecast::Pierce& pierce : forecast.pierces)
        rows.push_back({holes.of(pierce.hole), pierce.vein_number, pierce.depth, pierce_row(pierce, records)});
    for (const forecast::NoCrossing& none : forecast.no_crossings) {
        std::vector<Cell> row(table.columns.size());
        row[0] = none.hole;
        row[1] = none.vein;
        row[row.size() - 2] = 0.0;  // chance_reached
        row.back() = std::string("nearest-vein no-crossing");
        rows.push_back({holes.of(none.hole), none.vein_number, 0.0, std::move(row)});
    }
    table.rows = in_order(std::move(rows));
    return table;
}

ResultTable not_seen_yet_table(const tables::Records& records, const std::vector<forecast::NotSeen>& curves) {
    ResultTable table = empty_table("not_seen_yet", records.analytes, records.frame.unit);
    for (const forecast::NotSeen& row : curves) table.rows.push_back({row.hole, row.vein, row.depth, row.chance_ahead});
    return table;
}

ResultTable vein_of_table(const tables::Records& records, const std::vector<forecast::VeinOf>& rows) {
    ResultTable table = empty_table("vein_of", records.analytes, records.frame.unit);
    for (const forecast::VeinOf& row : rows) table.rows.push_back({row.hole, row.from, row.to, row.vein, row.probability});
    return table;
}

ResultTable step_outs_table(const tables::Records& records, const std::vector<planning::StepOut>& step_outs) {
    ResultTable table = empty_table("step_outs", records.analytes, records.frame.unit);
    for (const planning::StepOut& row : step_outs) {
        const Eigen::Vector3d at = row.point + records.frame.origin, collar = row.hole.collar + records.frame.origin;
        table.rows.push_back({cell(row.rank),
                              row.vein,
                              at.x(),
                              at.y(),
                              at.z(),
                              row.presence,
                              cell(row.true_thickness),
                              cell(row.accumulation),
                              row.information,
                              row.hole.pad,
                              row.hole.direction.azimuth.degrees(),
                              row.hole.direction.dip.degrees(),
                              row.hole.length,
                              row.hole.angle.degrees(),
                              row.hole.cost,
                              row.target,
                              row.reason,
                              collar.x(),
                              collar.y(),
                              collar.z(),
                              row.hole.depth});
    }
    return table;
}

ResultTable fit_table(const tables::Records& records, const std::vector<VeinFigures>& veins) {
    ResultTable table = empty_table("fit", records.analytes, records.frame.unit);
    const NameOrder holes(records.collars);
    std::vector<PlacedRow> rows;
    for (std::size_t i = 0; i < veins.size(); ++i)
        for (const veins::FitRow& fit : veins[i].fit)
            rows.push_back({holes.of(fit.hole), i, fit.actual_depth, fit_row(veins[i].name, fit)});
    table.rows = in_order(std::move(rows));
    return table;
}

ResultTable veins_table(const tables::Records& records, const std::vector<VeinFigures>& veins) {
    ResultTable table = empty_table("veins", records.analytes, records.frame.unit);
    for (const VeinFigures& vein : veins) table.rows.push_back(vein_row(vein));
    return table;
}

ResultTable alpha_tests_table(const tables::Records& records, const std::vector<veins::AlphaTest>& tests,
                              const std::vector<VeinFigures>& veins) {
    ResultTable table = empty_table("alpha_tests", records.analytes, records.frame.unit);
    const NameOrder holes(records.collars);
    const NameOrder vein_numbers(veins);
    std::vector<PlacedRow> rows;
    rows.reserve(tests.size());
    for (const veins::AlphaTest& test : tests)
        rows.push_back({holes.of(test.hole),
                        vein_numbers.of(test.vein),
                        test.depth,
                        {test.hole, test.depth, test.vein, test.alpha.degrees(), test.predicted.degrees(), test.sd.degrees()}});
    table.rows = in_order(std::move(rows));
    return table;
}

ResultTable checks_table(const tables::Records& records, const std::vector<base::Finding>& findings) {
    ResultTable table = empty_table("checks", records.analytes, records.frame.unit);
    for (const base::Finding& finding : findings)
        table.rows.push_back({std::string(base::word_of(finding.check->severity)), std::string(finding.check->id),
                              finding.origin.table, finding.origin.row == 0 ? Cell() : cell(finding.origin.row), finding.hole,
                              finding.message});
    return table;
}

}  // namespace selvage::output
