#include "checks/check_records.h"

#include "checks/collar_rows.h"
#include "checks/contents.h"
#include "checks/holes.h"
#include "checks/names.h"
#include "checks/row_order.h"
#include "checks/stations.h"
#include "tables/columns.h"

#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

namespace selvage::checks {

namespace {

// In the order of tables, then rows; findings on one row stay in the order in which they were made.
void sort_findings(std::vector<base::Finding>& findings) {
    std::map<std::string, std::size_t> order;
    for (const tables::TableDescription& table : tables::table_descriptions()) order.emplace(table.name, order.size());
    const auto place = [&](const base::Finding& finding) {
        return std::make_pair(order[finding.origin.table], finding.origin.row);
    };
    std::stable_sort(findings.begin(), findings.end(),
                     [&](const base::Finding& a, const base::Finding& b) { return place(a) < place(b); });
}

}  // namespace

base::Checked<tables::Records> usable_records(tables::Records records, const std::vector<std::string>& veins) {
    std::vector<base::Finding> findings;
    const base::MapFrame frame = records.frame;
    Checking checking{frame, findings};

    UsableCollars usable = usable_collars(std::move(records.collars), checking);
    records.collars = std::move(usable.collars);
    records.left_out = std::move(usable.left_out);
    const Holes holes(records.collars);
    spell_holes(records, holes, usable.gone, checking);
    spell_veins(records, veins, checking);
    leave_out_impossible_rows(records, holes, checking);
    settle_assays(records.assays, holes, checking);
    settle_structures(records.structures, checking);
    settle_stations(records, holes, checking);
    settle_places(records, checking);
    settle_progress(records, checking);

    check_collars(records.collars, checking);
    check_assays(records, checking);
    check_logs(records, holes, checking);
    check_stations(records, holes, checking);
    sort_findings(findings);
    return {std::move(records), std::move(findings)};
}

}  // namespace selvage::checks
