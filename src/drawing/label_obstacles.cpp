#include "drawing/label_obstacles.h"

#include "drawing/clipping.h"

#include <algorithm>
#include <cmath>

namespace selvage::drawing {

namespace {

// A label is some 30 x 6 mm, a symbol 3: in cells of this side few obstacles share one.
constexpr double cell_mm = 6.0;
constexpr double clearance_mm = words_clearance_mm;

Box box_of(const Segment& line) {
    return {std::min(line.a.x, line.b.x), std::min(line.a.y, line.b.y), std::max(line.a.x, line.b.x),
            std::max(line.a.y, line.b.y)};
}

bool contains(const Box& box, const Point& p) {
    return p.x >= box.left && p.x <= box.right && p.y >= box.bottom && p.y <= box.top;
}

bool share_a_point(const Box& a, const Box& b) {
    return a.left <= b.right && b.left <= a.right && a.bottom <= b.top && b.bottom <= a.top;
}

double apart(const Point& a, const Point& b) { return length_of(b.x - a.x, b.y - a.y); }

std::size_t cells_across(double length) { return static_cast<std::size_t>(std::clamp(std::ceil(length / cell_mm), 1.0, 400.0)); }

void make_unique(std::vector<std::size_t>& numbers) {
    std::sort(numbers.begin(), numbers.end());
    numbers.erase(std::unique(numbers.begin(), numbers.end()), numbers.end());
}

}  // namespace

ObstacleMap::ObstacleMap(const Box& window, const Obstacles& obstacles)
    : obstacles_(obstacles), window_(window), columns_(cells_across(window.width())), rows_(cells_across(window.height())) {
    boxes_.resize(columns_ * rows_);
    lines_.resize(columns_ * rows_);
    soft_lines_.resize(columns_ * rows_);
    for (std::size_t i = 0; i < obstacles.boxes.size(); ++i) {
        if (!overlap(grown(obstacles.boxes[i], clearance_mm), window_)) continue;
        const CellRange range = cells_of(grown(obstacles.boxes[i], clearance_mm));
        for (std::size_t row = range.first_row; row <= range.last_row; ++row)
            for (std::size_t column = range.first_column; column <= range.last_column; ++column)
                boxes_[row * columns_ + column].push_back(i);
    }
    for (std::size_t i = 0; i < obstacles.lines.size(); ++i) sort_in(obstacles.lines[i], i, lines_);
    for (std::size_t i = 0; i < obstacles.soft_lines.size(); ++i) sort_in(obstacles.soft_lines[i], i, soft_lines_);
}

ObstacleMap::CellRange ObstacleMap::cells_of(const Box& box) const {
    const auto cell = [](double offset, double length, std::size_t count) {
        const double share = length > 0.0 ? offset / length : 0.0;
        return static_cast<std::size_t>(std::clamp(share * static_cast<double>(count), 0.0, static_cast<double>(count - 1)));
    };
    return {cell(box.left - window_.left, window_.width(), columns_), cell(box.right - window_.left, window_.width(), columns_),
            cell(box.bottom - window_.bottom, window_.height(), rows_), cell(box.top - window_.bottom, window_.height(), rows_)};
}

template <typename Visit>
void ObstacleMap::each_cell_along(const Segment& line, double reach, Visit visit) const {
    const Box around = grown(box_of(line), reach);
    const CellRange range = cells_of(around);
    const double width = window_.width() / static_cast<double>(columns_);
    const double rise = line.b.x == line.a.x ? 0.0 : (line.b.y - line.a.y) / (line.b.x - line.a.x);
    for (std::size_t column = range.first_column; column <= range.last_column; ++column) {
        // The part of the line over this column of cells, and what lies within reach of it.
        const double left = window_.left + width * static_cast<double>(column) - reach, right = left + width + 2.0 * reach;
        double low = around.bottom, high = around.top;
        if (line.b.x != line.a.x) {
            const double at_left = line.a.y + rise * (left - line.a.x), at_right = line.a.y + rise * (right - line.a.x);
            low = std::max(low, std::min(at_left, at_right) - reach);
            high = std::min(high, std::max(at_left, at_right) + reach);
        }
        const CellRange rows = cells_of({left, low, right, high});
        for (std::size_t row = rows.first_row; row <= rows.last_row; ++row) visit(row * columns_ + column);
    }
}

void ObstacleMap::sort_in(const Segment& line, std::size_t number, Cells& cells) const {
    const auto in_window = clipped(line, grown(window_, clearance_mm));
    if (in_window) each_cell_along(*in_window, clearance_mm, [&](std::size_t cell) { cells[cell].push_back(number); });
}

std::vector<std::size_t> ObstacleMap::numbers_in(const Cells& cells, const Box& box) const {
    std::vector<std::size_t> numbers;
    const CellRange range = cells_of(box);
    for (std::size_t row = range.first_row; row <= range.last_row; ++row)
        for (std::size_t column = range.first_column; column <= range.last_column; ++column) {
            const auto& cell = cells[row * columns_ + column];
            numbers.insert(numbers.end(), cell.begin(), cell.end());
        }
    make_unique(numbers);
    return numbers;
}

std::vector<std::size_t> ObstacleMap::numbers_along(const Cells& cells, const Segment& line) const {
    std::vector<std::size_t> numbers;
    each_cell_along(line, 0.0, [&](std::size_t cell) { numbers.insert(numbers.end(), cells[cell].begin(), cells[cell].end()); });
    make_unique(numbers);
    return numbers;
}

bool ObstacleMap::covers(const Box& words) const {
    const Box kept_clear = grown(words, clearance_mm);
    const CellRange range = cells_of(kept_clear);
    for (std::size_t row = range.first_row; row <= range.last_row; ++row)
        for (std::size_t column = range.first_column; column <= range.last_column; ++column) {
            const std::size_t cell = row * columns_ + column;
            for (const std::size_t i : boxes_[cell])
                if (overlap(kept_clear, obstacles_.boxes[i])) return true;
            for (const std::size_t i : lines_[cell])
                if (touches(obstacles_.lines[i], kept_clear)) return true;
        }
    return false;
}

double ObstacleMap::soft_length(const Box& words) const {
    double length = 0.0;
    for (const std::size_t i : numbers_in(soft_lines_, words))
        if (const auto part = clipped(obstacles_.soft_lines[i], words)) length += apart(part->a, part->b);
    return length;
}

double ObstacleMap::free_length(const Segment& ray) const {
    double length = apart(ray.a, ray.b);
    for (const std::size_t i : numbers_along(boxes_, ray)) {
        const Box box = grown(obstacles_.boxes[i], clearance_mm);
        if (contains(box, ray.a)) continue;
        if (const auto part = clipped(ray, box)) length = std::min(length, apart(ray.a, part->a));
    }
    return length;
}

std::vector<double> ObstacleMap::crossings(const Segment& ray) const {
    std::vector<double> lengths;
    const Box around = box_of(ray);
    for (const std::size_t i : numbers_along(lines_, ray)) {
        if (!share_a_point(around, box_of(obstacles_.lines[i]))) continue;
        if (const auto at = crossing(ray, obstacles_.lines[i])) lengths.push_back(apart(ray.a, *at));
    }
    return lengths;
}

std::vector<Segment> ObstacleMap::lines_near(const Point& at, double reach) const {
    std::vector<Segment> near;
    for (const std::size_t i : numbers_in(lines_, grown({at.x, at.y, at.x, at.y}, reach)))
        if (distance(at, obstacles_.lines[i]) <= reach) near.push_back(obstacles_.lines[i]);
    return near;
}

}  // namespace selvage::drawing
