#include "mesh/edges.h"

#include <algorithm>
#include <cstddef>
#include <numeric>
#include <tuple>

namespace selvage::mesh {

namespace {

// Sets that are joined, each named by its least member.
int root(std::vector<int>& parent, int i) {
    while (parent[static_cast<std::size_t>(i)] != i) {
        int& above = parent[static_cast<std::size_t>(i)];
        above = parent[static_cast<std::size_t>(above)];
        i = above;
    }
    return i;
}
void join(std::vector<int>& parent, int i, int j) {
    const int a = root(parent, i), b = root(parent, j);
    parent[static_cast<std::size_t>(std::max(a, b))] = std::min(a, b);
}

}  // namespace

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

std::vector<int> fans(const std::vector<std::array<int, 3>>& triangles) {
    std::vector<int> parent(3 * triangles.size());
    std::iota(parent.begin(), parent.end(), 0);
    const auto corner_of = [&](int triangle, int point) {
        const auto& corners = triangles[static_cast<std::size_t>(triangle)];
        return 3 * triangle + (corners[0] == point ? 0 : corners[1] == point ? 1 : 2);
    };
    const std::vector<TriangleSide> sides = sorted_sides(triangles);
    for_each_edge(sides, [&](auto first, auto last) {
        for (auto side = first + 1; side != last; ++side)
            for (const int point : {side->low, side->high})
                join(parent, corner_of(first->triangle, point), corner_of(side->triangle, point));
    });
    for (std::size_t i = 0; i < parent.size(); ++i) parent[i] = root(parent, static_cast<int>(i));
    return parent;
}

std::vector<int> pieces_of(const std::vector<std::array<int, 3>>& triangles) {
    std::vector<int> parent(triangles.size());
    std::iota(parent.begin(), parent.end(), 0);
    const std::vector<TriangleSide> sides = sorted_sides(triangles);
    for_each_edge(sides, [&](auto first, auto last) {
        for (auto side = first + 1; side != last; ++side) join(parent, first->triangle, side->triangle);
    });
    for (std::size_t t = 0; t < parent.size(); ++t) parent[t] = root(parent, static_cast<int>(t));
    return parent;
}

}  // namespace selvage::mesh
