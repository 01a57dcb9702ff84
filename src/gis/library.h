#pragma once

#include "gis/map_target.h"

#include <Eigen/Core>

#include <memory>
#include <optional>
#include <string>

// What this room's files share of GDAL, without showing it.
namespace selvage::gis {

// GDAL ready for use, and silent while this stands: what it says is asked for by `said`.
class QuietLibrary {
public:
    QuietLibrary();
    ~QuietLibrary();
    QuietLibrary(const QuietLibrary&) = delete;
    QuietLibrary& operator=(const QuietLibrary&) = delete;
    // The last complaint, as the end of a sentence: ": bad magic"; empty where there was none.
    std::string said() const;
};

// East and north of a file on the wanted map, metres.
class Carrier {
public:
    // source_wkt: as the file states it; empty: not stated.
    Carrier(const MapTarget& target, const std::string& source_wkt);
    ~Carrier();
    Carrier(const Carrier&) = delete;
    Carrier& operator=(const Carrier&) = delete;

    CrsMatch match() const;
    const std::string& source_name() const;
    // The file's figures cannot be the degrees that they are said to be: they are taken as they are.
    void look_at(const Eigen::Vector2d& lowest, const Eigen::Vector2d& highest);
    // Nothing where the transformation has no answer.
    std::optional<Eigen::Vector2d> map_from_file(const Eigen::Vector2d& figures) const;
    std::optional<Eigen::Vector2d> file_from_map(const Eigen::Vector2d& place) const;

private:
    struct Systems;
    std::unique_ptr<Systems> systems_;
};

}  // namespace selvage::gis
