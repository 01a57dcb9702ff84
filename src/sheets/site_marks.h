#pragma once

#include "drawing/labels.h"
#include "sheets/marks.h"
#include "sheets/paper_frame.h"
#include "site/site.h"

#include <Eigen/Core>

#include <functional>
#include <vector>

// Property and old workings as marks on paper.
namespace selvage::sheets {

using Rings = std::vector<std::vector<Point>>;  // mm, even-odd

// A working's area: outline and strokes. workings_shadow: what lies beside the drawn plane, its outline alone.
Marks workings_area(const Rings& rings, const Tools& tools);
Marks workings_shadow(const Rings& rings, const Tools& tools);

// Where a point lies on a sheet's plane: on paper (mm), and off the plane (m).
struct OnSheet {
    Point at;
    double off = 0.0;
};
using SheetPlane = std::function<OnSheet(const Eigen::Vector3d&)>;

// Outline on paper of what of a solid lies within `reach` m of the sheet's plane, seen square to it, to a fifth of a mm.
// plane: the sheet's plane itself, of which the cuts at both ends and the middle of the reach are taken too.
Rings shadow_on_paper(const site::MinedSolid& solid, const base::Plane& plane, const SheetPlane& sheet, double reach,
                      const Box& window);

// Old workings so near to a long section's plane are drawn on it, m: a vein strays from its plane by about so much.
constexpr double near_vein = 25.0;

// Property and workings of a plan.
struct PlanSite {
    Marks property, workings;
    std::vector<drawing::Label> names;  // of the workings that have one
};
PlanSite plan_site(const site::Site& site, const PaperFrame& frame, const Tools& tools);

}  // namespace selvage::sheets
