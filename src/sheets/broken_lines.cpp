#include "sheets/broken_lines.h"

#include "drawing/clipping.h"

#include <algorithm>
#include <utility>

namespace selvage::sheets {

namespace {

bool meets_any(const std::vector<Point>& ring, const std::vector<Box>& boxes) {
    for (std::size_t i = 1; i < ring.size(); ++i)
        for (const Box& box : boxes)
            if (drawing::touches({ring[i - 1], ring[i]}, box)) return true;
    return false;
}

}  // namespace

Marks broken_round(Marks marks, const std::vector<Box>& boxes) {
    for (Mark& mark : marks) {
        auto* shape = std::get_if<drawing::Shape>(&mark);
        if (shape == nullptr || shape->fill || !shape->line) continue;
        std::vector<std::vector<Point>> lines = shape->rings;
        if (shape->closed)
            for (std::vector<Point>& ring : lines)
                if (!ring.empty()) ring.push_back(ring.front());
        if (std::none_of(lines.begin(), lines.end(), [&](const auto& line) { return meets_any(line, boxes); })) continue;
        std::vector<std::vector<Point>> pieces;
        for (const std::vector<Point>& line : lines)
            for (std::vector<Point>& piece : drawing::line_outside(line, boxes)) pieces.push_back(std::move(piece));
        shape->rings = std::move(pieces);
        shape->closed = false;
    }
    return marks;
}

void add_segments(std::vector<drawing::Segment>& segments, const Marks& marks) {
    for (const Mark& mark : marks) {
        const auto* shape = std::get_if<drawing::Shape>(&mark);
        if (shape == nullptr || !shape->line) continue;
        for (const std::vector<Point>& ring : shape->rings) {
            for (std::size_t i = 1; i < ring.size(); ++i) segments.push_back({ring[i - 1], ring[i]});
            if (shape->closed && ring.size() > 2) segments.push_back({ring.back(), ring.front()});
        }
    }
}

}  // namespace selvage::sheets
