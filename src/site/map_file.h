#pragma once

#include "base/finding.h"
#include "gis/shapes.h"
#include "settings/project.h"
#include "tables/records.h"

#include <optional>
#include <string>
#include <vector>

// A file that [topography], [property] or [workings] names, and what is found wrong with it. Private to this room.
namespace selvage::site {

class MapFile {
public:
    MapFile(std::string section, const settings::MapSource& source, const settings::Project& project,
            const tables::Records& records);

    const std::string& path() const { return path_; }
    const std::string& hash() const { return hash_; }  // SHA-256 of its bytes
    bool is_csv() const;
    const settings::MapSource& source() const { return source_; }
    const gis::MapTarget& target() const { return target_; }
    const base::MapFrame& frame() const { return frame_; }

    // False, and said, where there is no such file.
    bool exists();
    // Points, lines and areas: of a CSV table its points, and an area for each of the names in it.
    std::optional<gis::Shapes> shapes(const std::string& elevation_field);
    // What a reading says of coordinate systems, and its failure.
    template <typename T>
    std::optional<T> taken(gis::Read<T> read) {
        if (!read.failure.empty())
            report_failure(read.failure);
        else
            report_crs(read.crs, read.source_crs);
        return std::move(read.value);
    }
    void report(const base::Check& check, std::string message, const std::string& hole = "");

    std::vector<base::Finding> findings;

private:
    void report_failure(const std::string& failure);
    void report_crs(gis::CrsMatch match, const std::string& source_crs);
    std::optional<gis::Shapes> table_shapes();

    std::string section_;
    const settings::MapSource& source_;
    std::string path_, hash_;
    gis::MapTarget target_;
    base::MapFrame frame_;
};

// Rings of an area, relative to the project origin.
std::vector<std::vector<Eigen::Vector2d>> rings_of(const gis::Polygon& polygon, const Eigen::Vector3d& origin);
// Closed lines are areas too, as drawings have them.
std::vector<gis::Polygon> areas_of(const gis::Shapes& shapes);
// The first place where one of the rings crosses itself, in words with its map coordinates; empty where none does.
std::string crossing_words(const std::vector<std::vector<Eigen::Vector2d>>& rings, const base::MapFrame& frame);
// "E 439 845 N 5 159 490" without blanks within figures.
std::string place_words(const Eigen::Vector2d& place, const base::MapFrame& frame);
// "12.3 m"
std::string length_words(double metres, const base::MapFrame& frame, int decimals = 1);

}  // namespace selvage::site
