#pragma once

#include "sheets/marks.h"

#include <cstddef>
#include <string>
#include <vector>

// Text that is read as a page: paragraphs in columns.
namespace selvage::sheets {

// A paragraph: what it is about in bold at its left (may be empty), and its words.
struct Paragraph {
    std::string strong, text;
    std::string link{};  // destination that a click on its first words leads to
    bool tick = false;   // a box to tick before it
};

constexpr double reading_step = 4.1;   // mm, line to line
constexpr double paragraph_gap = 1.1;  // mm

struct SetText {
    Marks marks;
    double bottom = 0.0;    // where what follows may start, mm
    std::size_t count = 0;  // of the paragraphs that were set
};
// One under another from the box's top, as many whole paragraphs as it holds.
SetText set_paragraphs(const std::vector<Paragraph>& paragraphs, const Box& box, const Tools& tools);
double paragraphs_height(const std::vector<Paragraph>& paragraphs, double width_mm, const Tools& tools);

// A heading and the paragraphs under it.
struct TextSection {
    std::string heading;
    std::vector<std::string> paragraphs;
};
// The sections through columns of one width side by side, over as few pages as they take, the columns about equally full; marks a
// page. No heading stands at the foot of a column.
std::vector<Marks> set_in_columns(const std::vector<TextSection>& sections, const Box& box, std::size_t columns,
                                  const Tools& tools);

}  // namespace selvage::sheets
