#include "drawing/contour_edges.h"

#include <algorithm>
#include <cstddef>
#include <cstdlib>
#include <utility>

namespace selvage::drawing {

namespace {

bool before(const Point& a, const Point& b) { return a.y != b.y ? a.y < b.y : a.x < b.x; }
bool equal(const Point& a, const Point& b) { return a.x == b.x && a.y == b.y; }

bool segment_before(const Segment& a, const Segment& b) { return equal(a.a, b.a) ? before(a.b, b.b) : before(a.a, b.a); }

// Pieces sorted by where they start, and which of them are not yet taken.
class Pieces {
public:
    explicit Pieces(const std::vector<Segment>& all) : sorted_(all), taken_(0) {
        sorted_.erase(std::remove_if(sorted_.begin(), sorted_.end(), [](const Segment& s) { return equal(s.a, s.b); }),
                      sorted_.end());
        std::sort(sorted_.begin(), sorted_.end(), segment_before);
        taken_.assign(sorted_.size(), false);
    }

    std::size_t size() const { return sorted_.size(); }
    bool is_taken(std::size_t i) const { return taken_[i]; }
    const Segment& take(std::size_t i) {
        taken_[i] = true;
        return sorted_[i];
    }

    // The first piece not yet taken that starts at a point; size() where there is none.
    std::size_t starting_at(const Point& point) const {
        auto at = std::lower_bound(sorted_.begin(), sorted_.end(), point,
                                   [](const Segment& s, const Point& p) { return before(s.a, p); });
        for (; at != sorted_.end() && equal(at->a, point); ++at) {
            const auto i = static_cast<std::size_t>(at - sorted_.begin());
            if (!taken_[i]) return i;
        }
        return size();
    }

    // For each piece whether another one ends where it starts.
    std::vector<bool> have_forerunners() const {
        std::vector<bool> have(size(), false);
        for (const Segment& piece : sorted_) {
            auto at = std::lower_bound(sorted_.begin(), sorted_.end(), piece.b,
                                       [](const Segment& s, const Point& p) { return before(s.a, p); });
            for (; at != sorted_.end() && equal(at->a, piece.b); ++at)
                have[static_cast<std::size_t>(at - sorted_.begin())] = true;
        }
        return have;
    }

private:
    std::vector<Segment> sorted_;
    std::vector<bool> taken_;
};

ContourLine line_from(Pieces& pieces, std::size_t first) {
    const Segment start = pieces.take(first);
    ContourLine line{{start.a, start.b}, false};
    for (;;) {
        if (equal(line.points.back(), start.a)) {
            line.points.pop_back();
            line.closed = true;
            return line;
        }
        const std::size_t next = pieces.starting_at(line.points.back());
        if (next == pieces.size()) return line;
        line.points.push_back(pieces.take(next).b);
    }
}

Point lowest_of(const ContourLine& line) { return *std::min_element(line.points.begin(), line.points.end(), before); }

}  // namespace

std::vector<ContourLine> joined(const std::vector<Segment>& all) {
    Pieces pieces(all);
    const std::vector<bool> has_forerunner = pieces.have_forerunners();
    std::vector<ContourLine> lines;
    for (const bool open_ones : {true, false})
        for (std::size_t i = 0; i < pieces.size(); ++i)
            if (!pieces.is_taken(i) && (!open_ones || !has_forerunner[i])) lines.push_back(line_from(pieces, i));
    for (ContourLine& line : lines)
        if (line.closed)
            std::rotate(line.points.begin(), std::min_element(line.points.begin(), line.points.end(), before), line.points.end());
    std::stable_sort(lines.begin(), lines.end(),
                     [](const ContourLine& a, const ContourLine& b) { return before(lowest_of(a), lowest_of(b)); });
    return lines;
}

std::vector<Segment> without_opposites(const std::vector<Segment>& edges) {
    // Each edge under its end that comes first, with the way it runs; pairs that run both ways cancel.
    struct Undirected {
        Segment edge;
        bool forward;
    };
    std::vector<Undirected> all;
    for (const Segment& edge : edges) {
        if (equal(edge.a, edge.b)) continue;
        const bool forward = before(edge.a, edge.b);
        all.push_back({forward ? edge : Segment{edge.b, edge.a}, forward});
    }
    std::sort(all.begin(), all.end(), [](const Undirected& x, const Undirected& y) { return segment_before(x.edge, y.edge); });
    std::vector<Segment> left;
    for (std::size_t i = 0; i < all.size();) {
        std::size_t end = i;
        long balance = 0;
        for (; end < all.size() && equal(all[end].edge.a, all[i].edge.a) && equal(all[end].edge.b, all[i].edge.b); ++end)
            balance += all[end].forward ? 1 : -1;
        for (long n = 0; n < std::labs(balance); ++n)
            left.push_back(balance > 0 ? all[i].edge : Segment{all[i].edge.b, all[i].edge.a});
        i = end;
    }
    return left;
}

}  // namespace selvage::drawing
