#pragma once

#include "drawing/labels.h"
#include "sheets/legend_signs.h"
#include "sheets/marks.h"
#include "site/openings.h"

#include <Eigen/Core>

#include <vector>

// Voids that holes ran into: on every drawing that holds one a danger sign at its place, and its depth in strong type.
namespace selvage::sheets {

// The openings that the tables tell of; from Results::ahead where they were worked out beforehand.
site::Openings openings_of(const Results& results);

// A void in the middle of its depths on its hole's path.
struct OpeningInSpace {
    site::OpenedVoid opened;
    Eigen::Vector3d point = Eigen::Vector3d::Zero();  // m, relative
};
std::vector<OpeningInSpace> openings_in_space(const Results& results);

// Thick octagon, open: a hit's sign at the same place is seen within it.
constexpr double opening_width_mm = 5.4;
Marks opening_symbol(const Point& at, const Tools& tools, double width_mm = opening_width_mm);
constexpr double opening_in_legend_mm = 3.0;
// "VOID 39.1 to 42.0 m, A-2" beside it.
drawing::Label opening_label(const site::OpenedVoid& opened, const Point& at, const base::MapFrame& map, const Tools& tools);

struct OpeningOnSheet {
    site::OpenedVoid opened;
    Point at;
};
struct OpeningSigns {
    Marks marks;
    std::vector<drawing::Label> names;
    std::vector<Box> boxes;
    std::vector<site::OpenedVoid> voids;
};
OpeningSigns opening_signs(const std::vector<OpeningOnSheet>& openings, const base::MapFrame& map, DrawnSigns& drawn,
                           const Tools& tools);

}  // namespace selvage::sheets
