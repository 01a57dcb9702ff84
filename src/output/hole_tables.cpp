#include "output/table_rows.h"

#include "base/parallel.h"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace selvage::output {

namespace {

// Depths that print alike (3 decimals) are one row, m.
constexpr double same_row = 0.0005;

double row_spacing(base::LengthUnit unit) { return unit == base::LengthUnit::metre ? 10.0 : 30.0 * base::metres_per(unit); }

// Stations, whole multiples of the spacing, the end: rising, each once. A station stands for a multiple that prints alike.
std::vector<double> row_depths(const paths::Path& path, double spacing) {
    std::vector<double> depths = {path.start_depth};
    for (const paths::Station& station : path.stations) depths.push_back(station.depth);
    depths.push_back(path.end_depth);
    for (double i = std::floor(path.start_depth / spacing) + 1.0; i * spacing < path.end_depth; i += 1.0)
        depths.push_back(i * spacing);
    std::stable_sort(depths.begin(), depths.end());
    std::vector<double> out;
    for (const double depth : depths)
        if (depth >= path.start_depth && (out.empty() || depth - out.back() > same_row)) out.push_back(depth);
    return out;
}

double sd(double variance) { return std::sqrt(std::max(0.0, variance)); }

std::vector<Cell> path_row(const paths::Path& path, double depth, const base::MapFrame& frame) {
    const Eigen::Vector3d at = paths::position_at(path, depth) + frame.origin;
    const base::Direction direction = base::direction_of(paths::direction_at(path, depth));
    const Eigen::Matrix3d covariance = paths::covariance_at(path, depth);
    return {path.hole,
            depth,
            at.x(),
            at.y(),
            at.z(),
            direction.azimuth.degrees(),
            direction.dip.degrees(),
            sd(covariance(0, 0)),
            sd(covariance(1, 1)),
            sd(covariance(2, 2)),
            covariance(0, 1),
            covariance(0, 2),
            covariance(1, 2),
            std::string(paths::word_of(paths::kind_at(path, depth)))};
}

void append_grades(const intercepts::Intercept& intercept, std::size_t count, std::vector<Cell>& row) {
    for (std::size_t i = 0; i < count; ++i) {
        const bool known = i < intercept.grades.size() && intercept.grades[i].has_value();
        row.push_back(known ? Cell(intercept.grades[i]->value) : Cell());
    }
    for (std::size_t i = 0; i < count; ++i)
        row.push_back(i < intercept.accumulations.size() ? cell(intercept.accumulations[i]) : Cell());
}

}  // namespace

ResultTable paths_table(const tables::Records& records, const std::vector<paths::Path>& paths) {
    ResultTable table = empty_table("paths", records.analytes, records.frame.unit);
    std::vector<std::vector<std::vector<Cell>>> rows(paths.size());
    base::parallel_for(paths.size(), [&](std::size_t i) {
        for (const double depth : row_depths(paths[i], row_spacing(records.frame.unit)))
            rows[i].push_back(path_row(paths[i], depth, records.frame));
    });
    for (std::vector<std::vector<Cell>>& of_hole : rows)
        std::move(of_hole.begin(), of_hole.end(), std::back_inserter(table.rows));
    return table;
}

ResultTable orientations_table(const tables::Records& records, const std::vector<orientation::Orientation>& orientations) {
    ResultTable table = empty_table("orientations", records.analytes, records.frame.unit);
    const NameOrder holes(records.collars);
    std::vector<PlacedRow> rows;
    for (const orientation::Orientation& item : orientations) {
        if (!item.pole) continue;
        const base::Attitude attitude = base::attitude_of_normal(*item.pole);
        rows.push_back({holes.of(item.hole),
                        0,
                        item.depth,
                        {item.hole, item.depth, item.kind, item.vein, attitude.dip.degrees(), attitude.dip_direction.degrees(),
                         base::strike_of(attitude).degrees(), static_cast<double>(item.quality)}});
    }
    table.rows = in_order(std::move(rows));
    return table;
}

ResultTable sets_table(const tables::Records& records, const std::vector<orientation::StructureSet>& sets) {
    ResultTable table = empty_table("sets", records.analytes, records.frame.unit);
    for (const orientation::StructureSet& set : sets)
        table.rows.push_back({set.kind, set.vein, cell(set.number), cell(set.count), set.attitude.dip.degrees(),
                              set.attitude.dip_direction.degrees(), std::isfinite(set.kappa) ? Cell(set.kappa) : Cell(),
                              set.cone95.degrees()});
    return table;
}

ResultTable intercepts_table(const tables::Records& records, const std::vector<intercepts::Intercept>& met) {
    ResultTable table = empty_table("intercepts", records.analytes, records.frame.unit);
    for (const intercepts::Intercept& item : met) {
        const Eigen::Vector3d at = item.point + records.frame.origin;
        std::vector<Cell> row = {item.hole,
                                 item.vein,
                                 item.from,
                                 item.to,
                                 item.length(),
                                 cell(item.true_thickness),
                                 cell(item.horizontal_width),
                                 cell(item.angle),
                                 at.x(),
                                 at.y(),
                                 at.z(),
                                 std::string(intercepts::word_of(item.sampled))};
        append_grades(item, records.analytes.size(), row);
        const std::vector<Cell> rest = {std::string(intercepts::word_of(item.thickness_from)),
                                        cell(item.thickness_sd),
                                        std::string(intercepts::word_of(item.state)),
                                        item.zone,
                                        item.recovery ? Cell(*item.recovery * 100.0) : Cell(),
                                        item.sampled_share,
                                        words(item.flags)};
        row.insert(row.end(), rest.begin(), rest.end());
        table.rows.push_back(std::move(row));
    }
    return table;
}

}  // namespace selvage::output
