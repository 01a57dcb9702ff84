#include "gis/shapes.h"

#include "base/text.h"
#include "gis/library.h"

#include <ogrsf_frmts.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <memory>
#include <utility>

namespace selvage::gis {

namespace {

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

// The number of the field of a name, whatever its case; -1 where there is none.
int field_of(const OGRFeatureDefn& fields, const std::string& name) {
    for (int i = 0; i < fields.GetFieldCount(); ++i)
        if (base::folded(fields.GetFieldDefn(i)->GetNameRef()) == base::folded(name)) return i;
    return -1;
}

std::string text_of(const OGRFeature& feature, const std::string& name) {
    const int field = field_of(*feature.GetDefnRef(), name);
    return field < 0 || feature.IsFieldSetAndNotNull(field) == 0 ? "" : feature.GetFieldAsString(field);
}

// A field as a number, in metres; nothing where it holds none.
std::optional<double> metres_of(const OGRFeature& feature, const std::string& name, double metres_per_unit) {
    const std::optional<double> value = base::parse_number(base::trimmed(text_of(feature, name)));
    return value ? std::optional<double>(*value * metres_per_unit) : std::nullopt;
}

// Faces joined to one mesh: corners of one place become one of its points.
struct JoinedFaces {
    mesh::TriangleMesh mesh;
    std::map<std::array<double, 3>, int> corners;

    void add(std::vector<Eigen::Vector3d> ring) {
        while (ring.size() > 1 && ring.front() == ring.back()) ring.pop_back();
        std::vector<int> numbers;
        for (const Eigen::Vector3d& corner : ring) {
            const auto [at, is_new] =
                corners.emplace(std::array<double, 3>{corner.x(), corner.y(), corner.z()}, static_cast<int>(mesh.points.size()));
            if (is_new) mesh.points.push_back(corner);
            numbers.push_back(at->second);
        }
        for (std::size_t i = 2; i < numbers.size(); ++i)
            if (numbers[0] != numbers[i - 1] && numbers[i - 1] != numbers[i] && numbers[0] != numbers[i])
                mesh.triangles.push_back({numbers[0], numbers[i - 1], numbers[i]});
    }
};

// Takes features apart into shapes.
class Taker {
public:
    Taker(Shapes& shapes, const Carrier& carrier, const MapTarget& target, std::string elevation_field)
        : shapes_(shapes), carrier_(carrier), target_(target), elevation_field_(std::move(elevation_field)) {}

    void take(const OGRFeature& feature) {
        ++shapes_.features;
        const OGRGeometry* geometry = feature.GetGeometryRef();
        if (geometry == nullptr) return;
        feature_ = &feature;
        name_ = text_of(feature, "name");
        elevation_ = metres_of(feature, elevation_field_, target_.metres_per_unit);
        const std::unique_ptr<OGRGeometry> straight(geometry->getLinearGeometry());
        if (text_of(feature, "SubClasses").find("AcDbFace") != std::string::npos)
            take_face(*straight);
        else
            take(*straight);
    }
    void finish() {
        for (auto& [layer, faces] : faces_) shapes_.solids.push_back({std::move(faces.mesh), layer});
    }

private:
    void take(const OGRGeometry& geometry) {
        switch (wkbFlatten(geometry.getGeometryType())) {
            case wkbPoint: {
                const Eigen::Vector3d at = place(*geometry.toPoint());
                if (geometry.IsEmpty() == 0 && at.head<2>().allFinite()) shapes_.points.push_back(at);
                break;
            }
            case wkbLineString: {
                Polyline3 line{places(*geometry.toLineString()), name_};
                if (line.points.size() > 1) shapes_.lines.push_back(std::move(line));
                break;
            }
            case wkbTriangle:
            case wkbPolygon: take_polygon(*geometry.toPolygon()); break;
            case wkbTIN:
            case wkbPolyhedralSurface: {
                JoinedFaces faces;
                for (const auto* face : *geometry.toPolyhedralSurface()) add_face(faces, *face);
                shapes_.solids.push_back({std::move(faces.mesh), name_});
                break;
            }
            default:
                if (OGR_GT_IsSubClassOf(geometry.getGeometryType(), wkbGeometryCollection) != 0)
                    for (const OGRGeometry* part : *geometry.toGeometryCollection()) take(*part);
        }
    }

    void take_polygon(const OGRPolygon& polygon) {
        Polygon taken;
        taken.name = name_;
        for (const OGRLinearRing* ring : polygon) {
            std::vector<Eigen::Vector3d> points = places(*ring);
            while (points.size() > 1 && points.front().head<2>() == points.back().head<2>()) points.pop_back();
            taken.rings.push_back(std::move(points));
        }
        if (taken.rings.empty() || taken.rings.front().size() < 3) return;
        for (const std::vector<Eigen::Vector3d>& ring : taken.rings)
            for (const Eigen::Vector3d& point : ring) {
                if (std::isnan(point.z())) continue;
                taken.bottom = std::min(taken.bottom.value_or(point.z()), point.z());
                taken.top = std::max(taken.top.value_or(point.z()), point.z());
            }
        if (const auto bottom = metres_of(*feature_, "bottom", target_.metres_per_unit)) taken.bottom = bottom;
        if (const auto top = metres_of(*feature_, "top", target_.metres_per_unit)) taken.top = top;
        shapes_.polygons.push_back(std::move(taken));
    }

