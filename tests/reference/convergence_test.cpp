#include "tables/north.h"

#include <gtest/gtest.h>
#include <proj.h>

#include <cmath>
#include <memory>
#include <stdexcept>
#include <string>

// Grid convergence as PROJ gives it, against published examples: it must be the bearing of grid north clockwise from true north,
// so that true = grid + convergence and grid = magnetic + declination - convergence.
namespace selvage::tables {
namespace {

struct ProjDelete {
    void operator()(PJ* projection) const { proj_destroy(projection); }
};

struct AtPoint {
    double convergence, scale, east, north;  // degrees, m
};

double degrees(double whole, double minutes, double seconds) { return whole + minutes / 60.0 + seconds / 3600.0; }

AtPoint at(const std::string& projection, double latitude, double longitude) {
    const std::unique_ptr<PJ, ProjDelete> made(proj_create(PJ_DEFAULT_CTX, projection.c_str()));
    if (!made) throw std::runtime_error("PROJ cannot make " + projection);
    const PJ_COORD place = proj_coord(proj_torad(longitude), proj_torad(latitude), 0.0, 0.0);
    const PJ_FACTORS factors = proj_factors(made.get(), place);
    const PJ_COORD map = proj_trans(made.get(), PJ_FWD, place);
    return {proj_todeg(factors.meridian_convergence), factors.meridional_scale, map.xy.x, map.xy.y};
}

std::string utm(int zone, const std::string& more = "") { return "+proj=utm +ellps=WGS84 +zone=" + std::to_string(zone) + more; }

const std::string british_grid = "+proj=tmerc +lat_0=49 +lon_0=-2 +k=0.9996012717 +x_0=400000 +y_0=-100000 +ellps=airy";

constexpr double angle_tolerance = 1e-7, length_tolerance = 1e-3, scale_tolerance = 1e-9;

// GDA Technical Manual 2.3 p. 46 (ICSM): Flinders Peak, MGA zone 55. Printed: E 273741.297, N 5796489.777, "grid convergence"
// -1 35 03.65 (of the opposite sign: there it is added to the azimuth), scale 1.00023056.
TEST(Convergence, FlindersPeak) {
    const AtPoint here = at("+proj=utm +zone=55 +south +ellps=GRS80", -degrees(37, 57, 3.72030), degrees(144, 25, 29.52442));
    EXPECT_NEAR(here.convergence, 1.58434645, angle_tolerance);
    EXPECT_NEAR(here.scale, 1.000230559, scale_tolerance);
    EXPECT_NEAR(here.east, 273741.297, length_tolerance);
    EXPECT_NEAR(here.north, 5796489.777, length_tolerance);
    // Printed: azimuth 306 52 05.37 is grid bearing 305 17 01.72.
    const auto grid =
        grid_azimuth(degrees(306, 52, 5.37), settings::NorthReference::true_north, {}, base::Angle::degrees(here.convergence));
    ASSERT_TRUE(grid);
    EXPECT_NEAR(grid->degrees(), degrees(305, 17, 1.72), 0.005 / 3600.0);
}

// Ordnance Survey, A guide to coordinate systems in Great Britain, annex C: E 651409.903, N 313177.270.
TEST(Convergence, OrdnanceSurveyExample) {
    const AtPoint here = at(british_grid, degrees(52, 39, 27.2531), degrees(1, 43, 4.5177));
    EXPECT_NEAR(here.convergence, 2.95737669, angle_tolerance);
    EXPECT_NEAR(here.scale, 1.000377315, scale_tolerance);
    EXPECT_NEAR(here.east, 651409.903, length_tolerance);
    EXPECT_NEAR(here.north, 313177.270, length_tolerance);
}

// EPSG method 9807 example (epsg.io): E 577274.99, N 69740.50, by a rounded scale; recomputed.
TEST(Convergence, TransverseMercatorExampleOfEpsg) {
    const AtPoint here = at(british_grid, 50.5, 0.5);
    EXPECT_NEAR(here.convergence, 1.92956086, angle_tolerance);
    EXPECT_NEAR(here.scale, 0.999987287, scale_tolerance);
    EXPECT_NEAR(here.east, 577274.984, length_tolerance);
    EXPECT_NEAR(here.north, 69740.492, length_tolerance);
}

// Reported to PROJ (OSGeo/PROJ, tracker number 16): an old version had the wrong sign here.
TEST(Convergence, ConicOfLambertHasTheSameSign) {
    const std::string conic = "+proj=lcc +lat_0=52 +lon_0=3 +lat_1=50 +lat_2=54 +ellps=WGS84";
    EXPECT_NEAR(at(conic, 52, 2).convergence, -0.78817257, angle_tolerance);
    EXPECT_NEAR(at(conic, 52, 4).convergence, 0.78817257, angle_tolerance);
    EXPECT_NEAR(at(conic, 52, 4).scale, 0.99939228, 1e-8);
}

// Our own sixth-order Krueger series, reference calculation.
TEST(Convergence, FourSilverCamps) {
    const struct {
        int zone;
        const char* more;
        double latitude, longitude, convergence, scale;
    } camps[] = {{13, "", 23.17, -102.87, 0.83840312, 1.000187371},
                 {20, " +south", -19.6, -65.75, 0.92313230, 1.000628718},
                 {33, "", 50.9, 13.34, -1.28838157, 0.999767313},
                 {8, "", 63.9, -135.5, -0.44901600, 0.999607376}};
    for (const auto& camp : camps) {
        const AtPoint here = at(utm(camp.zone, camp.more), camp.latitude, camp.longitude);
        EXPECT_NEAR(here.convergence, camp.convergence, angle_tolerance);
        EXPECT_NEAR(here.scale, camp.scale, scale_tolerance);
    }
}

// Natural Resources Canada, compass figure text: Ottawa, declination 13 W: magnetic 80 is 67 (there grid is taken as true).
TEST(Convergence, DeclinationOfOttawa) {
    const auto grid = grid_azimuth(80.0, settings::NorthReference::magnetic, base::Angle::degrees(-13.0), {});
    ASSERT_TRUE(grid);
    EXPECT_NEAR(grid->degrees(), 67.0, 1e-12);
}

// Closed form, at Flinders Peak: magnetic 130.0, declination 8.5 E: true 138.5, grid 136.91565355.
TEST(Convergence, MagneticToGridAtFlindersPeak) {
    const auto grid =
        grid_azimuth(130.0, settings::NorthReference::magnetic, base::Angle::degrees(8.5), base::Angle::degrees(1.58434645));
    ASSERT_TRUE(grid);
    EXPECT_NEAR(grid->degrees(), 136.91565355, angle_tolerance);
}

}  // namespace
}  // namespace selvage::tables
