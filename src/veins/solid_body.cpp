#include "veins/solid_body.h"

#include "base/parallel.h"
#include "mesh/planar_mesh.h"
#include "mesh/walled_solid.h"
#include "veins/outline.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace selvage::veins {

namespace {

constexpr double edges_a_bump = 4.0;     // on its radius
constexpr double edges_a_spacing = 3.0;  // where no bump asks for more
constexpr double shortest_edge = 0.25;   // m: holes nearer to each other than a metre do not make it shorter
// m, or of the log of the thickness: a third of what a pick is known to. Lower bumps are left to the vertices at the contacts.
constexpr double least_bump = 0.05;
constexpr double least_overstep = 5.0;   // m past a fault or the ground
constexpr double overstep_widths = 6.0;  // of the largest thickness: walls that slant towards what cuts them

// The smallest bump that reaches a place, found through the squares that bumps touch.
class BumpRadii {
public:
    BumpRadii(const Walls& walls, double square) : square_(square) {
        for (const auto* bumps : {&walls.mid, &walls.log_thickness, &walls.hanging, &walls.foot})
            for (const Bump& bump : bumps->bumps()) enter(bump);
        for (auto& [key, bumps] : squares_)
            std::sort(bumps.begin(), bumps.end(), [](const Bump& a, const Bump& b) { return a.radius < b.radius; });
    }
    double at(const Eigen::Vector2d& place, double otherwise) const {
        const auto found = squares_.find(key_of(place));
        if (found == squares_.end()) return otherwise;
        for (const Bump& bump : found->second)
            if ((bump.place - place).squaredNorm() < bump.radius * bump.radius) return std::min(bump.radius, otherwise);
        return otherwise;
    }

private:
    using Key = std::pair<long, long>;
    Key key_of(const Eigen::Vector2d& place) const {
        return {std::lround(std::floor(place.x() / square_)), std::lround(std::floor(place.y() / square_))};
    }
    void enter(const Bump& bump) {
        if (std::abs(bump.height) < least_bump) return;
        if (bump.radius > edges_a_bump / edges_a_spacing * widest_asked_ * square_) return;
        const Eigen::Vector2d reach = Eigen::Vector2d::Constant(bump.radius);
        const Key low = key_of(bump.place - reach), high = key_of(bump.place + reach);
        for (long x = low.first; x <= high.first; ++x)
            for (long y = low.second; y <= high.second; ++y) squares_[{x, y}].push_back(bump);
    }

    static constexpr double widest_asked_ = 2.0;  // squares: wider bumps ask for no more than the spacing does
    double square_;
    std::map<Key, std::vector<Bump>> squares_;
};

double largest_thickness(const Vein::Model& model) {
    double largest = 0.0;
    for (const auto& [block, contacts] : model.contacts)
        largest = std::max(largest, std::abs(contacts.hanging.z() - contacts.foot.z()));
    return largest;
}

// By which the drawn surface leaves the smooth one, from which the outline is taken.
double largest_bump(const Walls& walls) {
    double largest = 0.0;
    for (const Bump& bump : walls.mid.bumps()) largest = std::max(largest, std::abs(bump.height));
    return largest;
}

mesh::PlanarRegion region_of(const Vein::Model& model, std::size_t block) {
    Extent extent = model.parts[block].extent;
    extent.overstep = std::max(least_overstep, overstep_widths * (largest_thickness(model) + largest_bump(model.walls)));
    mesh::PlanarRegion region;
    region.loops = outline_loops(extent, model.spacing);
    for (const auto& [of_block, contacts] : model.contacts) {
        if (of_block != block) continue;
        region.points.emplace_back(contacts.hanging.head<2>());
        region.points.emplace_back(contacts.foot.head<2>());
    }
    const double usual = model.spacing / edges_a_spacing;
    region.longest_edge = [radii = BumpRadii(model.walls, model.spacing), usual](const Eigen::Vector2d& place) {
        return std::max(shortest_edge, radii.at(place, edges_a_bump * usual) / edges_a_bump);
    };
    return region;
}

}  // namespace

mesh::Outcome<mesh::TriangleMesh> uncut_body(const Vein::Model& model, std::size_t block) {
    const BlockPart& part = model.parts[block];
    if (part.extent.hits.empty()) return mesh::made(mesh::TriangleMesh{});
    const mesh::PlanarRegion region = region_of(model, block);
    if (region.loops.empty()) return mesh::made(mesh::TriangleMesh{});
    const mesh::Outcome<mesh::PlanarMesh> plan = mesh::triangulate(region);
    if (!plan) return mesh::refused<mesh::TriangleMesh>(plan);
    std::vector<Eigen::Vector3d> hanging(plan->points.size()), foot(plan->points.size());
    base::parallel_for(plan->points.size(), [&](std::size_t i) {
        const Eigen::Vector2d& place = plan->points[i];
        const DrawnVein drawn = drawn_at(model, part, place);
        const double half = std::max(thinnest_body, drawn.thickness) / 2.0;
        hanging[i] = part.chart.world_from_chart({place.x(), place.y(), drawn.mid + half});
        foot[i] = part.chart.world_from_chart({place.x(), place.y(), drawn.mid - half});
    });
    return mesh::solid_between(*plan, hanging, foot, part.chart.w());
}

}  // namespace selvage::veins
