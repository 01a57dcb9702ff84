#include "studies/studies.h"

#include <fmt/format.h>

#include <cstdint>

namespace selvage::studies {

namespace {

constexpr std::uint64_t seed = 20260104;
constexpr std::size_t veins_of_a_cell = 120;

}  // namespace

Study unknown_fault() {
    Study study{
        "Across a fault that nobody entered",
        fmt::format("{} veins each, stepped by 6 to 15 m through the middle of the oriented holes. How often the 80 % range "
                    "of the height holds: no window, it is not honest there, and the sheets' cautions say so",
                    veins_of_a_cell),
        std::to_string(seed),
        {group_names().begin(), group_names().end()},
        1,
        {},
        {}};
    for (const std::size_t holes : {8U, 16U})
        for (const double spacing : {25.0, 100.0}) {
            const Coverages cell =
                coverages_of(veins_of_a_cell, [&](std::size_t k) { return made_up::stepped_vein(seed, holes, k, spacing); });
            Row row{fmt::format("{} holes, {:.0f} m apart", holes, spacing), 0, {}};
            for (const made_up::Coverage& pool : cell) {
                row.count += pool.count;
                row.figures.emplace_back(Figure{pool.percent80(), std::nullopt});
            }
            study.rows.push_back(row);
        }
    return study;
}

}  // namespace selvage::studies
