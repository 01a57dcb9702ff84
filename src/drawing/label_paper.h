#pragma once

#include "drawing/labels.h"

#include <cstddef>
#include <cstdint>
#include <vector>

namespace selvage::drawing {

// The free paper of a window as a fine raster with running sums, so that one box is tested in no time whatever its size. It errs
// on the safe side by up to half a millimetre.
class FreePaper {
public:
    FreePaper(const Box& window, const Obstacles& obstacles, double clearance_mm);

    // Whether nothing touches the box. The box lies in the window.
    bool is_free(const Box& box) const;

private:
    std::size_t column_of(double x) const;
    std::size_t row_of(double y) const;
    void mark(const Box& box);
    void mark(const Segment& line, double clearance_mm);
    void add_up();

    Box window_;
    std::size_t columns_, rows_;
    std::vector<std::uint32_t> sums_;  // of the marked cells below and left; one row and column more than there are cells
};

}  // namespace selvage::drawing
