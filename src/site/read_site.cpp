#include "base/file.h"
#include "gis/solids.h"
#include "site/map_file.h"
#include "site/site.h"
#include "site/site_checks.h"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <utility>

namespace selvage::site {

namespace {

constexpr double map_margin = 1000.0;  // m of topography beyond the project, for plans and sections

// What was read, as bytes for the fingerprint.
class SiteBytes {
public:
    void add(double value) {
        char bytes[sizeof value];
        std::memcpy(bytes, &value, sizeof value);
        text_.append(bytes, sizeof value);
    }
    void add(const Eigen::Vector3d& point) {
        for (const double value : point) add(value);
    }
    void add(const std::vector<Ring>& rings) {
        for (const Ring& ring : rings)
            for (const Eigen::Vector2d& place : ring) add(Eigen::Vector3d(place.x(), place.y(), 0.0));
    }
    void operator()(const gis::ElevationGrid& grid) {
        for (const Eigen::Vector2d& step : {grid.first, grid.along_row, grid.along_column})
            add(Eigen::Vector3d(step.x(), step.y(), 0.0));
        for (const float value : grid.elevations) add(static_cast<double>(value));
    }
    void operator()(const TriangulatedRelief& relief) {
        for (const Eigen::Vector3d& point : relief.points()) add(point);
    }
    std::string hash() const { return text_.empty() ? text_ : base::sha256_hex(text_); }

private:
    std::string text_;
};

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

class SiteReader {
public:
    SiteReader(const settings::Project& project, const tables::Records& records) : project_(project), records_(records) {}

    base::Checked<Site> read() {
        std::shared_ptr<const Relief> relief;
        const settings::SiteSettings& given = project_.site;
        if (!given.topography.source.empty())
            with_file("topography", given.topography, [&](MapFile& f) { relief = topography(f); });
        if (!given.property.source.empty()) with_file("property", given.property, [&](MapFile& f) { read_property(f); });
        if (!given.workings.source.empty()) with_file("workings", given.workings, [&](MapFile& f) { read_workings(f); });
        if (relief != nullptr) std::visit([this](const auto& surface) { bytes_(surface); }, relief->surface);
        site_.ground = Ground(ground_plane(records_), std::move(relief));
        site_.fingerprint = bytes_.hash();
        return {std::move(site_), std::move(findings_)};
    }

private:
    template <typename Use>
    void with_file(const std::string& section, const settings::MapSource& source, Use use) {
        MapFile file(section, source, project_, records_);
        if (file.exists()) {
            if (!file.hash().empty()) site_.hashes[source.source] = file.hash();
            use(file);
        }
        base::append(findings_, std::move(file.findings));
    }

    std::shared_ptr<const Relief> topography(MapFile& file) {
        if (file.is_csv() || !gis::is_raster(file.path())) return relief_through_points(file);
        int band = 1;
        if (!file.source().layer.empty()) band = std::atoi(file.source().layer.c_str());
        std::optional<gis::ElevationGrid> grid =
            file.taken(gis::read_elevation_grid(file.path(), band, file.target(), project_window(records_)));
        if (!grid) return nullptr;
        if (grid->rows == 0) {
            file.report(topography_elsewhere, "it has no cell where the project is: the ground is a plane");
            return nullptr;
        }
        if (std::all_of(grid->elevations.begin(), grid->elevations.end(), [](float value) { return std::isnan(value); })) {
            file.report(source_empty, "it holds no elevation where the project is: the ground is a plane");
            return nullptr;
        }
        grid->first -= records_.frame.origin.head<2>();
        for (float& value : grid->elevations) value -= static_cast<float>(records_.frame.origin.z());
        return std::make_shared<const Relief>(Relief{std::move(*grid)});
    }

    std::shared_ptr<const Relief> relief_through_points(MapFile& file) {
        const std::optional<gis::Shapes> shapes = file.shapes(project_.site.elevation_field);
        if (!shapes) return nullptr;
        const gis::MapBox window = project_window(records_);
        std::vector<Eigen::Vector3d> points;
        std::vector<std::vector<Eigen::Vector3d>> lines;
        std::size_t elsewhere = 0;
        const auto use = [&](const Eigen::Vector3d& point) {
            if (!point.allFinite()) return false;
            const bool near =
                (point.head<2>().array() >= window.low.array()).all() && (point.head<2>().array() <= window.high.array()).all();
            elsewhere += near ? 0 : 1;
            return near;
        };
        for (const Eigen::Vector3d& point : shapes->points)
            if (use(point)) points.push_back(point - records_.frame.origin);
        const auto add_line = [&](const std::vector<Eigen::Vector3d>& line) {
            lines.emplace_back();
            for (const Eigen::Vector3d& point : line) {
                if (use(point))
                    lines.back().push_back(point - records_.frame.origin);
                else if (!lines.back().empty())
                    lines.emplace_back();
            }
        };
        for (const gis::Polyline3& line : shapes->lines) add_line(line.points);
        lines.erase(std::remove_if(lines.begin(), lines.end(), [](const auto& line) { return line.size() < 2; }), lines.end());
        if (points.empty() && lines.empty()) {
            if (elsewhere > 0)
                file.report(topography_elsewhere, "none of its points lies where the project is: the ground is a plane");
            else
                file.report(source_empty, "it holds neither points nor lines with elevations: the ground is a plane");
            return nullptr;
        }
        mesh::Outcome<TriangulatedRelief> relief = triangulated(points, lines);
        if (!relief) {
            file.report(source_empty, "no ground can be laid through it: " + relief.message + "; the ground is a plane");
            return nullptr;
        }
        return std::make_shared<const Relief>(Relief{std::move(*relief)});
    }

