#include "studies/plug_in.h"
#include "studies/studies.h"

#include "base/parallel.h"
#include "support/made_up_vein.h"
#include "veins/base_plane.h"
#include "veins/surface_model.h"

#include <fmt/format.h>

#include <cstdint>

namespace selvage::studies {

namespace {

constexpr std::uint64_t seed = 20260103;
constexpr std::size_t veins_of_a_cell = 240;
constexpr std::array<double, 3> most{0.95, 0.92, 0.90};  // of the pooled ratio

struct Both {
    Coverages ours, plug_in;
    void add(const Both& other) {
        for (std::size_t group = 0; group < ours.size(); ++group) {
            ours[group].add(other.ours[group]);
            plug_in[group].add(other.plug_in[group]);
        }
    }
};

Both both_of(const made_up::Vein& world) {
    made_up::Places places;
    for (const veins::SurfaceDatum& datum : world.data) places.push_back(datum.place);
    const double spacing = veins::hole_spacing(places, world.spacing);
    const auto model = veins::fit_surface(world.data, spacing, {});
    const std::array<const made_up::Places*, 3> where{&world.places.inside, &world.places.one_out, &world.places.two_out};
    const std::array<const Eigen::VectorXd*, 3> truth{&world.inside, &world.one_out, &world.two_out};
    made_up::Places all;
    for (const made_up::Places* group : where) all.insert(all.end(), group->begin(), group->end());
    const auto ours = veins::heights_at(*model, all), plug_in = plug_in_heights(model->rows, spacing, all);
    Both both;
    std::size_t next = 0;
    for (std::size_t group = 0; group < truth.size(); ++group)
        for (const double came : *truth[group]) {
            both.ours[group].add(ours[next], came);
            both.plug_in[group].add(plug_in[next++], came);
        }
    return both;
}

Row ratio_row(const std::string& what, const Both& pool, bool held) {
    Row row{what, 0, {}};
    for (std::size_t group = 0; group < pool.ours.size(); ++group) {
        row.count += pool.ours[group].count;
        row.figures.emplace_back(Figure{pool.ours[group].crps() / pool.plug_in[group].crps(),
                                        held ? std::optional<Window>({0.0, most[group]}) : std::nullopt});
    }
    return row;
}

Row share_row(const std::string& what, const Coverages& pool) {
    Row row{what, 0, {}};
    for (const made_up::Coverage& group : pool) {
        row.count += group.count;
        row.figures.emplace_back(Figure{group.percent80() / 100.0, std::nullopt});
    }
    return row;
}

}  // namespace

Study against_plug_in() {
    Study study{"Against one set of parameters, plugged in",
                fmt::format("{} veins each of 6, 8 and 10 oriented holes. CRPS (continuous ranked probability score, less is "
                            "better) of the height over that of plug-in maximum likelihood on the same veins",
                            veins_of_a_cell),
                std::to_string(seed),
                {group_names().begin(), group_names().end()},
                2,
                {},
                {}};
    Both pool;
    for (const std::size_t holes : {6U, 8U, 10U}) {
        std::vector<Both> worlds(veins_of_a_cell);
        base::parallel_for(worlds.size(), [&](std::size_t k) { worlds[k] = both_of(made_up::vein(seed, holes, k, true)); });
        Both cell;
        for (const Both& world : worlds) cell.add(world);
        study.rows.push_back(ratio_row(fmt::format("{} holes", holes), cell, false));
        pool.add(cell);
    }
    study.rows.push_back(ratio_row("all", pool, true));
    study.rows.push_back(share_row("80 % range holds, ours", pool.ours));
    study.rows.push_back(share_row("80 % range holds, plug-in", pool.plug_in));
    return study;
}

}  // namespace selvage::studies
