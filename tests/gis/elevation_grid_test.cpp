#include "gis/elevation_grid.h"

#include "base/file.h"
#include "gis/written_by_gdal.h"
#include "support/map_files.h"
#include "support/temporary_folder.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace selvage::gis {
namespace {

const MapBox everywhere{{-1e7, -1e7}, {1e7, 1e7}};

double slope(double x, double y) { return 100.0 + 0.5 * x - 0.25 * y; }

class ElevationGrids : public ::testing::Test {
protected:
    std::string file(const std::string& name, const std::string& text) const {
        base::write_file(folder.path() / name, text);
        return (folder.path() / name).string();
    }
    TemporaryFolder folder{"elevation-grids"};
};

// Bilinear interpolation of a plane is the plane.
TEST_F(ElevationGrids, AnAsciiGridIsReadNorthUp) {
    const auto read = read_elevation_grid(file("a.asc", test::ascii_grid(8, 6, 1000.0, 2000.0, 5.0, slope)), 1, {}, everywhere);
    ASSERT_TRUE(read.value) << read.failure;
    EXPECT_EQ(read.value->columns, 8U);
    EXPECT_EQ(read.value->rows, 6U);
    for (const Eigen::Vector2d& at : {Eigen::Vector2d(1002.5, 2002.5), {1011.0, 2017.3}, {1037.5, 2027.5}})
        EXPECT_NEAR(*elevation_at(*read.value, at), slope(at.x(), at.y()), 1e-3);
}

TEST_F(ElevationGrids, BeyondTheCellsThereIsNothingAndTheOuterHalfCellsHoldTheirEdge) {
    const auto read = read_elevation_grid(file("a.asc", test::ascii_grid(8, 6, 1000.0, 2000.0, 5.0, slope)), 1, {}, everywhere);
    EXPECT_FALSE(elevation_at(*read.value, {999.9, 2010.0}));
    EXPECT_FALSE(elevation_at(*read.value, {1010.0, 2030.1}));
    EXPECT_NEAR(*elevation_at(*read.value, {1000.1, 2012.5}), slope(1002.5, 2012.5), 1e-3);
}

TEST_F(ElevationGrids, CellsWithoutDataAreHoles) {
    const auto holed = [](double x, double y) {
        return std::abs(x - 1022.5) < 1.0 && std::abs(y - 2012.5) < 1.0 ? std::numeric_limits<double>::quiet_NaN() : slope(x, y);
    };
    const auto read = read_elevation_grid(file("a.asc", test::ascii_grid(8, 6, 1000.0, 2000.0, 5.0, holed)), 1, {}, everywhere);
    EXPECT_FALSE(elevation_at(*read.value, {1022.5, 2012.5}));
    EXPECT_FALSE(elevation_at(*read.value, {1019.0, 2010.0}));
    EXPECT_TRUE(is_within(*read.value, {1022.5, 2012.5}));
    EXPECT_NEAR(*elevation_at(*read.value, {1017.5, 2012.5}), slope(1017.5, 2012.5), 1e-3);  // on the neighbour's middle
}

// Turned 30 degrees anticlockwise: cell (c, r) has its middle at corner + R (10 (c + 1/2), -10 (r + 1/2)).
TEST_F(ElevationGrids, ATurnedRasterKeepsItsTurn) {
    const double cosine = std::cos(std::acos(-1.0) / 6.0), sine = 0.5;
    std::vector<float> values;
    const auto middle = [&](double c, double r) {
        const double along = 10.0 * (c + 0.5), down = -10.0 * (r + 0.5);
        return Eigen::Vector2d(500.0 + cosine * along - sine * down, 700.0 + sine * along + cosine * down);
    };
    for (int r = 0; r < 5; ++r)
        for (int c = 0; c < 7; ++c) values.push_back(static_cast<float>(slope(middle(c, r).x(), middle(c, r).y())));
    const std::string name = (folder.path() / "turned.tif").string();
    test::write_geotiff(name, 7, 5, {500.0, 10.0 * cosine, 10.0 * sine, 700.0, 10.0 * sine, -10.0 * cosine}, values, -9999.0F,
                        "");
    const auto read = read_elevation_grid(name, 1, {}, everywhere);
    ASSERT_TRUE(read.value) << read.failure;
    for (const auto& [c, r] : {std::pair{0.0, 0.0}, {3.3, 2.1}, {6.0, 4.0}}) {
        const Eigen::Vector2d at = middle(c, r);
        EXPECT_NEAR(*elevation_at(*read.value, at), slope(at.x(), at.y()), 1e-3);
    }
}

TEST_F(ElevationGrids, OnlyTheCellsOfTheWindowAreRead) {
    const std::string name = file("a.asc", test::ascii_grid(100, 100, 0.0, 0.0, 1.0, slope));
    const auto read = read_elevation_grid(name, 1, {}, {{40.0, 40.0}, {50.0, 45.0}});
    EXPECT_LT(read.value->columns, 16U);
    EXPECT_NEAR(*elevation_at(*read.value, {45.0, 42.0}), slope(45.0, 42.0), 1e-3);
    const auto elsewhere = read_elevation_grid(name, 1, {}, {{400.0, 40.0}, {500.0, 45.0}});
    ASSERT_TRUE(elsewhere.value);
    EXPECT_EQ(elsewhere.value->rows, 0U);
}

// 1 ft = 0.3048 m exactly (1959).
TEST_F(ElevationGrids, FeetBecomeMetres) {
    MapTarget feet;
    feet.metres_per_unit = 0.3048;
    const auto read = read_elevation_grid(file("a.asc", test::ascii_grid(8, 6, 1000.0, 2000.0, 5.0, slope)), 1, feet, everywhere);
    EXPECT_NEAR(*elevation_at(*read.value, {1010.0 * 0.3048, 2010.0 * 0.3048}), slope(1010.0, 2010.0) * 0.3048, 1e-3);
}

// The same place by two systems: the middle of zone 11 is 117 degrees west, where zone 11 has east 500000 and no convergence, by
// definition of the grid (Snyder 1987, USGS Professional Paper 1395). A grid in degrees, level but for a rise to the north of 1 m
// for each thousandth of a degree, must rise as the meridian does: 1 m in 111.0 m at latitude 50 (length of a degree of latitude
// 111 229 m there on GRS 80, the same paper, table of lengths; times 0.9996 on the grid).
TEST_F(ElevationGrids, AnotherSystemIsCarriedOver) {
    std::vector<float> values;
    for (int r = 0; r < 20; ++r)
        for (int c = 0; c < 20; ++c) values.push_back(static_cast<float>(20 - r));
    const std::string name = (folder.path() / "degrees.tif").string();
    test::write_geotiff(name, 20, 20, {-117.010, 0.001, 0.0, 50.010, 0.0, -0.001}, values, -9999.0F, "EPSG:4269");
    MapTarget target;
    target.crs = "EPSG:26911";
    const auto read = read_elevation_grid(name, 1, target, everywhere);
    ASSERT_TRUE(read.value) << read.failure;
    EXPECT_EQ(read.crs, CrsMatch::reprojected);
    const double north = 5538630.7;  // about latitude 50 on the middle meridian; the slope alone is asked
    const auto low = elevation_at(*read.value, {500000.0, north - 400.0}),
               high = elevation_at(*read.value, {500000.0, north + 400.0});
    ASSERT_TRUE(low && high);
    EXPECT_NEAR((*high - *low) / 800.0, 1.0 / (111.229 * 0.9996), 2e-5);
    EXPECT_FALSE(elevation_at(*read.value, {500000.0, north + 1600.0}));
    target.crs = "EPSG:4269";
    EXPECT_EQ(read_elevation_grid(name, 1, target, everywhere).crs, CrsMatch::same);
    target.crs = "no such system";
    EXPECT_EQ(read_elevation_grid(name, 1, target, everywhere).crs, CrsMatch::wanted_unknown);
}

TEST_F(ElevationGrids, WhatIsNoRasterIsNamed) {
    const auto text = read_elevation_grid(file("a.txt", "nothing of the kind\n"), 1, {}, everywhere);
    EXPECT_FALSE(text.value);
    EXPECT_NE(text.failure.find("a.txt"), std::string::npos);
    EXPECT_FALSE(read_elevation_grid((folder.path() / "missing.tif").string(), 1, {}, everywhere).value);
    const auto band = read_elevation_grid(file("b.asc", test::ascii_grid(3, 3, 0.0, 0.0, 1.0, slope)), 2, {}, everywhere);
    EXPECT_NE(band.failure.find("number 2"), std::string::npos) << band.failure;
}

}  // namespace
}  // namespace selvage::gis
