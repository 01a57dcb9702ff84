#include "studies/plug_in.h"

#include "numerics/sobol.h"
#include "veins/gaussian_process.h"
#include "veins/surface_model.h"
#include "veins/surface_parameters.h"

#include <Eigen/QR>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <optional>

namespace selvage::studies {

namespace {

constexpr int free_scores = 5;
constexpr double score_limit = 3.5;
constexpr std::size_t first_points = 256;
constexpr int evaluations = 250;
constexpr double first_step = 0.5;  // of the simplex, in scores

using FreeScores = Eigen::Matrix<double, free_scores, 1>;

Eigen::MatrixX3d trend_of(const veins::SurfaceRows& rows) {
    Eigen::MatrixX3d trend = Eigen::MatrixX3d::Zero(rows.values.size(), 3);
    for (const veins::RowPlace& place : rows.places) {
        if (place.has_height) trend.row(place.first) = veins::trend_row(place.place);
        if (!place.has_slopes) continue;
        trend(place.slope_row(), 1) = trend(place.slope_row() + 1, 2) = rows.slope_scale;
    }
    return trend;
}

class Likelihood {
public:
    // Of rows that hold no trend.
    Likelihood(const veins::SurfaceRows& rows, const Eigen::MatrixX3d& trend, double spacing)
        : rows_(rows), trend_(trend), spacing_(spacing) {}

    veins::SurfaceGuess guess(const FreeScores& scores) const {
        veins::Scores all = veins::Scores::Zero();
        all.head<free_scores>() = scores.cwiseMax(-score_limit).cwiseMin(score_limit);
        return veins::guess_of(veins::Smoothness::three_halves, all, spacing_);
    }
    std::optional<veins::Conditioned> data(const FreeScores& scores) const {
        return veins::condition(veins::covariance_of_rows(rows_, guess(scores)), rows_.values);
    }
    // Log likelihood at the likeliest trend.
    double at(const FreeScores& scores) const {
        const auto known = data(scores);
        if (!known) return -std::numeric_limits<double>::infinity();
        const auto whitener = known->whitener.triangularView<Eigen::Lower>();
        const Eigen::VectorXd white = whitener * rows_.values;
        const Eigen::MatrixX3d white_trend = whitener * trend_;
        const Eigen::VectorXd fitted = white_trend * white_trend.colPivHouseholderQr().solve(white);
        return known->log_density + 0.5 * (white.squaredNorm() - (white - fitted).squaredNorm());
    }

private:
    const veins::SurfaceRows& rows_;
    const Eigen::MatrixX3d& trend_;
    double spacing_;
};

FreeScores best_of_first(const Likelihood& likelihood) {
    const Eigen::MatrixXd points = numerics::sobol_points(first_points, free_scores);
    FreeScores best = FreeScores::Zero();
    double highest = -std::numeric_limits<double>::infinity();
    for (Eigen::Index i = 0; i < points.rows(); ++i) {
        FreeScores scores;
        for (int k = 0; k < free_scores; ++k) scores(k) = numerics::normal_quantile(points(i, k));
        const double value = likelihood.at(scores);
        if (value <= highest) continue;
        highest = value;
        best = scores;
    }
    return best;
}

struct Corner {
    FreeScores scores;
    double value;
};

// Uphill by reflection, expansion, contraction and shrinking.
class Simplex {
public:
    Simplex(const Likelihood& likelihood, const FreeScores& start) : likelihood_(likelihood) {
        corners_.push_back(corner(start));
        for (int k = 0; k < free_scores; ++k) corners_.push_back(corner(start + first_step * FreeScores::Unit(k)));
        order();
    }

    FreeScores climb() {
        while (asked_ < evaluations) step();
        return corners_.front().scores;
    }

private:
    Corner corner(const FreeScores& scores) {
        ++asked_;
        return {scores, likelihood_.at(scores)};
    }
    void order() {
        std::stable_sort(corners_.begin(), corners_.end(), [](const Corner& a, const Corner& b) { return a.value > b.value; });
    }
    void step() {
        Corner& worst = corners_.back();
        FreeScores middle = FreeScores::Zero();
        for (int k = 0; k < free_scores; ++k) middle += corners_[static_cast<std::size_t>(k)].scores / free_scores;
        const Corner mirrored = corner(2.0 * middle - worst.scores);
        if (mirrored.value > corners_.front().value) {
            const Corner further = corner(3.0 * middle - 2.0 * worst.scores);
            worst = further.value > mirrored.value ? further : mirrored;
        } else if (mirrored.value > corners_[free_scores - 1].value) {
            worst = mirrored;
        } else {
            const Corner& better = mirrored.value > worst.value ? mirrored : worst;
            const Corner nearer = corner(0.5 * (middle + better.scores));
            if (nearer.value > better.value)
                worst = nearer;
            else
                for (std::size_t i = 1; i < corners_.size(); ++i)
                    corners_[i] = corner(0.5 * (corners_[0].scores + corners_[i].scores));
        }
        order();
    }

    const Likelihood& likelihood_;
    std::vector<Corner> corners_;
    int asked_ = 0;
};

}  // namespace

std::vector<numerics::NormalMixture> plug_in_heights(veins::SurfaceRows rows, double spacing,
                                                     const std::vector<Eigen::Vector2d>& places) {
    const Eigen::MatrixX3d trend = trend_of(rows);
    const auto variances = rows.trend_variances.asDiagonal();
    rows.unscaled.triangularView<Eigen::Lower>() -= trend * variances * trend.transpose();
    const Likelihood likelihood(rows, trend, spacing);
    const FreeScores likeliest = Simplex(likelihood, best_of_first(likelihood)).climb();
    const veins::Kernel kernel = veins::kernel_of(veins::Smoothness::three_halves, likelihood.guess(likeliest).shape);
    const auto data = likelihood.data(likeliest);
    std::vector<numerics::NormalMixture> said;
    for (const Eigen::Vector2d& place : places) {
        const Eigen::Vector2d from_centre = place - rows.centre;
        const Eigen::Vector3d drift = veins::trend_row(from_centre);
        const Eigen::VectorXd with_data = veins::height_with_rows(rows, kernel, from_centre) - trend * (variances * drift);
        const veins::Estimate one = veins::estimate_with_drift(*data, rows.values, trend, with_data, kernel.sill, drift);
        said.push_back({{1.0}, {one.mean}, {std::sqrt(std::max(one.variance, 1e-6))}});
    }
    return said;
}

}  // namespace selvage::studies
