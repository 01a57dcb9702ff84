#pragma once

#include "support/record_builders.h"
#include "veins/chart.h"
#include "veins/vein.h"

#include <fmt/format.h>

#include <Eigen/Core>
#include <Eigen/Geometry>

#include <cmath>
#include <functional>
#include <optional>
#include <string>

// A vein that is known, and straight holes through it, as the veins' room gets them. Everything is invented.
namespace selvage::veins {

struct Scene {
    explicit Scene(double dip = 70.0, double dip_direction = 60.0) {
        chart = chart_of({Eigen::Vector3d(30.0, -20.0, -150.0),
                          base::upward_normal({base::Angle::degrees(dip), base::Azimuth::degrees(dip_direction)})});
        settings.veins.push_back({});
        settings.veins.back().name = "North";
        settings.plan.spacing = 50.0;
    }

    Chart chart;
    std::function<double(const Eigen::Vector2d&)> height = [](const Eigen::Vector2d& x) {
        return 3.0 * std::sin(x.x() / 60.0) + 2.0 * std::cos(x.y() / 45.0) + 0.03 * x.x();
    };
    std::function<double(const Eigen::Vector2d&)> thickness = [](const Eigen::Vector2d& x) {  // along w
        return 0.8 * std::exp(0.4 * std::sin(x.x() / 40.0 + x.y() / 70.0));
    };
    tables::Records records;
    std::vector<paths::Path> paths;
    intercepts::Intercepts intercepts;
    VeinSettings settings;
    std::optional<site::Site> given_site;  // else the ground is the plane through the collars

    site::Site site() const { return given_site ? *given_site : site::assumed_site(records); }

    // A hole through the mid-surface over (u, v), at an angle to the base plane, its in-plane part towards `heading` from u to v.
    // It starts 150 m before the vein (of the hanging wall's side unless said) and ends `beyond` m after it.
    paths::Path& hole(const std::string& name, const Eigen::Vector2d& place, double angle_degrees, double heading_degrees,
                      double beyond = 60.0, bool from_foot_wall = false) {
        const double angle = angle_degrees * std::acos(-1.0) / 180.0, heading = heading_degrees * std::acos(-1.0) / 180.0;
        const Eigen::Vector3d down(std::cos(angle) * std::cos(heading), std::cos(angle) * std::sin(heading),
                                   from_foot_wall ? std::sin(angle) : -std::sin(angle));
        const Eigen::Vector3d direction = chart.chart_from_world_rotation.transpose() * down;
        const Eigen::Vector3d on_vein = chart.world_from_chart({place.x(), place.y(), height(place)});
        paths.push_back(test::straight_path(name, paths.size(), on_vein - before_vein * direction, base::direction_of(direction),
                                            before_vein + beyond));
        add_sources(paths.back());
        tables::Collar collar = test::collar(name, paths.back().stations.front().position, paths.back().end_depth);
        records.collars.push_back(collar);
        log(name, 0.0, paths.back().end_depth);
        return paths.back();
    }

    // The same, with its pick and, if wanted, the true normal of its contacts.
    intercepts::Intercept& hit(const std::string& name, const Eigen::Vector2d& place, double angle_degrees,
                               double heading_degrees, bool oriented = true, bool from_foot_wall = false) {
        const paths::Path& path = hole(name, place, angle_degrees, heading_degrees, 60.0, from_foot_wall);
        intercepts::Intercept met;
        met.hole = name;
        met.vein = "North";
        const double side = from_foot_wall ? -0.5 : 0.5;
        met.from = contact(path, side);
        met.to = contact(path, -side);
        met.point = paths::position_at(path, met.middle());
        met.hole_direction = paths::direction_at(path, met.middle());
        if (oriented) met.core_normal = true_normal(place);
        met.poles = oriented ? 2 : 0;
        met.recovery = 1.0;
        intercepts.met.push_back(met);
        return intercepts.met.back();
    }

