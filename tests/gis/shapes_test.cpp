#include "gis/shapes.h"

#include "base/file.h"
#include "gis/written_by_gdal.h"
#include "support/map_files.h"
#include "support/temporary_folder.h"

#include <gtest/gtest.h>

#include <cmath>

namespace selvage::gis {
namespace {

class ShapeFiles : public ::testing::Test {
protected:
    std::string file(const std::string& name, const std::string& text) const {
        base::write_file(folder.path() / name, text);
        return (folder.path() / name).string();
    }
    TemporaryFolder folder{"shape-files"};
};

TEST_F(ShapeFiles, AnAreaHasItsHolesAndFields) {
    const std::string text = test::geojson_area({test::box_ring(1000, 2000, 1100, 2050), test::box_ring(1020, 2010, 1040, 2030)},
                                                "\"Name\":\"stope 4\",\"bottom\":820.5,\"TOP\":\"840\"", "EPSG:26911");
    const auto read = read_shapes(file("a.geojson", text), "", "elevation", {});
    ASSERT_TRUE(read.value) << read.failure;
    ASSERT_EQ(read.value->polygons.size(), 1U);
    const Polygon& area = read.value->polygons[0];
    ASSERT_EQ(area.rings.size(), 2U);
    EXPECT_EQ(area.rings[0].size(), 4U);
    EXPECT_EQ(area.rings[1].size(), 4U);
    EXPECT_EQ(area.name, "stope 4");
    EXPECT_EQ(area.bottom, 820.5);
    EXPECT_EQ(area.top, 840.0);
    EXPECT_TRUE(std::isnan(area.rings[0][0].z()));
}

TEST_F(ShapeFiles, PointsAndLinesKeepTheirElevationsOrTakeThoseOfAField) {
    const std::string text =
        R"({"type":"FeatureCollection","crs":{"type":"name","properties":{"name":"urn:ogc:def:crs:EPSG::26911"}},"features":[
{"type":"Feature","properties":{},"geometry":{"type":"Point","coordinates":[10,20,30]}},
{"type":"Feature","properties":{"elev":45.5},"geometry":{"type":"MultiPoint","coordinates":[[11,21],[12,22]]}},
{"type":"Feature","properties":{"elev":50},"geometry":{"type":"LineString","coordinates":[[0,0],[10,0],[10,10]]}},
{"type":"Feature","properties":{},"geometry":null}]})";
    const auto read = read_shapes(file("p.geojson", text), "", "ELEV", {});
    ASSERT_TRUE(read.value) << read.failure;
    EXPECT_EQ(read.value->features, 4U);
    ASSERT_EQ(read.value->points.size(), 3U);
    EXPECT_EQ(read.value->points[0], Eigen::Vector3d(10, 20, 30));
    EXPECT_EQ(read.value->points[2], Eigen::Vector3d(12, 22, 45.5));
    ASSERT_EQ(read.value->lines.size(), 1U);
    EXPECT_EQ(read.value->lines[0].points[1], Eigen::Vector3d(10, 0, 50));
}

TEST_F(ShapeFiles, GeoPackageAndShapefileAreReadAlike) {
    const std::vector<Eigen::Vector3d> ring = {{0, 0, 5}, {100, 0, 5}, {100, 80, 7}, {0, 80, 7}};
    for (const auto& [driver, name] : {std::pair{"GPKG", "a.gpkg"}, {"ESRI Shapefile", "a.shp"}}) {
        const std::string path = (folder.path() / name).string();
        test::write_area(path, driver, "a", ring, "old adit", "EPSG:26911");
        MapTarget target;
        target.crs = "EPSG:26911";
        const auto read = read_shapes(path, "", "elevation", target);
        ASSERT_TRUE(read.value) << read.failure;
        EXPECT_EQ(read.crs, CrsMatch::same);
        ASSERT_EQ(read.value->polygons.size(), 1U) << name;
        EXPECT_EQ(read.value->polygons[0].rings[0].size(), 4U);
        EXPECT_EQ(read.value->polygons[0].name, "old adit");
        EXPECT_EQ(read.value->polygons[0].bottom, 5.0);
        EXPECT_EQ(read.value->polygons[0].top, 7.0);
    }
    const auto missing = read_shapes((folder.path() / "a.gpkg").string(), "claims", "", {});
    EXPECT_FALSE(missing.value);
    EXPECT_NE(missing.failure.find("no layer claims: it has a"), std::string::npos) << missing.failure;
}

// The group codes of a DXF file (Autodesk's published DXF reference): 0 kind, 8 layer, 70 flags (1: closed), 10 to 33
// coordinates.
std::string dxf(const std::string& entities) { return "0\nSECTION\n2\nENTITIES\n" + entities + "0\nENDSEC\n0\nEOF\n"; }

