#include "base/parallel.h"
#include "veins/surface_model.h"

#include <algorithm>
#include <cmath>

namespace selvage::veins {

namespace {

constexpr std::size_t together = 32;  // places that share one pass through a node's matrix

// Slope u and slope v of each of some places, under a node.
std::vector<Estimate> slopes_of_places(const SurfaceModel& model, const SurfaceNode& node,
                                       const std::vector<Eigen::Vector2d>& places, std::size_t from, std::size_t count) {
    const Eigen::Matrix2d own = kernel_at(node.kernel, Eigen::Vector2d::Zero()).slopes_with_slopes(node.kernel);
    const Eigen::Vector2d variances = own.diagonal() + model.rows.trend_variances.tail<2>();
    const auto columns = static_cast<Eigen::Index>(count);
    Eigen::MatrixXd covariances(model.rows.values.size(), 2 * columns);
    for (Eigen::Index i = 0; i < columns; ++i)
        covariances.middleCols<2>(2 * i) =
            slopes_with_rows(model.rows, node.kernel, places[from + static_cast<std::size_t>(i)] - model.rows.centre);
    return estimates(node.data, covariances, variances.replicate(columns, 1));
}

// Sums over the nodes that make the slopes' sds.
class Moments {
public:
    explicit Moments(std::size_t places) : mean_(places, Eigen::Array2d::Zero()), square_(mean_) {}
    void add(const SurfaceNode& node, const std::vector<Estimate>& slopes) {
        for (std::size_t i = 0; i < mean_.size(); ++i) {
            const Estimate &u = slopes[2 * i], &v = slopes[2 * i + 1];
            const Eigen::Array2d means(u.mean, v.mean);
            mean_[i] += node.weight * means;
            square_[i] += node.weight * (means.square() + Eigen::Array2d(u.variance, v.variance));
        }
    }
    Eigen::Vector2d sd(std::size_t place) const { return (square_[place] - mean_[place].square()).max(0.0).sqrt(); }

private:
    std::vector<Eigen::Array2d> mean_, square_;
};

}  // namespace

Eigen::MatrixX2d slopes_with_rows(const SurfaceRows& rows, const Kernel& kernel, const Eigen::Vector2d& place) {
    const Eigen::Vector2d trend = rows.trend_variances.tail<2>();
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
    if (model.neighbourhoods) return mean_at(model_about(model, place), place);
    MeanSurface mean;
    for (const SurfaceNode& node : model.nodes) {
        const MeanSurface part = node_mean(model.rows, node, place - model.rows.centre);
        mean.height += node.weight * part.height;
        mean.gradient += node.weight * part.gradient;
    }
    return mean;
}

std::vector<MeanSurface> means_at(const SurfaceModel& model, const std::vector<Eigen::Vector2d>& places) {
    if (model.neighbourhoods)
        return answers_nearby<MeanSurface>(model, places, [&](const SurfaceModel& local, const std::vector<std::size_t>& asked) {
            return means_at(local, picked(places, asked));
        });
    std::vector<MeanSurface> means(places.size());
    base::parallel_for(places.size(), [&](std::size_t i) { means[i] = mean_at(model, places[i]); });
    return means;
}

std::vector<Eigen::Vector2d> gradient_sds_at(const SurfaceModel& model, const std::vector<Eigen::Vector2d>& places) {
    if (model.neighbourhoods)
        return answers_nearby<Eigen::Vector2d>(model, places,
                                               [&](const SurfaceModel& local, const std::vector<std::size_t>& asked) {
                                                   return gradient_sds_at(local, picked(places, asked));
                                               });
    std::vector<Eigen::Vector2d> sds(places.size());
    base::parallel_for((places.size() + together - 1) / together, [&](std::size_t part) {
        const std::size_t from = part * together, count = std::min(together, places.size() - from);
        Moments moments(count);
        for (const SurfaceNode& node : model.nodes) moments.add(node, slopes_of_places(model, node, places, from, count));
        for (std::size_t i = 0; i < count; ++i) sds[from + i] = moments.sd(i);
    });
    return sds;
}

}  // namespace selvage::veins
