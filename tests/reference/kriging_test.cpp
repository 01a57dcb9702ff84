#include "veins/covariance.h"
#include "veins/gaussian_process.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <functional>
#include <vector>

// Kriging of the Meuse zinc data (Rikken & Van Rijn 1993; Burrough & McDonnell 1998), as packaged with R's sp (Debian r-cran-sp),
// against values computed with R's gstat 2.1-0. Needs r-base-core and r-cran-sp.
namespace selvage::veins {
namespace {

struct Meuse {
    std::vector<Eigen::Vector2d> places;
    Eigen::VectorXd log_zinc;
};

Meuse read_meuse() {
    const char* command =
        "Rscript -e 'load(system.file(\"data/meuse.rda\", package = \"sp\"));"
        " write.table(cbind(meuse$x, meuse$y, meuse$zinc), row.names = FALSE, col.names = FALSE)'";
    Meuse meuse;
    std::vector<double> zinc;
    FILE* pipe = popen(command, "r");
    double x = 0.0, y = 0.0, value = 0.0;
    while (pipe != nullptr && std::fscanf(pipe, "%lf %lf %lf", &x, &y, &value) == 3) {
        meuse.places.emplace_back(x, y);
        zinc.push_back(value);
    }
    if (pipe != nullptr) pclose(pipe);
    meuse.log_zinc = Eigen::Map<const Eigen::VectorXd>(zinc.data(), static_cast<Eigen::Index>(zinc.size())).array().log();
    return meuse;
}

using Covariance = std::function<double(const Eigen::Vector2d&)>;  // of a lag

// Kriging with a drift: the data solved once, places about a centre so that the drift's columns stay small.
class Kriging : public testing::Test {
protected:
    void SetUp() override {
        ASSERT_EQ(meuse_.places.size(), 155U) << "needs Debian's r-base-core and r-cran-sp";
        ASSERT_NEAR(meuse_.log_zinc.sum(), 912.295257087125, 1e-9);
    }

    Conditioned solved(const Covariance& covariance, double nugget) const {
        const auto n = static_cast<Eigen::Index>(meuse_.places.size());
        Eigen::MatrixXd matrix(n, n);
        for (Eigen::Index i = 0; i < n; ++i)
            for (Eigen::Index j = 0; j < n; ++j) matrix(i, j) = covariance(place(i) - place(j)) + (i == j ? nugget : 0.0);
        return *condition(matrix, meuse_.log_zinc);
    }

    Estimate at(const Conditioned& data, const Covariance& covariance, double nugget, const Eigen::Vector2d& asked,
                bool plane) const {
        const auto n = static_cast<Eigen::Index>(meuse_.places.size());
        Eigen::MatrixXd drift(n, plane ? 3 : 1);
        Eigen::VectorXd with_data(n);
        for (Eigen::Index i = 0; i < n; ++i) {
            drift.row(i) = drift_row(place(i), plane);
            with_data(i) = covariance(place(i) - asked);
        }
        const double own = covariance(Eigen::Vector2d::Zero()) + nugget;
        return estimate_with_drift(data, meuse_.log_zinc, drift, with_data, own, drift_row(asked, plane).transpose());
    }

