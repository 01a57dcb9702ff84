#pragma once

#include "drawing/labels.h"

#include <cstddef>
#include <vector>

namespace selvage::drawing {

// Words keep this far from symbols and traces, mm.
constexpr double words_clearance_mm = 0.3;

// The obstacles of a drawing sorted into the cells of a grid, so that a question looks only at those nearby.
class ObstacleMap {
public:
    ObstacleMap(const Box& window, const Obstacles& obstacles);

    // Whether words in a box would touch a symbol, a trace or other words.
    bool covers(const Box& words) const;
    // Length of the soft lines under a box, mm.
    double soft_length(const Box& words) const;
    // How far a leader along a ray comes before it runs into a symbol or words, mm; those that its start lies in do not count.
    double free_length(const Segment& ray) const;
    // How far along a ray it crosses traces, mm, in no order.
    std::vector<double> crossings(const Segment& ray) const;
    // The traces that pass within `reach` of a point.
    std::vector<Segment> lines_near(const Point& at, double reach) const;

private:
    using Cells = std::vector<std::vector<std::size_t>>;

    struct CellRange {
        std::size_t first_column, last_column, first_row, last_row;
    };
    CellRange cells_of(const Box& box) const;
    // Calls visit(cell) for every cell that comes within `reach` of a segment.
    template <typename Visit>
    void each_cell_along(const Segment& line, double reach, Visit visit) const;
    void sort_in(const Segment& line, std::size_t number, Cells& cells) const;
    // The numbers in the cells under a box, each once, in order.
    std::vector<std::size_t> numbers_in(const Cells& cells, const Box& box) const;
    std::vector<std::size_t> numbers_along(const Cells& cells, const Segment& line) const;

    const Obstacles& obstacles_;
    Box window_;
    std::size_t columns_ = 1, rows_ = 1;
    Cells boxes_, lines_, soft_lines_;
};

}  // namespace selvage::drawing
