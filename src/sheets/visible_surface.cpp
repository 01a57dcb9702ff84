#include "sheets/visible_surface.h"

#include "drawing/polyline.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double cell_mm = 0.35;
constexpr double least_margin_m = 1.0;
constexpr double margin_cells = 4.0;         // a surface at a slant is nearer by some cells' width from cell to cell
constexpr double least_part_mm = 0.8;        // of a line
constexpr double least_speck_mm2 = 0.6;      // of an area
constexpr double tolerance = 0.9 * cell_mm;  // of an outline

using Point = drawing::Point;

double twice_area(const Point& a, const Point& b, const Point& c) {
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

double area_of(const std::vector<Point>& ring) {
    double sum = 0.0;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Point &a = ring[i], &b = ring[(i + 1) % ring.size()];
        sum += a.x * b.y - a.y * b.x;
    }
    return std::abs(sum) / 2.0;
}

// A ring thinned in two halves, from its first point and the one farthest from it.
std::vector<Point> simplified_ring(const std::vector<Point>& ring) {
    std::size_t far = 0;
    double most = -1.0;
    for (std::size_t i = 0; i < ring.size(); ++i)
        if (const double off = drawing::length_of(ring[i].x - ring[0].x, ring[i].y - ring[0].y); off > most) {
            most = off;
            far = i;
        }
    const auto middle = ring.begin() + static_cast<std::ptrdiff_t>(far);
    std::vector<Point> first(ring.begin(), middle + 1), second(middle, ring.end());
    second.push_back(ring.front());
    std::vector<Point> thin = drawing::simplified(first, tolerance);
    const std::vector<Point> rest = drawing::simplified(second, tolerance);
    thin.insert(thin.end(), rest.begin() + 1, rest.end() - 1);
    return thin;
}

// Borders of cells as steps from corner to corner, the inside on the left: 0 east, 1 north, 2 west, 3 south.
class Borders {
public:
    Borders(std::size_t columns, std::size_t rows) : across_(columns + 1), steps_((columns + 1) * (rows + 1), 0) {}

    void add(std::size_t column, std::size_t row, int direction) {
        steps_[row * across_ + column] |= static_cast<unsigned char>(1U << static_cast<unsigned>(direction));
    }
    // The rings, each as the middles of its steps, in cells. Where two cells touch at a corner alone each keeps to its own side.
    std::vector<std::vector<Point>> rings() {
        std::vector<std::vector<Point>> all;
        for (std::size_t start = 0; start < steps_.size(); ++start)
            while (steps_[start] != 0) all.push_back(ring_from(start));
        return all;
    }

private:
    std::vector<Point> ring_from(std::size_t start) {
        std::vector<Point> ring;
        std::size_t at = start;
        int direction = 0;
        while ((steps_[at] >> static_cast<unsigned>(direction) & 1U) == 0) ++direction;
        const int first = direction;
        do {
            steps_[at] &= static_cast<unsigned char>(~(1U << static_cast<unsigned>(direction)));
            const double x = static_cast<double>(at % across_), y = static_cast<double>(at / across_);
            constexpr std::array<double, 4> dx{1, 0, -1, 0}, dy{0, 1, 0, -1};
            const auto d = static_cast<std::size_t>(direction);
            ring.push_back({x + dx[d] / 2.0, y + dy[d] / 2.0});
            at = static_cast<std::size_t>(static_cast<std::ptrdiff_t>(at) + static_cast<std::ptrdiff_t>(dx[d]) +
                                          static_cast<std::ptrdiff_t>(dy[d]) * static_cast<std::ptrdiff_t>(across_));
            for (const int turn : {1, 0, 3})
                if (const int next = (direction + turn) % 4; (steps_[at] >> static_cast<unsigned>(next) & 1U) != 0) {
                    direction = next;
                    break;
                }
        } while ((steps_[at] >> static_cast<unsigned>(direction) & 1U) != 0 && !(at == start && direction == first));
        return ring;
    }

    std::size_t across_;
    std::vector<unsigned char> steps_;
};

}  // namespace

VisibleSurface::VisibleSurface(const drawing::Box& window, double metres_per_mm)
    : window_(window),
      columns_(static_cast<std::size_t>(std::ceil(window.width() / cell_mm))),
      rows_(static_cast<std::size_t>(std::ceil(window.height() / cell_mm))),
      margin_(std::max(least_margin_m, margin_cells * cell_mm * metres_per_mm)),
      cells_(columns_ * rows_) {}

void VisibleSurface::add(const std::array<SeenPoint, 3>& triangle, const std::function<int(double)>& item_of) {
    const auto& [a, b, c] = triangle;
    const double area = twice_area(a.at, b.at, c.at);
    if (std::abs(area) < 1e-12) return;
    const auto range = [](double low, double high, double start, std::size_t count) {
        const double first = std::max(0.0, std::ceil((low - start) / cell_mm - 0.5)),
                     last = std::min(static_cast<double>(count) - 1.0, std::floor((high - start) / cell_mm - 0.5));
        return std::pair<double, double>(first, last);
    };
    const auto [left, right] =
        range(std::min({a.at.x, b.at.x, c.at.x}), std::max({a.at.x, b.at.x, c.at.x}), window_.left, columns_);
    const auto [bottom, top] =
        range(std::min({a.at.y, b.at.y, c.at.y}), std::max({a.at.y, b.at.y, c.at.y}), window_.bottom, rows_);
    for (double row = bottom; row <= top; ++row)
        for (double column = left; column <= right; ++column) {
            const Point at{window_.left + (column + 0.5) * cell_mm, window_.bottom + (row + 0.5) * cell_mm};
            const double of_a = twice_area(at, b.at, c.at) / area, of_b = twice_area(a.at, at, c.at) / area,
                         of_c = 1.0 - of_a - of_b;
            if (of_a < 0.0 || of_b < 0.0 || of_c < 0.0) continue;
            const auto nearness = static_cast<float>(of_a * a.nearness + of_b * b.nearness + of_c * c.nearness);
            Cell& cell = cells_[static_cast<std::size_t>(row) * columns_ + static_cast<std::size_t>(column)];
            if (cell.item == nothing || nearness > cell.nearness)
                cell = {nearness, item_of(of_a * a.value + of_b * b.value + of_c * c.value)};
        }
}