    // A lattice of oriented hits, 50 m apart, at angles of 35 to 80 degrees.
    void lattice(int columns, int rows, bool oriented = true) {
        for (int column = 0; column < columns; ++column) {
            for (int row = 0; row < rows; ++row) {
                const int number = column * rows + row;
                const Eigen::Vector2d jitter(4.0 * std::sin(7.0 * number), 4.0 * std::cos(11.0 * number));
                hit(fmt::format("L-{:02}", number), Eigen::Vector2d(50.0 * column, 50.0 * row) + jitter,
                    35.0 + (number * 17) % 46, (number * 67) % 360, oriented);
            }
        }
    }

    void log(const std::string& name, double from, double to) {
        tables::GeologyInterval row;
        row.hole = name;
        row.from = from;
        row.to = to;
        row.rock = "andesite";
        records.geology.push_back(row);
    }

    Eigen::Vector3d true_normal(const Eigen::Vector2d& place) const {
        const double h = 1e-4;
        const Eigen::Vector2d u(h, 0.0), v(0.0, h);
        const Eigen::Vector3d normal((height(place - u) - height(place + u)) / (2.0 * h),
                                     (height(place - v) - height(place + v)) / (2.0 * h), 1.0);
        return chart.chart_from_world_rotation.transpose() * normal.normalized();
    }

    // Depth where a path meets the wall that lies `side` thicknesses over the mid-surface.
    double contact(const paths::Path& path, double side) const {
        const auto gap = [&](double depth) {
            const Eigen::Vector3d p = chart.chart_from_world(paths::position_at(path, depth));
            return height(p.head<2>()) + side * thickness(p.head<2>()) - p.z();
        };
        double low = before_vein - 40.0, high = before_vein + 40.0;
        const bool under = gap(low) > 0.0;
        for (int i = 0; i < 80; ++i) {
            const double middle = (low + high) / 2.0;
            ((gap(middle) > 0.0) == under ? low : high) = middle;
        }
        return (low + high) / 2.0;
    }

    std::vector<Vein> model() { return model_with_findings().value; }
    base::Checked<std::vector<Vein>> model_with_findings() { return model_veins(intercepts, paths, records, site(), settings); }

    // Everything turned about the zenith.
    Scene turned(double degrees) const {
        Scene other = *this;
        const Eigen::Matrix3d turn =
            Eigen::AngleAxisd(degrees * std::acos(-1.0) / 180.0, Eigen::Vector3d::UnitZ()).toRotationMatrix();
        other.chart.centre = turn * chart.centre;
        other.chart.chart_from_world_rotation = chart.chart_from_world_rotation * turn.transpose();
        for (tables::Collar& collar : other.records.collars) collar.position = turn * collar.position;
        for (paths::Path& path : other.paths) {
            for (paths::Station& station : path.stations) {
                station.position = turn * station.position;
                station.tangent = turn * station.tangent;
                station.direction = base::direction_of(station.tangent);
            }
        }
        for (intercepts::Intercept& met : other.intercepts.met) {
            met.point = turn * met.point;
            met.hole_direction = turn * met.hole_direction;
            if (met.core_normal) met.core_normal = turn * *met.core_normal;
        }
        return other;
    }

    static constexpr double before_vein = 150.0;  // m

private:
    static void add_sources(paths::Path& path) {
        const int owner = static_cast<int>(path.number);
        using paths::Scope;
        using paths::SourceKind;
        const double degree = std::acos(-1.0) / 180.0;
        for (const auto& [kind, sd] : {std::pair{SourceKind::azimuth_hole, 0.3 * degree},
                                       std::pair{SourceKind::dip_hole, 0.15 * degree}, std::pair{SourceKind::collar_east, 0.3},
                                       std::pair{SourceKind::collar_north, 0.3}, std::pair{SourceKind::collar_elevation, 0.3}}) {
            path.sources.push_back({{kind, owner, 0}, Scope::hole, sd});
        }
    }
};

inline std::size_t count_of(const std::vector<base::Finding>& findings, const std::string& id) {
    std::size_t count = 0;
    for (const base::Finding& finding : findings) count += finding.check->id == id ? 1 : 0;
    return count;
}

}  // namespace selvage::veins
