#pragma once

#include <Eigen/Core>

#include <map>
#include <optional>
#include <set>
#include <utility>
#include <vector>

// Numbered places of a plane and straight pieces between them; used within this room. What is nearer than `planar_weld` meets.
namespace selvage::mesh {

struct PlanarPiece {
    int from = 0, to = 0;                     // vertices
    int owner = 0, edge = 0;                  // loop or line, and its edge
    std::set<std::pair<double, int>> splits;  // vertices that lie on it, by how far along (0 to 1)
};

class PlanarVertices {
public:
    // Numbers places in order; one that is near an earlier one gets its number.
    int number_of(const Eigen::Vector2d& place);
    const Eigen::Vector2d& operator[](int vertex) const { return places_[static_cast<std::size_t>(vertex)]; }

    // How far along the piece (0 to 1) the vertex lies on it; nothing off it and at its ends.
    std::optional<double> on_piece(const PlanarPiece& piece, int vertex) const;
    // Where two pieces cross between their ends.
    std::optional<Eigen::Vector2d> crossing(const PlanarPiece& a, const PlanarPiece& b) const;
    // Where two edges of loops meet other than end to end.
    std::optional<Eigen::Vector2d> wrong_meeting(const PlanarPiece& a, const PlanarPiece& b) const;
    // Their boxes are so far apart that they cannot meet.
    bool boxes_apart(const PlanarPiece& a, const PlanarPiece& b) const;

private:
    const Eigen::Vector2d& at(int vertex) const { return places_[static_cast<std::size_t>(vertex)]; }

    std::vector<Eigen::Vector2d> places_;
    std::map<std::pair<long long, long long>, std::vector<int>> cells_;
};

// All points in one line, or fewer than two places.
bool is_flat(const std::vector<Eigen::Vector2d>& loop);

}  // namespace selvage::mesh
