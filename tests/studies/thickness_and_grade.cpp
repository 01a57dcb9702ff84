#include "studies/studies.h"

#include "base/parallel.h"
#include "numerics/median.h"
#include "studies/content_priors.h"
#include "support/made_up_content.h"

#include <fmt/format.h>

#include <cstdint>

namespace selvage::studies {

namespace {

constexpr std::uint64_t seed = 20261126;
constexpr std::size_t worlds = 500, heaviest_parts = 10;
constexpr std::array<std::size_t, 3> holes{6, 12, 30};
constexpr Window window{74, 88};

struct Both {
    Coverages thickness, metal;
};

Both both_of(const made_up::ContentWorld& world) {
    std::vector<veins::LogDatum> thickness_data, grade_data;
    std::vector<double> logs;
    for (const made_up::ContentAt& hole : world.holes) {
        thickness_data.push_back({hole.place, hole.log_thickness, 0.0});
        grade_data.push_back({hole.place, hole.log_grade, 0.0});
        logs.push_back(hole.log_grade);
    }
    const auto thickness = veins::fit_log_field(thickness_data, spacing, thickness_prior());
    const auto grade = veins::fit_log_field(grade_data, spacing, grade_prior(numerics::median(logs)));
    Both both;
    for (std::size_t group = 0; group < world.truth.size(); ++group)
        for (const made_up::ContentAt& place : world.truth[group]) {
            const numerics::NormalMixture t = veins::log_value_at(*thickness, place.place);
            const numerics::NormalMixture g = veins::log_value_at(*grade, place.place);
            both.thickness[group].add(t, place.log_thickness);
            both.metal[group].add(numerics::sum_of_independent(t, g, heaviest_parts), place.log_thickness + place.log_grade);
        }
    return both;
}

}  // namespace

Study thickness_and_grade() {
    Study study{"Thickness, and grade x thickness",
                fmt::format("{} worlds of 6, 12 and 30 holes in turn. How often ranges hold", worlds),
                std::to_string(seed),
                {"50 %", "80 %", "95 %"},
                1,
                {},
                {}};
    std::vector<Both> by_world(worlds);
    base::parallel_for(worlds,
                       [&](std::size_t i) { by_world[i] = both_of(made_up::grade_world(seed, holes[i % holes.size()], i)); });
    for (const bool metal : {false, true}) {
        const std::string what = metal ? "grade x thickness" : "thickness";
        made_up::Coverage all;
        for (std::size_t group = 0; group < group_names().size(); ++group) {
            made_up::Coverage pool;
            for (const Both& world : by_world) pool.add((metal ? world.metal : world.thickness)[group]);
            study.rows.push_back(coverage_row(what + ", " + group_names()[group], pool, std::nullopt, window));
            all.add(pool);
        }
        study.reliability.emplace_back(what, all);
    }
    return study;
}

}  // namespace selvage::studies
