#include "sheets/level_set.h"

#include "base/text.h"
#include "sheets/section_content.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr int most_levels = 12;

// Whole steps from elevation 0 of the map.
int number_at(double elevation, double step, const base::MapFrame& map) {
    return static_cast<int>(std::floor((elevation + map.origin.z()) / step + 0.5));
}
double elevation_of(int number, double step, const base::MapFrame& map) { return number * step - map.origin.z(); }

struct Heights {
    double low = std::numeric_limits<double>::infinity(), high = -std::numeric_limits<double>::infinity();
};

Heights heights_of(const std::vector<veins::VeinSolid>& solids) {
    Heights heights;
    for (const veins::VeinSolid& solid : solids) {
        const mesh::Bounds box = mesh::bounds(solid.mesh);
        heights.low = std::min(heights.low, box.lower.z());
        heights.high = std::max(heights.high, box.upper.z());
    }
    return heights;
}

double step_of(const Heights& heights, const base::MapFrame& map) {
    const double unit = base::metres_per(map.unit);
    std::vector<double> steps{20.0, 25.0};
    if (map.unit != base::LengthUnit::metre) steps.clear();
    for (double tens = 50.0; tens < 1e5; tens *= 10.0)
        for (const double step : {tens, 2.0 * tens, 4.0 * tens, 5.0 * tens}) steps.push_back(step);
    for (const double step : steps) {
        const double metres = step * unit;
        const double lowest = std::ceil((heights.low + map.origin.z()) / metres),
                     highest = std::floor((heights.high + map.origin.z()) / metres);
        if (highest - lowest + 1.0 <= most_levels) return metres;
    }
    return steps.back() * unit;
}

std::size_t block_number(const veins::Vein& vein, const std::string& block) {
    for (std::size_t number = 0; number < vein.blocks().count(); ++number)
        if (vein.blocks().name(number) == block) return number;
    return 0;
}

std::vector<std::vector<mesh::SliceLine>> slices_of(const mesh::TriangleMesh& body, int label,
                                                    const std::vector<base::Plane>& planes) {
    std::vector<bool> keep(body.triangles.size());
    for (std::size_t i = 0; i < keep.size(); ++i) keep[i] = i < body.labels.size() && body.labels[i] == label;
    return mesh::slices(mesh::selected(body, keep), planes);
}

void add_bodies(std::vector<Level>& levels, const Results& results) {
    std::vector<base::Plane> planes;
    planes.reserve(levels.size());
    for (const Level& level : levels) planes.push_back(plane_of(level));
    for (const veins::VeinSolid& solid : results.solids) {
        const std::size_t vein = vein_number(results, solid.vein);
        if (vein >= results.veins.size()) continue;
        std::vector<std::vector<mesh::SliceLine>> rings = mesh::slices(solid.mesh, planes);
        std::vector<std::vector<mesh::SliceLine>> hanging = slices_of(solid.mesh, mesh::upper_wall, planes);
        std::vector<std::vector<mesh::SliceLine>> foot = slices_of(solid.mesh, mesh::lower_wall, planes);
        std::vector<std::vector<mesh::SliceLine>> rim = slices_of(solid.mesh, mesh::rim, planes);
        for (std::size_t i = 0; i < levels.size(); ++i)
            if (!rings[i].empty())
                levels[i].bodies.push_back({vein, block_number(results.veins[vein], solid.block), std::move(rings[i]),
                                            std::move(hanging[i]), std::move(foot[i]), std::move(rim[i])});
    }
}

}  // namespace

base::Plane plane_of(const Level& level) { return {{0.0, 0.0, level.elevation}, Eigen::Vector3d::UnitZ()}; }

LevelSet level_set(const Results& results) {
    LevelSet set;
    if (results.solids.empty()) return set;
    const base::MapFrame& map = results.records.frame;
    const Heights heights = heights_of(results.solids);
    set.step = step_of(heights, map);
    std::map<int, Level> levels;
    const auto level_at = [&](double elevation) -> Level& { return levels[number_at(elevation, set.step, map)]; };
    for (int number = number_at(heights.low, set.step, map); number <= number_at(heights.high, set.step, map); ++number)
        levels[number] = {};
    for (const intercepts::Intercept& hit : results.intercepts.met) level_at(hit.point.z()).hits.push_back(&hit);
    for (std::size_t vein = 0; vein < results.veins.size(); ++vein)
        for (const veins::NoVein& none : results.veins[vein].no_vein())
            if (none.is_miss()) level_at(none.point.z()).misses.push_back({vein, &none});
    for (const forecast::Pierce& pierce : results.pierces)
        if (const auto found = levels.find(number_at(pierce.point.z(), set.step, map)); found != levels.end())
            found->second.pierces.push_back(&pierce);
    for (auto& [number, level] : levels) {
        level.elevation = elevation_of(number, set.step, map);
        level.name = base::fixed(number * map.length(set.step), 0);
        set.levels.push_back(std::move(level));
    }
    add_bodies(set.levels, results);
    const auto is_empty = [](const Level& level) { return level.bodies.empty() && level.hits.empty() && level.misses.empty(); };
    set.levels.erase(std::remove_if(set.levels.begin(), set.levels.end(), is_empty), set.levels.end());
    for (Level& level : set.levels) level.drawn = !level.hits.empty() || !level.misses.empty() || !level.pierces.empty();
    return set;
}

LevelSet drawn_at(LevelSet set, const std::vector<Eigen::Vector3d>& points) {
    for (Level& level : set.levels)
        level.drawn = level.drawn && std::any_of(points.begin(), points.end(), [&](const Eigen::Vector3d& point) {
                          return std::abs(point.z() - level.elevation) <= set.half();
                      });
    return set;
}

}  // namespace selvage::sheets
