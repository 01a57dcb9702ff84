#pragma once

#include <map>
#include <string>
#include <vector>

// Rows looked up by their hole.
namespace selvage::tables {

template <typename Row>
using RowsByHole = std::map<std::string, std::vector<const Row*>>;

// In the order of their table; `rows` outlives it.
template <typename Row>
RowsByHole<Row> by_hole(const std::vector<Row>& rows) {
    RowsByHole<Row> all;
    for (const Row& row : rows) all[row.hole].push_back(&row);
    return all;
}

// None where the hole has none.
template <typename Row>
const std::vector<const Row*>& rows_of(const RowsByHole<Row>& all, const std::string& hole) {
    static const std::vector<const Row*> none;
    const auto found = all.find(hole);
    return found == all.end() ? none : found->second;
}

}  // namespace selvage::tables
