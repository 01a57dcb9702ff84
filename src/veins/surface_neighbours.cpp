#include "veins/surface_neighbours.h"

#include <Eigen/Cholesky>

#include <algorithm>
#include <cmath>
#include <limits>

namespace selvage::veins {

namespace {

double square_distance(const SurfaceRows& rows, std::size_t a, std::size_t b) {
    return (rows.places[a].place - rows.places[b].place).squaredNorm();
}

// The nearest of the first `count` entries of an order, nearest last, then the entry itself.
std::vector<std::size_t> nearest_before(const SurfaceRows& rows, const std::vector<std::size_t>& order, std::size_t count,
                                        std::size_t neighbours) {
    const std::size_t own = order[count];
    std::vector<std::size_t> group(order.begin(), order.begin() + static_cast<std::ptrdiff_t>(count));
    std::sort(group.begin(), group.end(), [&](std::size_t a, std::size_t b) {
        const double da = square_distance(rows, a, own), db = square_distance(rows, b, own);
        return da < db || (da == db && a < b);
    });
    group.resize(std::min(neighbours, group.size()));
    std::reverse(group.begin(), group.end());
    group.push_back(own);
    return group;
}

Eigen::MatrixXd lower_part(const Eigen::MatrixXd& lower, const std::vector<Eigen::Index>& rows) {
    const auto n = static_cast<Eigen::Index>(rows.size());
    Eigen::MatrixXd part = Eigen::MatrixXd::Zero(n, n);
    for (Eigen::Index j = 0; j < n; ++j)
        for (Eigen::Index i = j; i < n; ++i) {
            const auto [low, high] = std::minmax(rows[static_cast<std::size_t>(i)], rows[static_cast<std::size_t>(j)]);
            part(i, j) = lower(high, low);
        }
    return part;
}

}  // namespace

std::vector<std::size_t> spread_order(const SurfaceRows& rows, std::size_t count) {
    const std::size_t all = rows.places.size();
    std::vector<double> distance(all, std::numeric_limits<double>::infinity());
    std::vector<std::size_t> order;
    std::size_t next = 0;
    for (std::size_t i = 1; i < all; ++i)  // places are counted from their middle
        if (rows.places[i].place.squaredNorm() < rows.places[next].place.squaredNorm()) next = i;
    while (order.size() < std::min(count, all)) {
        order.push_back(next);
        for (std::size_t i = 0; i < all; ++i) distance[i] = std::min(distance[i], square_distance(rows, i, order.back()));
        for (const std::size_t chosen : order) distance[chosen] = -1.0;
        next = static_cast<std::size_t>(std::max_element(distance.begin(), distance.end()) - distance.begin());
    }
    return order;
}

SurfaceRows rows_of_places(const SurfaceRows& rows, const std::vector<std::size_t>& places) {
    SurfaceRows part;
    part.centre = rows.centre;
    part.slope_scale = rows.slope_scale;
    std::vector<Eigen::Index> taken;
    for (const std::size_t p : places) {
        RowPlace place = rows.places[p];
        for (Eigen::Index i = 0; i < place.count(); ++i) taken.push_back(place.first + i);
        place.first = static_cast<Eigen::Index>(taken.size()) - place.count();
        part.places.push_back(place);
        part.datum.push_back(rows.datum[p]);
    }
    part.values = rows.values(taken);
    part.core = rows.core(taken);
    part.unscaled = lower_part(rows.unscaled, taken);
    part.scaled = lower_part(rows.scaled, taken);
    return part;
}

NeighbourLikelihood::NeighbourLikelihood(const SurfaceRows& rows, std::size_t neighbours) {
    const std::vector<std::size_t> order = spread_order(rows, rows.places.size());
    for (std::size_t i = 0; i < order.size(); ++i) {
        own_rows_.push_back(rows.places[order[i]].count());
        groups_.push_back(rows_of_places(rows, nearest_before(rows, order, i, neighbours)));
    }
}

double NeighbourLikelihood::operator()(const SurfaceGuess& guess) const {
    constexpr double log_two_pi = 1.83787706640934548356;
    double sum = 0.0;
    for (std::size_t i = 0; i < groups_.size(); ++i) {
        const Eigen::LLT<Eigen::MatrixXd> factor(covariance_of_rows(groups_[i], guess));
        if (factor.info() != Eigen::Success) return -std::numeric_limits<double>::infinity();
        const Eigen::VectorXd own = factor.matrixL().solve(groups_[i].values).tail(own_rows_[i]);
        const Eigen::VectorXd sds = factor.matrixLLT().diagonal().tail(own_rows_[i]);
        sum -= 0.5 * own.squaredNorm() + sds.array().log().sum() + 0.5 * log_two_pi * static_cast<double>(own.size());
    }
    return sum;
}

}  // namespace selvage::veins
