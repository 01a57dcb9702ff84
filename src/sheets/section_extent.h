#pragma once

#include "sheets/page.h"
#include "sheets/section_content.h"
#include "sheets/section_frame.h"

#include <vector>

// Which part of the section's plane the window shows, and at which scale.
namespace selvage::sheets {

// The scale at which a section's hits, forecasts and the collars of its holes fit the window with free paper round them: its
// denominator.
double needed_scale(const SectionContent& content, const Results& results, const Section& section, const drawing::Box& window,
                    const Scales& scales);

// What a section must show and what it should: points of its plane, m along and up.
std::vector<Eigen::Vector2d> shown_points(const SectionContent& content, const Results& results, const Section& section);

// The window laid so that all that must be seen is in it, and as much of the holes' ends as has room.
SectionView view_of(const SectionContent& content, const Results& results, const Section& section, const drawing::Box& window,
                    double denominator);

}  // namespace selvage::sheets