    Eigen::Vector2d place(Eigen::Index i) const { return meuse_.places[static_cast<std::size_t>(i)]; }
    const Meuse meuse_ = read_meuse();

private:
    static Eigen::RowVectorXd drift_row(const Eigen::Vector2d& place, bool plane) {
        const Eigen::Vector2d centred = (place - Eigen::Vector2d(180000.0, 331600.0)) / 1000.0;
        const Eigen::RowVector3d row(1.0, centred.x(), centred.y());
        return row.head(plane ? 3 : 1);
    }
};

double spherical(const Eigen::Vector2d& lag) {
    const double h = lag.norm() / 897.0;
    return h >= 1.0 ? 0.0 : 0.59 * (1.0 - 1.5 * h + 0.5 * h * h * h);
}

struct Row {
    Eigen::Vector2d place;
    double mean, variance, drift_mean, drift_variance;
};

TEST_F(Kriging, WithASphericalModelAgreesWithAReferenceLibrary) {
    const std::vector<Row> rows{{{181180, 333740}, 6.4998766128, 0.3186776128, 6.5872484705, 0.3358100311},
                                {{180940, 333300}, 6.4895076591, 0.1257113003, 6.4859646442, 0.1257148979},
                                {{179660, 331860}, 5.5661177556, 0.1630654124, 5.5447473869, 0.1631137393},
                                {{180660, 331620}, 4.9669831488, 0.3441319999, 4.7086302799, 0.3518903549},
                                {{178820, 330740}, 6.6179766179, 0.1616320929, 6.6872833037, 0.1622222586},
                                {{178660, 330060}, 6.1738922612, 0.3499492672, 6.3190942405, 0.3563969133},
                                {{179220, 329620}, 6.4246721633, 0.2356468395, 6.3292372563, 0.2399882676}};
    const Conditioned data = solved(spherical, 0.05);
    for (const Row& row : rows) {
        const Estimate ordinary = at(data, spherical, 0.05, row.place, false);
        EXPECT_NEAR(ordinary.mean, row.mean, 1e-8);
        EXPECT_NEAR(ordinary.variance, row.variance, 1e-8);
        const Estimate with_plane = at(data, spherical, 0.05, row.place, true);
        EXPECT_NEAR(with_plane.mean, row.drift_mean, 1e-7);
        EXPECT_NEAR(with_plane.variance, row.drift_variance, 1e-7);
    }
}

struct MaternRow {
    Eigen::Vector2d place;
    double mean, variance;
};

TEST_F(Kriging, WithMaternModelsAgreesWithAReferenceLibrary) {
    const std::vector<std::vector<MaternRow>> rows{{{{180940, 333300}, 6.49828378621, 0.0806329170286},
                                                    {{179660, 331860}, 5.37227708628, 0.1119862899937},
                                                    {{178660, 330060}, 6.19991594268, 0.3820868786923}},
                                                   {{{180940, 333300}, 6.49774563851, 0.0692694025457},
                                                    {{179660, 331860}, 5.40774573341, 0.0868364902604},
                                                    {{178660, 330060}, 6.20905159950, 0.3314907522878}}};
    for (const Smoothness smoothness : {Smoothness::three_halves, Smoothness::five_halves}) {
        Kernel kernel;
        kernel.smoothness = smoothness;
        kernel.sill = 0.59;
        kernel.metric = Eigen::Matrix2d::Identity() / (300.0 * 300.0);
        const Covariance covariance = [&](const Eigen::Vector2d& lag) { return kernel_at(kernel, lag).value; };
        const Conditioned data = solved(covariance, 0.05);
        for (const MaternRow& row : rows[smoothness == Smoothness::three_halves ? 0 : 1]) {
            const Estimate found = at(data, covariance, 0.05, row.place, false);
            EXPECT_NEAR(found.mean, row.mean, 1e-8);
            EXPECT_NEAR(found.variance, row.variance, 1e-8);
        }
    }
}

// Leave-one-out with an unknown mean: each datum estimated from the other 154 by a solve of their own.
TEST_F(Kriging, LeavesOneOutAsAReferenceLibraryDoes) {
    const auto n = static_cast<Eigen::Index>(meuse_.places.size());
    Eigen::MatrixXd matrix(n, n);
    for (Eigen::Index i = 0; i < n; ++i)
        for (Eigen::Index j = 0; j < n; ++j) matrix(i, j) = spherical(place(i) - place(j)) + (i == j ? 0.05 : 0.0);
    double squares = 0.0, z_squares = 0.0;
    for (Eigen::Index i = 0; i < n; ++i) {
        std::vector<Eigen::Index> others;
        for (Eigen::Index j = 0; j < n; ++j)
            if (j != i) others.push_back(j);
        const Eigen::VectorXd values = meuse_.log_zinc(others);
        const auto data = condition(matrix(others, others), values);
        const Eigen::VectorXd across = matrix(others, std::vector<Eigen::Index>{i});
        const Estimate found =
            estimate_with_drift(*data, values, Eigen::MatrixXd::Ones(n - 1, 1), across, 0.64, Eigen::VectorXd::Ones(1));
        const double residual = meuse_.log_zinc(i) - found.mean;
        squares += residual * residual / static_cast<double>(n);
        z_squares += residual * residual / found.variance / static_cast<double>(n);
        if (i == 0) {
            EXPECT_NEAR(found.mean, 6.7691821643, 1e-8);
            EXPECT_NEAR(found.variance, 0.1800190160, 1e-8);
        }
        if (i == 76) {
            EXPECT_NEAR(found.mean, 5.8203811340, 1e-8);
            EXPECT_NEAR(found.variance, 0.1262586699, 1e-8);
        }
    }
    EXPECT_NEAR(std::sqrt(squares), 0.3917494741, 1e-8);
    EXPECT_NEAR(z_squares, 0.8227633136, 1e-8);
}

}  // namespace
}  // namespace selvage::veins
