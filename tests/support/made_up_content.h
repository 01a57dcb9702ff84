#pragma once

#include "support/made_up_vein.h"

#include <Eigen/Core>

#include <array>
#include <cstdint>
#include <vector>

// Made-up thickness, presence and grade of veins whose truth is known. Everything here is invented.
namespace selvage::made_up {

// Barren windows, an end along a line, pinching out, lenses.
enum class ContentKind { window, edge, pinch, lens };

// One place: the log of the true thickness in m, whether the vein is there (over 0.02 m), the log of its grade.
struct ContentAt {
    Eigen::Vector2d place = Eigen::Vector2d::Zero();
    double log_thickness = 0.0, log_grade = 0.0;
    bool there = true;
};

struct ContentWorld {
    std::vector<ContentAt> holes;
    std::array<std::vector<ContentAt>, 3> truth;  // inside the holes, about one spacing out, about two
    std::size_t hits() const;
};

// World `number` of a run: holes about 50 m apart, the four kinds take turns.
ContentWorld content_world(std::uint64_t seed, std::size_t holes, std::uint64_t number);
// World of thickness and grade alone, there everywhere: what a nugget and two correlated fields make.
ContentWorld grade_world(std::uint64_t seed, std::size_t holes, std::uint64_t number);

}  // namespace selvage::made_up