    void read_property(MapFile& file) {
        const std::optional<gis::Shapes> shapes = file.shapes("");
        if (!shapes) return;
        Property property;
        for (const gis::Polygon& polygon : areas_of(*shapes)) {
            std::vector<Ring> rings = rings_of(polygon, records_.frame.origin);
            if (rings.empty()) continue;
            if (const std::string at = crossing_words(rings, records_.frame); !at.empty())
                file.report(ring_crosses_itself, "the outline of " + named(polygon.name) + " crosses itself at " + at +
                                                     ": what lies within an odd number of its loops is taken as property");
            bytes_.add(rings);
            property.areas.push_back(std::move(rings));
        }
        if (property.areas.empty()) return file.report(source_empty, "it holds no area: no property is known");
        site_.property = std::make_shared<const Property>(std::move(property));
    }

    static std::string named(const std::string& name) { return name.empty() ? "an area without a name" : "\"" + name + "\""; }

    void read_workings(MapFile& file) {
        if (gis::is_solid_file(file.path())) {
            std::optional<mesh::TriangleMesh> solid = file.taken(gis::read_solid(file.path(), file.target().metres_per_unit));
            if (solid) add_solid(file, std::move(*solid), "");
        } else if (const std::optional<gis::Shapes> shapes = file.shapes("elevation")) {
            for (const gis::NamedSolid& solid : shapes->solids) add_solid(file, solid.mesh, solid.name);
            for (const gis::Polygon& polygon : areas_of(*shapes)) add_outline(file, polygon);
            const auto open = std::count_if(shapes->lines.begin(), shapes->lines.end(),
                                            [](const gis::Polyline3& line) { return !line.is_closed(); });
            if (open > 0)
                file.report(source_empty,
                            std::to_string(open) + (open == 1 ? " line is" : " lines are") + " neither area nor solid: left out");
        }
        if (site_.workings.empty() && file.findings.empty()) file.report(source_empty, "it holds neither areas nor solids");
    }

    void add_solid(MapFile& file, mesh::TriangleMesh mesh, const std::string& name) {
        if (mesh.triangles.empty()) return;
        for (Eigen::Vector3d& point : mesh.points) {
            point -= records_.frame.origin;
            bytes_.add(point);
        }
        Working working{name, {}, std::make_shared<const MinedSolid>(std::move(mesh))};
        if (!working.solid->is_closed) file.report(workings_open, "the solid of " + named(name) + " is not closed");
        site_.workings.push_back(std::move(working));
    }

    void add_outline(MapFile& file, const gis::Polygon& polygon) {
        Working working{polygon.name, rings_of(polygon, records_.frame.origin), nullptr};
        if (working.outline.empty()) return;
        bytes_.add(working.outline);
        if (const std::string at = crossing_words(working.outline, records_.frame); !at.empty()) {
            file.report(ring_crosses_itself, "the outline of " + named(polygon.name) + " crosses itself at " + at +
                                                 ": it is drawn on the plan, and holes keep no clearance from it");
        } else if (!polygon.bottom && !polygon.top) {
            file.report(workings_depth_unknown,
                        "the elevation of " + named(polygon.name) +
                            " is not known: it is drawn on the plan, and holes keep no clearance from it");
        } else {
            double bottom =
                polygon.bottom.value_or(*(polygon.top ? polygon.top : polygon.bottom) - project_.site.workings_height);
            double top = polygon.top.value_or(bottom + project_.site.workings_height);
            if (top < bottom) std::swap(top, bottom);
            top = std::max(top, bottom + (top - bottom < least_height ? project_.site.workings_height : 0.0));
            bytes_.add(bottom);
            bytes_.add(top);
            working.solid = prism(working.outline, bottom - records_.frame.origin.z(), top - records_.frame.origin.z());
            if (working.solid == nullptr)
                file.report(ring_crosses_itself, "the rings of " + named(polygon.name) +
                                                     " touch each other or hold no area: drawn on the plan alone, and holes keep "
                                                     "no clearance from it");
        }
        site_.workings.push_back(std::move(working));
    }

    static constexpr double least_height = 0.1;  // m: bottom and top nearer than that are one level

    const settings::Project& project_;
    const tables::Records& records_;
    Site site_;
    SiteBytes bytes_;
    std::vector<base::Finding> findings_;
};

}  // namespace

base::Checked<Site> read_site(const settings::Project& project, const tables::Records& records) {
    return SiteReader(project, records).read();
}

Site assumed_site(const tables::Records& records) {
    Site site;
    site.ground = Ground(ground_plane(records));
    return site;
}

}  // namespace selvage::site
