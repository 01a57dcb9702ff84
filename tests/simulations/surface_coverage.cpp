#include "simulations/surface_coverage.h"

#include "base/parallel.h"
#include "support/made_up_vein.h"
#include "veins/base_plane.h"
#include "veins/surface.h"

#include <vector>

namespace selvage::veins {

Coverages surface_coverages(std::uint64_t seed, std::size_t holes, std::size_t count, bool oriented) {
    std::vector<Coverages> worlds(count);
    base::parallel_for(count, [&](std::size_t k) {
        const made_up::Vein world = made_up::vein(seed, holes, k, oriented);
        std::vector<Eigen::Vector2d> places;
        for (const SurfaceDatum& datum : world.data) places.push_back(datum.place);
        const auto model = fit_surface(world.data, hole_spacing(places, world.spacing), {});
        const auto add = [&](made_up::Coverage& coverage, const made_up::Places& where, const Eigen::VectorXd& truth) {
            const std::vector<numerics::NormalMixture> said = heights_at(*model, where);
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

}  // namespace selvage::veins
