#include "veins/surface_teaching.h"

#include "veins/surface_model.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace selvage::veins {
namespace {

std::vector<SurfaceDatum> some_hits() {
    std::vector<SurfaceDatum> data;
    for (int i = 0; i < 7; ++i) {
        SurfaceDatum datum;
        datum.hole = "K-" + std::to_string(i);
        datum.place = {50.0 * (i % 3) + 3.0 * i, 45.0 * (i / 3)};
        datum.height = 2.0 * std::sin(0.02 * datum.place.x()) + 0.01 * datum.place.y();
        datum.fixed_variance = 0.3;
        data.push_back(datum);
    }
    return data;
}

std::vector<PathPoint> over(const std::vector<Eigen::Vector2d>& places) {
    std::vector<PathPoint> points(places.size());
    for (std::size_t i = 0; i < places.size(); ++i) points[i].chart_point << places[i], 0.0;
    return points;
}

// Rows of the data with the trend known beforehand about `centre`, not about the data's own middle.
SurfaceRows rows_about(const Eigen::Vector2d& centre, const std::vector<SurfaceDatum>& data) {
    const std::vector<Eigen::Vector2d> flat(data.size(), Eigen::Vector2d::Zero());
    SurfaceRows rows = rows_without_matrices(data, flat, 50.0, SurfaceRules{});
    for (RowPlace& place : rows.places) place.place += rows.centre - centre;
    rows.centre = centre;
    fill_matrices(rows);
    return rows;
}

// The gain by the rank-one formula against factoring anew with the hole as one more row: nodes and weights kept.
TEST(SurfaceTeaching, TheGainEqualsAFitWithTheHoleAdded) {
    const auto model = fit_surface(some_hits(), 50.0, SurfaceRules{});
    const std::vector<Eigen::Vector2d> places{{160.0, 20.0}, {200.0, 60.0}, {-60.0, 0.0}, {70.0, 150.0}};
    const std::vector<double> weights{1.0, 2.0, 0.5, 1.5}, errors{0.4, 0.4, 0.4, 0.4};
    const SurfaceTeaching teaching(*model, over(places), weights, errors);
    const std::vector<double> gains = teaching.gains();
    for (std::size_t c = 0; c < places.size(); ++c) {
        std::vector<SurfaceDatum> data = some_hits();
        SurfaceDatum added;
        added.hole = "new";
        added.place = places[c];
        added.height = 0.0;
        added.fixed_variance = errors[c];
        data.push_back(added);
        SurfaceModel with_hole = *model;
        with_hole.rows = rows_about(model->rows.centre, data);
        SurfaceTeaching drilled = teaching;
        drilled.drill(c);
        EXPECT_NEAR(teaching.variance_sum() - drilled.variance_sum(), gains[c], 1e-9 * teaching.variance_sum());
        // The same nodes, solved with the added row; only the sixteen heaviest count, as in the class.
        double sum = 0.0, weight = 0.0;
        std::vector<SurfaceNode> nodes = model->nodes;
        std::stable_sort(nodes.begin(), nodes.end(), [](const auto& a, const auto& b) { return a.weight > b.weight; });
        nodes.resize(std::min<std::size_t>(nodes.size(), 16));
        for (const SurfaceNode& node : nodes) {
            const SurfaceNode again = surface_node(with_hole.rows, {node.guess, node.weight});
            Eigen::VectorXd w = Eigen::Map<const Eigen::VectorXd>(weights.data(), 4);
            sum += node.weight * w.dot(posterior_covariance(with_hole, again, over(places)).diagonal());
            weight += node.weight;
        }
        EXPECT_NEAR(drilled.variance_sum(), sum / weight, 1e-9 * drilled.variance_sum());
    }
}

TEST(SurfaceTeaching, PicksOneAfterAnotherStandApart) {
    const auto model = fit_surface(some_hits(), 50.0, SurfaceRules{});
    std::vector<Eigen::Vector2d> places;
    for (int i = 0; i < 12; ++i)
        for (int j = 0; j < 8; ++j) places.emplace_back(-100.0 + 30.0 * i, -80.0 + 30.0 * j);
    SurfaceTeaching teaching(*model, over(places), std::vector<double>(places.size(), 1.0),
                             std::vector<double>(places.size(), 0.3));
    std::vector<Eigen::Vector2d> picks;
    const double before = teaching.variance_sum();
    for (int pick = 0; pick < 4; ++pick) {
        const std::vector<double> gains = teaching.gains();
        const auto best = static_cast<std::size_t>(std::max_element(gains.begin(), gains.end()) - gains.begin());
        for (const Eigen::Vector2d& earlier : picks) EXPECT_GT((places[best] - earlier).norm(), 60.0);
        picks.push_back(places[best]);
        teaching.drill(best);
    }
    EXPECT_LT(teaching.variance_sum(), 0.6 * before);
}

}  // namespace
}  // namespace selvage::veins
