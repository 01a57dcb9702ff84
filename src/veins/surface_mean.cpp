#include "veins/surface_model.h"

#include <array>
#include <cmath>

namespace selvage::veins {

namespace {

// Covariance of the two slopes at a place with every row.
Eigen::MatrixX2d slopes_with_rows(const SurfaceRows& rows, const Kernel& kernel, const Eigen::Vector2d& place) {
    const Eigen::Vector2d trend = trend_variances().tail<2>();
    Eigen::MatrixX2d covariance(rows.values.size(), 2);
    for (const RowPlace& datum : rows.places) {
        const KernelTerms terms = kernel_at(kernel, place - datum.place);
        if (datum.has_height) covariance.row(datum.first) = trend.cwiseProduct(datum.place) - terms.p * terms.pull;
        if (datum.has_slopes) {
            Eigen::Matrix2d slopes = terms.slopes_with_slopes(kernel);
            slopes.diagonal() += trend;
            covariance.middleRows<2>(datum.slope_row()) = rows.slope_scale * slopes;
        }
    }
    return covariance;
}

}  // namespace

MeanSurface node_mean(const SurfaceRows& rows, const SurfaceNode& node, const Eigen::Vector2d& place) {
    MeanSurface mean{node.trend.dot(trend_row(place)), node.trend.tail<2>()};
    for (const RowPlace& datum : rows.places) {
        const KernelTerms terms = kernel_at(node.kernel, place - datum.place);
        if (datum.has_height) {
            const double weight = node.data.weights(datum.first);
            mean.height += weight * terms.value;
            mean.gradient -= weight * terms.p * terms.pull;
        }
        if (datum.has_slopes) {
            const Eigen::Vector2d weight = rows.slope_scale * node.data.weights.segment<2>(datum.slope_row());
            mean.height += terms.p * terms.pull.dot(weight);
            mean.gradient += terms.slopes_with_slopes(node.kernel) * weight;
        }
    }
    return mean;
}

MeanSurface mean_at(const SurfaceModel& model, const Eigen::Vector2d& place) {
    MeanSurface mean;
    for (const SurfaceNode& node : model.nodes) {
        const MeanSurface part = node_mean(model.rows, node, place - model.rows.centre);
        mean.height += node.weight * part.height;
        mean.gradient += node.weight * part.gradient;
    }
    return mean;
}

Eigen::Vector2d gradient_sd_at(const SurfaceModel& model, const Eigen::Vector2d& place) {
    const Eigen::Vector2d centred = place - model.rows.centre;
    Eigen::Array2d mean = Eigen::Array2d::Zero(), square = mean;
    for (const SurfaceNode& node : model.nodes) {
        const Eigen::MatrixX2d covariance = slopes_with_rows(model.rows, node.kernel, centred);
        const Eigen::Matrix2d own = kernel_at(node.kernel, Eigen::Vector2d::Zero()).slopes_with_slopes(node.kernel);
        const Eigen::Vector2d variances = own.diagonal() + trend_variances().tail<2>();
        const std::vector<Estimate> slopes = estimates(node.data, covariance, variances);
        const Eigen::Array2d means(slopes[0].mean, slopes[1].mean);
        mean += node.weight * means;
        square += node.weight * (means.square() + Eigen::Array2d(slopes[0].variance, slopes[1].variance));
    }
    return (square - mean.square()).max(0.0).sqrt();
}

}  // namespace selvage::veins
