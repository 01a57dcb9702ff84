#pragma once

#include "mesh/slice.h"
#include "sheets/compose.h"

#include <cstddef>
#include <string>
#include <vector>

// The levels of a pack: round elevations at which the veins' bodies are cut, and what lies nearest to each.
namespace selvage::sheets {

// What a level cuts of the body of a vein in one block: closed rings, and the same border by what it belongs to. Points lie on
// the level.
struct BodyOnLevel {
    std::size_t vein = 0, block = 0;  // block: of the vein's
    std::vector<mesh::SliceLine> rings;
    std::vector<mesh::SliceLine> hanging, foot, rim;
};

struct MissOnLevel {
    std::size_t vein = 0;
    const veins::NoVein* none = nullptr;
};

struct Level {
    double elevation = 0.0;  // m, relative
    std::string name;        // in the project's unit: "400"
    std::vector<BodyOnLevel> bodies;
    std::vector<const intercepts::Intercept*> hits;  // of the slab, half a step up and down
    std::vector<MissOnLevel> misses;
    std::vector<const forecast::Pierce*> pierces;
    bool drawn = true;  // else nothing was met or missed here, nor is it foretold, or nothing new
};

struct LevelSet {
    double step = 0.0;          // m; 0: there is no level
    std::vector<Level> levels;  // rising; slabs meet, so that every hit lies on exactly one
    double half() const { return step / 2.0; }
};

// At the finest step of 20, 25, 50, 100, 200, 250, 500 ... (feet: from 50) at which no more than twelve levels lie within the
// height of the veins' bodies. A level that cuts no body and holds no hit is left out. None where no vein has a body.
LevelSet level_set(const Results& results);
// The set of which those levels are drawn that one of the points lies within half a step of.
LevelSet drawn_at(LevelSet set, const std::vector<Eigen::Vector3d>& points);

base::Plane plane_of(const Level& level);

}  // namespace selvage::sheets