    void take_face(const OGRGeometry& geometry) {
        const auto type = wkbFlatten(geometry.getGeometryType());
        if (type == wkbPolygon || type == wkbTriangle) add_face(faces_[text_of(*feature_, "Layer")], *geometry.toPolygon());
    }
    void add_face(JoinedFaces& faces, const OGRPolygon& face) const {
        if (face.getExteriorRing() != nullptr) faces.add(places(*face.getExteriorRing()));
    }

    Eigen::Vector3d place(const OGRPoint& point) const {
        const Eigen::Vector2d on_map =
            carrier_.map_from_file({point.getX(), point.getY()}).value_or(Eigen::Vector2d(unknown, unknown));
        const double up = point.Is3D() != 0 ? point.getZ() * target_.metres_per_unit : elevation_.value_or(unknown);
        return {on_map.x(), on_map.y(), up};
    }
    // Without those that the transformation cannot carry.
    std::vector<Eigen::Vector3d> places(const OGRSimpleCurve& curve) const {
        std::vector<Eigen::Vector3d> all;
        OGRPoint point;
        for (int i = 0; i < curve.getNumPoints(); ++i) {
            curve.getPoint(i, &point);
            if (curve.Is3D() == 0) point.flattenTo2D();
            const Eigen::Vector3d one = place(point);
            if (one.head<2>().allFinite()) all.push_back(one);
        }
        return all;
    }

    Shapes& shapes_;
    const Carrier& carrier_;
    const MapTarget& target_;
    std::string elevation_field_;
    const OGRFeature* feature_ = nullptr;
    std::string name_;
    std::optional<double> elevation_;
    std::map<std::string, JoinedFaces> faces_;  // by the drawing's layer
};

// The layers of that name; of a drawing all of its features lie in one layer, and their own is a field.
struct Wanted {
    std::vector<OGRLayer*> layers;
    std::string drawing_layer;  // folded; empty: all features
};

std::optional<Wanted> wanted_layers(GDALDataset& source, const std::string& layer) {
    Wanted wanted;
    for (auto* one : source.GetLayers())
        if (layer.empty() || base::folded(one->GetName()) == base::folded(layer)) wanted.layers.push_back(one);
    if (!wanted.layers.empty()) return wanted;
    if (source.GetDriver() == nullptr || std::string(source.GetDriver()->GetDescription()) != "DXF") return std::nullopt;
    for (auto* one : source.GetLayers()) wanted.layers.push_back(one);
    wanted.drawing_layer = base::folded(layer);
    return wanted;
}

std::string names_of_layers(GDALDataset& source) {
    std::string names;
    for (auto* one : source.GetLayers()) names += (names.empty() ? "" : ", ") + std::string(one->GetName());
    return names;
}

void read_layer(OGRLayer& layer, const std::string& drawing_layer, const std::string& elevation_field, const MapTarget& target,
                Read<Shapes>& read) {
    std::string wkt;
    if (const OGRSpatialReference* system = layer.GetSpatialRef()) {
        char* text = nullptr;
        if (system->exportToWkt(&text) == OGRERR_NONE) wkt = text;
        CPLFree(text);
    }
    Carrier carrier(target, wkt);
    OGREnvelope box;
    if (layer.GetExtent(&box) == OGRERR_NONE) carrier.look_at({box.MinX, box.MinY}, {box.MaxX, box.MaxY});
    if (read.value->features == 0 || carrier.match() != CrsMatch::not_compared) read.crs = carrier.match();
    if (!carrier.source_name().empty()) read.source_crs = carrier.source_name();
    Taker taker(*read.value, carrier, target, elevation_field);
    layer.ResetReading();
    while (const std::unique_ptr<OGRFeature> feature{layer.GetNextFeature()}) {
        if (!drawing_layer.empty() && base::folded(text_of(*feature, "Layer")) != drawing_layer) continue;
        taker.take(*feature);
    }
    taker.finish();
}

}  // namespace

Read<Shapes> read_shapes(const std::string& file, const std::string& layer, const std::string& elevation_field,
                         const MapTarget& target) {
    Read<Shapes> read;
    const QuietLibrary library;
    const std::unique_ptr<GDALDataset> source(GDALDataset::Open(file.c_str(), GDAL_OF_VECTOR | GDAL_OF_READONLY));
    if (!source) {
        read.failure = file + " cannot be read as points, lines or areas" + library.said();
        return read;
    }
    const std::optional<Wanted> wanted = wanted_layers(*source, layer);
    if (!wanted) {
        read.failure = file + " has no layer " + layer + ": it has " + names_of_layers(*source);
        return read;
    }
    read.value.emplace();
    for (OGRLayer* one : wanted->layers) read_layer(*one, wanted->drawing_layer, elevation_field, target, read);
    return read;
}

Read<std::vector<Eigen::Vector3d>> carried_points(const std::vector<Eigen::Vector3d>& figures, const MapTarget& target) {
    Read<std::vector<Eigen::Vector3d>> read;
    read.value.emplace();
    const QuietLibrary library;
    Carrier carrier(target, "");
    if (figures.empty()) return read;
    Eigen::Vector2d low = figures.front().head<2>(), high = low;
    for (const Eigen::Vector3d& point : figures) {
        low = low.cwiseMin(point.head<2>());
        high = high.cwiseMax(point.head<2>());
    }
    carrier.look_at(low, high);
    for (const Eigen::Vector3d& point : figures)
        if (const auto place = carrier.map_from_file(point.head<2>()))
            read.value->emplace_back(place->x(), place->y(), point.z() * target.metres_per_unit);
    read.crs = carrier.match();
    read.source_crs = carrier.source_name();
    return read;
}

}  // namespace selvage::gis
