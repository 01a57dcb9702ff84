#include "sheets/plan_frame.h"

#include "sheets/grid.h"

#include <string>

namespace selvage::sheets {

namespace {

constexpr double free_mm = 14.0;  // free paper round the data

}  // namespace

PlanFrame plan_frame(const std::vector<Eigen::Vector3d>& points, const Box& window, const Scales& scales) {
    Eigen::Vector2d low = points.front().head<2>(), high = low;
    for (const Eigen::Vector3d& point : points) {
        low = low.cwiseMin(point.head<2>());
        high = high.cwiseMax(point.head<2>());
    }
    PlanFrame frame;
    frame.denominator = fitting_scale(high.x() - low.x(), high.y() - low.y(), drawing::grown(window, -free_mm), scales);
    frame.paper = {window, (low + high) / 2.0, frame.denominator / 1000.0};
    return frame;
}

Marks plan_axes(const PaperFrame& frame, const base::MapFrame& map, const Tools& tools) {
    const Eigen::Vector2d corner = frame.drawn_from_paper({frame.window.left, frame.window.bottom});
    const Eigen::Vector3d at_corner = map.map_from_project({corner.x(), corner.y(), 0.0});
    const std::string unit = base::symbol_of(map.unit);
    GridAxis east, north;
    east.at_start = at_corner.x();
    north.at_start = at_corner.y();
    east.units_per_mm = north.units_per_mm = map.length(frame.metres_per_mm);
    east.title = "east, " + unit;
    north.title = "north, " + unit;
    east.spaced = north.spaced = north.upright = true;
    return grid_marks(frame.window, east, north, tools);
}

}  // namespace selvage::sheets
