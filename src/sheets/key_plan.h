#pragma once

#include "sheets/compose.h"
#include "sheets/marks.h"

#include <Eigen/Core>

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <vector>

// The small plan in the column: collars, traces, veins and faults at the veins' middle elevation, and what this sheet looks at.
namespace selvage::sheets {

// What every key plan of a pack shows, worked out once. Plan places (east, north), m.
struct KeyMap {
    struct Hole {
        std::vector<Eigen::Vector2d> trace;
        tables::HoleStatus status = tables::HoleStatus::done;
    };
    struct VeinLine {
        std::size_t vein = 0;
        std::string name;
        std::vector<std::vector<Eigen::Vector2d>> parts;
    };
    struct FaultLine {
        std::string name;
        Eigen::Vector2d a, b;  // far outside the holes
    };
    std::vector<Hole> holes;
    std::vector<FaultLine> faults;
    std::vector<VeinLine> veins;
    double elevation = 0.0;  // relative, m: the level at which veins and faults are drawn
};
KeyMap key_map(const Results& results);

// The line on the ground that this sheet stands on, and the way one looks at it.
struct KeyLine {
    Eigen::Vector3d left = Eigen::Vector3d::Zero(), right = Eigen::Vector3d::Zero();
    Eigen::Vector3d looking = Eigen::Vector3d::UnitY();  // horizontal unit vector
    std::string left_letters, right_letters;
};

struct KeyPlan {
    std::function<Marks(const Box&)> draw;
    std::string scale_words;  // "veins at 770 m  ·  1:10 000"
    double metres_per_mm = 1.0;
};

// Shows every hole whole and the sheet's line from end to end, at the largest scale of the ladder at which they fit, with a north
// arrow, a bar scale and what its signs mean. line: nothing where the sheet is a plan itself. width_mm, height_mm: the room it
// will get (key_plan_width, key_plan_height).
KeyPlan key_plan(const KeyMap& map, const base::MapFrame& frame, const std::optional<KeyLine>& line, double width_mm,
                 double height_mm, const Tools& tools);

}  // namespace selvage::sheets
