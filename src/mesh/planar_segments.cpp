#include "mesh/planar_segments.h"

#include <fmt/format.h>

#include <Eigen/Geometry>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <optional>
#include <set>
#include <utility>
#include <vector>

namespace selvage::mesh {

namespace {

// Numbers places; those within `planar_weld` of an earlier one get its number.
class Vertices {
public:
    int number_of(const Eigen::Vector2d& place);
    const Eigen::Vector2d& operator[](int vertex) const { return places_[static_cast<std::size_t>(vertex)]; }

private:
    std::vector<Eigen::Vector2d> places_;
    std::map<std::pair<long long, long long>, std::vector<int>> cells_;
};

int Vertices::number_of(const Eigen::Vector2d& place) {
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

double cross(const Eigen::Vector2d& a, const Eigen::Vector2d& b) { return a.x() * b.y() - a.y() * b.x(); }

struct Segment {
    int from = 0, to = 0;                     // vertices
    int owner = 0, edge = 0;                  // loop or line, and its piece
    std::set<std::pair<double, int>> splits;  // vertices that lie on it, by how far along
};

// The work on one region: all its segments, split where anything meets them.
class Preparation {
public:
    explicit Preparation(const PlanarRegion& region) : region_(region) {}

    Outcome<PlanarSegments> result() {
        for (std::size_t i = 0; i < region_.loops.size(); ++i)
            if (auto bad = add_loop(static_cast<int>(i))) return *bad;
        if (loops_.empty()) return refuse(Refusal::too_few_points, "no loop", -1);
        if (auto bad = crossing_loops()) return *bad;
        for (std::size_t i = 0; i < region_.points.size(); ++i)
            if (auto bad = add_point(static_cast<int>(i))) return *bad;
        for (std::size_t i = 0; i < region_.lines.size(); ++i)
            if (auto bad = add_line(static_cast<int>(i))) return *bad;
        split_lines();
        collect();
        return made(std::move(out_));
    }

private:
    static Outcome<PlanarSegments> refuse(Refusal refusal, std::string message, int item) {
        return refused<PlanarSegments>(refusal, std::move(message), item);
    }
    const Eigen::Vector2d& at(int vertex) const { return vertices_[vertex]; }

    std::optional<Outcome<PlanarSegments>> add_loop(int number) {
        const auto& loop = region_.loops[static_cast<std::size_t>(number)];
        const std::size_t first = loops_.size();
        std::vector<int> vertices;
        for (const Eigen::Vector2d& point : loop) {
            if (!point.allFinite())
                return refuse(Refusal::bad_number, fmt::format("loop {} has a point that is not finite", number), number);
            vertices.push_back(vertices_.number_of(point));
        }
        for (std::size_t i = 0; i < vertices.size(); ++i) {
            const int from = vertices[i], to = vertices[(i + 1) % vertices.size()];
            if (from == to) continue;
            if (!loop_vertices_.insert(from).second) return touching(number, at(from));
            loops_.push_back({from, to, number, static_cast<int>(i), {}});
        }
        if (loops_.size() - first < 3)
            return refuse(Refusal::too_few_points, fmt::format("loop {} has fewer than three points", number), number);
        if (is_flat(loop)) return refuse(Refusal::no_area, fmt::format("loop {} has no area", number), number);
        return std::nullopt;
    }

    // All points in one line.
    static bool is_flat(const std::vector<Eigen::Vector2d>& loop) {
        const Eigen::Vector2d& first = loop.front();
        const auto farthest = std::max_element(loop.begin(), loop.end(), [&](const Eigen::Vector2d& a, const Eigen::Vector2d& b) {
            return (a - first).norm() < (b - first).norm();
        });
        const Eigen::Vector2d way = (*farthest - first).normalized();
        return std::all_of(loop.begin(), loop.end(),
                           [&](const Eigen::Vector2d& point) { return std::abs(cross(way, point - first)) <= planar_weld; });
    }

    static Outcome<PlanarSegments> touching(int loop, const Eigen::Vector2d& place) {
        return refuse(
            Refusal::crossing,
            fmt::format("loop {} crosses or touches itself or another loop near ({:.3f}, {:.3f})", loop, place.x(), place.y()),
            loop);
    }

    bool boxes_apart(const Segment& a, const Segment& b) const {
        const Eigen::Vector2d margin = Eigen::Vector2d::Constant(planar_weld);
        const Eigen::Vector2d a_low = at(a.from).cwiseMin(at(a.to)) - margin, a_high = at(a.from).cwiseMax(at(a.to)) + margin;
        const Eigen::Vector2d b_low = at(b.from).cwiseMin(at(b.to)), b_high = at(b.from).cwiseMax(at(b.to));
        return (a_high.array() < b_low.array()).any() || (b_high.array() < a_low.array()).any();
    }

    // How far along the segment (0 to 1) the vertex lies on it; nothing off it and at its ends.
    std::optional<double> on_segment(const Segment& segment, int vertex) const {
        if (vertex == segment.from || vertex == segment.to) return std::nullopt;
        const Eigen::Vector2d along = at(segment.to) - at(segment.from), to = at(vertex) - at(segment.from);
        const double part = to.dot(along) / along.squaredNorm();
        if (part <= 0.0 || part >= 1.0 || (to - part * along).norm() > planar_weld) return std::nullopt;
        return part;
    }

    // Where two segments cross between their ends.
    std::optional<Eigen::Vector2d> crossing(const Segment& a, const Segment& b) const {
        const Eigen::Vector2d along = at(a.to) - at(a.from), other = at(b.to) - at(b.from), apart = at(b.from) - at(a.from);
        const double determinant = cross(along, other);
        if (determinant == 0.0) return std::nullopt;
        const double t = cross(apart, other) / determinant, s = cross(apart, along) / determinant;
        if (t <= 0.0 || t >= 1.0 || s <= 0.0 || s >= 1.0) return std::nullopt;
        return at(a.from) + t * along;
    }

    // Edges from left to right: only those that overlap in x are compared.
    std::optional<Outcome<PlanarSegments>> crossing_loops() const {
        std::vector<std::pair<double, std::size_t>> order;
        for (std::size_t i = 0; i < loops_.size(); ++i)
            order.emplace_back(std::min(at(loops_[i].from).x(), at(loops_[i].to).x()), i);
        std::sort(order.begin(), order.end());
        for (std::size_t i = 0; i < order.size(); ++i) {
            const Segment& a = loops_[order[i].second];
            const double end = std::max(at(a.from).x(), at(a.to).x()) + planar_weld;
            for (std::size_t j = i + 1; j < order.size() && order[j].first <= end; ++j) {
                const Segment& b = loops_[order[j].second];
                if (const auto place = wrong_meeting(a, b)) return touching(std::max(a.owner, b.owner), *place);
            }
        }
        return std::nullopt;
    }
    // Where two edges of loops meet other than end to end.
    std::optional<Eigen::Vector2d> wrong_meeting(const Segment& a, const Segment& b) const {
        if (boxes_apart(a, b)) return std::nullopt;
        for (const int vertex : {b.from, b.to})
            if (on_segment(a, vertex)) return at(vertex);
        for (const int vertex : {a.from, a.to})
            if (on_segment(b, vertex)) return at(vertex);
        const bool neighbours = a.from == b.to || a.to == b.from;
        return neighbours ? std::nullopt : crossing(a, b);
    }

    bool inside(const Eigen::Vector2d& place) const {
        bool within = false;
        for (const Segment& edge : loops_) {
            const Eigen::Vector2d &a = at(edge.from), &b = at(edge.to);
            if ((a.y() > place.y()) == (b.y() > place.y())) continue;
            if (place.x() < a.x() + (place.y() - a.y()) / (b.y() - a.y()) * (b.x() - a.x())) within = !within;
        }
        return within;
    }

    // Puts a vertex on the loop edges that it lies on; whether there are any, or it is a vertex of a loop itself.
    bool lies_on_loops(int vertex) {
        bool found = loop_vertices_.count(vertex) == 1;
        for (Segment& edge : loops_) {
            if (const auto part = on_segment(edge, vertex)) {
                edge.splits.emplace(*part, vertex);
                found = true;
            }
        }
        return found;
    }

    std::optional<Outcome<PlanarSegments>> add_point(int number) {
        const Eigen::Vector2d& point = region_.points[static_cast<std::size_t>(number)];
        if (!point.allFinite())
            return refuse(Refusal::bad_number, fmt::format("required point {} is not finite", number), number);
        const int vertex = vertices_.number_of(point);
        const bool within = lies_on_loops(vertex) || inside(point);
        out_.required.push_back(within ? vertex : -1);
        if (within) used_.insert(vertex);
        return std::nullopt;
    }

    std::optional<Outcome<PlanarSegments>> add_line(int number) {
        const auto& line = region_.lines[static_cast<std::size_t>(number)];
        std::vector<int> vertices;
        for (const Eigen::Vector2d& point : line) {
            if (!point.allFinite())
                return refuse(Refusal::bad_number, fmt::format("line {} has a point that is not finite", number), number);
            vertices.push_back(vertices_.number_of(point));
            if (lies_on_loops(vertices.back()) || inside(point)) used_.insert(vertices.back());
        }
        for (std::size_t i = 0; i + 1 < vertices.size(); ++i)
            if (vertices[i] != vertices[i + 1]) lines_.push_back({vertices[i], vertices[i + 1], number, static_cast<int>(i), {}});
        return std::nullopt;
    }

    void split_lines() {
        for (std::size_t i = 0; i < lines_.size(); ++i) {
            for (Segment& edge : loops_) meet(lines_[i], edge);
            for (std::size_t j = 0; j < i; ++j) meet(lines_[i], lines_[j]);
        }
        std::set<int> all = used_;
        all.insert(loop_vertices_.begin(), loop_vertices_.end());
        for (Segment& line : lines_)
            for (const int vertex : all)
                if (const auto part = on_segment(line, vertex)) line.splits.emplace(*part, vertex);
    }

    void meet(Segment& a, Segment& b) {
        if (boxes_apart(a, b)) return;
        const auto place = crossing(a, b);
        if (!place) return;
        const int vertex = vertices_.number_of(*place);
        used_.insert(vertex);
        for (Segment* segment : {&a, &b})
            if (const auto part = on_segment(*segment, vertex)) segment->splits.emplace(*part, vertex);
    }

    static std::vector<int> chain(const Segment& segment) {
        std::vector<int> vertices = {segment.from};
        for (const auto& [part, vertex] : segment.splits)
            if (vertex != vertices.back()) vertices.push_back(vertex);
        vertices.push_back(segment.to);
        return vertices;
    }

    void collect() {
        out_.loops.resize(region_.loops.size());
        std::set<std::pair<int, int>> taken;
        const auto key = [](int a, int b) { return std::pair(std::min(a, b), std::max(a, b)); };
        for (const Segment& edge : loops_) {
            const std::vector<int> vertices = chain(edge);
            for (std::size_t i = 0; i + 1 < vertices.size(); ++i) {
                out_.loops[static_cast<std::size_t>(edge.owner)].push_back({vertices[i], edge.edge});
                taken.insert(key(vertices[i], vertices[i + 1]));
            }
        }
        for (const Segment& line : lines_) {
            const std::vector<int> vertices = chain(line);
            for (std::size_t i = 0; i + 1 < vertices.size(); ++i) {
                const int a = vertices[i], b = vertices[i + 1];
                if (inside(0.5 * (at(a) + at(b))) && taken.insert(key(a, b)).second) out_.lines.push_back({a, b});
            }
        }
        number_in_order_of_use();
    }

    // Vertices of loops, points and lines get their places in the list of points.
    void number_in_order_of_use() {
        std::map<int, int> place;
        const auto use = [&](int& vertex) {
            const auto [found, is_new] = place.try_emplace(vertex, static_cast<int>(out_.points.size()));
            if (is_new) out_.points.push_back(at(vertex));
            vertex = found->second;
        };
        for (auto& loop : out_.loops)
            for (BoundaryVertex& vertex : loop) use(vertex.point);
        for (int& vertex : out_.required)
            if (vertex >= 0) use(vertex);
        for (PlanarEdge& line : out_.lines)
            for (int& vertex : line) use(vertex);
    }

    const PlanarRegion& region_;
    PlanarSegments out_;
    Vertices vertices_;
    std::vector<Segment> loops_, lines_;
    std::set<int> loop_vertices_, used_;  // vertices of loops; of points and lines, within the region
};

}  // namespace

Outcome<PlanarSegments> planar_segments(const PlanarRegion& region) { return Preparation(region).result(); }

}  // namespace selvage::mesh
