#include "support/made_up_solids.h"

#include "base/random.h"
#include "mesh/walled_solid.h"

#include <Eigen/Geometry>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>

namespace selvage::made_up {

namespace {

const double pi = std::acos(-1.0);

// The convex hull of few points about the origin, by trying all triples.
mesh::TriangleMesh hull(std::vector<Eigen::Vector3d> points) {
    mesh::TriangleMesh out;
    const int n = static_cast<int>(points.size());
    const auto at = [&](int i) -> const Eigen::Vector3d& { return points[static_cast<std::size_t>(i)]; };
    for (int a = 0; a < n; ++a) {
        for (int b = a + 1; b < n; ++b) {
            for (int c = b + 1; c < n; ++c) {
                Eigen::Vector3d normal = (at(b) - at(a)).cross(at(c) - at(a));
                const bool turned = normal.dot(at(a)) < 0.0;
                if (turned) normal = -normal;
                const bool outermost = std::all_of(points.begin(), points.end(),
                                                   [&](const Eigen::Vector3d& p) { return normal.dot(p - at(a)) < 1e-9; });
                if (outermost) out.triangles.push_back(turned ? std::array{a, c, b} : std::array{a, b, c});
            }
        }
    }
    out.points = std::move(points);
    return out;
}

// Eight corners, lower four then upper four, each anticlockwise from above.
mesh::TriangleMesh hexahedron(const std::array<Eigen::Vector3d, 8>& corners) {
    mesh::TriangleMesh out;
    out.points.assign(corners.begin(), corners.end());
    out.triangles = {{0, 2, 1}, {0, 3, 2}, {4, 5, 6}, {4, 6, 7}};
    for (int i = 0; i < 4; ++i) {
        const int j = (i + 1) % 4;
        out.triangles.push_back({i, j, 4 + j});
        out.triangles.push_back({i, 4 + j, 4 + i});
    }
    return out;
}

// A wavy function of size about 1, wavelengths from 60 m.
class Waves {
public:
    explicit Waves(base::RandomStream& stream) {
        for (Wave& wave : waves_) {
            const double direction = stream.uniform(0.0, 2.0 * pi), frequency = 2.0 * pi / stream.log_uniform(60.0, 400.0);
            wave = {frequency * Eigen::Vector2d(std::cos(direction), std::sin(direction)), stream.uniform(0.0, 2.0 * pi)};
        }
    }
    double at(const Eigen::Vector2d& place) const {
        double sum = 0.0;
        for (const Wave& wave : waves_) sum += std::cos(wave.frequency.dot(place) + wave.phase);
        return sum / std::sqrt(0.5 * static_cast<double>(waves_.size()));
    }

private:
    struct Wave {
        Eigen::Vector2d frequency = Eigen::Vector2d::Zero();
        double phase = 0.0;
    };
    std::array<Wave, 6> waves_;
};

std::vector<Eigen::Vector2d> wavy_loop(base::RandomStream& stream, const Eigen::Vector2d& centre, const Eigen::Vector2d& radii,
                                       int points) {
    const double phase = stream.uniform(0.0, 2.0 * pi), depth = stream.uniform(0.05, 0.25);
    std::vector<Eigen::Vector2d> loop;
    for (int i = 0; i < points; ++i) {
        const double angle = 2.0 * pi * i / points;
        const double part = 1.0 + depth * std::cos(3.0 * angle + phase) + 0.5 * depth * std::sin(5.0 * angle - phase);
        loop.push_back(centre + part * radii.cwiseProduct(Eigen::Vector2d(std::cos(angle), std::sin(angle))));
    }
    return loop;
}

}  // namespace

mesh::TriangleMesh tetrahedron() { return hull({{1, 1, 1}, {1, -1, -1}, {-1, 1, -1}, {-1, -1, 1}}); }

mesh::TriangleMesh octahedron() {
    const double r = std::sqrt(0.5);
    return hull({{r, 0, 0}, {-r, 0, 0}, {0, r, 0}, {0, -r, 0}, {0, 0, r}, {0, 0, -r}});
}

mesh::TriangleMesh icosahedron() {
    const double half = 0.5, long_half = 0.25 * (1.0 + std::sqrt(5.0));
    std::vector<Eigen::Vector3d> points;
    for (const double a : {-half, half}) {
        for (const double b : {-long_half, long_half}) {
            points.emplace_back(0.0, a, b);
            points.emplace_back(a, b, 0.0);
            points.emplace_back(b, 0.0, a);
        }
    }
    return hull(std::move(points));
}

mesh::TriangleMesh box(const Eigen::Vector3d& lower, const Eigen::Vector3d& upper) { return mesh::box(lower, upper); }

mesh::TriangleMesh prismatoid(const Eigen::Vector2d& bottom, const Eigen::Vector2d& top, double height) {
    const double x0 = 0.5 * bottom.x(), y0 = 0.5 * bottom.y(), x1 = 0.5 * top.x(), y1 = 0.5 * top.y();
    return hexahedron({{{-x0, -y0, 0},
                        {x0, -y0, 0},
                        {x0, y0, 0},
                        {-x0, y0, 0},
                        {-x1, -y1, height},
                        {x1, -y1, height},
                        {x1, y1, height},
                        {-x1, y1, height}}});
}

mesh::TriangleMesh stairs() {
    mesh::TriangleMesh out;
    for (const double y : {1.0, 0.0})
        for (const Eigen::Vector2d& corner : {Eigen::Vector2d(0, 0), Eigen::Vector2d(2, 0), Eigen::Vector2d(2, 1),
                                              Eigen::Vector2d(1, 1), Eigen::Vector2d(1, 2), Eigen::Vector2d(0, 2)})
            out.points.emplace_back(corner.x(), y, corner.y());
    for (int i = 0; i < 6; ++i) {
        const int j = (i + 1) % 6;
        out.triangles.push_back({6 + j, 6 + i, i});
        out.triangles.push_back({6 + j, i, j});
    }
    for (const auto& [a, b, c] : {std::array{0, 1, 3}, std::array{1, 2, 3}, std::array{0, 3, 5}, std::array{3, 4, 5}}) {
        out.triangles.push_back({a, c, b});
        out.triangles.push_back({6 + a, 6 + b, 6 + c});
    }
    return out;
}

mesh::TriangleMesh panel(double longest_edge) {
    mesh::PlanarRegion region;
    region.loops = {{{0, 0}, {120, 0}, {120, 80}, {0, 80}}};
    region.longest_edge = [=](const Eigen::Vector2d&) { return longest_edge; };
    const auto plan = mesh::triangulate(region);
    const Eigen::Matrix3d axes =
        (Eigen::AngleAxisd(0.7, Eigen::Vector3d::UnitZ()) * Eigen::AngleAxisd(1.1, Eigen::Vector3d::UnitX())).toRotationMatrix();
    std::vector<Eigen::Vector3d> upper, lower;
    for (const Eigen::Vector2d& place : plan->points) {
        const double thickness = 0.5 + 2.0 * place.y() / 80.0;
        upper.push_back(axes * Eigen::Vector3d(place.x(), place.y(), thickness));
        lower.push_back(axes * Eigen::Vector3d(place.x(), place.y(), 0.0));
    }
    return *mesh::solid_between(*plan, upper, lower, axes.col(2));
}

WalledSolid walled_solid(std::uint64_t number, double longest_edge) {
    base::RandomStream stream("walled solids", {number});
    mesh::PlanarRegion region;
    region.loops.push_back(wavy_loop(stream, {0, 0}, {stream.uniform(120, 200), stream.uniform(90, 150)}, 48));
    if (stream.uniform() < 0.3) region.loops.push_back(wavy_loop(stream, {20, -10}, {30, 20}, 12));
    region.longest_edge = [=](const Eigen::Vector2d&) { return longest_edge; };
    WalledSolid out;
    out.plan = *mesh::triangulate(region);
    const Waves height(stream), thickness(stream);
    const double relief = stream.log_uniform(0.5, 12.0), median_thickness = stream.log_uniform(0.1, 4.0),
                 spread = stream.uniform(0.2, 1.5);
    const Eigen::Matrix3d axes = (Eigen::AngleAxisd(stream.uniform(0.0, 2.0 * pi), Eigen::Vector3d::UnitZ()) *
                                  Eigen::AngleAxisd(stream.uniform(0.0, 0.5 * pi), Eigen::Vector3d::UnitX()))
                                     .toRotationMatrix();
    std::vector<Eigen::Vector3d> upper, lower;
    for (const Eigen::Vector2d& place : out.plan.points) {
        constexpr double thinnest = 1e-3;
        const double w = relief * height.at(place),
                     half = 0.5 * std::max(thinnest, median_thickness * std::exp(spread * thickness.at(place)) - 0.1);
        const Eigen::Vector3d middle(0.0, 0.0, -100.0);
        upper.push_back(middle + axes * Eigen::Vector3d(place.x(), place.y(), w + half));
        lower.push_back(middle + axes * Eigen::Vector3d(place.x(), place.y(), w - half));
    }
    out.up = axes.col(2);
    out.solid = *mesh::solid_between(out.plan, upper, lower, out.up);
    return out;
}

std::vector<Eigen::Vector3d> ground_points(std::uint64_t number, int points_a_side) {
    base::RandomStream stream("ground", {number});
    const Waves hills(stream);
    std::vector<Eigen::Vector3d> points;
    const double step = 600.0 / (points_a_side - 1);
    for (int i = 0; i < points_a_side; ++i) {
        for (int j = 0; j < points_a_side; ++j) {
            const Eigen::Vector2d place(-300.0 + step * (i + stream.uniform(-0.3, 0.3)),
                                        -300.0 + step * (j + stream.uniform(-0.3, 0.3)));
            points.emplace_back(place.x(), place.y(), -100.0 + 30.0 * hills.at(place));
        }
    }
    return points;
}

Eigen::Vector3d random_direction(std::uint64_t number) {
    base::RandomStream stream("directions", {number});
    const double z = stream.uniform(-1.0, 1.0), angle = stream.uniform(0.0, 2.0 * pi), across = std::sqrt(1.0 - z * z);
    return {across * std::cos(angle), across * std::sin(angle), z};
}

}  // namespace selvage::made_up
