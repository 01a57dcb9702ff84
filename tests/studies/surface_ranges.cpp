#include "studies/studies.h"

#include "base/parallel.h"
#include "veins/base_plane.h"
#include "veins/surface.h"

#include <fmt/format.h>

#include <cstdint>

namespace selvage::studies {

namespace {

constexpr std::uint64_t seed = 20260102;
constexpr std::size_t veins_of_a_cell = 150;

// Standard error of one cell 1.6 points, of the whole .5; about what another program of the same mathematics reached.
constexpr std::array<Window, 3> cell80{{{75, 88}, {76, 91}, {76, 92}}};
constexpr std::array<Window, 3> pool50{{{47, 58}, {49, 60}, {50, 61}}};
constexpr std::array<Window, 3> pool80{{{79, 84}, {80, 87}, {80, 89}}};
constexpr std::array<Window, 3> pool95{{{93, 98}, {94, 99}, {94, 99}}};

template <typename Percent>
Row row_of(const std::string& what, const Coverages& pool, const std::array<Window, 3>& windows, const Percent& percent) {
    Row row{what, 0, {}};
    for (std::size_t group = 0; group < pool.size(); ++group) {
        row.count += pool[group].count;
        row.figures.emplace_back(Figure{percent(pool[group]), windows[group]});
    }
    return row;
}

double percent50(const made_up::Coverage& pool) { return pool.percent50(); }
double percent80(const made_up::Coverage& pool) { return pool.percent80(); }
double percent95(const made_up::Coverage& pool) { return pool.percent95(); }

}  // namespace

const std::array<const char*, 3>& group_names() {
    static const std::array<const char*, 3> names{"inside", "one spacing out", "two spacings out"};
    return names;
}

Coverages coverages_of(std::size_t count, const std::function<made_up::Vein(std::size_t)>& vein) {
    std::vector<Coverages> worlds(count);
    base::parallel_for(count, [&](std::size_t k) {
        const made_up::Vein world = vein(k);
        made_up::Places places;
        for (const veins::SurfaceDatum& datum : world.data) places.push_back(datum.place);
        const auto model = veins::fit_surface(world.data, veins::hole_spacing(places, world.spacing), {});
        const auto add = [&](made_up::Coverage& coverage, const made_up::Places& where, const Eigen::VectorXd& truth) {
            const std::vector<numerics::NormalMixture> said = veins::heights_at(*model, where);
            for (std::size_t i = 0; i < said.size(); ++i) coverage.add(said[i], truth(static_cast<Eigen::Index>(i)));
        };
        add(worlds[k][0], world.places.inside, world.inside);
        add(worlds[k][1], world.places.one_out, world.one_out);
        add(worlds[k][2], world.places.two_out, world.two_out);
    });
    Coverages all;
    for (const Coverages& world : worlds)
        for (std::size_t group = 0; group < all.size(); ++group) all[group].add(world[group]);
    return all;
}

Study surface_ranges() {
    Study study{"Height of the vein",
                fmt::format("1500 veins of six kinds, {} of each number of holes with and without oriented core. How often "
                            "the 80 % range of the height holds",
                            veins_of_a_cell),
                std::to_string(seed),
                {group_names().begin(), group_names().end()},
                1,
                {},
                {}};
    Coverages pool;
    for (const std::size_t holes : {4U, 6U, 10U, 20U, 40U})
        for (const bool oriented : {false, true}) {
            const Coverages cell =
                coverages_of(veins_of_a_cell, [&](std::size_t k) { return made_up::vein(seed, holes, k, oriented); });
            study.rows.push_back(row_of(fmt::format("{} holes{}", holes, oriented ? ", oriented" : ""), cell, cell80, percent80));
            for (std::size_t group = 0; group < cell.size(); ++group) pool[group].add(cell[group]);
        }
    study.rows.push_back(row_of("all, 50 % range", pool, pool50, percent50));
    study.rows.push_back(row_of("all, 80 % range", pool, pool80, percent80));
    study.rows.push_back(row_of("all, 95 % range", pool, pool95, percent95));
    for (std::size_t group = 0; group < pool.size(); ++group)
        study.reliability.emplace_back(std::string("height, ") + group_names()[group], pool[group]);
    return study;
}

}  // namespace selvage::studies
