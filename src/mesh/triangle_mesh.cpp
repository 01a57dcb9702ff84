#include "mesh/triangle_mesh.h"

#include "mesh/edges.h"

#include <Eigen/Geometry>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <utility>

namespace selvage::mesh {

namespace {

const Eigen::Vector3d& at(const TriangleMesh& mesh, int point) { return mesh.points[static_cast<std::size_t>(point)]; }

}  // namespace

TriangleMesh selected(const TriangleMesh& mesh, const std::vector<bool>& keep) {
    TriangleMesh out;
    std::vector<bool> used(mesh.points.size(), false);
    for (std::size_t t = 0; t < mesh.triangles.size(); ++t)
        for (const int point : mesh.triangles[t])
            if (keep[t]) used[static_cast<std::size_t>(point)] = true;
    std::vector<int> place(mesh.points.size(), -1);
    for (std::size_t i = 0; i < used.size(); ++i) {
        if (!used[i]) continue;
        place[i] = static_cast<int>(out.points.size());
        out.points.push_back(mesh.points[i]);
    }
    const auto now = [&](int point) { return place[static_cast<std::size_t>(point)]; };
    for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
        if (!keep[t]) continue;
        const auto& [a, b, c] = mesh.triangles[t];
        out.triangles.push_back({now(a), now(b), now(c)});
        if (!mesh.labels.empty()) out.labels.push_back(mesh.labels[t]);
    }
    return out;
}

TriangleMesh joined(const TriangleMesh& first, const TriangleMesh& second) {
    if (first.triangles.empty()) return second;
    if (second.triangles.empty()) return first;
    TriangleMesh out = first;
    const int shift = static_cast<int>(first.points.size());
    out.points.insert(out.points.end(), second.points.begin(), second.points.end());
    for (const auto& [a, b, c] : second.triangles) out.triangles.push_back({a + shift, b + shift, c + shift});
    if (first.labels.empty() || second.labels.empty())
        out.labels.clear();
    else
        out.labels.insert(out.labels.end(), second.labels.begin(), second.labels.end());
    return out;
}

std::vector<TriangleMesh> pieces(const TriangleMesh& mesh) {
    const std::vector<int> piece = pieces_of(mesh.triangles);
    std::vector<TriangleMesh> out;
    for (std::size_t t = 0; t < piece.size(); ++t) {
        if (piece[t] != static_cast<int>(t)) continue;
        std::vector<bool> keep(piece.size());
        for (std::size_t other = 0; other < piece.size(); ++other) keep[other] = piece[other] == piece[t];
        out.push_back(selected(mesh, keep));
    }
    std::vector<std::pair<double, std::size_t>> order;
    for (std::size_t i = 0; i < out.size(); ++i) order.emplace_back(-std::abs(volume(out[i])), i);
    std::sort(order.begin(), order.end());
    std::vector<TriangleMesh> sorted;
    sorted.reserve(out.size());
    for (const auto& [size, i] : order) sorted.push_back(std::move(out[i]));
    return sorted;
}

TriangleMesh reversed(TriangleMesh mesh) {
    for (auto& triangle : mesh.triangles) std::swap(triangle[1], triangle[2]);
    return mesh;
}

TriangleMesh in_fixed_order(const TriangleMesh& mesh) {
    std::vector<int> order(mesh.points.size());
    std::iota(order.begin(), order.end(), 0);
    std::sort(order.begin(), order.end(), [&](int a, int b) {
        const Eigen::Vector3d &p = at(mesh, a), &q = at(mesh, b);
        return std::lexicographical_compare(p.data(), p.data() + 3, q.data(), q.data() + 3);
    });
    TriangleMesh out;
    std::vector<int> place(mesh.points.size());
    for (const int i : order) {
        if (out.points.empty() || out.points.back() != at(mesh, i)) out.points.push_back(at(mesh, i));
        place[static_cast<std::size_t>(i)] = static_cast<int>(out.points.size()) - 1;
    }
    std::vector<std::pair<std::array<int, 3>, int>> triangles;
    for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
        std::array<int, 3> triangle = mesh.triangles[t];
        for (int& point : triangle) point = place[static_cast<std::size_t>(point)];
        std::rotate(triangle.begin(), std::min_element(triangle.begin(), triangle.end()), triangle.end());
        triangles.emplace_back(triangle, mesh.labels.empty() ? 0 : mesh.labels[t]);
    }
    std::sort(triangles.begin(), triangles.end());
    for (const auto& [triangle, label] : triangles) {
        out.triangles.push_back(triangle);
        if (!mesh.labels.empty()) out.labels.push_back(label);
    }
    return out;
}

std::vector<int> labels_of_points(const TriangleMesh& mesh, const std::vector<int>& order, int otherwise) {
    std::vector<std::size_t> rank(mesh.points.size(), order.size());
    for (std::size_t t = 0; t < mesh.labels.size(); ++t) {
        const auto found = static_cast<std::size_t>(std::find(order.begin(), order.end(), mesh.labels[t]) - order.begin());
        for (const int point : mesh.triangles[t]) {
            std::size_t& best = rank[static_cast<std::size_t>(point)];
            best = std::min(best, found);
        }
    }
    std::vector<int> labels(mesh.points.size(), otherwise);
    for (std::size_t i = 0; i < labels.size(); ++i)
        if (rank[i] < order.size()) labels[i] = order[rank[i]];
    return labels;
}

double volume(const TriangleMesh& mesh) {
    const Bounds box = bounds(mesh);
    const Eigen::Vector3d middle = 0.5 * (box.lower + box.upper);
    double six = 0.0;
    for (const auto& [a, b, c] : mesh.triangles)
        six += (at(mesh, a) - middle).dot((at(mesh, b) - middle).cross(at(mesh, c) - middle));
    return six / 6.0;
}

double area(const TriangleMesh& mesh) {
    double twice = 0.0;
    for (const auto& [a, b, c] : mesh.triangles) twice += (at(mesh, b) - at(mesh, a)).cross(at(mesh, c) - at(mesh, a)).norm();
    return twice / 2.0;
}

Bounds bounds(const TriangleMesh& mesh) {
    if (mesh.points.empty()) return {};
    Bounds box{mesh.points.front(), mesh.points.front()};
    for (const Eigen::Vector3d& point : mesh.points) {
        box.lower = box.lower.cwiseMin(point);
        box.upper = box.upper.cwiseMax(point);
    }
    return box;
}

std::vector<std::array<int, 2>> border(const TriangleMesh& mesh) {
    std::vector<std::array<int, 2>> edges;
    for (const BorderEdge& edge : border_edges(mesh.triangles)) edges.push_back({edge.from, edge.to});
    return edges;
}

TriangleMesh box(const Eigen::Vector3d& lower, const Eigen::Vector3d& upper) {
    TriangleMesh mesh;
    for (int corner = 0; corner < 8; ++corner)  // bit 0: east, bit 1: north, bit 2: up
        mesh.points.emplace_back((corner & 1) != 0 ? upper.x() : lower.x(), (corner & 2) != 0 ? upper.y() : lower.y(),
                                 (corner & 4) != 0 ? upper.z() : lower.z());
    for (const auto& [a, b, c, d] : std::array<std::array<int, 4>, 6>{
             {{0, 2, 3, 1}, {4, 5, 7, 6}, {0, 1, 5, 4}, {2, 6, 7, 3}, {0, 4, 6, 2}, {1, 3, 7, 5}}}) {
        mesh.triangles.push_back({a, b, c});
        mesh.triangles.push_back({a, c, d});
    }
    return mesh;
}

}  // namespace selvage::mesh
