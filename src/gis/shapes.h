#pragma once

#include "gis/map_target.h"
#include "mesh/triangle_mesh.h"

#include <Eigen/Core>

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

// Points, lines, areas and solids of a file, in metres on the map. An elevation that is not known is NaN.
namespace selvage::gis {

struct Polyline3 {
    std::vector<Eigen::Vector3d> points;  // of a closed one the last is the first again
    std::string name;
    bool is_closed() const { return points.size() > 3 && points.front().head<2>() == points.back().head<2>(); }
};

// The outer ring, then the holes in it; without their first points again.
struct Polygon {
    std::vector<std::vector<Eigen::Vector3d>> rings;
    std::string name;
    std::optional<double> bottom, top;  // m, of the fields of that name, else of their elevations
};

struct NamedSolid {
    mesh::TriangleMesh mesh;
    std::string name;
};

struct Shapes {
    std::vector<Eigen::Vector3d> points;
    std::vector<Polyline3> lines;
    std::vector<Polygon> polygons;
    std::vector<NamedSolid> solids;
    std::size_t features = 0;  // of the layers read, empty ones too
};

// Reads any vector source that OGR reads: GeoPackage, shapefile, GeoJSON, DXF ... Curves become short straight pieces. Faces of a
// DXF drawing are joined, those of a layer to one solid.
//   layer            one layer of the source (of a DXF drawing, one of the drawing's own layers); empty: all of them
//   elevation_field  the field that holds elevations of points and lines without their own, of level areas too
// Fields `name`, `bottom` and `top` are taken too, whatever their case.
Read<Shapes> read_shapes(const std::string& file, const std::string& layer, const std::string& elevation_field,
                         const MapTarget& target);

// Points as a table gives them, in metres on the wanted map; those that cannot be carried over are left out.
Read<std::vector<Eigen::Vector3d>> carried_points(const std::vector<Eigen::Vector3d>& figures, const MapTarget& target);

}  // namespace selvage::gis
