#include "mesh/planar_segments.h"

#include "mesh/planar_pieces.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <map>
#include <optional>
#include <set>
#include <utility>
#include <vector>

namespace selvage::mesh {

namespace {

constexpr double beyond_all_maps = 1e9;  // m: places are numbered in cells of planar_weld

bool usable(const Eigen::Vector2d& point) { return point.allFinite() && point.cwiseAbs().maxCoeff() < beyond_all_maps; }

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
            if (!usable(point))
                return refuse(Refusal::bad_number,
                              fmt::format("loop {} has a point that is not finite or beyond all maps", number), number);
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

    static Outcome<PlanarSegments> touching(int loop, const Eigen::Vector2d& place) {
        return refuse(
            Refusal::crossing,
            fmt::format("loop {} crosses or touches itself or another loop near ({:.3f}, {:.3f})", loop, place.x(), place.y()),
            loop);
    }

    // Edges from left to right: only those that overlap in x are compared.
    std::optional<Outcome<PlanarSegments>> crossing_loops() const {
        std::vector<std::pair<double, std::size_t>> order;
        for (std::size_t i = 0; i < loops_.size(); ++i)
            order.emplace_back(std::min(at(loops_[i].from).x(), at(loops_[i].to).x()), i);
        std::sort(order.begin(), order.end());
        for (std::size_t i = 0; i < order.size(); ++i) {
            const PlanarPiece& a = loops_[order[i].second];
            const double end = std::max(at(a.from).x(), at(a.to).x()) + planar_weld;
            for (std::size_t j = i + 1; j < order.size() && order[j].first <= end; ++j) {
                const PlanarPiece& b = loops_[order[j].second];
                if (const auto place = vertices_.wrong_meeting(a, b)) return touching(std::max(a.owner, b.owner), *place);
            }
        }
        return std::nullopt;
    }
    bool inside(const Eigen::Vector2d& place) const {
        bool within = false;
        for (const PlanarPiece& edge : loops_) {
            const Eigen::Vector2d &a = at(edge.from), &b = at(edge.to);
            if ((a.y() > place.y()) == (b.y() > place.y())) continue;
            if (place.x() < a.x() + (place.y() - a.y()) / (b.y() - a.y()) * (b.x() - a.x())) within = !within;
        }
        return within;
    }

    // Puts a vertex on the loop edges that it lies on; whether there are any, or it is a vertex of a loop itself.
    bool lies_on_loops(int vertex) {
        bool found = loop_vertices_.count(vertex) == 1;
        for (PlanarPiece& edge : loops_) {
            if (const auto part = vertices_.on_piece(edge, vertex)) {
                edge.splits.emplace(*part, vertex);
                found = true;
            }
        }
        return found;
    }

    std::optional<Outcome<PlanarSegments>> add_point(int number) {
        const Eigen::Vector2d& point = region_.points[static_cast<std::size_t>(number)];
        if (!usable(point))
            return refuse(Refusal::bad_number, fmt::format("required point {} is not finite or beyond all maps", number), number);
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
            if (!usable(point))
                return refuse(Refusal::bad_number,
                              fmt::format("line {} has a point that is not finite or beyond all maps", number), number);
            vertices.push_back(vertices_.number_of(point));
            if (lies_on_loops(vertices.back()) || inside(point)) used_.insert(vertices.back());
        }
        for (std::size_t i = 0; i + 1 < vertices.size(); ++i)
            if (vertices[i] != vertices[i + 1]) lines_.push_back({vertices[i], vertices[i + 1], number, static_cast<int>(i), {}});
        return std::nullopt;
    }

    void split_lines() {
        for (std::size_t i = 0; i < lines_.size(); ++i) {
            for (PlanarPiece& edge : loops_) meet(lines_[i], edge);
            for (std::size_t j = 0; j < i; ++j) meet(lines_[i], lines_[j]);
        }
        std::set<int> all = used_;
        all.insert(loop_vertices_.begin(), loop_vertices_.end());
        for (PlanarPiece& line : lines_)
            for (const int vertex : all)
                if (const auto part = vertices_.on_piece(line, vertex)) line.splits.emplace(*part, vertex);
    }

    void meet(PlanarPiece& a, PlanarPiece& b) {
        if (vertices_.boxes_apart(a, b)) return;
        const auto place = vertices_.crossing(a, b);
        if (!place) return;
        const int vertex = vertices_.number_of(*place);
        used_.insert(vertex);
        for (PlanarPiece* segment : {&a, &b})
            if (const auto part = vertices_.on_piece(*segment, vertex)) segment->splits.emplace(*part, vertex);
    }

    static std::vector<int> chain(const PlanarPiece& segment) {
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
        for (const PlanarPiece& edge : loops_) {
            const std::vector<int> vertices = chain(edge);
            for (std::size_t i = 0; i + 1 < vertices.size(); ++i) {
                out_.loops[static_cast<std::size_t>(edge.owner)].push_back({vertices[i], edge.edge});
                taken.insert(key(vertices[i], vertices[i + 1]));
            }
        }
        for (const PlanarPiece& line : lines_) {
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
    PlanarVertices vertices_;
    std::vector<PlanarPiece> loops_, lines_;
    std::set<int> loop_vertices_, used_;  // vertices of loops; of points and lines, within the region
};

}  // namespace

Outcome<PlanarSegments> planar_segments(const PlanarRegion& region) { return Preparation(region).result(); }

}  // namespace selvage::mesh
