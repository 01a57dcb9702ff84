#include "gis/written_by_gdal.h"

#include <gdal_priv.h>
#include <gtest/gtest.h>
#include <ogrsf_frmts.h>

#include <memory>

namespace selvage::test {

void write_geotiff(const std::string& file, int columns, int rows, const std::vector<double>& transform,
                   const std::vector<float>& values, float no_data, const std::string& crs) {
    GDALAllRegister();
    GDALDriver* driver = GetGDALDriverManager()->GetDriverByName("GTiff");
    const std::unique_ptr<GDALDataset> raster(driver->Create(file.c_str(), columns, rows, 1, GDT_Float32, nullptr));
    ASSERT_TRUE(raster);
    std::vector<double> t = transform;
    ASSERT_EQ(raster->SetGeoTransform(t.data()), CE_None);
    if (!crs.empty()) {
        OGRSpatialReference system;
        ASSERT_EQ(system.SetFromUserInput(crs.c_str()), OGRERR_NONE);
        raster->SetSpatialRef(&system);
    }
    raster->GetRasterBand(1)->SetNoDataValue(static_cast<double>(no_data));
    std::vector<float> copy = values;
    ASSERT_EQ(
        raster->GetRasterBand(1)->RasterIO(GF_Write, 0, 0, columns, rows, copy.data(), columns, rows, GDT_Float32, 0, 0, nullptr),
        CE_None);
}

void write_area(const std::string& file, const std::string& driver, const std::string& layer,
                const std::vector<Eigen::Vector3d>& ring, const std::string& name, const std::string& crs) {
    GDALAllRegister();
    const std::unique_ptr<GDALDataset> source(
        GetGDALDriverManager()->GetDriverByName(driver.c_str())->Create(file.c_str(), 0, 0, 0, GDT_Unknown, nullptr));
    ASSERT_TRUE(source);
    OGRSpatialReference system;
    if (!crs.empty()) {
        ASSERT_EQ(system.SetFromUserInput(crs.c_str()), OGRERR_NONE);
    }
    OGRLayer* made = source->CreateLayer(layer.c_str(), crs.empty() ? nullptr : &system, wkbPolygon25D, nullptr);
    ASSERT_NE(made, nullptr);
    OGRFieldDefn field("name", OFTString);
    ASSERT_EQ(made->CreateField(&field), OGRERR_NONE);
    OGRFeature feature(made->GetLayerDefn());
    feature.SetField("name", name.c_str());
    OGRLinearRing line;
    for (const Eigen::Vector3d& point : ring) line.addPoint(point.x(), point.y(), point.z());
    line.closeRings();
    OGRPolygon polygon;
    polygon.addRing(&line);
    feature.SetGeometry(&polygon);
    ASSERT_EQ(made->CreateFeature(&feature), OGRERR_NONE);
}

}  // namespace selvage::test
