#include "veins/gaussian_process.h"

#include "veins/covariance.h"

#include <gtest/gtest.h>
#include <Eigen/LU>

#include <cmath>
#include <functional>
#include <vector>

namespace selvage::veins {
namespace {

using Places = std::vector<Eigen::Vector2d>;
using Covariance = std::function<double(const Eigen::Vector2d&, const Eigen::Vector2d&)>;

Eigen::MatrixXd matrix_of(const Covariance& covariance, const Places& places, double nugget = 0.0) {
    const auto n = static_cast<Eigen::Index>(places.size());
    Eigen::MatrixXd matrix = nugget * Eigen::MatrixXd::Identity(n, n);
    for (Eigen::Index i = 0; i < n; ++i)
        for (Eigen::Index j = 0; j < n; ++j)
            matrix(i, j) += covariance(places[static_cast<std::size_t>(i)], places[static_cast<std::size_t>(j)]);
    return matrix;
}

Eigen::VectorXd column_of(const Covariance& covariance, const Places& places, const Eigen::Vector2d& to) {
    Eigen::VectorXd column(static_cast<Eigen::Index>(places.size()));
    for (std::size_t i = 0; i < places.size(); ++i) column(static_cast<Eigen::Index>(i)) = covariance(places[i], to);
    return column;
}

// Isaaks & Srivastava, An Introduction to Applied Geostatistics (1989), ch. 12: estimate 592.7, variance 8.96 with C = 10
// exp(-0.3 h); further digits recomputed.
TEST(Kriging, OrdinaryKrigingOfTheTextbook) {
    const Places places{{61, 139}, {63, 140}, {64, 129}, {68, 128}, {71, 140}, {73, 141}, {75, 128}};
    Eigen::VectorXd values(7);
    values << 477, 696, 227, 646, 606, 791, 783;
    const Covariance exponential = [](const auto& a, const auto& b) { return 10.0 * std::exp(-0.3 * (a - b).norm()); };
    const auto data = condition(matrix_of(exponential, places), values);
    ASSERT_TRUE(data);
    const Estimate found = estimate_with_drift(*data, values, Eigen::MatrixXd::Ones(7, 1),
                                               column_of(exponential, places, {65, 137}), 10.0, Eigen::VectorXd::Ones(1));
    EXPECT_NEAR(found.mean, 592.7289427897, 1e-8);
    EXPECT_NEAR(found.variance, 8.9560527887, 1e-8);
}

const Places five{{0, 0}, {1, 0}, {0, 2}, {3, 1}, {2, 3}};
const Places asked{{1, 1}, {2, 2}, {4, 0}, {0, 0}};

Eigen::VectorXd five_values() {
    Eigen::VectorXd values(5);
    values << 1.0, 2.0, 0.5, 3.0, 1.5;
    return values;
}

void expect_predictions(const Covariance& covariance, const std::vector<double>& means, const std::vector<double>& variances,
                        double log_density) {
    const auto data = condition(matrix_of(covariance, five, 0.01), five_values());
    ASSERT_TRUE(data);
    EXPECT_NEAR(data->log_density, log_density, 1e-10);
    EXPECT_NEAR(log_density_of(matrix_of(covariance, five, 0.01), five_values()), log_density, 1e-10);
    for (std::size_t i = 0; i < asked.size(); ++i) {
        const Estimate found = estimate(*data, column_of(covariance, five, asked[i]), 2.0);
        EXPECT_NEAR(found.mean, means[i], 1e-10);
        EXPECT_NEAR(found.variance, variances[i], 1e-10);
    }
}

// scikit-learn 1.2.1, GaussianProcessRegressor without optimiser: variance 2, length 1.5, noise variance 0.01.
TEST(GaussianProcess, SquaredExponentialAgreesWithAReferenceLibrary) {
    const Covariance squared = [](const auto& a, const auto& b) {
        return 2.0 * std::exp(-0.5 * (a - b).squaredNorm() / (1.5 * 1.5));
    };
    expect_predictions(squared, {1.980690154004, 2.360425394508, 1.722508728541, 1.002297326846},
                       {0.33611334065, 0.335011861577, 1.112083536074, 0.009841185314}, -8.184127600248);
}

Covariance matern_five_halves() {
    Kernel kernel;
    kernel.smoothness = Smoothness::five_halves;
    kernel.sill = 2.0;
    kernel.metric = Eigen::Matrix2d::Identity() / (1.5 * 1.5);
    return [kernel](const auto& a, const auto& b) { return kernel_at(kernel, a - b).value; };
}

// As above; leave-one-out by the inverse's diagonal.
TEST(GaussianProcess, MaternAgreesWithAReferenceLibrary) {
    expect_predictions(matern_five_halves(), {1.823672274339, 2.158572890464, 1.586973550265, 1.00186597675},
                       {0.631540519546, 0.629582020572, 1.365145122008, 0.009887559917}, -8.504150293669);
}

TEST(GaussianProcess, LeavesOneOutAsAReferenceLibraryDoes) {
    const std::vector<double> means{1.165952986044, 1.311136034018, 0.755360033679, 0.973580344831, 0.867383023507};
    const std::vector<double> variances{0.889362560558, 0.87345616769, 1.626131517172, 1.685345981097, 1.712262547387};
    const auto data = condition(matrix_of(matern_five_halves(), five, 0.01), five_values());
    ASSERT_TRUE(data);
    for (std::size_t i = 0; i < five.size(); ++i) {
        const LeftOut left = left_out(*data, five_values(), {static_cast<Eigen::Index>(i)});
        EXPECT_NEAR(left.mean(0), means[i], 1e-10);
        EXPECT_NEAR(left.covariance(0, 0), variances[i], 1e-10);
    }
}

TEST(GaussianProcess, LeavesSeveralOutAsASolveWithoutThemDoes) {
    const Eigen::MatrixXd all = matrix_of(matern_five_halves(), five, 0.01);
    const auto data = condition(all, five_values());
    const LeftOut left = left_out(*data, five_values(), {1, 2});
    const std::vector<Eigen::Index> kept{0, 3, 4}, out{1, 2};
    const Eigen::MatrixXd rest = all(kept, kept), across = all(kept, out), own = all(out, out);
    const Eigen::VectorXd known = five_values()(kept);
    const Eigen::VectorXd mean = across.transpose() * rest.inverse() * known;
    const Eigen::MatrixXd covariance = own - across.transpose() * rest.inverse() * across;
    EXPECT_LT((left.mean - mean).norm(), 1e-12);
    EXPECT_LT((left.covariance - covariance).norm(), 1e-12);
    EXPECT_NEAR(left.log_density, data->log_density - log_density_of(rest, known), 1e-12);
}

// A value a and a slope b known exactly at 0, k = s2 exp(-x^2 / 2 l2):  mean = exp(-x^2/2 l2)(a + b x), variance = s2 (1 -
// exp(-x^2/l2) (1 + x^2/l2)); by hand, checked against the matrix form.
TEST(GaussianProcess, ASlopeInformsTheHeight) {
    const double s2 = 1.5, l2 = 4.0;
    Eigen::Matrix2d matrix;
    matrix << s2, 0.0, 0.0, s2 / l2;
    const auto data = condition(matrix, Eigen::Vector2d(1.0, 0.5));
    const std::vector<double> means{1.323745353877, 1.213061319425, 0.811631168396};
    const std::vector<double> variances{0.039748531741, 0.396361676486, 0.986178780261};
    for (std::size_t i = 0; i < 3; ++i) {
        const double x = 1.0 + static_cast<double>(i), k = s2 * std::exp(-0.5 * x * x / l2);
        const Estimate found = estimate(*data, Eigen::Vector2d(k, x / l2 * k), s2);
        EXPECT_NEAR(found.mean, means[i], 1e-10);
        EXPECT_NEAR(found.variance, variances[i], 1e-10);
    }
}

// A larger matrix than the small blocks of the triangular routines.
TEST(GaussianProcess, WhitenerAndInverseBelongToTheMatrix) {
    Places places;
    for (int i = 0; i < 75; ++i) places.emplace_back(std::fmod(i * 0.618, 1.0) * 9.0, std::fmod(i * 0.414, 1.0) * 9.0);
    const Eigen::MatrixXd matrix = matrix_of(matern_five_halves(), places, 0.3);
    const auto data = condition(matrix, Eigen::VectorXd::Ones(75));
    EXPECT_LT((data->whitener * matrix * data->whitener.transpose() - Eigen::MatrixXd::Identity(75, 75)).norm(), 1e-11);
    const Eigen::MatrixXd inverse = lower_inverse(*data).selfadjointView<Eigen::Lower>();
    EXPECT_LT((inverse * matrix - Eigen::MatrixXd::Identity(75, 75)).norm(), 1e-11);
}

TEST(GaussianProcess, TakesAMatrixThatRoundingHasSpoilt) {
    const Eigen::MatrixXd twins = Eigen::MatrixXd::Constant(3, 3, 2.0);
    const auto data = condition(twins, Eigen::Vector3d::Ones());
    ASSERT_TRUE(data);
    EXPECT_NEAR(estimate(*data, Eigen::Vector3d::Constant(2.0), 2.0).mean, 1.0, 1e-6);
    EXPECT_FALSE(condition(-twins, Eigen::Vector3d::Ones()));
}

}  // namespace
}  // namespace selvage::veins
