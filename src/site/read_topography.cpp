#include "base/text.h"
#include "site/map_file_readers.h"
#include "site/site_checks.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace selvage::site {

namespace {

constexpr double map_margin = 1000.0;  // m of topography beyond the project, for plans and sections

// Where the project is on the map, with room round it.
gis::MapBox project_window(const tables::Records& records) {
    const Eigen::Vector2d origin = records.frame.origin.head<2>();
    gis::MapBox box{origin, origin};
    bool any = false;
    const auto take = [&](const Eigen::Vector3d& point) {
        const Eigen::Vector2d place = origin + point.head<2>();
        box.low = any ? Eigen::Vector2d(box.low.cwiseMin(place)) : place;
        box.high = any ? Eigen::Vector2d(box.high.cwiseMax(place)) : place;
        any = true;
    };
    for (const tables::Collar& collar : records.collars) {
        take(collar.position);
        if (collar.target && collar.target->point) take(*collar.target->point);
    }
    for (const tables::Outcrop& outcrop : records.outcrops) take(outcrop.position);
    for (const tables::Pad& pad : records.pads) take(pad.position);
    const double margin = std::max(map_margin, (box.high - box.low).norm());
    return {box.low - Eigen::Vector2d::Constant(margin), box.high + Eigen::Vector2d::Constant(margin)};
}

std::shared_ptr<const Relief> relief_of_raster(MapFile& file, const tables::Records& records) {
    int band = 1;
    if (!file.source().layer.empty()) band = static_cast<int>(base::parse_number(file.source().layer).value_or(0.0));
    std::optional<gis::ElevationGrid> grid =
        file.taken(gis::read_elevation_grid(file.path(), band, file.target(), project_window(records)));
    if (!grid) return nullptr;
    if (grid->rows == 0) {
        file.report(topography_elsewhere, "it has no cell where the project is: the ground is a plane");
        return nullptr;
    }
    if (std::all_of(grid->elevations.begin(), grid->elevations.end(), [](float value) { return std::isnan(value); })) {
        file.report(source_empty, "it holds no elevation where the project is: the ground is a plane");
        return nullptr;
    }
    grid->first -= records.frame.origin.head<2>();
    for (float& value : grid->elevations) value -= static_cast<float>(records.frame.origin.z());
    return std::make_shared<const Relief>(Relief{std::move(*grid)});
}

// Points and lines within a window, relative to an origin; a line that leaves it goes on as another.
class PointsNear {
public:
    PointsNear(const gis::MapBox& window, const Eigen::Vector3d& origin) : window_(window), origin_(origin) {}

    std::vector<Eigen::Vector3d> points;
    std::vector<std::vector<Eigen::Vector3d>> lines;
    std::size_t elsewhere = 0;

    void take(const Eigen::Vector3d& point) {
        if (use(point)) points.push_back(point - origin_);
    }
    void take(const gis::Polyline3& line) {
        std::vector<Eigen::Vector3d> piece;
        const auto finish = [&] {
            if (piece.size() > 1) lines.push_back(piece);
            piece.clear();
        };
        for (const Eigen::Vector3d& point : line.points) {
            if (use(point))
                piece.push_back(point - origin_);
            else
                finish();
        }
        finish();
    }

private:
    bool use(const Eigen::Vector3d& point) {
        if (!point.allFinite()) return false;
        const Eigen::Array2d place = point.head<2>().array();
        const bool near = (place >= window_.low.array()).all() && (place <= window_.high.array()).all();
        elsewhere += near ? 0 : 1;
        return near;
    }
    gis::MapBox window_;
    Eigen::Vector3d origin_;
};

std::shared_ptr<const Relief> relief_through_points(MapFile& file, const std::string& elevation_field,
                                                    const tables::Records& records) {
    const std::optional<gis::Shapes> shapes = file.shapes(elevation_field);
    if (!shapes) return nullptr;
    PointsNear near(project_window(records), records.frame.origin);
    for (const Eigen::Vector3d& point : shapes->points) near.take(point);
    for (const gis::Polyline3& line : shapes->lines) near.take(line);
    if (near.points.empty() && near.lines.empty()) {
        if (near.elsewhere > 0)
            file.report(topography_elsewhere, "none of its points lies where the project is: the ground is a plane");
        else
            file.report(source_empty, "it holds neither points nor lines with elevations: the ground is a plane");
        return nullptr;
    }
    mesh::Outcome<TriangulatedRelief> relief = triangulated(near.points, near.lines);
    if (!relief) {
        file.report(source_empty, "no ground can be laid through it: " + relief.message + "; the ground is a plane");
        return nullptr;
    }
    return std::make_shared<const Relief>(Relief{std::move(*relief)});
}

}  // namespace

std::shared_ptr<const Relief> read_topography(MapFile& file, const settings::SiteSettings& settings,
                                              const tables::Records& records) {
    return !file.is_csv() && gis::is_raster(file.path()) ? relief_of_raster(file, records)
                                                         : relief_through_points(file, settings.elevation_field, records);
}

}  // namespace selvage::site
