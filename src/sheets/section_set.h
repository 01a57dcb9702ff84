#pragma once

#include "sheets/compose.h"
#include "sheets/section_frame.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

// Which cross sections there are: parallel, evenly spaced, each hit on exactly one.
namespace selvage::sheets {

struct Section {
    int number = 0;    // its place in the row; kept where sections between hold nothing and are skipped
    std::string name;  // "S7"
    SectionFrame frame;
    double half_width = 12.5;  // m; the slab is [-half_width, half_width) about the plane
};

struct SectionSet {
    std::vector<Section> sections;        // those that hold something, in the order of their numbers
    double spacing = 25.0;                // m
    SectionFrame base;                    // of section number 0
    int first_number = 1;                 // of the name "S1"
    const SectionSet* of_pack = nullptr;  // of the set of one hole's own plane: the pack's
};

// Across the strike of the first vein, the azimuth to whole degrees and the origin to round coordinates, or as [sections] says.
// Spacing: round figures near the hole spacing, closer where a section would be crowded, wider where there would be more than 40
// sheets. A section is kept where it holds
// an intercept, a miss or a forecast; a hole that has none of these is held by the section of its end.
SectionSet section_set(const Results& results);

// The set with those of its sections that these results have something on.
SectionSet holding_something(SectionSet set, const Results& results);
// The set with those of its sections that one of the points lies on.
SectionSet holding_any(SectionSet set, const std::vector<Eigen::Vector3d>& points);

// The number of the slab that a point lies in: every point lies in exactly one.
int slab_number(const SectionSet& set, const Eigen::Vector3d& point);
// Index of the kept section that holds a point.
std::optional<std::size_t> section_of(const SectionSet& set, const Eigen::Vector3d& point);
std::string section_name(const SectionSet& set, int number);
// The name of the pack's section that holds a point; of a hole's own plane it is that of the pack too.
std::string sheet_of(const SectionSet& set, const Eigen::Vector3d& point);
// Those that there are: "S1–S4, S6–S16"; "S3, S5"; empty where there is none.
std::string section_names(const SectionSet& set);

}  // namespace selvage::sheets
