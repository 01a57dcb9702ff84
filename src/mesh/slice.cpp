#include "mesh/slice.h"

#include "base/parallel.h"
#include "mesh/edges.h"
#include "mesh/plane_section.h"

#include <Eigen/Geometry>

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace selvage::mesh {

namespace {

using Node = PlaneSection::Node;
using Segment = PlaneSection::Segment;

bool before(const Eigen::Vector3d& a, const Eigen::Vector3d& b) {
    return std::lexicographical_compare(a.data(), a.data() + 3, b.data(), b.data() + 3);
}

// The section's border: of what lies below the plane, and of the faces on the plane that look down, which have nothing below.
std::vector<Segment> border_segments(const TriangleMesh& mesh, const PlaneSection& section, const std::vector<BorderEdge>& open) {
    std::vector<Segment> segments;
    for (const auto& triangle : mesh.triangles) {
        if (const auto segment = section.segment(triangle)) segments.push_back(*segment);
        const auto& [a, b, c] = triangle;
        if (section.side(a) != 0 || section.side(b) != 0 || section.side(c) != 0 || section.looks_up(triangle)) continue;
        for (std::size_t k = 0; k < 3; ++k)
            segments.emplace_back(PlaneSection::node(triangle[(k + 1) % 3]), PlaneSection::node(triangle[k]));
    }
    // Where an open surface ends on the plane, coming from above or lying on it, it is taken to go on below.
    for (const BorderEdge& edge : open) {
        if (section.side(edge.from) != 0 || section.side(edge.to) != 0) continue;
        const auto& triangle = mesh.triangles[static_cast<std::size_t>(edge.triangle)];
        const int third = section.side(triangle[0]) + section.side(triangle[1]) + section.side(triangle[2]);
        if (third > 0 || (third == 0 && section.looks_up(triangle)))
            segments.emplace_back(PlaneSection::node(edge.from), PlaneSection::node(edge.to));
    }
    return without_opposites(std::move(segments));
}

// Strings sorted segments together. Where several go on from a node, the sharpest turn to the left is taken, so that rings that
// touch in a point stay apart.
class Chains {
public:
    Chains(const PlaneSection& section, const std::vector<Segment>& segments)
        : section_(section), segments_(segments), used_(segments.size(), false) {}

    std::vector<SliceLine> lines() {
        std::vector<Node> ends;
        for (const Segment& segment : segments_) ends.push_back(segment.second);
        std::sort(ends.begin(), ends.end());
        std::vector<SliceLine> out;
        for (std::size_t first = 0; first < segments_.size(); first = after(first)) {  // open ones: more go out than come in
            const Node& node = segments_[first].first;
            const auto [from, to] = std::equal_range(ends.begin(), ends.end(), node);
            const auto come = static_cast<std::size_t>(to - from), go = after(first) - first;
            for (std::size_t i = come; i < go; ++i) add(out, first + i, false);
        }
        for (std::size_t i = 0; i < segments_.size(); ++i)
            if (!used_[i]) add(out, i, true);
        return out;
    }

private:
    std::size_t after(std::size_t i) const {
        std::size_t end = i;
        while (end < segments_.size() && segments_[end].first == segments_[i].first) ++end;
        return end;
    }

    Eigen::Vector2d direction(const Segment& segment) const {
        return section_.in_plane(section_.place(segment.second)) - section_.in_plane(section_.place(segment.first));
    }

    // The next segment after `last`, or none (their count); `start` may be taken again, which closes the ring.
    std::size_t next(std::size_t last, std::size_t start) const {
        const Segment key{segments_[last].second, Node{-1, -1}};
        std::size_t best = segments_.size();
        double sharpest = 0.0;
        const auto first = std::lower_bound(segments_.begin(), segments_.end(), key);
        for (auto i = static_cast<std::size_t>(first - segments_.begin());
             i < segments_.size() && segments_[i].first == key.first; ++i) {
            if (used_[i] && i != start) continue;
            const Eigen::Vector2d in = direction(segments_[last]), out = direction(segments_[i]);
            const double turn = std::atan2(in.x() * out.y() - in.y() * out.x(), in.dot(out));  // to the left
            if (best < segments_.size() && turn <= sharpest) continue;
            best = i;
            sharpest = turn;
        }
        return best;
    }

    void add(std::vector<SliceLine>& out, std::size_t start, bool closed) {
        SliceLine line;
        line.closed = closed;
        const auto append = [&](const Node& node) {
            const Eigen::Vector3d point = section_.place(node);
            if (line.points.empty() || point != line.points.back()) line.points.push_back(point);
        };
        append(segments_[start].first);
        for (std::size_t at = start; at < segments_.size();) {
            used_[at] = true;
            append(segments_[at].second);
            at = next(at, closed ? start : segments_.size());
            if (at == start) break;
        }
        if (closed && line.points.front() == line.points.back()) line.points.pop_back();
        if (line.points.size() < (closed ? 3U : 2U)) return;
        if (closed)
            std::rotate(line.points.begin(), std::min_element(line.points.begin(), line.points.end(), before), line.points.end());
        out.push_back(std::move(line));
    }

    const PlaneSection& section_;
    const std::vector<Segment>& segments_;
    std::vector<bool> used_;
};

std::vector<SliceLine> slice_of(const TriangleMesh& mesh, const base::Plane& plane, const std::vector<BorderEdge>& open) {
    const PlaneSection section(mesh, plane);
    const std::vector<Segment> segments = border_segments(mesh, section, open);
    std::vector<SliceLine> lines = Chains(section, segments).lines();
    std::sort(lines.begin(), lines.end(), [](const SliceLine& a, const SliceLine& b) {
        return std::lexicographical_compare(a.points.begin(), a.points.end(), b.points.begin(), b.points.end(), before);
    });
    return lines;
}

}  // namespace

std::vector<std::vector<SliceLine>> slices(const TriangleMesh& mesh, const std::vector<base::Plane>& planes) {
    const std::vector<BorderEdge> open = border_edges(mesh.triangles);
    std::vector<std::vector<SliceLine>> out(planes.size());
    base::parallel_for(planes.size(), [&](std::size_t i) { out[i] = slice_of(mesh, planes[i], open); });
    return out;
}

std::vector<SliceLine> slice(const TriangleMesh& mesh, const base::Plane& plane) { return slices(mesh, {plane}).front(); }

double area_within(const std::vector<SliceLine>& rings, const base::Plane& plane) {
    double twice = 0.0;
    for (const SliceLine& ring : rings) {
        for (std::size_t i = 1; i + 1 < ring.points.size(); ++i)
            twice += (ring.points[i] - ring.points[0]).cross(ring.points[i + 1] - ring.points[0]).dot(plane.normal);
    }
    return twice / 2.0;
}

double length_of(const SliceLine& line) {
    double length = 0.0;
    for (std::size_t i = 1; i < line.points.size(); ++i) length += (line.points[i] - line.points[i - 1]).norm();
    if (line.closed && !line.points.empty()) length += (line.points.front() - line.points.back()).norm();
    return length;
}

}  // namespace selvage::mesh
