#include "output/table_rows.h"

#include <algorithm>
#include <tuple>
#include <utility>

namespace selvage::output {

std::string words(const std::vector<std::string>& flags) {
    std::string out;
    for (const std::string& flag : flags) out += (out.empty() ? "" : " ") + flag;
    return out;
}

std::vector<std::vector<Cell>> in_order(std::vector<PlacedRow> rows) {
    std::stable_sort(rows.begin(), rows.end(), [](const PlacedRow& a, const PlacedRow& b) {
        return std::tie(a.hole, a.depth, a.vein) < std::tie(b.hole, b.depth, b.vein);
    });
    std::vector<std::vector<Cell>> out;
    out.reserve(rows.size());
    for (PlacedRow& row : rows) out.push_back(std::move(row.cells));
    return out;
}

NameOrder::NameOrder(const std::vector<tables::Collar>& collars) {
    for (const tables::Collar& collar : collars) numbers_.emplace(collar.hole, numbers_.size());
}

NameOrder::NameOrder(const std::vector<VeinFigures>& veins) {
    for (const VeinFigures& vein : veins) numbers_.emplace(vein.name, numbers_.size());
}

std::size_t NameOrder::of(const std::string& name) const {
    const auto found = numbers_.find(name);
    return found == numbers_.end() ? numbers_.size() : found->second;
}

}  // namespace selvage::output
