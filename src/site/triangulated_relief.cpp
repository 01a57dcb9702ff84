#include "site/triangulated_relief.h"

#include "mesh/planar_mesh.h"
#include "numerics/median.h"

#include <Eigen/LU>

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace selvage::site {

namespace {

constexpr double grain = 1e-3;  // m: places nearer than this are one

using Place = std::pair<long long, long long>;
Place place_of(const Eigen::Vector2d& at) { return {std::llround(at.x() / grain), std::llround(at.y() / grain)}; }

// Elevations by place, the mean where there are several.
struct Elevations {
    struct Sum {
        double sum = 0.0;
        int count = 0;
    };
    std::map<Place, Sum> at;

    void add(const Eigen::Vector3d& point) {
        Sum& here = at[place_of(point.head<2>())];
        here.sum += point.z();
        ++here.count;
    }
    std::optional<double> of(const Eigen::Vector2d& place) const {
        const auto [x, y] = place_of(place);
        for (const long long dx : {0LL, -1LL, 1LL})
            for (const long long dy : {0LL, -1LL, 1LL})
                if (const auto found = at.find({x + dx, y + dy}); found != at.end())
                    return found->second.sum / found->second.count;
        return std::nullopt;
    }
};

double cross(const Eigen::Vector2d& a, const Eigen::Vector2d& b) { return a.x() * b.y() - a.y() * b.x(); }

// The convex hull, anticlockwise, without points on its sides (Andrew 1979, from memory).
std::vector<Eigen::Vector2d> hull_of(std::vector<Eigen::Vector2d> points) {
    const auto before = [](const Eigen::Vector2d& a, const Eigen::Vector2d& b) {
        return a.x() < b.x() || (a.x() == b.x() && a.y() < b.y());
    };
    std::sort(points.begin(), points.end(), before);
    points.erase(std::unique(points.begin(), points.end()), points.end());
    if (points.size() < 3) return {};
    std::vector<Eigen::Vector2d> hull;
    const auto add = [&hull](const Eigen::Vector2d& point, std::size_t least) {
        while (hull.size() > least && cross(hull.back() - hull[hull.size() - 2], point - hull.back()) <= 0.0) hull.pop_back();
        hull.push_back(point);
    };
    for (const Eigen::Vector2d& point : points) add(point, 1);
    const std::size_t lower = hull.size();
    for (auto point = points.rbegin() + 1; point != points.rend(); ++point) add(*point, lower);
    hull.pop_back();
    return hull;
}

// Where breaklines cross the mesh has a point of its own: its elevation is the mean of theirs there.
std::optional<double> elevation_on_lines(const std::vector<std::vector<Eigen::Vector3d>>& lines, const Eigen::Vector2d& place) {
    double sum = 0.0;
    int count = 0;
    for (const std::vector<Eigen::Vector3d>& line : lines)
        for (std::size_t i = 1; i < line.size(); ++i) {
            const Eigen::Vector2d from = line[i - 1].head<2>(), run = line[i].head<2>() - from;
            const double length = run.squaredNorm();
            if (length == 0.0) continue;
            const double share = std::clamp((place - from).dot(run) / length, 0.0, 1.0);
            if ((place - from - share * run).norm() > grain) continue;
            sum += line[i - 1].z() + share * (line[i].z() - line[i - 1].z());
            ++count;
        }
    return count > 0 ? std::optional<double>(sum / count) : std::nullopt;
}

// Shares of a triangle's corners at a place; all 0 or more within it.
std::optional<Eigen::Vector3d> shares_at(const Eigen::Vector2d& a, const Eigen::Vector2d& b, const Eigen::Vector2d& c,
                                         const Eigen::Vector2d& place) {
    const double area = cross(b - a, c - a);
    if (area == 0.0) return std::nullopt;
    const double of_b = cross(place - a, c - a) / area, of_c = cross(b - a, place - a) / area;
    constexpr double rounding = 1e-9;
    if (of_b < -rounding || of_c < -rounding || of_b + of_c > 1.0 + rounding) return std::nullopt;
    return Eigen::Vector3d(1.0 - of_b - of_c, of_b, of_c);
}

}  // namespace

mesh::Outcome<TriangulatedRelief> triangulated(const std::vector<Eigen::Vector3d>& points,
                                               const std::vector<std::vector<Eigen::Vector3d>>& breaklines) {
    Elevations known;
    mesh::PlanarRegion region;
    for (const Eigen::Vector3d& point : points) {
        if (!known.of(point.head<2>())) region.points.push_back(point.head<2>());
        known.add(point);
    }
    std::vector<Eigen::Vector2d> all = region.points;
    for (const std::vector<Eigen::Vector3d>& line : breaklines) {
        region.lines.emplace_back();
        for (const Eigen::Vector3d& point : line) {
            known.add(point);
            region.lines.back().push_back(point.head<2>());
            all.push_back(point.head<2>());
        }
    }
    const std::vector<Eigen::Vector2d> hull = hull_of(std::move(all));
    if (hull.size() < 3)
        return mesh::refused<TriangulatedRelief>(mesh::Refusal::too_few_points, "its points lie on one line or are under three");
    region.loops = {hull};
    const mesh::Outcome<mesh::PlanarMesh> mesh = mesh::triangulate(region);
    if (!mesh) return mesh::refused<TriangulatedRelief>(mesh);

    TriangulatedRelief relief;
    for (const Eigen::Vector2d& place : mesh->points) {
        std::optional<double> up = known.of(place);
        if (!up) up = elevation_on_lines(breaklines, place);
        if (!up)
            return mesh::refused<TriangulatedRelief>(mesh::Refusal::no_intersection,
                                                     "a corner of its triangles has no elevation");
        relief.points_.emplace_back(place.x(), place.y(), *up);
    }
    relief.triangles_ = mesh->triangles;
    relief.lay_out_squares();
    return mesh::made(std::move(relief));
}

void TriangulatedRelief::lay_out_squares() {
    std::vector<double> sides;
    low_ = points_.front().head<2>();
    Eigen::Vector2d high = low_;
    for (const Eigen::Vector3d& point : points_) {
        low_ = low_.cwiseMin(point.head<2>());
        high = high.cwiseMax(point.head<2>());
    }
    const auto corner = [this](const std::array<int, 3>& triangle, std::size_t i) -> Eigen::Vector2d {
        return points_[static_cast<std::size_t>(triangle[i % 3])].head<2>();
    };
    for (const std::array<int, 3>& triangle : triangles_)
        for (std::size_t i = 0; i < 3; ++i) sides.push_back((corner(triangle, i + 1) - corner(triangle, i)).norm());
    usual_side_ = numerics::median(std::move(sides));
    constexpr double most_squares = 1000.0;  // each way
    square_ = std::max(usual_side_, (high - low_).maxCoeff() / most_squares);
    const auto count = [this](double length) { return static_cast<std::size_t>(length / square_) + 1; };
    columns_ = count(high.x() - low_.x());
    rows_ = count(high.y() - low_.y());
    squares_.resize(columns_ * rows_);
    for (std::size_t t = 0; t < triangles_.size(); ++t) {
        Eigen::Vector2d from = corner(triangles_[t], 0), to = from;
        for (std::size_t i = 1; i < 3; ++i) {
            from = from.cwiseMin(corner(triangles_[t], i));
            to = to.cwiseMax(corner(triangles_[t], i));
        }
        const Eigen::Vector2d first = (from - low_) / square_, last = (to - low_) / square_;
        for (auto row = static_cast<std::size_t>(first.y()); row <= static_cast<std::size_t>(last.y()); ++row)
            for (auto column = static_cast<std::size_t>(first.x()); column <= static_cast<std::size_t>(last.x()); ++column)
                squares_[row * columns_ + column].push_back(t);
    }
}

std::optional<double> TriangulatedRelief::elevation_at(const Eigen::Vector2d& place) const {
    const Eigen::Vector2d at = (place - low_) / square_;
    if (!(at.x() >= 0.0 && at.y() >= 0.0 && at.x() < static_cast<double>(columns_) && at.y() < static_cast<double>(rows_)))
        return std::nullopt;
    const std::size_t square = static_cast<std::size_t>(at.y()) * columns_ + static_cast<std::size_t>(at.x());
    for (const std::size_t t : squares_[square]) {
        const auto& a = points_[static_cast<std::size_t>(triangles_[t][0])];
        const auto& b = points_[static_cast<std::size_t>(triangles_[t][1])];
        const auto& c = points_[static_cast<std::size_t>(triangles_[t][2])];
        if (const auto shares = shares_at(a.head<2>(), b.head<2>(), c.head<2>(), place))
            return shares->dot(Eigen::Vector3d(a.z(), b.z(), c.z()));
    }
    return std::nullopt;
}

}  // namespace selvage::site
