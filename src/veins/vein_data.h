#pragma once

#include "base/plane.h"
#include "faults/blocks.h"
#include "intercepts/intercept.h"
#include "paths/path.h"
#include "settings/project.h"
#include "tables/records.h"
#include "veins/chart.h"
#include "veins/log_field.h"
#include "veins/surface.h"
#include "veins/walls.h"

#include <Eigen/Core>
#include <Eigen/Geometry>

#include <optional>
#include <string>
#include <vector>

// From intercepts, outcrops and a stated plane to the data of the models.
namespace selvage::veins {

constexpr double usual_attitude_sd = 0.11;  // radians: core angles and small waves together

// One thing that tells where a vein is, in the world. It points into the inputs, which outlive it.
struct Evidence {
    enum class Kind { intercept, outcrop, stated };
    Kind kind = Kind::intercept;
    std::string name;  // hole; "outcrop 3"; "stated plane"
    const intercepts::Intercept* intercept = nullptr;
    const paths::Path* path = nullptr;
    const tables::Outcrop* outcrop = nullptr;

    std::size_t block = 0;                            // of the faults that cut the vein
    Eigen::Vector3d shift = Eigen::Vector3d::Zero();  // by which they moved that
    std::vector<paths::SourceEffect> slips;           // what errors of their slips do to it

    std::optional<Eigen::Vector3d> point;                // of the mid-surface, today
    std::optional<Eigen::Vector3d> normal;               // unit, sign free
    double along_hole_sd = 0.0;                          // m, of the pick's middle
    Eigen::Vector3d point_sd = Eigen::Vector3d::Zero();  // m east, north, up, beside that and beside the path
    double normal_sd = 0.0;                              // radians, beside the noise of core angles

    bool present = false;     // the vein is there: a hit of the presence model
    bool drill_hole = false;  // core or percussion
    // Both contacts are known, and a wall is drawn through each.
    bool has_walls() const {
        return intercept != nullptr &&
               (intercept->state == tables::PickState::vein || intercept->state == tables::PickState::structure);
    }
};

// All evidence of one vein: intercepts of certainty 1 and 2 in their order (two at one place are one), outcrops, the stated
// plane.
std::vector<Evidence> evidence_of(const settings::VeinSetting& vein, const intercepts::Intercepts& intercepts,
                                  const std::vector<paths::Path>& paths, const tables::Records& records);

// The ground that a vein's faults may part: about its evidence, and about holes planned and under way.
Eigen::AlignedBox3d ground_of(const std::vector<Evidence>& evidence, const std::vector<paths::Path>& paths);
// Each piece of evidence gets its block, with that block's shift and slips.
void place_in_blocks(std::vector<Evidence>& evidence, const faults::Blocks& blocks);

// What errors of the slips do to points of a block: they are taken back by too much or too little.
std::vector<paths::SourceEffect> slip_effects(const faults::Blocks& blocks, std::size_t block);

// Base plane of all evidence as it lay before the faults; nothing where it cannot tell an attitude.
std::optional<base::Plane> plane_through(const std::vector<Evidence>& evidence);

// One row of the surface's data; `chart`: of the evidence's block. A normal more than 60 degrees off the base plane's is left
// out: a height over a plane cannot turn over. A stated plane without a point has its attitude at the chart's centre.
// `tool_tilt`: sd of the low side of one core reading.
//   alpha_as_data  an intercept without a normal contributes its contacts' alpha
SurfaceDatum surface_datum(const Evidence& evidence, const Chart& chart, base::Angle tool_tilt, bool alpha_as_data = false);
bool turns_over(const Evidence& evidence, const Chart& chart);

// Contacts on the chart, for the walls and the thickness.
WallContacts wall_contacts(const Evidence& evidence, const Chart& chart);

// Log of the thickness along w, given the slopes of the mid-surface there and their sds; nothing where it is not known.
std::optional<LogDatum> thickness_datum(const Evidence& evidence, const Chart& chart, const Eigen::Vector2d& gradient,
                                        const Eigen::Vector2d& gradient_sd);
// Log of an analyte's grade; nothing where it is not known. `least`: what stands for zero.
std::optional<LogDatum> grade_datum(const Evidence& evidence, const Chart& chart, std::size_t analyte, double least);
// The grade itself.
std::optional<double> grade_of(const Evidence& evidence, std::size_t analyte);

}  // namespace selvage::veins
