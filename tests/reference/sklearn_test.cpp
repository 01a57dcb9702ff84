#include "base/random.h"
#include "support/temporary_folder.h"
#include "veins/covariance.h"
#include "veins/gaussian_process.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <fstream>
#include <string>
#include <vector>

// Means and sds of a Gaussian process with a fixed kernel, against scikit-learn's GaussianProcessRegressor (Debian
// python3-sklearn).
namespace selvage::veins {
namespace {

constexpr double sill = 2.25, range = 120.0, noise = 0.36;  // the script's too

std::vector<Estimate> asked_of_script(const std::vector<Eigen::Vector2d>& places, const Eigen::VectorXd& values,
                                      const std::vector<Eigen::Vector2d>& asked) {
    const TemporaryFolder folder("scikit-learn");
    const std::string input = (folder.path() / "data").string();
    std::ofstream file(input);
    file.precision(17);
    for (std::size_t i = 0; i < places.size(); ++i)
        file << places[i].x() << ' ' << places[i].y() << ' ' << values(static_cast<Eigen::Index>(i)) << '\n';
    file << "at\n";
    for (const Eigen::Vector2d& place : asked) file << place.x() << ' ' << place.y() << '\n';
    file.close();
    const std::string command =
        "/usr/bin/python3 " SELVAGE_SOURCE_FOLDER "/tests/reference/sklearn_gaussian_process.py check < '" + input + "'";
    std::vector<Estimate> found;
    FILE* pipe = popen(command.c_str(), "r");
    double mean = 0.0, sd = 0.0;
    while (pipe != nullptr && std::fscanf(pipe, "%lf %lf", &mean, &sd) == 2) found.push_back({mean, sd * sd});
    if (pipe != nullptr) pclose(pipe);
    return found;
}

TEST(ScikitLearn, FixedMaternKernelGivesTheSameMeansAndSds) {
    base::RandomStream stream("scikit-learn", {1});
    std::vector<Eigen::Vector2d> places, asked;
    constexpr Eigen::Index n = 80;
    Eigen::VectorXd values(n);
    for (double& value : values) {
        places.emplace_back(stream.uniform(0.0, 600.0), stream.uniform(0.0, 400.0));
        value = 1.5 * std::sin(places.back().x() / 90.0) + 0.6 * stream.normal();
    }
    for (int i = 0; i < 40; ++i) asked.emplace_back(stream.uniform(-200.0, 800.0), stream.uniform(-200.0, 600.0));

    Kernel kernel;
    kernel.sill = sill;
    kernel.metric = Eigen::Matrix2d::Identity() / (range * range);
    const auto at = [&](Eigen::Index i) { return places[static_cast<std::size_t>(i)]; };
    Eigen::MatrixXd covariance(n, n), with_data(n, static_cast<Eigen::Index>(asked.size()));
    for (Eigen::Index i = 0; i < n; ++i) {
        for (Eigen::Index j = 0; j < n; ++j) covariance(i, j) = kernel_at(kernel, at(i) - at(j)).value + (i == j ? noise : 0.0);
        for (std::size_t j = 0; j < asked.size(); ++j)
            with_data(i, static_cast<Eigen::Index>(j)) = kernel_at(kernel, at(i) - asked[j]).value;
    }
    const auto data = condition(covariance, values);
    const std::vector<Estimate> ours = estimates(*data, with_data, Eigen::VectorXd::Constant(with_data.cols(), sill));
    const std::vector<Estimate> theirs = asked_of_script(places, values, asked);
    ASSERT_EQ(theirs.size(), asked.size()) << "needs Debian's python3-sklearn";
    for (std::size_t i = 0; i < asked.size(); ++i) {
        EXPECT_NEAR(ours[i].mean, theirs[i].mean, 1e-6);
        EXPECT_NEAR(ours[i].variance, theirs[i].variance, 1e-6);
    }
}

}  // namespace
}  // namespace selvage::veins
