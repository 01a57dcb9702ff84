#pragma once

#include "base/angle.h"
#include "numerics/normal_mixture.h"
#include "veins/chart.h"

#include <Eigen/Core>

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

// The height of the mid-surface over the base plane: a Gaussian process with slopes, its hyperparameters integrated over nodes.
namespace selvage::veins {

// Alpha of a contact on core that is not oriented: the normal lies anywhere on a cone about the hole.
struct AlphaAlone {
    base::Angle alpha;
    Eigen::Vector3d hole_direction = -Eigen::Vector3d::UnitZ();  // in chart axes
    std::pair<int, int> number;                                  // of the hole, and of the contact within it
};

// One intercept's (or outcrop's, or stated plane's) evidence, in chart axes.
struct SurfaceDatum {
    std::string hole;                                 // for messages
    Eigen::Vector2d place = Eigen::Vector2d::Zero();  // (u, v), m
    std::optional<double> height;                     // w, m
    double scaled_variance = 0.0;                     // m2 of height that the noise factor f_n^2 scales: the pick's own
    double fixed_variance = 0.15 * 0.15;              // m2 that it does not
    std::optional<Eigen::Vector3d> normal;            // unit, w > 0
    std::optional<AlphaAlone> alpha;                  // where there is no normal
    double gradient_extra_variance = 0.0;             // of each slope, beside g_n^2 (an outcrop's compass: (5 degrees)^2)
    bool gradient_core_noise = true;                  // false: a stated attitude, which has its own sds and no g_n
    Eigen::Vector2d gradient_stated_variance = Eigen::Vector2d::Zero();
    std::vector<ChartEffect> effects;  // of its path at that depth; empty for outcrops
};

struct SurfaceRules {
    bool shared_sources = false;  // false: a source counts within one hole's rows only; true: between holes and with forecasts
    Eigen::Index most_searched = 600;   // rows; beyond, parameters are found by neighbours. Lower in tests alone
    Eigen::Index most_factored = 2400;  // rows; beyond, every answer comes from a neighbourhood's rows
};

struct SurfaceModel;  // defined in surface.cpp's own header part; shared read-only

// Fits the model: nodes of (nu; L, g, q, psi, g_n, f_n) with weights, 0.99 of the weight kept. spacing s in m. Needs one datum or
// more; of one hole at one place only one. Over 600 rows (200 oriented intercepts) the nodes are found and weighed by a
// likelihood of neighbours, and the ten heaviest are solved with all data. Over 2,400 rows (800 oriented intercepts) they are
// not: what is asked at a place is answered from the data about the datum nearest to it and some spread ones.
std::shared_ptr<const SurfaceModel> fit_surface(std::vector<SurfaceDatum> data, double spacing, const SurfaceRules& rules);

// Mixture of the height w at a place (u, v), m: the surface itself, without any noise of a measurement.
numerics::NormalMixture height_at(const SurfaceModel& model, const Eigen::Vector2d& place);
// The same at many places, on all threads: several times quicker than one by one where there are many data.
std::vector<numerics::NormalMixture> heights_at(const SurfaceModel& model, const std::vector<Eigen::Vector2d>& places);

struct MeanSurface {
    double height = 0.0;  // m
    Eigen::Vector2d gradient = Eigen::Vector2d::Zero();
};
// a = (-dw/du, -dw/dv, 1): what a move of a point by d, in chart axes, adds to its height over the surface is a.d.
inline Eigen::Vector3d slope_row_of(const Eigen::Vector2d& gradient) { return {-gradient.x(), -gradient.y(), 1.0}; }

// Mean height and gradient (their exact derivative) at a place, cheap but with very many data; and at many, on all threads.
MeanSurface mean_at(const SurfaceModel& model, const Eigen::Vector2d& place);
std::vector<MeanSurface> means_at(const SurfaceModel& model, const std::vector<Eigen::Vector2d>& places);
// Sd of each slope at each place, over all nodes.
std::vector<Eigen::Vector2d> gradient_sds_at(const SurfaceModel& model, const std::vector<Eigen::Vector2d>& places);

// Mixture of (height of the surface - w of the path's true point), for a point of a path with its sources of error, m.
// `slope_row` is a = (-dm/du, -dm/dv, 1) at the crossing. Hole deviation and slips are not scaled by f_n.
numerics::NormalMixture height_over_path(const SurfaceModel& model, const Eigen::Vector3d& chart_point,
                                         const Eigen::Vector3d& slope_row, const std::vector<ChartEffect>& effects);

// The same for many points of paths, on all threads.
struct PathPoint {
    Eigen::Vector3d chart_point = Eigen::Vector3d::Zero();
    Eigen::Vector3d slope_row = Eigen::Vector3d::UnitZ();
    std::vector<ChartEffect> effects;
};
std::vector<numerics::NormalMixture> heights_over_paths(const SurfaceModel& model, const std::vector<PathPoint>& points);

// Closed-form leave-one-out of datum i (height and gradients together), weights re-done: the mixture of its measured height.
numerics::NormalMixture leave_one_out_height(const SurfaceModel& model, std::size_t datum);

struct SurfaceParameters {
    double range = 0.0, slope_sd = 0.0;  // weighted means over the nodes
    double core_sd = 0.0;                // of a slope measured on core, small waves included: root of the weighted mean square
    std::size_t nodes = 0;
};
SurfaceParameters parameters_of(const SurfaceModel& model);

}  // namespace selvage::veins
