#include "base/random.h"
#include "mesh/cut.h"
#include "mesh/search.h"
#include "mesh/slice.h"
#include "mesh/solid_check.h"
#include "mesh/surface.h"
#include "support/made_up_solids.h"

#include <benchmark/benchmark.h>

#include <vector>

// Meshes of the size of a large model. Wanted: 60 slices of a solid of 40,000 triangles in 40 ms; a solid of 80,000 cut by a
// ground of 20,000 and by three planes into blocks in 0.6 s.
namespace selvage::mesh {
namespace {

constexpr double edge_40_thousand = 3.85, edge_80_thousand = 2.72;  // m: longest edges that give about so many triangles

void triangulate_plan(benchmark::State& state) {
    std::size_t triangles = 0;
    for (auto step : state) triangles = made_up::walled_solid(1, edge_40_thousand).solid.triangles.size();
    state.counters["triangles"] = static_cast<double>(triangles);
}
BENCHMARK(triangulate_plan)->Unit(benchmark::kMillisecond)->UseRealTime();

void sixty_slices(benchmark::State& state) {
    const TriangleMesh solid = made_up::walled_solid(1, edge_40_thousand).solid;
    std::vector<base::Plane> planes;
    for (int i = 0; i < 60; ++i) planes.push_back({{-150.0 + 5.0 * i, 0, 0}, {1, 0, 0}});
    for (auto step : state) benchmark::DoNotOptimize(slices(solid, planes).data());
    state.counters["triangles"] = static_cast<double>(solid.triangles.size());
}
BENCHMARK(sixty_slices)->Unit(benchmark::kMillisecond)->UseRealTime();

void cut_by_ground_and_planes(benchmark::State& state) {
    const TriangleMesh solid = made_up::walled_solid(1, edge_80_thousand).solid;
    const auto surface = overhanging_surface(made_up::ground_points(1, 100), bounds(solid), 50.0);
    const auto ground = solid_below(*surface, -1000.0);
    std::size_t blocks = 0;
    for (auto step : state) {
        std::vector<TriangleMesh> parts = {cut_by_solid(solid, *ground)->inside};
        for (const base::Plane& plane : {base::Plane{{-40, 0, -100}, Eigen::Vector3d(1, 0.2, 0.3).normalized()},
                                         base::Plane{{60, 0, -100}, Eigen::Vector3d(1, -0.3, 0.1).normalized()},
                                         base::Plane{{0, 0, -100}, Eigen::Vector3d(0.3, 1, 0.2).normalized()}}) {
            std::vector<TriangleMesh> next;
            for (const TriangleMesh& part : parts) {
                const auto cut = cut_by_plane(part, plane, 2);
                for (const TriangleMesh* side : {&cut->inside, &cut->outside})
                    if (!side->triangles.empty()) next.push_back(*side);
            }
            parts = std::move(next);
        }
        blocks = parts.size();
    }
    state.counters["triangles"] = static_cast<double>(solid.triangles.size());
    state.counters["of ground"] = static_cast<double>(surface->triangles.size());
    state.counters["blocks"] = static_cast<double>(blocks);
}
BENCHMARK(cut_by_ground_and_planes)->Unit(benchmark::kMillisecond)->UseRealTime();

void check_of_a_solid(benchmark::State& state) {
    const TriangleMesh solid = made_up::walled_solid(1, edge_80_thousand).solid;
    for (auto step : state) benchmark::DoNotOptimize(check_solid(solid).sound());
}
BENCHMARK(check_of_a_solid)->Unit(benchmark::kMillisecond)->UseRealTime();

void thousand_distances(benchmark::State& state) {
    const TriangleMesh solid = made_up::walled_solid(1, edge_80_thousand).solid;
    const MeshSearch search(solid);
    base::RandomStream stream("places to ask at", {3});
    std::vector<Eigen::Vector3d> places;
    for (int i = 0; i < 1000; ++i)
        places.emplace_back(stream.uniform(-200, 200), stream.uniform(-200, 200), stream.uniform(-200, 0));
    for (auto step : state) {
        double sum = 0.0;
        for (const Eigen::Vector3d& place : places) sum += search.signed_distance(place);
        benchmark::DoNotOptimize(sum);
    }
}
BENCHMARK(thousand_distances)->Unit(benchmark::kMillisecond)->UseRealTime();

void search_tree(benchmark::State& state) {
    const TriangleMesh solid = made_up::walled_solid(1, edge_80_thousand).solid;
    for (auto step : state) benchmark::DoNotOptimize(MeshSearch(solid).first_hit({0, 0, 0}, {0, 0, -200}));
}
BENCHMARK(search_tree)->Unit(benchmark::kMillisecond)->UseRealTime();

}  // namespace
}  // namespace selvage::mesh
