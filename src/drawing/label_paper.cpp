#include "drawing/label_paper.h"

#include "drawing/clipping.h"

#include <algorithm>
#include <cmath>

namespace selvage::drawing {

namespace {

constexpr double cell_mm = 0.5;

std::size_t cells_across(double length) { return static_cast<std::size_t>(std::clamp(std::ceil(length / cell_mm), 1.0, 4000.0)); }

std::size_t cell_of(double offset, std::size_t count) {
    return static_cast<std::size_t>(std::clamp(offset / cell_mm, 0.0, static_cast<double>(count - 1)));
}

}  // namespace

FreePaper::FreePaper(const Box& window, const Obstacles& obstacles, double clearance_mm)
    : window_(window),
      columns_(cells_across(window.width())),
      rows_(cells_across(window.height())),
      sums_((columns_ + 1) * (rows_ + 1), 0) {
    for (const Box& box : obstacles.boxes) mark(grown(box, clearance_mm));
    for (const Segment& line : obstacles.lines) mark(line, clearance_mm);
    add_up();
}

std::size_t FreePaper::column_of(double x) const { return cell_of(x - window_.left, columns_); }
std::size_t FreePaper::row_of(double y) const { return cell_of(y - window_.bottom, rows_); }

void FreePaper::mark(const Box& box) {
    if (!overlap(box, window_)) return;
    const std::size_t first = column_of(box.left), last = column_of(box.right), top = row_of(box.top);
    for (std::size_t row = row_of(box.bottom); row <= top; ++row)
        for (std::size_t column = first; column <= last; ++column) sums_[(row + 1) * (columns_ + 1) + column + 1] = 1;
}

void FreePaper::mark(const Segment& line, double clearance_mm) {
    const auto near = clipped(line, grown(window_, clearance_mm));
    if (!near) return;
    const Segment upward = near->a.y <= near->b.y ? *near : Segment{near->b, near->a};
    const std::size_t top = row_of(upward.b.y + clearance_mm);
    for (std::size_t row = row_of(upward.a.y - clearance_mm); row <= top; ++row) {
        // The part of the line that comes near this row of cells.
        const double bottom = window_.bottom + cell_mm * static_cast<double>(row);
        const Box band{window_.left - 1.0, bottom - clearance_mm, window_.right + 1.0, bottom + cell_mm + clearance_mm};
        if (const auto part = clipped(upward, band)) {
            const double left = std::min(part->a.x, part->b.x) - clearance_mm,
                         right = std::max(part->a.x, part->b.x) + clearance_mm;
            if (right < window_.left || left > window_.right) continue;
            const std::size_t last = column_of(right);
            for (std::size_t column = column_of(left); column <= last; ++column)
                sums_[(row + 1) * (columns_ + 1) + column + 1] = 1;
        }
    }
}

void FreePaper::add_up() {
    const std::size_t stride = columns_ + 1;
    for (std::size_t row = 1; row <= rows_; ++row) {
        std::uint32_t in_row = 0;
        for (std::size_t column = 1; column <= columns_; ++column) {
            in_row += sums_[row * stride + column];
            sums_[row * stride + column] = in_row + sums_[(row - 1) * stride + column];
        }
    }
}

bool FreePaper::is_free(const Box& box) const {
    const std::size_t left = column_of(box.left), right = column_of(box.right) + 1;
    const std::size_t bottom = row_of(box.bottom), top = row_of(box.top) + 1, stride = columns_ + 1;
    return sums_[top * stride + right] + sums_[bottom * stride + left] ==
           sums_[bottom * stride + right] + sums_[top * stride + left];
}

}  // namespace selvage::drawing
