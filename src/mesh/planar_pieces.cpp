#include "mesh/planar_pieces.h"

#include "mesh/planar_mesh.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace selvage::mesh {

namespace {

double cross(const Eigen::Vector2d& a, const Eigen::Vector2d& b) { return a.x() * b.y() - a.y() * b.x(); }

}  // namespace

int PlanarVertices::number_of(const Eigen::Vector2d& place) {
    const auto cell = [](double x) { return std::llround(std::floor(x / planar_weld)); };
    const long long column = cell(place.x()), row = cell(place.y());
    for (long long i = column - 1; i <= column + 1; ++i) {
        for (long long j = row - 1; j <= row + 1; ++j) {
            const auto found = cells_.find({i, j});
            if (found == cells_.end()) continue;
            for (const int vertex : found->second)
                if ((places_[static_cast<std::size_t>(vertex)] - place).norm() <= planar_weld) return vertex;
        }
    }
    places_.push_back(place);
    const int vertex = static_cast<int>(places_.size()) - 1;
    cells_[{column, row}].push_back(vertex);
    return vertex;
}

std::optional<double> PlanarVertices::on_piece(const PlanarPiece& piece, int vertex) const {
    if (vertex == piece.from || vertex == piece.to) return std::nullopt;
    const Eigen::Vector2d along = at(piece.to) - at(piece.from), to = at(vertex) - at(piece.from);
    const double part = to.dot(along) / along.squaredNorm();
    if (part <= 0.0 || part >= 1.0 || (to - part * along).norm() > planar_weld) return std::nullopt;
    return part;
}

std::optional<Eigen::Vector2d> PlanarVertices::crossing(const PlanarPiece& a, const PlanarPiece& b) const {
    const Eigen::Vector2d along = at(a.to) - at(a.from), other = at(b.to) - at(b.from), apart = at(b.from) - at(a.from);
    const double determinant = cross(along, other);
    if (determinant == 0.0) return std::nullopt;
    const double t = cross(apart, other) / determinant, s = cross(apart, along) / determinant;
    if (t <= 0.0 || t >= 1.0 || s <= 0.0 || s >= 1.0) return std::nullopt;
    return at(a.from) + t * along;
}

std::optional<Eigen::Vector2d> PlanarVertices::wrong_meeting(const PlanarPiece& a, const PlanarPiece& b) const {
    if (boxes_apart(a, b)) return std::nullopt;
    for (const int vertex : {b.from, b.to})
        if (on_piece(a, vertex)) return at(vertex);
    for (const int vertex : {a.from, a.to})
        if (on_piece(b, vertex)) return at(vertex);
    const bool neighbours = a.from == b.to || a.to == b.from;
    return neighbours ? std::nullopt : crossing(a, b);
}

bool PlanarVertices::boxes_apart(const PlanarPiece& a, const PlanarPiece& b) const {
    const Eigen::Vector2d margin = Eigen::Vector2d::Constant(planar_weld);
    const Eigen::Vector2d a_low = at(a.from).cwiseMin(at(a.to)) - margin, a_high = at(a.from).cwiseMax(at(a.to)) + margin;
    const Eigen::Vector2d b_low = at(b.from).cwiseMin(at(b.to)), b_high = at(b.from).cwiseMax(at(b.to));
    return (a_high.array() < b_low.array()).any() || (b_high.array() < a_low.array()).any();
}

bool is_flat(const std::vector<Eigen::Vector2d>& loop) {
    const Eigen::Vector2d& first = loop.front();
    const auto farthest = std::max_element(loop.begin(), loop.end(), [&](const Eigen::Vector2d& a, const Eigen::Vector2d& b) {
        return (a - first).norm() < (b - first).norm();
    });
    const Eigen::Vector2d way = (*farthest - first).normalized();
    return std::all_of(loop.begin(), loop.end(),
                       [&](const Eigen::Vector2d& point) { return std::abs(cross(way, point - first)) <= planar_weld; });
}

}  // namespace selvage::mesh
