#include "base/file.h"
#include "site/map_file_readers.h"
#include "site/site.h"
#include "site/site_checks.h"

#include <cstring>
#include <utility>

namespace selvage::site {

namespace {

// What was read, as bytes for the fingerprint.
class SiteBytes {
public:
    void add(double value) {
        char bytes[sizeof value];
        std::memcpy(bytes, &value, sizeof value);
        text_.append(bytes, sizeof value);
    }
    void add(const Eigen::Vector2d& place) {
        add(place.x());
        add(place.y());
    }
    void add(const Eigen::Vector3d& point) {
        add(Eigen::Vector2d(point.head<2>()));
        add(point.z());
    }
    template <typename T>
    void add(const std::vector<T>& all) {
        add(static_cast<double>(all.size()));
        for (const T& one : all) add(one);
    }
    void add(float value) { add(static_cast<double>(value)); }
    void operator()(const gis::ElevationGrid& grid) {
        for (const Eigen::Vector2d& step : {grid.first, grid.along_row, grid.along_column}) add(step);
        add(grid.elevations);
    }
    void operator()(const TriangulatedRelief& relief) { add(relief.points()); }
    std::string hash() const { return base::sha256_hex(text_); }

private:
    std::string text_;
};

std::string fingerprint_of(const Site& site) {
    if (!site.ground.has_given() && !site.property && site.workings.empty()) return {};
    SiteBytes bytes;
    if (site.ground.has_given()) std::visit([&bytes](const auto& surface) { bytes(surface); }, site.ground.given()->surface);
    if (site.property) bytes.add(site.property->areas());
    for (const Working& working : site.workings) {
        bytes.add(working.outline);
        if (working.solid != nullptr) bytes.add(working.solid->mesh.points);
    }
    return bytes.hash();
}

}  // namespace

std::shared_ptr<const Property> read_property(MapFile& file) {
    const std::optional<gis::Shapes> shapes = file.shapes("");
    if (!shapes) return nullptr;
    std::vector<Property::Area> areas;
    for (const gis::Polygon& polygon : areas_of(*shapes)) {
        std::vector<Ring> rings = rings_of(polygon, file.frame().origin);
        if (rings.empty()) continue;
        if (const std::string at = crossing_words(rings, file.frame()); !at.empty())
            file.report(ring_crosses_itself,
                        "the outline of " + (polygon.name.empty() ? "an area without a name" : "\"" + polygon.name + "\"") +
                            " crosses itself at " + at + ": what lies within an odd number of its loops is taken as property");
        areas.push_back(std::move(rings));
    }
    if (areas.empty()) {
        file.report(source_empty, "it holds no area: no property is known");
        return nullptr;
    }
    return std::make_shared<const Property>(std::move(areas));
}

base::Checked<Site> read_site(const settings::Project& project, const tables::Records& records) {
    base::Checked<Site> read;
    Site& site = read.value;
    const settings::SiteSettings& given = project.site;
    const auto with_file = [&](const char* section, const settings::MapSource& source, const auto& use) {
        if (source.source.empty()) return;
        MapFile file(section, source, project, records);
        if (file.exists()) {
            if (!file.hash().empty()) site.hashes[source.source] = file.hash();
            use(file);
        }
        base::append(read.findings, std::move(file.findings));
    };
    std::shared_ptr<const Relief> relief;
    with_file("topography", given.topography, [&](MapFile& file) { relief = read_topography(file, given, records); });
    with_file("property", given.property, [&](MapFile& file) { site.property = read_property(file); });
    with_file("workings", given.workings, [&](MapFile& file) { site.workings = read_workings(file, given); });
    site.ground = Ground(ground_plane(records), std::move(relief));
    site.fingerprint = fingerprint_of(site);
    return read;
}

Site assumed_site(const tables::Records& records) {
    Site site;
    site.ground = Ground(ground_plane(records));
    return site;
}

}  // namespace selvage::site
