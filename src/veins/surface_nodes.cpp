#include "veins/surface_nodes.h"

#include "base/parallel.h"
#include "numerics/minimize.h"
#include "numerics/normal_mixture.h"
#include "numerics/sobol.h"
#include "veins/neighbourhood.h"
#include "veins/surface_neighbours.h"

#include <Eigen/Eigenvalues>
#include <boost/math/distributions/chi_squared.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numeric>

namespace selvage::veins {

namespace {

constexpr std::size_t start_count = 32;     // points of the prior from which a mode is sought
constexpr std::size_t proposal_count = 64;  // nodes from the prior, and as many about the mode
constexpr std::size_t design_from = 40;     // places
constexpr double kept_weight = 0.99;        // less would take some hundredths off the sds
constexpr double degrees_of_freedom = 5.0;
constexpr std::array<Smoothness, 2> smoothnesses{Smoothness::three_halves, Smoothness::five_halves};

// A point of the scores with the log of what it counts for.
struct Node {
    Smoothness smoothness = Smoothness::three_halves;
    Scores scores = Scores::Zero();
    double log_likelihood = 0.0;
    double log_weight = 0.0;
};

// Normal approximation about a mode.
struct Mode {
    Scores scores = Scores::Zero();
    Eigen::Matrix<double, surface_scores, surface_scores> precision, spread;  // spread^2 = precision^-1, symmetric
    double log_determinant = 0.0;                                             // of the precision
};

std::vector<Scores> prior_points(std::size_t count) {
    const Eigen::MatrixXd points = numerics::sobol_points(count, surface_scores);
    std::vector<Scores> scores(count);
    for (std::size_t i = 0; i < count; ++i)
        scores[i] = points.row(static_cast<Eigen::Index>(i)).transpose().unaryExpr(&numerics::normal_quantile);
    return scores;
}

std::vector<Node> scored(std::vector<Node> nodes, const SurfaceRows& rows, double spacing) {
    base::parallel_for(nodes.size(), [&](std::size_t i) {
        nodes[i].log_likelihood = log_likelihood(rows, nodes[i].smoothness, nodes[i].scores, spacing);
    });
    return nodes;
}

std::vector<Node> scored(std::vector<Node> nodes, const NeighbourLikelihood& likelihood, double spacing) {
    base::parallel_for(nodes.size(), [&](std::size_t i) {
        nodes[i].log_likelihood = likelihood(guess_of(nodes[i].smoothness, nodes[i].scores, spacing));
    });
    return nodes;
}

std::vector<Node> prior_nodes(Smoothness smoothness, const SurfaceRows& rows, double spacing, std::size_t count) {
    std::vector<Node> nodes;
    for (const Scores& point : prior_points(count)) nodes.push_back({smoothness, point, 0.0, 0.0});
    return scored(std::move(nodes), rows, spacing);
}

const Node& likeliest(const std::vector<Node>& nodes) {
    const auto posterior = [](const Node& node) { return node.log_likelihood + log_prior(node.scores); };
    return *std::max_element(nodes.begin(), nodes.end(),
                             [&](const Node& a, const Node& b) { return posterior(a) < posterior(b); });
}

// Minus the log posterior, as a function to minimise.
numerics::SmoothFunction loss_of(Smoothness smoothness, const SurfaceRows& rows, double spacing) {
    return [&rows, smoothness, spacing](const Eigen::VectorXd& x, Eigen::VectorXd& gradient) {
        Scores by_scores;
        const Scores scores = x;
        const double value = log_likelihood(rows, smoothness, scores, spacing, by_scores) + log_prior(scores);
        gradient = scores - by_scores;
        return std::isnan(value) ? std::numeric_limits<double>::infinity() : -value;
    };
}

numerics::SmoothFunction loss_of(Smoothness smoothness, const NeighbourLikelihood& likelihood, double spacing) {
    return [&likelihood, smoothness, spacing](const Eigen::VectorXd& x, Eigen::VectorXd& gradient) {
        Scores by_scores;
        const Scores scores = x;
        const double value = likelihood(smoothness, scores, spacing, by_scores) + log_prior(scores);
        gradient = scores - by_scores;
        return std::isfinite(value) ? -value : std::numeric_limits<double>::infinity();
    };
}

// Second derivatives by central differences of the gradient.
Eigen::MatrixXd hessian_at(const Scores& mode, const numerics::SmoothFunction& loss) {
    constexpr double step = 0.03;
    Eigen::MatrixXd differences(surface_scores, 2 * surface_scores);
    base::parallel_for(2 * surface_scores, [&](std::size_t i) {
        const auto side = static_cast<Eigen::Index>(i);
        Eigen::VectorXd at = mode, gradient;
        at(side / 2) += side % 2 == 0 ? step : -step;
        loss(at, gradient);
        differences.col(side) = gradient;
    });
    Eigen::MatrixXd hessian(surface_scores, surface_scores);
    for (Eigen::Index j = 0; j < surface_scores; ++j)
        hessian.col(j) = (differences.col(2 * j) - differences.col(2 * j + 1)) / (2.0 * step);
    return 0.5 * (hessian + hessian.transpose());
}

Scores least(const numerics::SmoothFunction& loss, const Scores& start) {
    numerics::MinimizeRules rules;
    rules.gradient_tolerance = 1e-3;  // a thousandth of the prior's sd is near enough for a proposal
    return numerics::minimize(loss, start, rules).point;
}

Mode mode_from(const Scores& start, const numerics::SmoothFunction& loss) {
    constexpr double least_precision = 0.5, greatest_precision = 1000.0;  // the prior alone gives 1
    Mode mode;
    mode.scores = least(loss, start);
    const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> eigen(hessian_at(mode.scores, loss));
    const Eigen::VectorXd values = eigen.eigenvalues().cwiseMax(least_precision).cwiseMin(greatest_precision);
    mode.precision = eigen.eigenvectors() * values.asDiagonal() * eigen.eigenvectors().transpose();
    mode.spread = eigen.eigenvectors() * values.cwiseSqrt().cwiseInverse().asDiagonal() * eigen.eigenvectors().transpose();
    mode.log_determinant = values.array().log().sum();
    return mode;
}

// log density of the t distribution about the mode.
double log_t_density(const Mode& mode, const Scores& scores) {
    const double pi = std::acos(-1.0), n = degrees_of_freedom, d = surface_scores;
    const Scores off = scores - mode.scores;
    return std::lgamma(0.5 * (n + d)) - std::lgamma(0.5 * n) - 0.5 * d * std::log(n * pi) + 0.5 * mode.log_determinant -
           0.5 * (n + d) * std::log1p(off.dot(mode.precision * off) / n);
}

std::vector<Node> t_nodes(Smoothness smoothness, const Mode& mode, const SurfaceRows& rows, double spacing) {
    const Eigen::MatrixXd points = numerics::sobol_points(proposal_count, surface_scores + 1);
    const boost::math::chi_squared chi_squared(degrees_of_freedom);
    std::vector<Node> nodes;
    for (Eigen::Index i = 0; i < points.rows(); ++i) {
        const Scores z = points.row(i).head<surface_scores>().transpose().unaryExpr(&numerics::normal_quantile);
        const double stretch = std::sqrt(degrees_of_freedom / boost::math::quantile(chi_squared, points(i, surface_scores)));
        nodes.push_back({smoothness, mode.scores + stretch * mode.spread * z, 0.0, 0.0});
    }
    return scored(std::move(nodes), rows, spacing);
}

std::vector<Node> mixed_nodes(std::vector<Node> nodes, const Mode& mode, const SurfaceRows& rows, double spacing) {
    const std::vector<Node> about_mode = t_nodes(nodes.front().smoothness, mode, rows, spacing);
    nodes.insert(nodes.end(), about_mode.begin(), about_mode.end());
    for (Node& node : nodes) {
        const double prior = log_prior(node.scores), t = log_t_density(mode, node.scores), larger = std::max(prior, t);
        const double proposal = larger + std::log(0.5 * std::exp(prior - larger) + 0.5 * std::exp(t - larger));
        node.log_weight = node.log_likelihood + prior - proposal;
    }
    return nodes;
}

// The 29 points of the design in units of the mode's spread: the centre, a half fraction of the corners (entry 5 = 1 x 2 x 3,
// entry 6 = 2 x 3 x 4), and points on the axes, all at one distance.
std::vector<Scores> design_points() {
    constexpr double stretch = 1.1;
    std::vector<Scores> points{Scores::Zero()};
    for (unsigned corner = 0; corner < 16; ++corner) {
        Scores z;
        for (unsigned i = 0; i < 4; ++i) z(i) = (corner >> i & 1U) != 0 ? 1.0 : -1.0;
        z(4) = z(0) * z(1) * z(2);
        z(5) = z(1) * z(2) * z(3);
        points.push_back(stretch * z);
    }
    for (Eigen::Index axis = 0; axis < surface_scores; ++axis)
        for (const double sign : {1.0, -1.0})
            points.push_back(sign * stretch * std::sqrt(static_cast<double>(surface_scores)) * Scores::Unit(axis));
    return points;
}

// Each point stands for a share of a standard normal distribution (its first and second moments are met), times the posterior's
// ratio to that distribution there.
template <typename Likelihood>
std::vector<Node> design_nodes(Smoothness smoothness, const Mode& mode, const Likelihood& likelihood, double spacing) {
    constexpr double off_centre = 1.0 / (1.1 * 1.1);
    const std::vector<Scores> points = design_points();
    std::vector<Node> nodes;
    for (const Scores& z : points) nodes.push_back({smoothness, mode.scores + mode.spread * z, 0.0, 0.0});
    nodes = scored(std::move(nodes), likelihood, spacing);
    for (std::size_t i = 0; i < nodes.size(); ++i) {
        const double share = i == 0 ? 1.0 - off_centre : off_centre / static_cast<double>(nodes.size() - 1);
        nodes[i].log_weight = std::log(share) + nodes[i].log_likelihood + log_prior(nodes[i].scores) - log_prior(points[i]) -
                              0.5 * mode.log_determinant;
    }
    return nodes;
}

// Weights that add to 1, of the heaviest nodes alone, at most so many, in the nodes' own order.
std::vector<WeighedGuess> weighed(const std::vector<Node>& nodes, double spacing, std::size_t most) {
    std::vector<double> log_weights;
    for (const Node& node : nodes) log_weights.push_back(node.log_weight);
    const std::vector<double> weights = numerics::weights_from_logs(log_weights);
    std::vector<std::size_t> order(nodes.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return weights[a] > weights[b]; });
    double kept = 0.0;
    std::size_t count = 0;
    while (count < std::min(most, order.size()) && kept < kept_weight) kept += weights[order[count++]];
    order.resize(count);
    std::sort(order.begin(), order.end());
    std::vector<WeighedGuess> result;
    for (const std::size_t i : order)
        result.push_back({guess_of(nodes[i].smoothness, nodes[i].scores, spacing), weights[i] / kept});
    return result;
}

std::vector<Node> nodes_of(Smoothness smoothness, const SurfaceRows& rows, double spacing) {
    const bool by_design = rows.places.size() >= design_from;
    std::vector<Node> prior = prior_nodes(smoothness, rows, spacing, by_design ? start_count : proposal_count);
    const Mode mode = mode_from(likeliest(prior).scores, loss_of(smoothness, rows, spacing));
    return by_design ? design_nodes(smoothness, mode, rows, spacing) : mixed_nodes(std::move(prior), mode, rows, spacing);
}

// Both smoothnesses' nodes, by a function of the smoothness.
template <typename Nodes>
std::vector<Node> of_both(const Nodes& nodes) {
    std::array<std::vector<Node>, smoothnesses.size()> found;
    base::parallel_for(smoothnesses.size(), [&](std::size_t i) { found[i] = nodes(smoothnesses[i]); });
    found[0].insert(found[0].end(), found[1].begin(), found[1].end());
    return found[0];
}

SurfaceRows spread_rows(const SurfaceRows& rows, std::size_t count) {
    Places places;
    for (const RowPlace& place : rows.places) places.push_back(place.place);
    return rows_of_places(rows, spread_order(places, count));
}

// Very many data: modes sought on a spread selection, then, as weights are, by neighbours among all. (A selection alone sees
// little of short waves and of noise: taken for all it cost .29 of log score at 375 intercepts.)
std::vector<WeighedGuess> nodes_of_many(const SurfaceRows& rows, double spacing) {
    constexpr std::size_t selection = 100, neighbours = 20, most_nodes = 10;
    const SurfaceRows spread = spread_rows(rows, selection);
    const NeighbourLikelihood likelihood(rows, neighbours);
    const std::vector<Node> nodes = of_both([&](Smoothness smoothness) {
        const Node start = likeliest(prior_nodes(smoothness, spread, spacing, start_count));
        const Scores near = least(loss_of(smoothness, spread, spacing), start.scores);
        return design_nodes(smoothness, mode_from(near, loss_of(smoothness, likelihood, spacing)), likelihood, spacing);
    });
    return weighed(nodes, spacing, most_nodes);
}

}  // namespace

std::vector<WeighedGuess> surface_nodes(const SurfaceRows& rows, double spacing, Eigen::Index most_searched) {
    if (rows.values.size() > most_searched) return nodes_of_many(rows, spacing);
    const std::vector<Node> nodes = of_both([&](Smoothness smoothness) { return nodes_of(smoothness, rows, spacing); });
    return weighed(nodes, spacing, nodes.size());
}

SurfaceGuess first_guess(const SurfaceRows& rows, double spacing) {
    const std::size_t most = 100;  // data; more would say no more of it
    const bool few = rows.places.size() <= most && rows.unscaled.size() > 0;
    const std::vector<Node> nodes =
        prior_nodes(Smoothness::three_halves, few ? rows : spread_rows(rows, most), spacing, start_count);
    const Node& best = likeliest(nodes);
    return guess_of(best.smoothness, best.scores, spacing);
}

}  // namespace selvage::veins
