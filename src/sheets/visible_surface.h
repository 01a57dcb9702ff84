#pragma once

#include "drawing/sheet.h"

#include <array>
#include <cstddef>
#include <functional>
#include <vector>

// Which of several surfaces one sees: every cell of a fine grid over the paper keeps what lies nearest to the eye. Surfaces may
// run through one another.
namespace selvage::sheets {

// A place on paper and how near it is to the eye, m along the line of sight; of a surface also a value, even between its corners.
struct SeenPoint {
    drawing::Point at;
    double nearness = 0.0;
    double value = 0.0;
};

// Part of a line, seen or behind something.
struct SeenPart {
    std::vector<drawing::Point> points;
    bool hidden = false;
};

class VisibleSurface {
public:
    static constexpr int nothing = -1;

    // metres_per_mm: of the paper, for how exactly nearness can be known from cell to cell.
    VisibleSurface(const drawing::Box& window, double metres_per_mm);

    // item_of: from the value at a place to what the triangle belongs to there, 0 or more. What was added first stays where two
    // are equally near.
    void add(const std::array<SeenPoint, 3>& triangle, const std::function<int(double)>& item_of);

    int item_at(const drawing::Point& at) const;
    bool hides(const SeenPoint& point) const;  // whether something lies clearly nearer there
    // A line cut where it comes out from behind something; stretches too short to be told join what is before them.
    std::vector<SeenPart> parts_of(const std::vector<SeenPoint>& line) const;

    // Outlines of the cells whose item is asked for, simplified: closed rings without their first point again, the inside on
    // their left; specks are left out.
    std::vector<std::vector<drawing::Point>> outlines(const std::function<bool(int)>& is_asked) const;
    // Boxes that cover those cells, row by row.
    std::vector<drawing::Box> covered(const std::function<bool(int)>& is_asked, double row_mm) const;

private:
    struct Cell {
        float nearness = 0.0F;
        int item = nothing;
    };
    const Cell* cell(const drawing::Point& at) const;

    drawing::Box window_;
    std::size_t columns_, rows_;
    double margin_;  // m: what is nearer by less may be the same surface
    std::vector<Cell> cells_;
};

}  // namespace selvage::sheets
