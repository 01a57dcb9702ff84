#include "output/table_rows.h"

namespace selvage::output {

std::vector<PackFile> table_files(const Results& results) {
    const tables::Records& records = results.records;
    const std::vector<VeinFigures> veins = figures_of(results.veins);
    std::vector<PackFile> files;
    for (const ResultTable& table :
         {paths_table(records, results.paths), orientations_table(records, results.orientations),
          intercepts_table(records, results.intercepts.met), no_vein_table(records, veins),
          pierce_points_table(records, results.forecast), not_seen_yet_table(records, results.not_seen),
          fit_table(records, veins), veins_table(records, veins), alpha_tests_table(records, results.alpha_tests, veins),
          sets_table(records, results.structure_sets), vein_of_table(records, results.veins_of), slips_table(records, veins),
          step_outs_table(records, results.step_outs), checks_table(records, results.findings)})
        files.push_back({"tables/" + table.name + ".csv", csv_text(table, records.frame)});
    return files;
}

}  // namespace selvage::output
