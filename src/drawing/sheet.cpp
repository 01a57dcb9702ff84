#include "drawing/sheet.h"

#include <algorithm>

namespace selvage::drawing {

bool overlap(const Box& a, const Box& b) { return a.left < b.right && b.left < a.right && a.bottom < b.top && b.bottom < a.top; }

Box grown(const Box& box, double by_mm) { return {box.left - by_mm, box.bottom - by_mm, box.right + by_mm, box.top + by_mm}; }

Box united(const Box& a, const Box& b) {
    return {std::min(a.left, b.left), std::min(a.bottom, b.bottom), std::max(a.right, b.right), std::max(a.top, b.top)};
}

}  // namespace selvage::drawing
