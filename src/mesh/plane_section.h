#pragma once

#include "base/plane.h"
#include "mesh/triangle_mesh.h"

#include <Eigen/Core>

#include <array>
#include <cstdint>
#include <optional>
#include <utility>
#include <vector>

// How a mesh lies about a plane, decided once for each point; used within this room. Slices and cuts follow from these signs
// alone, so that they agree in every triangle: what is closed stays closed, however the plane runs.
namespace selvage::mesh {

class PlaneSection {
public:
    PlaneSection(const TriangleMesh& mesh, const base::Plane& plane);

    // -1 below the plane, 1 above (where its normal points), 0 on it.
    int side(int point) const { return sides_[static_cast<std::size_t>(point)]; }
    bool any_below() const { return any_below_; }
    bool any_above() const { return any_above_; }
    // Of a triangle that lies on the plane: whether it looks the way of the normal.
    bool looks_up(const std::array<int, 3>& triangle) const;

    // A place of the section: a point on the plane, or where the plane crosses an edge.
    struct Node {
        int low = 0, high = 0;  // the edge's points, smaller first; twice the same for a point
        bool operator==(const Node& other) const { return low == other.low && high == other.high; }
        bool operator<(const Node& other) const { return std::pair(low, high) < std::pair(other.low, other.high); }
    };
    using Segment = std::pair<Node, Node>;
    static Node node(int point) { return {point, point}; }
    static Node node(int a, int b) { return a < b ? Node{a, b} : Node{b, a}; }
    Eigen::Vector3d place(const Node& node) const;

    // The border of what lies below the plane, in this triangle: the inside on its left, seen against the normal. Points on the
    // plane count as above.
    std::optional<Segment> segment(const std::array<int, 3>& triangle) const;

    // Axes of the plane that make a right-handed set with its normal.
    const Eigen::Vector3d& right() const { return right_; }
    const Eigen::Vector3d& up() const { return up_; }
    Eigen::Vector2d in_plane(const Eigen::Vector3d& point) const;

private:
    const TriangleMesh& mesh_;
    base::Plane plane_;
    Eigen::Vector3d right_, up_;
    std::vector<double> distances_;
    std::vector<std::int8_t> sides_;
    bool any_below_ = false, any_above_ = false;
};

// Segments in order without pairs that run to and fro between the same nodes.
std::vector<PlaneSection::Segment> without_opposites(std::vector<PlaneSection::Segment> segments);

}  // namespace selvage::mesh
