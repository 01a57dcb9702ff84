#include "base/parallel.h"
#include "veins/surface_model.h"

#include <algorithm>
#include <cmath>

namespace selvage::veins {

Eigen::VectorXd height_with_rows(const SurfaceRows& rows, const Kernel& kernel, const Eigen::Vector2d& place) {
    const Eigen::Vector3d trend = rows.trend_variances.cwiseProduct(trend_row(place));
    Eigen::VectorXd covariance(rows.values.size());
    for (const RowPlace& datum : rows.places) {
        const KernelTerms terms = kernel_at(kernel, place - datum.place);
        if (datum.has_height) covariance(datum.first) = terms.value + trend.dot(trend_row(datum.place));
        if (datum.has_slopes)
            covariance.segment<2>(datum.slope_row()) = rows.slope_scale * (terms.p * terms.pull + trend.tail<2>());
    }
    return covariance;
}

double height_variance(const SurfaceRows& rows, const Kernel& kernel, const Eigen::Vector2d& place) {
    return kernel.sill + rows.trend_variances.dot(trend_row(place).cwiseAbs2());
}

namespace {

void add(numerics::NormalMixture& mixture, double weight, const Estimate& estimate) {
    mixture.weights.push_back(weight);
    mixture.means.push_back(estimate.mean);
    mixture.sds.push_back(std::sqrt(estimate.variance));
}

// A height over some level, with errors of its own and errors shared with the data.
struct Asked {
    Eigen::Vector2d place = Eigen::Vector2d::Zero();  // from the centre
    double unscaled_variance = 0.0, scaled_variance = 0.0;
    std::optional<SharedError> shared;
    std::vector<std::pair<paths::ErrorSource, double>> on_height;
};

// Covariance of two heights by errors of sources that both have, m2.
double shared_by(const Asked& one, const Asked& other, double noise) {
    double sum = 0.0;
    for (const auto& [source, change] : one.on_height)
        for (const auto& [same, other_change] : other.on_height)
            if (source.id == same.id) sum += (is_scaled(source) ? noise : 1.0) * source.sd * source.sd * change * other_change;
    return sum;
}

Asked asked_over_path(const SurfaceModel& model, const PathPoint& point) {
    Asked asked;
    asked.place = point.chart_point.head<2>() - model.rows.centre;
    for (const ChartEffect& effect : point.effects) {
        const double change = point.slope_row.dot(effect.displacement), sd = change * effect.source.sd;
        asked.on_height.emplace_back(effect.source, change);
        (is_scaled(effect.source) ? asked.scaled_variance : asked.unscaled_variance) += sd * sd;
    }
    if (model.rules.shared_sources) asked.shared = shared_error(model.rows, asked.on_height);
    return asked;
}

Eigen::VectorXd with_rows(const SurfaceModel& model, const SurfaceNode& node, const Asked& asked) {
    const double noise = node.guess.noise_factor * node.guess.noise_factor;
    Eigen::VectorXd covariance = height_with_rows(model.rows, node.kernel, asked.place);
    if (asked.shared) covariance += asked.shared->unscaled + noise * asked.shared->scaled;
    return covariance;
}

// Adds a node's part to the mixtures of asked[from] ... asked[to - 1].
void add_node(const SurfaceModel& model, const SurfaceNode& node, const std::vector<Asked>& asked, std::size_t from,
              std::size_t to, std::vector<numerics::NormalMixture>& mixtures) {
    const double noise = node.guess.noise_factor * node.guess.noise_factor;
    Eigen::MatrixXd covariances(model.rows.values.size(), static_cast<Eigen::Index>(to - from));
    Eigen::VectorXd variances(covariances.cols());
    for (std::size_t i = from; i < to; ++i) {
        const auto column = static_cast<Eigen::Index>(i - from);
        covariances.col(column) = with_rows(model, node, asked[i]);
        variances(column) = height_variance(model.rows, node.kernel, asked[i].place) + asked[i].unscaled_variance +
                            noise * asked[i].scaled_variance;
    }
    const std::vector<Estimate> found = estimates(node.data, covariances, variances);
    for (std::size_t i = from; i < to; ++i) add(mixtures[i], node.weight, found[i - from]);
}

std::vector<numerics::NormalMixture> mixtures_of(const SurfaceModel& model, const std::vector<Asked>& asked) {
    constexpr std::size_t together = 128;  // places that share one pass through a node's matrix
    std::vector<numerics::NormalMixture> mixtures(asked.size());
    base::parallel_for((asked.size() + together - 1) / together, [&](std::size_t part) {
        const std::size_t from = part * together, to = std::min(asked.size(), from + together);
        for (const SurfaceNode& node : model.nodes) add_node(model, node, asked, from, to, mixtures);
    });
    return mixtures;
}

}  // namespace

Eigen::MatrixXd posterior_covariance(const SurfaceModel& model, const SurfaceNode& node, const std::vector<PathPoint>& points) {
    const SurfaceRows& rows = model.rows;
    const double noise = node.guess.noise_factor * node.guess.noise_factor;
    std::vector<Asked> asked;
    for (const PathPoint& point : points) asked.push_back(asked_over_path(model, point));
    const auto count = static_cast<Eigen::Index>(points.size());
    Eigen::MatrixXd with_data(rows.values.size(), count), covariance(count, count);
    for (Eigen::Index j = 0; j < count; ++j) {
        const Asked& one = asked[static_cast<std::size_t>(j)];
        with_data.col(j) = with_rows(model, node, one);
        const Eigen::Vector3d trend = rows.trend_variances.cwiseProduct(trend_row(one.place));
        for (Eigen::Index i = 0; i <= j; ++i) {
            const Asked& other = asked[static_cast<std::size_t>(i)];
            covariance(i, j) = covariance(j, i) = kernel_at(node.kernel, one.place - other.place).value +
                                                  trend.dot(trend_row(other.place)) + shared_by(one, other, noise);
        }
    }
    const Eigen::MatrixXd known = node.data.whitener.triangularView<Eigen::Lower>() * with_data;
    return covariance - known.transpose() * known;
}

numerics::NormalMixture height_at(const SurfaceModel& model, const Eigen::Vector2d& place) {
    return heights_at(model, {place}).front();
}

std::vector<numerics::NormalMixture> heights_at(const SurfaceModel& model, const std::vector<Eigen::Vector2d>& places) {
    if (model.neighbourhoods)
        return answers_nearby<numerics::NormalMixture>(model, places,
                                                       [&](const SurfaceModel& local, const std::vector<std::size_t>& asked) {
                                                           return heights_at(local, picked(places, asked));
                                                       });
    std::vector<Asked> asked(places.size());
    for (std::size_t i = 0; i < places.size(); ++i) asked[i].place = places[i] - model.rows.centre;
    return mixtures_of(model, asked);
}

numerics::NormalMixture height_over_path(const SurfaceModel& model, const Eigen::Vector3d& chart_point,
                                         const Eigen::Vector3d& slope_row, const std::vector<ChartEffect>& effects) {
    return heights_over_paths(model, {{chart_point, slope_row, effects}}).front();
}

std::vector<numerics::NormalMixture> heights_over_paths(const SurfaceModel& model, const std::vector<PathPoint>& points) {
    if (model.neighbourhoods) {
        Places places;
        for (const PathPoint& point : points) places.emplace_back(point.chart_point.head<2>());
        return answers_nearby<numerics::NormalMixture>(model, places,
                                                       [&](const SurfaceModel& local, const std::vector<std::size_t>& asked) {
                                                           return heights_over_paths(local, picked(points, asked));
                                                       });
    }
    std::vector<Asked> asked;
    for (const PathPoint& point : points) asked.push_back(asked_over_path(model, point));
    std::vector<numerics::NormalMixture> mixtures = mixtures_of(model, asked);
    for (std::size_t i = 0; i < points.size(); ++i)
        mixtures[i] = numerics::shifted(std::move(mixtures[i]), -points[i].chart_point.z());
    return mixtures;
}

}  // namespace selvage::veins
