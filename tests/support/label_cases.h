#pragma once

#include "drawing/labels.h"

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

// Invented points to be labelled.
namespace selvage::made_up {

struct LabelCase {
    std::vector<drawing::Label> labels;
    drawing::Obstacles obstacles;
};

// Every character half as wide as its size.
drawing::FontMetrics plain_metrics();

// A window as on A3.
const drawing::LabelRules& label_rules();

// A name in bold over a second line.
drawing::Label label_at(drawing::Point at, int priority, const std::string& second_line = "1.5 m TW @ 885 g/t Ag");

// Points in a few clusters, traces through them.
LabelCase random_labels(std::uint64_t number, std::size_t count);

// Points along a few holes that fan out, as on a section: there is room, if it is used.
LabelCase fan_case(std::uint64_t number);

// Up to 45 points anywhere, in clusters, on a line, on a lattice or several at one place; names short and long, of every
// priority; traces, symbols and a grid among them.
LabelCase any_labels(std::uint64_t number);

}  // namespace selvage::made_up
