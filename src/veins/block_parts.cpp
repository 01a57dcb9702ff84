#include "veins/parent_wall.h"
#include "veins/vein_work.h"

#include <cmath>
#include <limits>
#include <utility>

namespace selvage::veins {

void part_by_faults(VeinWork& work) {
    Vein::Model& model = *work.model;
    for (std::size_t block = 0; block < model.blocks.count(); ++block) {
        BlockPart part;
        part.chart = model.chart;
        part.chart.centre += model.blocks.shift(block);
        part.slips = slip_effects(model.blocks, block);
        model.parts.push_back(std::move(part));
    }
}

// An error e of a source moves the true place by S e: what is asked over a place with the effect S is the height less a.S e.
Eigen::Vector3d mean_slip_error(const Vein::Model& model, const BlockPart& part, const std::vector<paths::SourceEffect>& slips) {
    const std::vector<Eigen::Vector2d>& near = part.met.empty() ? model.met : part.met;
    Eigen::Vector3d place = Eigen::Vector3d::Zero();
    for (const Eigen::Vector2d& one : near) place.head<2>() += one / static_cast<double>(near.size());
    const std::vector<ChartEffect> effects = chart_effects(part.chart, slips);
    std::vector<PathPoint> asked{{place, Eigen::Vector3d::UnitZ(), {}}};
    for (int axis = 0; axis < 3; ++axis) asked.push_back({place, Eigen::Vector3d::Unit(axis), effects});
    const std::vector<numerics::NormalMixture> heights = heights_over_paths(*model.surface, asked);
    Eigen::Vector3d error;
    for (int axis = 0; axis < 3; ++axis)
        error[axis] = heights[static_cast<std::size_t>(axis) + 1].mean() - heights.front().mean();
    return error;
}

void find_mean_slips(VeinWork& work) {
    Vein::Model& model = *work.model;
    for (BlockPart& part : model.parts) {
        if (part.slips.empty()) continue;
        part.mean_slip = mean_slip_error(model, part, part.slips);
    }
}

void find_parent_wall(VeinWork& work) {
    if (!work.parent) return;
    std::vector<Eigen::Vector3d> hits;
    for (const Evidence& one : work.evidence)
        if (one.point) hits.push_back(*one.point);
    work.model->parent_wall = std::make_shared<const ParentWall>(work.parent, hits);
}

void lay_bands(VeinWork& work) {
    Vein::Model& model = *work.model;
    for (BlockPart& part : model.parts)
        part.band = std::make_shared<const BandLattice>(
            model.surface, model.lattice, chart_effects(part.chart, part.slips),
            model.blocks.is_cut() ? part_of(model.lattice->lattice(), part.met, model.lattice_reach) : model.lattice->lattice());
}

const Chart& chart_of(const VeinWork& work, const Evidence& one) { return work.model->parts[one.block].chart; }

Eigen::Vector2d place_of(const VeinWork& work, const Evidence& one) {
    return chart_of(work, one).chart_from_world(*one.point).head<2>();
}

std::vector<Eigen::Vector2d> places_where(const VeinWork& work, bool (*wanted)(const Evidence&),
                                          std::optional<std::size_t> block) {
    std::vector<Eigen::Vector2d> places;
    for (const Evidence& one : work.evidence)
        if (one.point && wanted(one) && (!block || one.block == *block)) places.push_back(place_of(work, one));
    return places;
}

std::vector<ChartEffect> effects_in(const Vein::Model& model, std::size_t block, const paths::Path& path, double depth) {
    const BlockPart& part = model.parts[block];
    std::vector<ChartEffect> effects = chart_effects(part.chart, paths::effects_at(path, depth));
    for (ChartEffect& effect : chart_effects(part.chart, part.slips)) effects.push_back(std::move(effect));
    return effects;
}

Located located(const Vein::Model& model, const Eigen::Vector3d& point) {
    if (!model.blocks.is_cut()) return {0, model.parts.front().chart.chart_from_world(point), true};
    Located best;
    best.on_vein = false;
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t block = 0; block < model.parts.size(); ++block) {
        const BlockPart& part = model.parts[block];
        const Chart& chart = part.chart;
        const Eigen::Vector3d there = chart.chart_from_world(point);
        const double mid = mean_in(model, part, there.head<2>()).height, away = std::abs(there.z() - mid);
        if (away >= least || model.blocks.at(chart.world_from_chart({there.x(), there.y(), mid})) != block) continue;
        least = away;
        best = {block, there, true};
    }
    if (best.on_vein) return best;
    best.block = model.blocks.at(point);
    best.chart_point = model.parts[best.block].chart.chart_from_world(point);
    return best;
}

}  // namespace selvage::veins
