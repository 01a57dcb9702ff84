#include "base/random.h"
#include "paths/locate.h"
#include "paths/path_builder.h"

#include <gtest/gtest.h>
#include <Eigen/Geometry>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <string>
#include <utility>
#include <vector>

// Made-up projects whose truth is known: each hole in turn is run on from half its depth, and from its collar, by what the others
// tell.
namespace selvage::paths {
namespace {

using base::Angle;
using Eigen::Vector3d;

constexpr double length = 240.0, spacing = 15.0, reading_sd = 0.2, start_sd = 0.8;  // m, degrees
constexpr std::size_t holes = 10, projects = 60;

// Degrees per 100 m; the wander per root of 100 m.
struct Rates {
    double lift_mean, swing_mean, between, wander;
};

struct TrueHole {
    double azimuth = 0.0, dip = 0.0;  // planned, degrees
    std::vector<Row> readings;
    Vector3d end = Vector3d::Zero();
};

TrueHole drawn_hole(const Rates& rates, base::RandomStream& random) {
    TrueHole hole;
    hole.azimuth = random.uniform(0.0, 360.0);
    hole.dip = random.uniform(40.0, 65.0);
    double dip = hole.dip + start_sd * random.normal(), azimuth = hole.azimuth + start_sd * random.normal();
    const double lift = (rates.lift_mean + rates.between * random.normal()) / 100.0;
    const double swing = (rates.swing_mean + rates.between * random.normal()) / 100.0;
    const double step = 0.5, walk = rates.wander / 10.0 * std::sqrt(step);
    for (int i = 0; i * step <= length; ++i) {
        if (i % 30 == 0)
            hole.readings.push_back({i * step, azimuth + reading_sd * random.normal(), dip + reading_sd * random.normal()});
        const double old_dip = dip, old_azimuth = azimuth;
        dip -= lift * step + walk * random.normal();
        azimuth += (swing * step + walk * random.normal()) / Angle::degrees(old_dip).cos();
        if (i * step < length)
            hole.end += step * base::unit_vector({base::Azimuth::degrees(0.5 * (azimuth + old_azimuth)),
                                                  base::Dip::degrees(0.5 * (dip + old_dip))});
    }
    return hole;
}

PathSettings reading_errors() {
    PathSettings settings = no_errors();
    settings.survey_errors.usual.azimuth_station = settings.survey_errors.usual.dip_station = Angle::degrees(reading_sd);
    return settings;
}

tables::Records records_of(const std::vector<TrueHole>& all, std::size_t tested, double surveyed) {
    tables::Records records;
    for (std::size_t i = 0; i < all.size(); ++i) {
        const std::string name = "H-" + std::to_string(i);
        tables::Collar collar = collar_named(name, length);
        collar.azimuth = base::Azimuth::degrees(all[i].azimuth);
        collar.dip = base::Dip::degrees(all[i].dip);
        if (i == tested) collar.status = surveyed > 0.0 ? tables::HoleStatus::active : tables::HoleStatus::planned;
        records.collars.push_back(collar);
        for (const Row& row : all[i].readings)
            if (i != tested || row.depth < surveyed) records.surveys.push_back(survey_row(name, row));
    }
    return records;
}

struct Scores {
    double lift = 0.0, swing = 0.0, squares = 0.0, count = 0.0;
    double rms() const { return std::sqrt(squares / (2.0 * count)); }
};

void score(Scores& scores, const Path& path, const Vector3d& truth) {
    const Vector3d tangent = direction_at(path, length), right = tangent.cross(Vector3d::UnitZ()).normalized();
    const Vector3d up = right.cross(tangent), off = truth - position_at(path, length);
    const Eigen::Matrix3d covariance = covariance_at(path, length);
    const double lift = up.dot(off) / std::sqrt(up.dot(covariance * up));
    const double swing = right.dot(off) / std::sqrt(right.dot(covariance * right));
    scores.lift += lift;
    scores.swing += swing;
    scores.squares += lift * lift + swing * swing;
    scores.count += 1.0;
}

Scores scores_of(const Rates& rates, double surveyed) {
    Scores scores;
    for (std::uint64_t project = 0; project < projects; ++project) {
        base::RandomStream random("run on", {project});
        std::vector<TrueHole> all;
        for (std::size_t i = 0; i < holes; ++i) all.push_back(drawn_hole(rates, random));
        for (std::size_t tested = 0; tested < holes; ++tested)
            score(scores, locate(records_of(all, tested, surveyed), reading_errors()).value[tested], all[tested].end);
    }
    std::printf("lift %.1f swing %.1f between %.1f, surveyed to %.0f m: mean lift %.2f, swing %.2f, rms %.2f\n", rates.lift_mean,
                rates.swing_mean, rates.between, surveyed, scores.lift / scores.count, scores.swing / scores.count, scores.rms());
    return scores;
}

// Windows fixed beforehand. The mean's shrinkage leaves 1/(holes + 1) of a steady rate; the mean score of 60 projects scatters by
// 0.05.
void expect_honest(const Scores& scores) {
    EXPECT_NEAR(scores.lift / scores.count, 0.0, 0.3);
    EXPECT_NEAR(scores.swing / scores.count, 0.0, 0.3);
    EXPECT_GT(scores.rms(), 0.8);
    EXPECT_LT(scores.rms(), 1.15);
}

TEST(RunOn, ErrorsOfHolesAheadAreAsLargeAsTheySay) {
    for (const double surveyed : {0.0, 120.0}) {
        expect_honest(scores_of({1.5, 1.0, 1.2, 0.6}, surveyed));
        expect_honest(scores_of({-1.0, 0.0, 1.8, 0.9}, surveyed));
        expect_honest(scores_of({0.0, -1.5, 1.5, 0.3}, surveyed));
    }
}

// Closed form: two rates at right angles to the hole are one arc of their root sum square.
TEST(RunOn, ItIsACircularArc) {
    Path path;
    path.lift = 3e-4;
    path.swing = 4e-4;
    Station start;
    start.direction = {base::Azimuth::degrees(30), base::Dip::degrees(50)};
    path.stations = {start};
    settle(path.stations);
    for (const double run : {0.0, 1.0, 200.0, 900.0}) {
        const RunOn on = run_on(path, run);
        EXPECT_NEAR(on.displacement.norm(), 2.0 / 5e-4 * std::sin(5e-4 * run / 2.0), 1e-9);  // the chord
        EXPECT_NEAR(on.tangent.dot(path.stations[0].tangent), std::cos(5e-4 * run), 1e-12);
    }
    EXPECT_GT(run_on(path, 100).tangent.z(), path.stations[0].tangent.z());
    EXPECT_GT(base::direction_of(run_on(path, 100).tangent).azimuth.degrees(), 30.0);
}

TEST(RunOn, AVerticalPlanStaysStraightAndItsErrorHoldsTheMean) {
    tables::Records records;
    for (int i = 0; i < 9; ++i) {
        const std::string name = "H-" + std::to_string(i);
        tables::Collar collar = collar_named(name, 200);
        if (i == 8) {
            collar.status = tables::HoleStatus::planned;
            collar.dip = base::Dip::degrees(90);
            collar.azimuth = base::Azimuth::degrees(0);
        } else {
            add_surveys(records, name, {{0, 90, 60}, {50, 90, 59}, {100, 90, 58}, {150, 90, 57}, {200, 90, 56}});
        }
        records.collars.push_back(collar);
    }
    const Path path = locate(records, no_errors()).value[8];
    EXPECT_LT((position_at(path, 200) - Vector3d(0, 0, -200)).norm(), 1e-9);
    for (const ErrorSource& source : path.sources) {
        if (source.id.kind != SourceKind::lift_rate) continue;
        EXPECT_GT(source.sd, 0.85 * Angle::degrees(0.02).radians());
    }
}

}  // namespace
}  // namespace selvage::paths
