#include "mesh/edges.h"

#include <algorithm>
#include <cstddef>
#include <tuple>

namespace selvage::mesh {

// By counting: sides in the order of their lower point, then each point's few by hand.
std::vector<TriangleSide> sorted_sides(const std::vector<std::array<int, 3>>& triangles) {
    int points = 0;
    for (const auto& triangle : triangles)
        for (const int point : triangle) points = std::max(points, point + 1);
    std::vector<std::size_t> starts(static_cast<std::size_t>(points) + 1, 0);
    const auto low_of = [](const std::array<int, 3>& t, std::size_t k) {
        return static_cast<std::size_t>(std::min(t[k], t[(k + 1) % 3]));
    };
    for (const auto& triangle : triangles)
        for (std::size_t k = 0; k < 3; ++k) ++starts[low_of(triangle, k) + 1];
    for (std::size_t i = 1; i < starts.size(); ++i) starts[i] += starts[i - 1];
    std::vector<TriangleSide> sides(3 * triangles.size());
    std::vector<std::size_t> next = starts;
    for (std::size_t t = 0; t < triangles.size(); ++t) {
        for (std::size_t k = 0; k < 3; ++k) {
            const int from = triangles[t][k], to = triangles[t][(k + 1) % 3];
            sides[next[low_of(triangles[t], k)]++] = {std::min(from, to), std::max(from, to), static_cast<int>(t), from < to};
        }
    }
    for (std::size_t i = 0; i + 1 < starts.size(); ++i) {
        std::sort(sides.begin() + static_cast<std::ptrdiff_t>(starts[i]),
                  sides.begin() + static_cast<std::ptrdiff_t>(starts[i + 1]), [](const TriangleSide& a, const TriangleSide& b) {
                      return a.high != b.high ? a.high < b.high : a.triangle < b.triangle;
                  });
    }
    return sides;
}

std::vector<BorderEdge> border_edges(const std::vector<std::array<int, 3>>& triangles) {
    const std::vector<TriangleSide> sides = sorted_sides(triangles);
    std::vector<BorderEdge> open;
    for_each_edge(sides, [&](auto first, auto last) {
        const bool both = std::any_of(first, last, [&](const TriangleSide& side) { return side.forward != first->forward; });
        if (both) return;
        for (auto side = first; side != last; ++side)
            open.push_back({side->triangle, side->forward ? side->low : side->high, side->forward ? side->high : side->low});
    });
    std::sort(open.begin(), open.end(), [](const BorderEdge& a, const BorderEdge& b) {
        return std::tie(a.triangle, a.from, a.to) < std::tie(b.triangle, b.from, b.to);
    });
    return open;
}

}  // namespace selvage::mesh
