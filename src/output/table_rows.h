#pragma once

#include "output/cells.h"
#include "output/write.h"

#include <map>
#include <string>
#include <vector>

// The rows of each table, by the order of the collar table, then depth, then the veins' order.
namespace selvage::output {

// What the tables need of a modelled vein.
struct VeinFigures {
    std::string name;
    veins::VeinSummary summary;
    std::vector<veins::FitRow> fit;
    std::vector<veins::NoVein> no_vein;
    std::vector<veins::SlipEstimate> slips;
};
std::vector<VeinFigures> figures_of(const std::vector<veins::Vein>& veins);

ResultTable paths_table(const tables::Records& records, const std::vector<paths::Path>& paths);
ResultTable orientations_table(const tables::Records& records, const std::vector<orientation::Orientation>& orientations);
ResultTable intercepts_table(const tables::Records& records, const std::vector<intercepts::Intercept>& met);
ResultTable no_vein_table(const tables::Records& records, const std::vector<VeinFigures>& veins);
ResultTable pierce_points_table(const tables::Records& records, const forecast::Forecast& forecast);
ResultTable not_seen_yet_table(const tables::Records& records, const std::vector<forecast::NotSeen>& curves);
ResultTable sets_table(const tables::Records& records, const std::vector<orientation::StructureSet>& sets);
ResultTable vein_of_table(const tables::Records& records, const std::vector<forecast::VeinOf>& rows);
ResultTable slips_table(const tables::Records& records, const std::vector<VeinFigures>& veins);
ResultTable step_outs_table(const tables::Records& records, const std::vector<planning::StepOut>& step_outs);
ResultTable fit_table(const tables::Records& records, const std::vector<VeinFigures>& veins);
ResultTable veins_table(const tables::Records& records, const std::vector<VeinFigures>& veins);
ResultTable alpha_tests_table(const tables::Records& records, const std::vector<veins::AlphaTest>& tests,
                              const std::vector<VeinFigures>& veins);
ResultTable checks_table(const tables::Records& records, const std::vector<base::Finding>& findings);

// Words of a closed list in one cell, separated by blanks.
std::string words(const std::vector<std::string>& flags);

// A row on its way to its place in the table: sorted by hole, depth, then vein, equal ones in the order in which they came.
struct PlacedRow {
    std::size_t hole = 0, vein = 0;
    double depth = 0.0;
    std::vector<Cell> cells;
};
std::vector<std::vector<Cell>> in_order(std::vector<PlacedRow> rows);

// Index of a name in the collar table or among the veins; past the end where it stands in neither.
class NameOrder {
public:
    explicit NameOrder(const std::vector<tables::Collar>& collars);
    explicit NameOrder(const std::vector<VeinFigures>& veins);
    std::size_t of(const std::string& name) const;

private:
    std::map<std::string, std::size_t> numbers_;
};

}  // namespace selvage::output
