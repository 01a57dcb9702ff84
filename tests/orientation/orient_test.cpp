#include "orientation/orient.h"

#include "orientation/core_angles.h"
#include "paths/path_builder.h"
#include "paths/perturbed_path.h"

#include <gtest/gtest.h>
#include <Eigen/Geometry>

#include <cmath>
#include <string>
#include <vector>

namespace selvage::orientation {
namespace {

using base::Angle;
using base::Azimuth;
using Eigen::Vector3d;
using paths::Row;

tables::Structure structure(double depth, double alpha, double beta) {
    tables::Structure row;
    row.origin = {"structures", "structures.csv", 2};
    row.hole = "A-1";
    row.depth = depth;
    row.kind = "contact";
    row.alpha = Angle::degrees(alpha);
    row.beta = Angle::degrees(beta);
    return row;
}

base::Checked<std::vector<Orientation>> oriented(const std::vector<Row>& hole, const std::vector<tables::Structure>& rows) {
    tables::Records records = paths::one_hole(hole, 300);
    records.structures = rows;
    return orient(records, paths::locate(records, {}).value);
}

std::vector<Row> straight(double azimuth, double dip) { return {{0, azimuth, dip}, {100, azimuth, dip}, {200, azimuth, dip}}; }

void expect_plane(const Vector3d& pole, double dip_direction, double dip) {
    const base::Attitude attitude = base::attitude_of_normal(pole);
    EXPECT_NEAR(attitude.dip.degrees(), dip, 1e-4);
    EXPECT_NEAR(base::turn_between(attitude.dip_direction, Azimuth::degrees(dip_direction)).degrees(), 0.0, 1e-4);
}

TEST(Orient, PlacesAPlaneByTheHolesDirectionThere) {
    const auto placed = oriented(straight(315, 70), {structure(150, 25, 40)});
    ASSERT_EQ(placed.value.size(), 1U);
    const Orientation& one = placed.value[0];
    expect_plane(*one.pole, 171.1666, 80.8119);
    EXPECT_GE(one.pole->z(), 0.0);
    EXPECT_TRUE(one.from_core_angles);
    EXPECT_LT((one.position - 150.0 * base::unit_vector({Azimuth::degrees(315), base::Dip::degrees(70)})).norm(), 1e-9);
    EXPECT_TRUE(placed.findings.empty());
}

TEST(Orient, GammaGivesTheLineation) {
    tables::Structure row = structure(150, 25, 40);
    row.gamma = Angle::degrees(30);
    const auto placed = oriented(straight(315, 70), {row});
    EXPECT_NEAR(placed.value[0].lineation->azimuth.degrees(), 251.4058, 1e-4);
    EXPECT_NEAR(placed.value[0].lineation->dip.degrees(), 46.3459, 1e-4);
}

TEST(Orient, ARowWithoutBetaIsUnoriented) {
    tables::Structure row = structure(150, 25, 40);
    row.beta.reset();
    const auto placed = oriented(straight(315, 70), {row});
    ASSERT_EQ(placed.value.size(), 1U);
    EXPECT_FALSE(placed.value[0].pole);
    EXPECT_NEAR(placed.value[0].alpha->degrees(), 25.0, 1e-12);
}

TEST(Orient, CoreAnglesWinOverDipAndDipDirectionAndLargeDifferencesAreReported) {
    tables::Structure near_it = structure(150, 25, 40), far_off = near_it, without = near_it;
    near_it.attitude = base::Attitude{Angle::degrees(75), Azimuth::degrees(173)};
    far_off.attitude = base::Attitude{Angle::degrees(65), Azimuth::degrees(173)};
    without.attitude = base::Attitude{Angle::degrees(65), Azimuth::degrees(173)};
    without.alpha.reset();
    const auto placed = oriented(straight(315, 70), {near_it, far_off, without});
    ASSERT_EQ(placed.value.size(), 3U);
    expect_plane(*placed.value[0].pole, 171.1666, 80.8119);
    expect_plane(*placed.value[1].pole, 171.1666, 80.8119);
    expect_plane(*placed.value[2].pole, 173, 65);
    EXPECT_FALSE(placed.value[2].from_core_angles);
    EXPECT_EQ(paths::count_of(placed.findings, "core-angles-differ"), 1U);
}

TEST(Orient, SteepHolesAreWarnedOfOnceAndVerticalOnesCountAsAlphaAlone) {
    const auto steep = oriented(straight(10, 82), {structure(50, 25, 40), structure(60, 25, 40)});
    EXPECT_EQ(paths::count_of(steep.findings, "beta-near-vertical"), 1U);
    EXPECT_TRUE(steep.value[0].pole && steep.value[1].pole);
    const auto vertical = oriented(straight(10, 88.5), {structure(50, 25, 40), structure(60, 25, 40)});
    EXPECT_EQ(paths::count_of(vertical.findings, "beta-refused"), 1U);
    EXPECT_FALSE(vertical.value[0].pole);
    EXPECT_NEAR(vertical.value[0].alpha->degrees(), 25.0, 1e-12);
    EXPECT_TRUE(oriented(straight(10, 79.9), {structure(50, 25, 40)}).findings.empty());
}

TEST(Orient, RowsOfHolesWithoutAPathAreLeftOut) {
    tables::Structure row = structure(150, 25, 40);
    row.hole = "B-1";
    EXPECT_TRUE(oriented(straight(315, 70), {row}).value.empty());
}

TEST(Orient, RowsWithoutAnglesAreLeftOut) {
    tables::Structure row = structure(150, 25, 40);
    row.alpha.reset();
    row.beta.reset();
    EXPECT_TRUE(oriented(straight(315, 70), {row}).value.empty());
}

// The turn of a normal that a source is said to make, against the pole worked out anew from the same alpha and beta on the true
// path.
TEST(Orient, SourcesTurnThePolesAsTheTruePathDoes) {
    const paths::Path path =
        paths::locate(paths::one_hole({{10, 40, 62}, {60, 43, 60}, {120, 45, 57}, {180, 49, 54}}, 260), {}).value.front();
    const CoreAngles angles{Angle::degrees(35), Angle::degrees(130)};
    constexpr double step = 1e-5;
    for (const double depth : {5.0, 45.0, 90.0, 120.0, 165.0, 220.0}) {
        for (const paths::SourceEffect& effect : paths::effects_at(path, depth)) {
            const bool rate =
                effect.source.id.kind == paths::SourceKind::lift_rate || effect.source.id.kind == paths::SourceKind::swing_rate;
            const double size = rate ? step / 100.0 : step;
            const auto pole_at = [&](double error) {
                const paths::Path moved = paths::perturbed(path, {{effect.source.id, error}}, nullptr, 260);
                return *pole_from_core_angles(paths::direction_at(moved, depth), angles);
            };
            if (effect.source.id.kind == paths::SourceKind::depth_scale)
                continue;  // it moves the point along the hole, no core turns
            const Vector3d real = (pole_at(size) - pole_at(-size)) / (2.0 * size);
            const Vector3d said = effect.rotation.cross(pole_at(0.0));
            EXPECT_LT((said - real).norm(), (rate ? 2.0 : 0.03))
                << depth << ": " << static_cast<int>(effect.source.id.kind) << ' ' << effect.source.id.station << "\nsaid "
                << said.transpose() << "\nreal " << real.transpose();
        }
    }
}

}  // namespace
}  // namespace selvage::orientation
