#pragma once

#include "sheets/compose.h"
#include "sheets/grade_classes.h"
#include "sheets/legend_signs.h"
#include "sheets/off_target.h"
#include "sheets/opening_signs.h"
#include "sheets/plane_layout.h"
#include "sheets/vein_extent.h"

#include <Eigen/Core>

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

// What stands on a vein's long section, and where on its mean plane.
namespace selvage::sheets {

// A fault block of the vein (the whole vein where nothing cuts it), laid on its own plane: parallel to the mean plane, moved
// level across the strike so that elevations are read from the same axis and distances stay true on the vein.
struct BlockOnPlane {
    std::string words;       // on which side of the faults; empty where the vein has one block
    PlaneLayout layout;      // its own
    double off_plane = 0.0;  // m, along the mean plane's normal
    std::vector<veins::EdgeLine> edges;
    VeinExtent extent;
};

struct HitOnPlane {
    const intercepts::Intercept* hit = nullptr;
    std::size_t block = 0;
    Eigen::Vector2d place = Eigen::Vector2d::Zero();  // m, layout
    HitSign sign = HitSign::pending;
    std::optional<double> accumulation;  // in the classes' unit
};

// A hole that passed where the vein should be and found none: a result like any other.
struct MissOnPlane {
    const veins::NoVein* none = nullptr;
    Eigen::Vector2d place = Eigen::Vector2d::Zero();
};

struct PierceOnPlane {
    const forecast::Pierce* pierce = nullptr;
    tables::HoleStatus status = tables::HoleStatus::planned;
    Eigen::Vector2d place = Eigen::Vector2d::Zero();
    std::vector<Eigen::Vector2d> ellipse;  // 8 holes of 10, as far as its block goes
    Sign sign = Sign::planned_pierce;
};

struct TargetOnPlane {
    OffTarget off;
    Eigen::Vector2d place = Eigen::Vector2d::Zero();
};

struct OutcropOnPlane {
    const tables::Outcrop* outcrop = nullptr;
    Eigen::Vector2d place = Eigen::Vector2d::Zero();
};

// A void that a hole ran into, on the vein or near its plane.
struct OpeningOnPlane {
    site::OpenedVoid opened;
    Eigen::Vector2d place = Eigen::Vector2d::Zero();
};

struct StepOutOnPlane {
    const planning::StepOut* step_out = nullptr;
    Eigen::Vector2d place = Eigen::Vector2d::Zero();
};

// Holes that say nothing of the vein, by the reason: the side list names them.
struct SilentHoles {
    std::string words;  // "stopped short of the vein"
    std::vector<std::string> holes;
};

struct LongSectionContent {
    std::size_t vein = 0;              // number in Results::veins
    PlaneLayout layout;                // of the mean plane: ground, property, axes
    std::vector<BlockOnPlane> blocks;  // numbered as the vein's
    std::vector<HitOnPlane> hits;      // in the intercepts' order
    std::vector<MissOnPlane> misses;
    std::vector<PierceOnPlane> pierces;      // drawn ones
    std::vector<PierceOnPlane> far_pierces;  // too far from the modelled ground to be drawn: side list
    std::vector<TargetOnPlane> targets;      // of holes drawn that may miss it
    std::vector<OutcropOnPlane> outcrops;
    std::vector<SilentHoles> silent;
    std::vector<StepOutOnPlane> step_outs;
    std::vector<OpeningOnPlane> openings;
    Eigen::Vector2d low = Eigen::Vector2d::Zero(), high = Eigen::Vector2d::Zero();  // what all drawn points and edges cover
    Eigen::Vector2d low_points = Eigen::Vector2d::Zero(), high_points = Eigen::Vector2d::Zero();  // the points alone
};

// Whether a fault's edges part this vein: then its places are read by block.
bool is_parted(const LongSectionContent& content);

LongSectionContent long_section_content(const Results& results, std::size_t vein, const GradeClasses& classes);

}  // namespace selvage::sheets
