#include "support/made_up_vein.h"
#include "veins/surface_model.h"

#include <gtest/gtest.h>

#include <cmath>

namespace selvage::veins {
namespace {

// Rows without those of one place.
std::vector<Eigen::Index> other_rows(const SurfaceRows& rows, const RowPlace& place) {
    std::vector<Eigen::Index> others;
    for (Eigen::Index i = 0; i < rows.values.size(); ++i)
        if (i < place.first || i >= place.first + place.count()) others.push_back(i);
    return others;
}

// The same nodes solved without the datum, weighed by what they then make of the rest.
numerics::NormalMixture by_brute_force(const SurfaceModel& model, std::size_t datum) {
    const RowPlace& place = model.rows.places[model.place_of_datum[datum]];
    const std::vector<Eigen::Index> others = other_rows(model.rows, place);
    const Eigen::VectorXd known = model.rows.values(others);
    numerics::NormalMixture mixture;
    std::vector<double> log_weights;
    for (const SurfaceNode& node : model.nodes) {
        const Eigen::MatrixXd all = covariance_of_rows(model.rows, node.guess).selfadjointView<Eigen::Lower>();
        const auto rest = condition(all(others, others), known);
        const Eigen::VectorXd across = all(others, std::vector<Eigen::Index>{place.first});
        const Estimate found = estimate(*rest, across, all(place.first, place.first));
        mixture.means.push_back(found.mean);
        mixture.sds.push_back(std::sqrt(found.variance));
        log_weights.push_back(std::log(node.weight) + rest->log_density - node.data.log_density);
    }
    mixture.weights = numerics::weights_from_logs(log_weights);
    return mixture;
}

TEST(LeaveOneOut, EqualsSolvingWithoutTheDatum) {
    std::vector<SurfaceDatum> data = made_up::vein(5, 9, 1, true).data;
    data[4].normal.reset();
    const auto model = fit_surface(data, 50.0, {});
    for (std::size_t i = 0; i < data.size(); ++i) {
        const numerics::NormalMixture quick = leave_one_out_height(*model, i), slow = by_brute_force(*model, i);
        for (std::size_t k = 0; k < quick.means.size(); ++k) {
            EXPECT_NEAR(quick.weights[k], slow.weights[k], 1e-6);
            EXPECT_NEAR(quick.means[k], slow.means[k], 1e-6);
            EXPECT_NEAR(quick.sds[k], slow.sds[k], 1e-6);
        }
    }
}

TEST(LeaveOneOut, OfADatumWithoutHeightSaysNothing) {
    std::vector<SurfaceDatum> data = made_up::vein(5, 4, 1, true).data;
    data[2].height.reset();
    EXPECT_TRUE(leave_one_out_height(*fit_surface(data, 50.0, {}), 2).empty());
}

// A pick 25 m off is named: two-sided probability under 0.01 at its own hole. The other holes of most veins are not.
TEST(LeaveOneOut, NamesAWrongPick) {
    int named = 0, others_named = 0, others = 0;
    for (std::uint64_t k = 0; k < 20; ++k) {
        std::vector<SurfaceDatum> data = made_up::vein(6, 12, k, true).data;
        *data[0].height += 25.0;
        const auto model = fit_surface(data, 50.0, {});
        for (std::size_t i = 0; i < data.size(); ++i) {
            const double share = leave_one_out_height(*model, i).cumulative(*data[i].height);
            const bool doubtful = 2.0 * std::min(share, 1.0 - share) < 0.01;
            (i == 0 ? named : others_named) += doubtful ? 1 : 0;
            others += i == 0 ? 0 : 1;
        }
    }
    EXPECT_GE(named, 19);
    EXPECT_LE(others_named, others / 20);
}

}  // namespace
}  // namespace selvage::veins
