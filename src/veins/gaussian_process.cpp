#include "veins/gaussian_process.h"

#include "numerics/triangular_product.h"

#include <Eigen/Cholesky>

#include <cmath>
#include <limits>

namespace selvage::veins {

namespace {

using Matrix = Eigen::MatrixXd;
using Block = Eigen::Ref<Eigen::MatrixXd>;
using Factor = Eigen::LLT<Eigen::MatrixXd>;

bool factor(Factor& llt, Matrix& covariance, double jitter) {
    constexpr int attempts = 5;
    llt.compute(covariance);
    for (int attempt = 0; attempt < attempts && llt.info() != Eigen::Success; ++attempt, jitter *= 10.0) {
        covariance.diagonal().array() += jitter;
        llt.compute(covariance);
    }
    return llt.info() == Eigen::Success;
}

// log N(y; 0, ZZ') from Z and the whitened y.
double log_density_from(const Matrix& z, const Eigen::VectorXd& whitened) {
    constexpr double log_two_pi = 1.83787706640934548356;
    return -0.5 * whitened.squaredNorm() - z.diagonal().array().log().sum() -
           0.5 * log_two_pi * static_cast<double>(whitened.size());
}

constexpr Eigen::Index small_block = 24;  // below it, plain substitution is quicker than halves

// Inverse of a lower triangle, in place, by halves: [A 0; B C]^-1 = [A^-1 0; -C^-1 B A^-1  C^-1].
void invert_lower(Block z) {
    const Eigen::Index n = z.rows(), half = n / 2;
    if (n <= small_block) {
        Matrix inverse = Matrix::Identity(n, n);
        z.triangularView<Eigen::Lower>().solveInPlace(inverse);
        z.triangularView<Eigen::Lower>() = inverse;
        return;
    }
    invert_lower(z.topLeftCorner(half, half));
    invert_lower(z.bottomRightCorner(n - half, n - half));
    const Matrix part = z.bottomLeftCorner(n - half, half) * z.topLeftCorner(half, half).triangularView<Eigen::Lower>();
    z.bottomLeftCorner(n - half, half).noalias() =
        -(z.bottomRightCorner(n - half, n - half).triangularView<Eigen::Lower>() * part);
}

// Lower triangle of W'W for a lower triangle W, by halves.
void add_square(const Eigen::Ref<const Matrix>& w, Block out) {
    const Eigen::Index n = w.rows(), half = n / 2;
    if (n <= small_block) {
        const Matrix lower = w.triangularView<Eigen::Lower>();
        out.triangularView<Eigen::Lower>() += lower.transpose() * lower;
        return;
    }
    const auto below = w.bottomLeftCorner(n - half, half);
    const auto last = w.bottomRightCorner(n - half, n - half);
    add_square(w.topLeftCorner(half, half), out.topLeftCorner(half, half));
    out.topLeftCorner(half, half).selfadjointView<Eigen::Lower>().rankUpdate(below.transpose());
    out.bottomLeftCorner(n - half, half).noalias() += last.triangularView<Eigen::Lower>().transpose() * below;
    add_square(last, out.bottomRightCorner(n - half, n - half));
}

}  // namespace

std::optional<Conditioned> condition(Matrix covariance, const Eigen::VectorXd& values, double jitter) {
    Factor llt;
    if (!factor(llt, covariance, jitter)) return std::nullopt;
    Conditioned data;
    covariance.triangularView<Eigen::StrictlyUpper>().setZero();
    covariance.triangularView<Eigen::Lower>() = llt.matrixLLT();
    const Eigen::VectorXd whitened = covariance.triangularView<Eigen::Lower>().solve(values);
    data.log_density = log_density_from(covariance, whitened);
    data.weights = covariance.triangularView<Eigen::Lower>().transpose().solve(whitened);
    invert_lower(covariance);
    data.whitener = std::move(covariance);
    return data;
}

double log_density_of(Matrix covariance, const Eigen::VectorXd& values, double jitter) {
    Factor llt;
    if (!factor(llt, covariance, jitter)) return -std::numeric_limits<double>::infinity();
    return log_density_from(llt.matrixLLT(), llt.matrixL().solve(values));
}

double log_density_of_last(const Matrix& covariance, const Eigen::VectorXd& values, Eigen::Index count) {
    constexpr double log_two_pi = 1.83787706640934548356;
    const Factor llt(covariance);
    if (llt.info() != Eigen::Success) return -std::numeric_limits<double>::infinity();
    const Eigen::VectorXd own = llt.matrixL().solve(values).tail(count);
    return -0.5 * own.squaredNorm() - llt.matrixLLT().diagonal().tail(count).array().log().sum() -
           0.5 * log_two_pi * static_cast<double>(count);
}

Estimate estimate(const Conditioned& data, const Eigen::VectorXd& with_data, double own_variance) {
    const double known = (data.whitener.triangularView<Eigen::Lower>() * with_data).squaredNorm();
    return {with_data.dot(data.weights), std::max(0.0, own_variance - known)};
}

std::vector<Estimate> estimates(const Conditioned& data, const Matrix& with_data, const Eigen::VectorXd& own_variances) {
    if (with_data.cols() == 1) return {estimate(data, with_data.col(0), own_variances(0))};
    const Eigen::VectorXd means = with_data.transpose() * data.weights;
    const Eigen::VectorXd known = numerics::squared_columns(data.whitener, with_data);
    std::vector<Estimate> result;
    for (Eigen::Index i = 0; i < with_data.cols(); ++i) result.push_back({means(i), std::max(0.0, own_variances(i) - known(i))});
    return result;
}

// With P = K^-1 and B the rows left out: the rest foretell y_B - S (Py)_B with covariance S = (P_BB)^-1.
LeftOut left_out(const Conditioned& data, const Eigen::VectorXd& values, const std::vector<Eigen::Index>& rows) {
    const auto count = static_cast<Eigen::Index>(rows.size());
    Matrix columns(data.whitener.rows(), count);
    Eigen::VectorXd weights(count), known(count);
    for (Eigen::Index i = 0; i < count; ++i) {
        const Eigen::Index row = rows[static_cast<std::size_t>(i)];
        columns.col(i) = data.whitener.col(row);
        weights(i) = data.weights(row);
        known(i) = values(row);
    }
    const Factor precision(columns.transpose() * columns);
    LeftOut result;
    result.covariance = precision.solve(Matrix::Identity(count, count));
    const Eigen::VectorXd residual = precision.solve(weights);
    result.mean = known - residual;
    constexpr double log_two_pi = 1.83787706640934548356;
    result.log_density = precision.matrixLLT().diagonal().array().log().sum() - 0.5 * weights.dot(residual) -
                         0.5 * log_two_pi * static_cast<double>(count);
    return result;
}

// b = (H'PH)^-1 H'Py; the variance gains q'(H'PH)^-1 q with q = h - H'Pk (Cressie 1993, section 3.4).
Estimate estimate_with_drift(const Conditioned& data, const Eigen::VectorXd& values, const Matrix& drift,
                             const Eigen::VectorXd& with_data, double own_variance, const Eigen::VectorXd& drift_there) {
    const auto whitener = data.whitener.triangularView<Eigen::Lower>();
    const Matrix h = whitener * drift;
    const Eigen::VectorXd y = whitener * values, k = whitener * with_data;
    const Factor information(h.transpose() * h);
    const Eigen::VectorXd b = information.solve(h.transpose() * y), q = drift_there - h.transpose() * k;
    return {drift_there.dot(b) + k.dot(y - h * b), own_variance - k.squaredNorm() + q.dot(information.solve(q))};
}

Matrix lower_inverse(const Conditioned& data) {
    Matrix inverse = Matrix::Zero(data.whitener.rows(), data.whitener.cols());
    add_square(data.whitener, inverse);
    return inverse;
}

}  // namespace selvage::veins
