#include "intercepts/intercept.h"
#include "support/record_builders.h"

#include "support/attitudes.h"

#include <gtest/gtest.h>

#include <cmath>

namespace selvage::intercepts {
namespace {

using base::Angle;
using base::Azimuth;
using base::Dip;

using test::pole;

// 2 m down a hole that dips 50 to the north.
Intercept two_metres() {
    Intercept out;
    out.from = 100.0;
    out.to = 102.0;
    out.hole_direction = base::unit_vector({Azimuth::degrees(0), Dip::degrees(50)});
    Grade silver;
    silver.value = 300.0;
    out.grades = {silver, std::nullopt};
    return out;
}

LocalNormal model(double dip, double dip_direction, double sd_degrees = 0.0) {
    return {pole(dip, dip_direction), Angle::degrees(sd_degrees)};
}

// A hole and a plane that dip against each other by 50 and 60 degrees in one vertical section meet at 180 - 50 - 60 = 70
// (plane geometry): T = 2 sin 70, horizontal width = T / sin 60.
TEST(TrueThickness, ByTheModelsNormal) {
    const Intercept out = complete_thickness(two_metres(), model(60, 180), test::silver_and_lead());
    EXPECT_EQ(out.thickness_from, ThicknessSource::model);
    EXPECT_NEAR(out.angle->degrees(), 70.0, 1e-9);
    EXPECT_NEAR(*out.true_thickness, 1.8793852415718, 1e-9);
    EXPECT_NEAR(*out.horizontal_width, 2.1701271, 1e-6);
    EXPECT_NEAR(*out.accumulations[0], 563.81557, 1e-4);
    EXPECT_FALSE(out.accumulations[1]);
}

TEST(TrueThickness, SquareToThePlaneIsTheLength) {
    const Intercept out = complete_thickness(two_metres(), model(40, 180), test::silver_and_lead());
    EXPECT_NEAR(out.angle->degrees(), 90.0, 1e-6);
    EXPECT_NEAR(*out.true_thickness, 2.0, 1e-9);
}

TEST(TrueThickness, DoesNotCareOnWhichSideTheNormalPoints) {
    const Intercept one = complete_thickness(two_metres(), model(63, 150), test::silver_and_lead());
    LocalNormal other = model(63, 150);
    other.normal = -other.normal;
    const Intercept two = complete_thickness(two_metres(), other, test::silver_and_lead());
    EXPECT_EQ(*one.true_thickness, *two.true_thickness);
    EXPECT_EQ(*one.horizontal_width, *two.horizontal_width);
}

TEST(TrueThickness, TheModelWinsOverCoreAndCoreOverAlpha) {
    Intercept intercept = two_metres();
    intercept.mean_alpha = Angle::degrees(30);
    EXPECT_EQ(complete_thickness(intercept, std::nullopt, {}).thickness_from, ThicknessSource::alpha);
    intercept.core_normal = pole(60, 180);
    intercept.poles = 1;
    EXPECT_EQ(complete_thickness(intercept, std::nullopt, {}).thickness_from, ThicknessSource::core);
    EXPECT_EQ(complete_thickness(intercept, model(60, 180), {}).thickness_from, ThicknessSource::model);
}

TEST(TrueThickness, ByAlphaHasNoHorizontalWidth) {
    Intercept intercept = two_metres();
    intercept.mean_alpha = Angle::degrees(30);
    intercept.alphas = 2;
    const Intercept out = complete_thickness(intercept, std::nullopt, {});
    EXPECT_NEAR(*out.true_thickness, 1.0, 1e-12);
    EXPECT_EQ(out.angle->degrees(), 30.0);
    EXPECT_FALSE(out.horizontal_width);
    EXPECT_EQ(out.flags, std::vector<std::string>{"alpha-only"});
}

TEST(TrueThickness, WithoutAnyAngleIsUnknown) {
    const Intercept out = complete_thickness(two_metres(), std::nullopt, test::silver_and_lead());
    EXPECT_EQ(out.thickness_from, ThicknessSource::unknown);
    EXPECT_FALSE(out.angle);
    EXPECT_FALSE(out.true_thickness);
    EXPECT_FALSE(out.thickness_sd);
    EXPECT_FALSE(out.accumulations[0]);
}

TEST(TrueThickness, HorizontalWidthIsEmptyBelowADipOfThirty) {
    EXPECT_FALSE(complete_thickness(two_metres(), model(29.9, 180), {}).horizontal_width);
    EXPECT_TRUE(complete_thickness(two_metres(), model(30.0, 180), {}).horizontal_width);
}

TEST(TrueThickness, OfAVoidOrLostPickIsUnknownButItsAngleStands) {
    for (const auto state : {tables::PickState::open_void, tables::PickState::lost}) {
        Intercept intercept = two_metres();
        intercept.state = state;
        const Intercept out = complete_thickness(intercept, model(60, 180), test::silver_and_lead());
        EXPECT_NEAR(out.angle->degrees(), 70.0, 1e-9);
        EXPECT_FALSE(out.true_thickness);
        EXPECT_FALSE(out.horizontal_width);
        EXPECT_FALSE(out.accumulations[0]);
    }
}

TEST(TrueThickness, OfAStructureIsAsMeasured) {
    Intercept intercept = two_metres();
    intercept.state = tables::PickState::structure;
    intercept.to = intercept.from + 0.02;
    EXPECT_NEAR(*complete_thickness(intercept, model(60, 180), {}).true_thickness, 0.02 * std::sin(70 * M_PI / 180), 1e-12);
}

// Errors against a simulation in closed form: T = L sin a with independent errors of the contacts and of a.
TEST(TrueThickness, ErrorComesFromContactsLostCoreAndAngle) {
    Intercept intercept = two_metres();
    intercept.from_sd = 0.03;
    intercept.to_sd = 0.04;
    const double exact = *complete_thickness(intercept, model(60, 180), {}).thickness_sd;
    EXPECT_NEAR(exact, 0.05 * std::sin(70 * M_PI / 180), 1e-12);
    const double tilted = *complete_thickness(intercept, model(60, 180, 5.0), {}).thickness_sd;
    const double by_angle = 2.0 * std::cos(70 * M_PI / 180) * 5.0 * M_PI / 180;
    EXPECT_NEAR(tilted * tilted, exact * exact + by_angle * by_angle, 1e-12);
    intercept.lost_length = 1.2;
    const double lost = *complete_thickness(intercept, model(60, 180), {}).thickness_sd;
    EXPECT_GT(lost, exact);
    EXPECT_NEAR(lost * lost - exact * exact, 1.44 / 12 * std::pow(std::sin(70 * M_PI / 180), 2), 1e-12);
}

TEST(TrueThickness, MorePolesMakeItSurer) {
    Intercept intercept = two_metres();
    intercept.core_normal = pole(60, 180);
    intercept.poles = 1;
    const double one = *complete_thickness(intercept, std::nullopt, {}).thickness_sd;
    intercept.poles = 4;
    EXPECT_LT(*complete_thickness(intercept, std::nullopt, {}).thickness_sd, one);
}

TEST(TrueThickness, CompletedAgainIsTheSame) {
    Intercept intercept = two_metres();
    intercept.mean_alpha = Angle::degrees(20);
    const Intercept once = complete_thickness(intercept, std::nullopt, test::silver_and_lead());
    EXPECT_EQ(once.flags, (std::vector<std::string>{"alpha-only", "low-angle"}));
    EXPECT_EQ(complete_thickness(once, std::nullopt, test::silver_and_lead()).flags, once.flags);
    EXPECT_TRUE(complete_thickness(once, model(60, 180), test::silver_and_lead()).flags.empty());
}

TEST(Flags, KeepTheListsOrderAndStandOnce) {
    Intercept intercept;
    set_flag(intercept, "doubtful", true);
    set_flag(intercept, "likely", true);
    set_flag(intercept, "over-limit", true);
    set_flag(intercept, "likely", true);
    EXPECT_EQ(intercept.flags, (std::vector<std::string>{"likely", "over-limit", "doubtful"}));
    set_flag(intercept, "over-limit", false);
    EXPECT_EQ(intercept.flags, (std::vector<std::string>{"likely", "doubtful"}));
}

}  // namespace
}  // namespace selvage::intercepts
