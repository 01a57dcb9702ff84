#include "site/map_file.h"

#include "base/file.h"
#include "base/text.h"
#include "site/property.h"
#include "site/site_checks.h"
#include "tables/read.h"

#include <algorithm>
#include <array>
#include <filesystem>
#include <limits>
#include <utility>

namespace selvage::site {

namespace {

namespace fs = std::filesystem;

constexpr std::size_t no_column = static_cast<std::size_t>(-1);

std::size_t column_of(const base::Table& table, const std::string& name) {
    for (std::size_t i = 0; i < table.columns.size(); ++i)
        if (base::folded(table.columns[i]) == name) return i;
    return no_column;
}

std::optional<double> number_in(const base::Table& table, std::size_t row, std::size_t column) {
    return column == no_column ? std::nullopt : base::parse_number(base::trimmed_view(table.cell(row, column)));
}

}  // namespace

MapFile::MapFile(std::string section, const settings::MapSource& source, const settings::Project& project,
                 const tables::Records& records)
    : section_(std::move(section)),
      source_(source),
      path_((fs::path(project.folder) / source.source).string()),
      target_{project.crs, source.crs, base::metres_per(source.length_unit.value_or(project.length_unit))},
      frame_(records.frame) {}

void MapFile::report(const base::Check& check, std::string message, const std::string& hole) {
    findings.push_back({&check, {section_, source_.source, 0}, hole, std::move(message)});
}

void MapFile::report_failure(const std::string& failure) { report(source_unusable, failure); }

bool MapFile::is_csv() const {
    const std::string folded = base::folded(source_.source);
    return folded.size() > 4 && folded.substr(folded.size() - 4) == ".csv";
}

bool MapFile::exists() {
    std::error_code failed;
    if (fs::is_directory(path_, failed)) return true;  // some formats are folders
    if (!fs::is_regular_file(path_, failed)) {
        report_failure("there is no file " + path_);
        return false;
    }
    try {
        hash_ = base::sha256_hex(base::read_file(path_));
    } catch (const base::MachineError& error) {
        report_failure(error.message);
        return false;
    }
    return true;
}

void MapFile::report_crs(gis::CrsMatch match, const std::string& source_crs) {
    if (match == gis::CrsMatch::reprojected)
        report(crs_carried_over, "its east and north were carried over from " + source_crs + " to " + target_.crs +
                                     "; its elevations are as they are");
    if (match == gis::CrsMatch::not_degrees)
        report(crs_doubtful, "it is said to be in " + source_crs +
                                 ", in degrees, which its figures cannot be: they are taken as "
                                 "the project's coordinates");
    if (match == gis::CrsMatch::wanted_unknown)
        report(crs_doubtful, "there is no way from its coordinate system" + (source_crs.empty() ? "" : " " + source_crs) +
                                 " to project.crs = \"" + target_.crs + "\": its coordinates are taken as they are");
}

std::optional<gis::Shapes> MapFile::shapes(const std::string& elevation_field) {
    if (is_csv()) return table_shapes();
    return taken(gis::read_shapes(path_, source_.layer, elevation_field, target_));
}

std::optional<gis::Shapes> MapFile::table_shapes() {
    base::Checked<base::Table> read = tables::read_csv(section_, source_.source, base::read_file(path_), "");
    base::append(findings, std::move(read.findings));
    const base::Table& table = read.value;
    const std::size_t east = column_of(table, "east"), north = column_of(table, "north"), up = column_of(table, "elevation"),
                      name = column_of(table, "name");
    if (east == no_column || north == no_column) {
        report_failure(path_ + " has no columns east and north");
        return std::nullopt;
    }
    std::vector<Eigen::Vector3d> figures;
    std::vector<std::string> names;
    std::size_t left_out = 0;
    for (std::size_t row = 0; row < table.row_count(); ++row) {
        const auto x = number_in(table, row, east), y = number_in(table, row, north), z = number_in(table, row, up);
        if (!x || !y) {
            ++left_out;
            continue;
        }
        figures.emplace_back(*x, *y, z.value_or(std::numeric_limits<double>::quiet_NaN()));
        names.push_back(name == no_column ? "" : base::trimmed(table.cell(row, name)));
    }
    if (left_out > 0)
        report(source_unusable,
               std::to_string(left_out) + (left_out == 1 ? " row has" : " rows have") + " no number in east or north: left out");
    const std::optional<std::vector<Eigen::Vector3d>> points = taken(gis::carried_points(figures, target_));
    gis::Shapes shapes;
    shapes.features = figures.size();
    if (!points) return shapes;
    shapes.points = *points;
    if (points->size() != names.size()) return shapes;
    for (std::size_t i = 0; i < points->size(); ++i) {  // rows of one name, one after another, are an area's corners
        if (i == 0 || names[i] != names[i - 1]) {
            gis::Polygon area;
            area.name = names[i];
            area.rings.emplace_back();
            shapes.polygons.push_back(std::move(area));
        }
        shapes.polygons.back().rings.front().push_back((*points)[i]);
    }
    return shapes;
}

std::vector<std::vector<Eigen::Vector2d>> rings_of(const gis::Polygon& polygon, const Eigen::Vector3d& origin) {
    std::vector<std::vector<Eigen::Vector2d>> rings;
    for (const std::vector<Eigen::Vector3d>& ring : polygon.rings) {
        std::vector<Eigen::Vector2d> places;
        for (const Eigen::Vector3d& point : ring) {
            const Eigen::Vector2d place = (point - origin).head<2>();
            if (places.empty() || places.back() != place) places.push_back(place);
        }
        while (places.size() > 1 && places.front() == places.back()) places.pop_back();
        if (places.size() > 2) rings.push_back(std::move(places));
    }
    return rings;
}

std::vector<gis::Polygon> areas_of(const gis::Shapes& shapes) {
    std::vector<gis::Polygon> areas = shapes.polygons;
    for (const gis::Polyline3& line : shapes.lines) {
        if (!line.is_closed()) continue;
        gis::Polygon area;
        area.name = line.name;
        area.rings = {line.points};
        for (const Eigen::Vector3d& point : line.points) {
            if (std::isnan(point.z())) continue;
            area.bottom = std::min(area.bottom.value_or(point.z()), point.z());
            area.top = std::max(area.top.value_or(point.z()), point.z());
        }
        areas.push_back(std::move(area));
    }
    return areas;
}

std::string crossing_words(const std::vector<std::vector<Eigen::Vector2d>>& rings, const base::MapFrame& frame) {
    for (const std::vector<Eigen::Vector2d>& ring : rings)
        if (const auto at = self_crossing(ring)) return place_words(*at, frame);
    return {};
}

std::string place_words(const Eigen::Vector2d& place, const base::MapFrame& frame) {
    const Eigen::Vector3d map = frame.map_from_project({place.x(), place.y(), 0.0});
    return "E " + base::fixed(map.x(), 1) + " N " + base::fixed(map.y(), 1);
}

std::string length_words(double metres, const base::MapFrame& frame, int decimals) {
    return base::fixed(frame.length(metres), decimals) + " " + base::symbol_of(frame.unit);
}

}  // namespace selvage::site