std::string face(const std::string& layer, const std::vector<Eigen::Vector3d>& corners) {
    std::string text = "0\n3DFACE\n100\nAcDbEntity\n8\n" + layer + "\n100\nAcDbFace\n";
    for (std::size_t i = 0; i < 4; ++i) {
        const Eigen::Vector3d& at = corners[std::min(i, corners.size() - 1)];
        for (int axis = 0; axis < 3; ++axis)
            text += std::to_string(10 * (axis + 1) + static_cast<int>(i)) + "\n" + std::to_string(at[axis]) + "\n";
    }
    return text;
}

TEST_F(ShapeFiles, FacesOfADrawingBecomeOneSolidALayer) {
    const Eigen::Vector3d a(0, 0, 0), b(10, 0, 0), c(0, 10, 0), top(0, 0, 10);
    const std::string tetrahedron =
        face("stope", {a, c, b}) + face("stope", {a, b, top}) + face("stope", {b, c, top}) + face("stope", {c, a, top});
    const auto read = read_shapes(file("a.dxf", dxf(tetrahedron)), "", "elevation", {});
    ASSERT_TRUE(read.value) << read.failure;
    ASSERT_EQ(read.value->solids.size(), 1U);
    EXPECT_EQ(read.value->solids[0].name, "stope");
    EXPECT_EQ(read.value->solids[0].mesh.points.size(), 4U);
    EXPECT_EQ(read.value->solids[0].mesh.triangles.size(), 4U);
    EXPECT_NEAR(mesh::volume(read.value->solids[0].mesh), 1000.0 / 6.0, 1e-9);  // a third of base times height
}

TEST_F(ShapeFiles, LayersOfADrawingAreTold) {
    const auto line = [](const std::string& layer, double north) {
        return "0\nLWPOLYLINE\n100\nAcDbEntity\n8\n" + layer + "\n100\nAcDbPolyline\n90\n3\n70\n1\n10\n0\n20\n" +
               std::to_string(north) + "\n10\n50\n20\n" + std::to_string(north) + "\n10\n50\n20\n" + std::to_string(north + 40) +
               "\n";
    };
    const std::string name = file("b.dxf", dxf(line("CLAIMS", 0.0) + line("ROADS", 100.0)));
    const auto read = read_shapes(name, "claims", "elevation", {});
    ASSERT_TRUE(read.value) << read.failure;
    ASSERT_EQ(read.value->lines.size(), 1U);
    EXPECT_TRUE(read.value->lines[0].is_closed());
    EXPECT_EQ(read.value->lines[0].points[1].x(), 50.0);
    EXPECT_EQ(read_shapes(name, "", "elevation", {}).value->lines.size(), 2U);
}

// Transverse Mercator, worked example of EPSG Guidance Note 7-2 (IOGP publication 373-7-2), from memory: latitude 50 30 N,
// longitude 0 30 E on OSGB 1936 is E 577274.99, N 69740.50 on the British National Grid.
TEST_F(ShapeFiles, DegreesAreCarriedOverToTheGrid) {
    const std::string text =
        R"({"type":"FeatureCollection","crs":{"type":"name","properties":{"name":"urn:ogc:def:crs:EPSG::4277"}},"features":[
{"type":"Feature","properties":{},"geometry":{"type":"Point","coordinates":[0.5,50.5,12]}}]})";
    MapTarget target;
    target.crs = "EPSG:27700";
    const auto read = read_shapes(file("g.geojson", text), "", "elevation", target);
    ASSERT_TRUE(read.value) << read.failure;
    EXPECT_EQ(read.crs, CrsMatch::reprojected);
    EXPECT_NEAR(read.value->points[0].x(), 577274.99, 0.02);
    EXPECT_NEAR(read.value->points[0].y(), 69740.50, 0.02);
    EXPECT_EQ(read.value->points[0].z(), 12.0);
}

TEST_F(ShapeFiles, FiguresThatCannotBeDegreesAreTakenAsTheyAre) {
    const std::string text = test::geojson_area({test::box_ring(431000, 5214000, 431100, 5214100)}, "", "");
    MapTarget target;
    target.crs = "EPSG:26911";
    const auto read = read_shapes(file("d.geojson", text), "", "elevation", target);
    ASSERT_TRUE(read.value);
    EXPECT_EQ(read.crs, CrsMatch::not_degrees);
    EXPECT_EQ(read.value->polygons[0].rings[0][0].x(), 431000.0);
}

TEST_F(ShapeFiles, AStatedSystemWinsOverTheFiles) {
    MapTarget target;
    target.crs = "EPSG:27700";
    target.source_crs = "EPSG:4277";
    const auto read = carried_points({{0.5, 50.5, 3.0}}, target);
    EXPECT_EQ(read.crs, CrsMatch::reprojected);
    EXPECT_NEAR(read.value->front().x(), 577274.99, 0.02);
}

}  // namespace
}  // namespace selvage::gis
