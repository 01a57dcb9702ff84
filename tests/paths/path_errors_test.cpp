#include "base/random.h"
#include "paths/locate.h"
#include "paths/path.h"
#include "paths/path_builder.h"
#include "paths/perturbed_path.h"

#include <gtest/gtest.h>
#include <Eigen/Dense>

#include <cmath>
#include <cstdint>
#include <map>
#include <string>
#include <utility>
#include <vector>

namespace selvage::paths {
namespace {

using base::Angle;
using Eigen::Matrix3d;
using Eigen::Vector3d;

const std::vector<Row> mining_hole = {{0, 140, 60}, {50, 142, 59}, {100, 145, 57}, {150, 149, 55.5}, {210, 152, 53}};

Path path_with(const std::vector<Row>& rows, double depth, const PathSettings& settings) {
    const auto located = locate(one_hole(rows, depth), settings);
    EXPECT_EQ(located.value.size(), 1U);
    return located.value.front();
}

Vector3d displacement_of(const Path& path, double depth, SourceKind kind) {
    for (const SourceEffect& effect : effects_at(path, depth))
        if (effect.source.id.kind == kind) return effect.displacement;
    ADD_FAILURE() << "no such source";
    return Vector3d::Zero();
}

// The sum over the stations of one kind, squared, of the part along a direction: variance per square of the error.
double random_variance(const Path& path, double depth, SourceKind kind, const Vector3d& along) {
    double sum = 0.0;
    for (const SourceEffect& effect : effects_at(path, depth))
        if (effect.source.id.kind == kind) sum += std::pow(effect.displacement.dot(along), 2);
    return sum;
}

std::vector<Row> straight_rows(double azimuth, double dip, double step, int intervals) {
    std::vector<Row> rows;
    for (int i = 0; i <= intervals; ++i) rows.push_back({step * i, azimuth, dip});
    return rows;
}

// netwasgroup.us "Ellipse of uncertainty": straight hole of 2,500 ft, inclination 30, azimuth 90; systematic 1 degree of azimuth,
// 0.5 of inclination, 1/500 of depth. Across MD sin(inclination) x 1 degree, in the vertical plane MD x 0.5 degree, along 5 ft.
TEST(PathErrors, EllipseOfAStraightHole) {
    PathSettings settings = no_errors();
    settings.survey_errors.usual.azimuth_hole = Angle::degrees(1.0);
    settings.survey_errors.usual.dip_hole = Angle::degrees(0.5);
    settings.survey_errors.usual.depth_scale = 1.0 / 500.0;
    const Path path = path_with(straight_rows(90, 60, 2500, 1), 2500, settings);
    const Vector3d end = position_at(path, 2500);
    EXPECT_NEAR(end.x(), 1250.0, 1e-8);
    EXPECT_NEAR(end.y(), 0.0, 1e-8);
    EXPECT_NEAR(end.z(), -2165.063509461, 1e-8);
    const Matrix3d covariance = covariance_at(path, 2500);
    const Vector3d along = end.normalized(), across = Vector3d::UnitY(), upwards = across.cross(along);
    EXPECT_NEAR(std::sqrt(along.dot(covariance * along)), 5.0, 1e-8);
    EXPECT_NEAR(std::sqrt(across.dot(covariance * across)), 21.816615650, 1e-8);
    EXPECT_NEAR(std::sqrt(upwards.dot(covariance * upwards)), 21.816615650, 1e-8);
}

// The same expressions with figures in which the two half axes differ.
TEST(PathErrors, EllipseOfAFlatterHole) {
    PathSettings settings = no_errors();
    settings.survey_errors.usual.azimuth_hole = Angle::degrees(1.2);
    settings.survey_errors.usual.dip_hole = Angle::degrees(0.7);
    const Path path = path_with(straight_rows(0, 25, 400, 1), 400, settings);
    const Matrix3d covariance = covariance_at(path, 400);
    EXPECT_NEAR(std::sqrt(covariance(0, 0)), 400.0 * Angle::degrees(25).cos() * Angle::degrees(1.2).radians(), 1e-9);
    const Vector3d upwards = Vector3d(0, Angle::degrees(25).sin(), Angle::degrees(25).cos());
    EXPECT_NEAR(std::sqrt(upwards.dot(covariance * upwards)), 400.0 * Angle::degrees(0.7).radians(), 1e-9);
}

// Closed form: an azimuth error common to all stations turns the path about the vertical through its collar. Ours is
// anticlockwise.
TEST(PathErrors, CommonAzimuthTurnsAboutTheCollar) {
    for (const std::vector<Row>& rows :
         {mining_hole, {{0, 0, 90}, {1200, 0, 90}, {2100, 75, 30}, {5100, 75, 30}, {5400, 75, 0}, {8000, 75, 0}}}) {
        const Path path = path_with(rows, 9000, {});
        for (const double depth : {20.0, 50.0, 137.0, 210.0, 2500.0, 8500.0}) {
            const Vector3d from_collar = position_at(path, depth);
            const Vector3d expected(-from_collar.y(), from_collar.x(), 0.0);
            EXPECT_LT((displacement_of(path, depth, SourceKind::azimuth_common) - expected).norm(), 1e-9 * (1.0 + depth));
            EXPECT_LT((displacement_of(path, depth, SourceKind::azimuth_hole) - expected).norm(), 1e-9 * (1.0 + depth));
        }
    }
}

// Closed form: a depth scale stretches the path from its collar.
TEST(PathErrors, DepthScaleStretchesFromTheCollar) {
    const Path path = path_with(mining_hole, 250, {});
    for (const double depth : {30.0, 125.0, 240.0})
        EXPECT_LT((displacement_of(path, depth, SourceKind::depth_scale) - position_at(path, depth)).norm(), 1e-9);
}

// Closed form: straight hole, ten intervals of 30 m, dip 40: lateral sd = sd cos(dip) sqrt(15^2 + 9 x 30^2 + 15^2); systematic
// 300 m.
TEST(PathErrors, RandomAndSystematicErrorsOfAStraightHole) {
    const Path path = path_with(straight_rows(0, 40, 30, 10), 300, {});
    const Vector3d across = Vector3d::UnitX(), upwards(0, Angle::degrees(40).sin(), Angle::degrees(40).cos());
    EXPECT_NEAR(std::sqrt(random_variance(path, 300, SourceKind::azimuth_station, across)), 70.833226381, 1e-8);
    EXPECT_NEAR(std::abs(displacement_of(path, 300, SourceKind::azimuth_hole).x()), 229.813332936, 1e-8);
    EXPECT_NEAR(std::sqrt(random_variance(path, 300, SourceKind::dip_station, upwards)), 92.466210045, 1e-8);
    EXPECT_NEAR(std::abs(displacement_of(path, 300, SourceKind::dip_hole).dot(upwards)), 300.0, 1e-8);
}

// Central differences of minimum curvature (reference calculation in numpy): per radian of azimuth clockwise (N, E, down)
// (-64.03986106, -94.8353572, 0), of inclination (-144.76073494, 98.97772277, -114.67100803); ours are anticlockwise and of dip.
TEST(PathErrors, SensitivitiesOfTheMiningHole) {
    const Path path = path_with(mining_hole, 210, {});
    const Vector3d azimuth = displacement_of(path, 210, SourceKind::azimuth_hole);
    EXPECT_LT((azimuth + Vector3d(-94.8353572, -64.03986106, 0.0)).norm(), 1e-6);
    const Vector3d dip = displacement_of(path, 210, SourceKind::dip_hole);
    EXPECT_LT((dip - Vector3d(-98.97772277, 144.76073494, -114.67100803)).norm(), 1e-6);
    const Vector3d depth = displacement_of(path, 210, SourceKind::depth_scale);
    EXPECT_LT((depth - Vector3d(64.03986106, -94.8353572, -175.75688017)).norm(), 1e-6);
}

// Reference calculation in numpy: azimuth common 1 degree, dip common 0.5, random 0.5 and 0.25 at all five stations, depth scale
// 0.001, collar 0.5 m. In (N, E, down) N-down is 1.31619141 and E-down -0.89957478: in our frame of elevations both change sign.
TEST(PathErrors, CovarianceOfTheMiningHole) {
    PathSettings settings = no_errors();
    settings.survey_errors.usual = {Angle::degrees(1.0), Angle::degrees(0.0),  Angle::degrees(0.5),
                                    Angle::degrees(0.5), Angle::degrees(0.25), 0.001};
    settings.survey_errors.collar = 0.5;
    const Matrix3d covariance = covariance_at(path_with(mining_hole, 210, settings), 210);
    EXPECT_NEAR(covariance(1, 1), 3.25843994, 1e-7);
    EXPECT_NEAR(covariance(0, 1), 0.7937799, 1e-7);
    EXPECT_NEAR(covariance(1, 2), -1.31619141, 1e-7);
    EXPECT_NEAR(covariance(0, 0), 3.930467, 1e-6);
    EXPECT_NEAR(covariance(0, 2), 0.89957478, 1e-7);
    EXPECT_NEAR(covariance(2, 2), 1.33673697, 1e-7);
}

TEST(PathErrors, ErrorsOfAMethodAreItsOwn) {
    PathSettings settings = no_errors();
    settings.survey_errors.by_method["gyro"] = settings.survey_errors.usual;
    settings.survey_errors.by_method["gyro"].azimuth_hole = Angle::degrees(0.2);
    tables::Records records;
    records.collars = {collar_named("A-1", 100), collar_named("A-2", 100)};
    add_surveys(records, "A-1", straight_rows(0, 0, 50, 2), "gyro");
    add_surveys(records, "A-2", straight_rows(0, 0, 50, 2), "single shot");
    const auto located = locate(records, settings).value;
    EXPECT_NEAR(covariance_at(located[0], 100)(0, 0), std::pow(100.0 * Angle::degrees(0.2).radians(), 2), 1e-12);
    EXPECT_NEAR(covariance_at(located[1], 100)(0, 0), 0.0, 1e-12);
}

// A made-up site: holes from one pad, a daughter, a daughter's daughter, a planned hole and a planned daughter, a dip-only row,
// and a hole that a gyro followed down to 100 m and another tool further.
tables::Records made_up_site() {
    tables::Records records;
    for (const auto& [hole, depth] : std::vector<std::pair<std::string, double>>{
             {"W-2", 320}, {"P", 340}, {"W-1", 330}, {"Q", 260}, {"W-3", 330}, {"N", 300}, {"M", 280}})
        records.collars.push_back(collar_named(hole, depth));
    add_surveys(records, "P", {{12, 40, 62}, {40, 41, 61.5}, {80, 43, 60}, {130, 45, 59}, {190, 48, 57}, {250, 50, 55}});
    add_surveys(records, "W-1", {{150, 47.5, 56}, {180, 49, 55}, {240, 52, 53.5}});
    add_surveys(records, "W-2", {{215, 50, 56}, {250, 51, 55}, {300, 54, 53}});
    add_surveys(records, "Q", {{0, 95, 50}, {60, 97, 49}, {120, 99, 47.5}, {200, 103, 46}});
    records.surveys.back().azimuth.reset();
    add_surveys(records, "M", {{0, 10, 55}, {25, 11, 54.5}, {50, 12, 54}, {75, 13, 53.5}, {100, 14, 53}}, "gyro");
    add_surveys(records, "M", {{0, 12, 55}, {90, 14, 54}, {150, 17, 52}, {240, 20, 50}}, "single shot");
    records.collars[0].parent = "W-1";
    records.collars[0].kickoff = 200.0;
    records.collars[2].parent = "P";
    records.collars[2].kickoff = 131.0;
    records.collars[4].parent = "P";
    records.collars[4].kickoff = 160.0;
    records.collars[4].status = tables::HoleStatus::planned;
    records.collars[5].status = tables::HoleStatus::planned;
    records.collars[5].azimuth = base::Azimuth::degrees(70);
    records.collars[5].dip = base::Dip::degrees(58);
    return records;
}

struct Site {
    std::vector<Path> paths;
    std::vector<ErrorSource> sources;  // of all holes, each once
    Site() : paths(locate(made_up_site(), {}).value) {
        std::map<SourceId, ErrorSource> all;
        for (const Path& path : paths)
            for (const ErrorSource& source : path.sources) all[source.id] = source;
        for (const auto& [id, source] : all) sources.push_back(source);
    }
    // All holes moved by one set of errors.
    std::vector<Path> moved(const Errors& errors, double to = 340.0) const {
        std::vector<Path> all(paths.size());
        for (const std::size_t number : {1, 2, 0, 3, 4, 5, 6}) {
            const Path& path = paths[number];
            all[number] = perturbed(path, errors, path.parent ? &all[*path.parent] : nullptr, to);
        }
        return all;
    }
};

// The recorded depth of a point is off by the depth scale too.
Vector3d true_position(const Path& recorded, const Path& moved, const Errors& errors, double depth) {
    return position_at(moved, depth * depth_factor(recorded, errors));
}

TEST(PathErrors, EverySourceMovesThePathAsTheRealPathMoves) {
    const Site site;
    constexpr double step = 1e-5;
    for (const ErrorSource& source : site.sources) {
        const bool rate = is_deviation(source.id.kind) && source.id.kind != SourceKind::start_azimuth &&
                          source.id.kind != SourceKind::start_dip;
        const double size = rate ? 1e-7 : step;
        const Errors forth{{source.id, size}}, back{{source.id, -size}};
        const std::vector<Path> there = site.moved(forth), here = site.moved(back);
        for (const Path& path : site.paths) {
            for (double depth = path.start_depth + 7.0; depth < 335.0; depth += 33.0) {
                const Vector3d expected = (true_position(path, there[path.number], forth, depth) -
                                           true_position(path, here[path.number], back, depth)) /
                                          (2.0 * size);
                Vector3d said = Vector3d::Zero();
                for (const SourceEffect& effect : effects_at(path, depth))
                    if (effect.source.id == source.id) said = effect.displacement;
                const bool goes_on =
                    path.parent && path.stations.size() == 1;  // its parent's stations turn it by their linear shares
                const double share = rate ? 0.002 : goes_on ? 0.05 : 1e-5;
                const double tolerance = share * expected.norm() + (rate ? 10.0 : 1e-5);
                EXPECT_LT((said - expected).norm(), tolerance)
                    << path.hole << " at " << depth << ": source " << static_cast<int>(source.id.kind) << ' ' << source.id.owner
                    << ' ' << source.id.station << "\nsaid " << said.transpose() << "\nreal " << expected.transpose();
            }
        }
    }
}

void expect_covariance(const Matrix3d& said, const Matrix3d& drawn, const Matrix3d& of_a, const Matrix3d& of_b, double draws) {
    for (int i = 0; i < 3; ++i)
        for (int j = 0; j < 3; ++j) {
            const double sd = std::sqrt((of_a(i, i) * of_b(j, j) + said(i, j) * said(i, j)) / draws);
            EXPECT_NEAR(said(i, j), drawn(i, j), 4.0 * sd + 0.005 * std::sqrt(of_a(i, i) * of_b(j, j))) << i << ' ' << j;
        }
}

struct Place {
    std::size_t hole;
    double depth;
};

TEST(PathErrors, CovariancesAreThoseOfDrawnPaths) {
    const Site site;
    constexpr int draws = 4000;
    const std::vector<Place> places = {{1, 250}, {1, 330}, {2, 300}, {0, 310}, {3, 150}, {4, 320}, {5, 200}, {6, 220}};
    std::vector<std::vector<Vector3d>> off(places.size());
    for (int draw = 0; draw < draws; ++draw) {
        base::RandomStream random("drawn paths", {static_cast<std::uint64_t>(draw)});
        Errors errors;
        for (const ErrorSource& source : site.sources) errors[source.id] = source.sd * random.normal();
        const std::vector<Path> moved = site.moved(errors);
        for (std::size_t i = 0; i < places.size(); ++i) {
            const Path& path = site.paths[places[i].hole];
            off[i].push_back(true_position(path, moved[path.number], errors, places[i].depth) -
                             position_at(path, places[i].depth));
        }
    }
    const auto said = [&](std::size_t i, std::size_t j) {
        return covariance_between(site.paths[places[i].hole], places[i].depth, site.paths[places[j].hole], places[j].depth);
    };
    for (std::size_t i = 0; i < places.size(); ++i) {
        EXPECT_LT((said(i, i) - covariance_at(site.paths[places[i].hole], places[i].depth)).norm(), 1e-12);
        for (std::size_t j = 0; j < places.size(); ++j) {
            Matrix3d drawn = Matrix3d::Zero();
            for (int draw = 0; draw < draws; ++draw)
                drawn += off[i][static_cast<std::size_t>(draw)] * off[j][static_cast<std::size_t>(draw)].transpose() / draws;
            SCOPED_TRACE(std::to_string(i) + " with " + std::to_string(j));
            expect_covariance(said(i, j), drawn, said(i, i), said(j, j), draws);
        }
    }
}

// Turns some 300 m past the last reading, per unit of error: of a rate 300, of a wander 15, of an angle 1.
double scale_of(SourceKind kind) {
    if (kind == SourceKind::lift_rate || kind == SourceKind::swing_rate) return 100.0;
    return kind == SourceKind::lift_wander || kind == SourceKind::swing_wander ? 5.0 : 1.0;
}

// The rotation and the displacement of a source are of one sign: just past a point, the displacement has grown by rotation x
// step.
TEST(PathErrors, DisplacementGrowsAsTheDirectionTurns) {
    const Site site;
    constexpr double step = 1e-3;
    for (const Path& path : site.paths) {
        for (const double depth : {path.end_depth - 1.0, path.start_depth + 60.0}) {
            const auto above = effects_at(path, depth - step), here = effects_at(path, depth),
                       below = effects_at(path, depth + step);
            if (above.size() != here.size() || below.size() != here.size()) continue;
            for (std::size_t i = 0; i < here.size(); ++i) {
                if (here[i].source.id.kind == SourceKind::depth_scale) continue;
                const Vector3d growth = (below[i].displacement - above[i].displacement) / (2.0 * step);
                const Vector3d turn = here[i].rotation.cross(direction_at(path, depth));
                const double scale = scale_of(here[i].source.id.kind);
                EXPECT_LT((growth - turn).norm(), 0.02 * scale)
                    << path.hole << " at " << depth << ' ' << static_cast<int>(here[i].source.id.kind);
            }
        }
    }
}

TEST(PathErrors, EachToolOfAHoleHasItsOwnErrors) {
    const Site site;
    const Path& path = site.paths[6];
    ASSERT_EQ(path.methods.size(), 2U);
    std::size_t common = 0, of_hole = 0;
    for (const ErrorSource& source : path.sources) {
        common += source.id.kind == SourceKind::azimuth_common ? 1U : 0U;
        of_hole += source.id.kind == SourceKind::azimuth_hole ? 1U : 0U;
    }
    EXPECT_EQ(common, 2U);
    EXPECT_EQ(of_hole, 2U);
    for (const SourceEffect& effect : effects_at(path, 60)) {
        if (effect.source.id.kind == SourceKind::azimuth_hole && effect.source.id.station == 1) {
            EXPECT_EQ(effect.displacement.norm(), 0.0);
        }
    }
}

TEST(PathErrors, DeviationIsZeroWhereTheHoleIsSurveyed) {
    const Site site;
    for (const SourceEffect& effect : effects_at(site.paths[1], 200)) {
        if (!is_deviation(effect.source.id.kind)) continue;
        EXPECT_EQ(effect.displacement.norm() + effect.rotation.norm(), 0.0);
    }
}

}  // namespace
}  // namespace selvage::paths
