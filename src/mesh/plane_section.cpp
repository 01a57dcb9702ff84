#include "mesh/plane_section.h"

#include "mesh/slice.h"

#include <Eigen/Geometry>

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace selvage::mesh {

PlaneSection::PlaneSection(const TriangleMesh& mesh, const base::Plane& plane) : mesh_(mesh), plane_(plane) {
    Eigen::Index least = 0;
    plane.normal.cwiseAbs().minCoeff(&least);
    right_ = Eigen::Vector3d::Unit(least).cross(plane.normal).normalized();
    up_ = plane.normal.cross(right_);
    distances_.reserve(mesh.points.size());
    sides_.reserve(mesh.points.size());
    for (const Eigen::Vector3d& point : mesh.points) {
        const double distance = base::signed_distance(plane, point);
        distances_.push_back(distance);
        sides_.push_back(static_cast<std::int8_t>(distance > on_plane ? 1 : distance < -on_plane ? -1 : 0));
        any_below_ = any_below_ || sides_.back() < 0;
        any_above_ = any_above_ || sides_.back() > 0;
    }
}

bool PlaneSection::looks_up(const std::array<int, 3>& triangle) const {
    const auto at = [&](std::size_t k) -> const Eigen::Vector3d& { return mesh_.points[static_cast<std::size_t>(triangle[k])]; };
    return (at(1) - at(0)).cross(at(2) - at(0)).dot(plane_.normal) > 0.0;
}

Eigen::Vector3d PlaneSection::place(const Node& node) const {
    const auto low = static_cast<std::size_t>(node.low), high = static_cast<std::size_t>(node.high);
    if (low == high) return mesh_.points[low];
    const double part = distances_[low] / (distances_[low] - distances_[high]);
    return mesh_.points[low] + part * (mesh_.points[high] - mesh_.points[low]);
}

std::optional<PlaneSection::Segment> PlaneSection::segment(const std::array<int, 3>& triangle) const {
    const auto& [a, b, c] = triangle;
    const bool below[3] = {side(a) < 0, side(b) < 0, side(c) < 0};
    if (below[0] == below[1] && below[1] == below[2]) return std::nullopt;
    // The plane is left where the triangle's border goes up through it, and entered where it goes down.
    const auto crossed = [&](std::size_t k) {
        const int from = triangle[k], to = triangle[(k + 1) % 3];
        const int above = below[k] ? to : from;
        return side(above) == 0 ? node(above) : node(from, to);
    };
    Segment out;
    for (std::size_t k = 0; k < 3; ++k) {
        if (below[k] && !below[(k + 1) % 3]) out.second = crossed(k);
        if (!below[k] && below[(k + 1) % 3]) out.first = crossed(k);
    }
    if (out.first == out.second) return std::nullopt;
    return out;
}

Eigen::Vector2d PlaneSection::in_plane(const Eigen::Vector3d& point) const {
    const Eigen::Vector3d from = point - plane_.point;
    return {right_.dot(from), up_.dot(from)};
}

std::vector<PlaneSection::Segment> without_opposites(std::vector<PlaneSection::Segment> segments) {
    const auto key = [](const PlaneSection::Segment& s) { return std::minmax(s.first, s.second); };
    std::sort(segments.begin(), segments.end(), [&](const auto& a, const auto& b) {
        const auto ka = key(a), kb = key(b);
        if (!(ka.first == kb.first)) return ka.first < kb.first;
        if (!(ka.second == kb.second)) return ka.second < kb.second;
        return a < b;
    });
    std::vector<PlaneSection::Segment> out;
    for (const PlaneSection::Segment& segment : segments) {
        if (!out.empty() && out.back().first == segment.second && out.back().second == segment.first)
            out.pop_back();
        else
            out.push_back(segment);
    }
    std::sort(out.begin(), out.end());
    return out;
}

}  // namespace selvage::mesh
