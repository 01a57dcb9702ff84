#pragma once

#include <Eigen/Core>

// Metres inside, the project's length unit outside.
namespace selvage::base {

enum class LengthUnit { metre, foot, us_survey_foot };

// Exact by definition: 0.3048 (international foot, 1959), 1200/3937 (US survey foot).
constexpr double metres_per(LengthUnit unit) {
    return unit == LengthUnit::metre ? 1.0 : unit == LengthUnit::foot ? 0.3048 : 1200.0 / 3937.0;
}

// "m" or "ft", as labels and accumulation columns write it.
constexpr const char* symbol_of(LengthUnit unit) { return unit == LengthUnit::metre ? "m" : "ft"; }

// How positions and lengths in here are written for people: relative metres to whole map coordinates in the project's unit.
struct MapFrame {
    LengthUnit unit = LengthUnit::metre;
    Eigen::Vector3d origin = Eigen::Vector3d::Zero();  // project origin, map coordinates in metres

    double length(double metres) const { return metres / metres_per(unit); }
    Eigen::Vector3d map_from_project(const Eigen::Vector3d& point) const { return (point + origin) / metres_per(unit); }
    Eigen::Vector3d project_from_map(const Eigen::Vector3d& map_point) const { return map_point * metres_per(unit) - origin; }
};

}  // namespace selvage::base
