#include "intercepts/contacts.h"

#include "support/record_builders.h"

#include "support/attitudes.h"

#include <gtest/gtest.h>

namespace selvage::intercepts {
namespace {

using base::Angle;
using base::Azimuth;
using test::contact;

using test::pole;

Intercept met(double from, double to) {
    Intercept out;
    out.hole = "A";
    out.vein = "North";
    out.from = from;
    out.to = to;
    return out;
}

std::vector<Intercept> with_contacts(std::vector<Intercept> all, const std::vector<orientation::Orientation>& rows) {
    std::vector<const orientation::Orientation*> pointers;
    for (const orientation::Orientation& row : rows) pointers.push_back(&row);
    add_contacts(pointers, {"contact", "wall"}, all);
    return all;
}

TEST(MeanAxis, LiesMidwayBetweenTwo) {
    EXPECT_NEAR((*mean_axis({pole(60, 120), pole(70, 120)}) - pole(65, 120)).norm(), 0.0, 1e-9);
    EXPECT_FALSE(mean_axis({}));
}

TEST(MeanAxis, DoesNotCareOnWhichSideThePolesPoint) {
    const Eigen::Vector3d mean = *mean_axis({pole(85, 90), -pole(80, 100), pole(88, 268)});
    EXPECT_NEAR((mean - *mean_axis({-pole(85, 90), pole(80, 100), -pole(88, 268)})).norm(), 0.0, 1e-9);
    EXPECT_GT(mean.z(), 0.0);
    EXPECT_GT(mean.dot(pole(85, 92)), 0.99);  // a plain sum of the upward normals would lie near the vertical's side
}

TEST(MeanAxis, TurnsWithTheWorld) {
    const auto turned = [](double by) { return *mean_axis({pole(50, 10 + by), pole(56, 25 + by), pole(61, by)}); };
    const Eigen::Vector3d plain = turned(0.0);
    const Eigen::Vector3d quarter = turned(90.0);
    EXPECT_NEAR((quarter - Eigen::Vector3d(plain.y(), -plain.x(), plain.z())).norm(), 0.0, 1e-9);
}

TEST(Contacts, OfTheVeinOrNearThePickMakeTheNormal) {
    const auto out = with_contacts({met(100, 101)}, {contact("A", 99.6, "", pole(60, 90), Angle::degrees(50)),
                                                     contact("A", 101.4, "North", pole(70, 90), Angle::degrees(60)),
                                                     contact("A", 99.4, "", pole(10, 90), Angle::degrees(10)),
                                                     contact("A", 100.5, "South", pole(10, 90), Angle::degrees(10))});
    EXPECT_EQ(out[0].poles, 2U);
    EXPECT_NEAR((*out[0].core_normal - pole(65, 90)).norm(), 0.0, 1e-9);
    EXPECT_NEAR(out[0].mean_alpha->degrees(), 55.0, 1e-12);
}

TEST(Contacts, OfQualityFourOrAnotherKindAreNotUsed) {
    std::vector<orientation::Orientation> rows = {contact("A", 100.0, "North", pole(60, 90), Angle::degrees(50)),
                                                  contact("A", 100.2, "North", pole(60, 90), Angle::degrees(50)),
                                                  contact("A", 100.4, "North", pole(30, 90), Angle::degrees(40))};
    rows[0].quality = 4;
    rows[1].kind = "joint";
    rows[2].kind = "wall";
    const auto out = with_contacts({met(100, 101)}, rows);
    EXPECT_EQ(out[0].poles, 1U);
    EXPECT_NEAR(out[0].mean_alpha->degrees(), 40.0, 1e-12);
}

TEST(Contacts, UnorientedOnesGiveTheMeanAlphaAlone) {
    const auto out = with_contacts({met(100, 101)}, {contact("A", 100.0, "North", std::nullopt, Angle::degrees(48)),
                                                     contact("A", 101.0, "North", pole(60, 90), Angle::degrees(52))});
    EXPECT_EQ(out[0].poles, 1U);
    EXPECT_EQ(out[0].alphas, 2U);
    EXPECT_NEAR(out[0].mean_alpha->degrees(), 50.0, 1e-12);
}

TEST(Contacts, ANamedOneGoesToTheNearestIntercept) {
    const auto out = with_contacts({met(100, 101), met(140, 141)}, {contact("A", 138.0, "North", pole(60, 90), std::nullopt)});
    EXPECT_EQ(out[0].poles, 0U);
    EXPECT_FALSE(out[0].core_normal);
    EXPECT_EQ(out[1].poles, 1U);
}

}  // namespace
}  // namespace selvage::intercepts