const VisibleSurface::Cell* VisibleSurface::cell(const Point& at) const {
    const double column = std::floor((at.x - window_.left) / cell_mm), row = std::floor((at.y - window_.bottom) / cell_mm);
    if (column < 0.0 || row < 0.0 || column >= static_cast<double>(columns_) || row >= static_cast<double>(rows_)) return nullptr;
    return &cells_[static_cast<std::size_t>(row) * columns_ + static_cast<std::size_t>(column)];
}

int VisibleSurface::item_at(const Point& at) const {
    const Cell* found = cell(at);
    return found == nullptr ? nothing : found->item;
}

bool VisibleSurface::hides(const SeenPoint& point) const {
    const Cell* found = cell(point.at);
    return found != nullptr && found->item != nothing && found->nearness > point.nearness + margin_;
}

std::vector<SeenPart> VisibleSurface::parts_of(const std::vector<SeenPoint>& line) const {
    std::vector<SeenPoint> fine;  // a point in every cell that the line passes
    for (std::size_t i = 0; i < line.size(); ++i) {
        if (i > 0) {
            const SeenPoint &a = line[i - 1], &b = line[i];
            const double length = drawing::length_of(b.at.x - a.at.x, b.at.y - a.at.y);
            const int steps = std::max(1, static_cast<int>(std::ceil(length / cell_mm)));
            for (int k = 1; k < steps; ++k) {
                const double share = static_cast<double>(k) / steps;
                fine.push_back({{a.at.x + share * (b.at.x - a.at.x), a.at.y + share * (b.at.y - a.at.y)},
                                a.nearness + share * (b.nearness - a.nearness)});
            }
        }
        fine.push_back(line[i]);
    }
    std::vector<SeenPart> parts;
    for (const SeenPoint& point : fine) {
        const bool hidden = hides(point);
        if (parts.empty() || parts.back().hidden != hidden) {
            const std::vector<Point> joint =
                parts.empty() ? std::vector<Point>{} : std::vector<Point>{parts.back().points.back()};
            parts.push_back({joint, hidden});
        }
        parts.back().points.push_back(point.at);
    }
    std::vector<SeenPart> told;
    for (SeenPart& part : parts) {
        if (!told.empty() && (part.hidden == told.back().hidden || drawing::length_of(part.points) < least_part_mm))
            told.back().points.insert(told.back().points.end(), part.points.begin(), part.points.end());
        else
            told.push_back(std::move(part));
    }
    for (SeenPart& part : told) part.points = drawing::simplified(part.points, 0.05);
    return told;
}

std::vector<std::vector<Point>> VisibleSurface::outlines(const std::function<bool(int)>& is_asked) const {
    Borders borders(columns_, rows_);
    const auto inside = [&](std::size_t column, std::size_t row) {  // cells left of the first wrap to beyond the last
        if (column >= columns_ || row >= rows_) return false;
        const int item = cells_[row * columns_ + column].item;
        return item != nothing && is_asked(item);
    };
    for (std::size_t row = 0; row < rows_; ++row)
        for (std::size_t column = 0; column < columns_; ++column) {
            if (!inside(column, row)) continue;
            if (!inside(column, row - 1)) borders.add(column, row, 0);
            if (!inside(column + 1, row)) borders.add(column + 1, row, 1);
            if (!inside(column, row + 1)) borders.add(column + 1, row + 1, 2);
            if (!inside(column - 1, row)) borders.add(column, row + 1, 3);
        }
    std::vector<std::vector<Point>> all;
    for (std::vector<Point>& ring : borders.rings()) {
        for (Point& point : ring) point = {window_.left + point.x * cell_mm, window_.bottom + point.y * cell_mm};
        if (area_of(ring) < least_speck_mm2) continue;
        if (std::vector<Point> thin = simplified_ring(ring); thin.size() > 2) all.push_back(std::move(thin));
    }
    return all;
}

std::vector<drawing::Box> VisibleSurface::covered(const std::function<bool(int)>& is_asked, double row_mm) const {
    const auto step = static_cast<std::size_t>(std::max(1.0, std::round(row_mm / cell_mm)));
    std::vector<drawing::Box> boxes;
    for (std::size_t row = 0; row < rows_; row += step) {
        const std::size_t last_row = std::min(row + step, rows_);
        std::size_t first = columns_;  // of the run that goes on
        for (std::size_t column = 0; column <= columns_; ++column) {
            bool any = false;
            for (std::size_t k = row; k < last_row && column < columns_ && !any; ++k) {
                const int item = cells_[k * columns_ + column].item;
                any = item != nothing && is_asked(item);
            }
            if (any && first == columns_) first = column;
            if (any || first == columns_) continue;
            boxes.push_back(
                {window_.left + static_cast<double>(first) * cell_mm, window_.bottom + static_cast<double>(row) * cell_mm,
                 window_.left + static_cast<double>(column) * cell_mm, window_.bottom + static_cast<double>(last_row) * cell_mm});
            first = columns_;
        }
    }
    return boxes;
}

}  // namespace selvage::sheets
