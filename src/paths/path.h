#pragma once

#include "base/angle.h"
#include "tables/records.h"

#include <Eigen/Core>

#include <cstddef>
#include <optional>
#include <string>
#include <tuple>
#include <vector>

// A hole's path in space, and how it depends on each named source of error.
namespace selvage::paths {

// Named sources of error (design: errors are sources, not covariances).
enum class SourceKind {
    azimuth_common,
    azimuth_hole,
    azimuth_station,
    dip_hole,
    dip_station,
    depth_scale,
    collar_east,
    collar_north,
    collar_elevation,
    start_azimuth,
    start_dip,  // a planned or unsurveyed hole's start against its plan
    lift_rate,
    swing_rate,  // hole deviation where nobody has surveyed: fall of dip, turn to the right across the hole
    lift_wander,
    swing_wander,  // and how these vary along the hole
    core_turn,     // of a contact on core that is not oriented, about the hole: moves no path
    fault_slip_east,
    fault_slip_north,
    fault_slip_elevation  // of a fault's slip (owner: its number), which moves what lies on its hanging-wall side back
};

enum class Scope { project, hole, station };

// Which source: its kind, whose it is (for azimuth_common the number of the survey method in the sorted list of the methods used
// in the project, otherwise the hole's number) and the station within the hole (for azimuth_hole and dip_hole: the place in
// Path::methods of the tool, 0 where one tool surveyed it all).
struct SourceId {
    SourceKind kind = SourceKind::azimuth_common;
    int owner = 0;
    int station = 0;
    friend bool operator<(const SourceId& a, const SourceId& b) {
        return std::tie(a.kind, a.owner, a.station) < std::tie(b.kind, b.owner, b.station);
    }
    friend bool operator==(const SourceId& a, const SourceId& b) {
        return std::tie(a.kind, a.owner, a.station) == std::tie(b.kind, b.owner, b.station);
    }
};

struct ErrorSource {
    SourceId id;
    Scope scope = Scope::hole;
    double sd = 0.0;  // radians; metres for collar_*; a fraction for depth_scale; radians per metre for the rates, per root of a
                      // metre for the wanders
};

// True of the sources that speak of where the drill will go, not of how it was measured: a noise factor on surveys leaves them
// alone.
bool is_deviation(SourceKind kind);
bool is_fault_slip(SourceKind kind);

// What one source does at one depth: true position = recorded + displacement x e, true normal = N + e (rotation x N).
struct SourceEffect {
    ErrorSource source;
    Eigen::Vector3d displacement = Eigen::Vector3d::Zero();  // m per unit of e
    Eigen::Vector3d rotation = Eigen::Vector3d::Zero();      // axis times rate, of core at that depth
};

struct Station {
    double depth = 0.0;  // m from the collar (a daughter's: the parent's collar)
    base::Direction direction;
    bool measured = false;    // false: carried, planned, or a daughter's kick-off
    int azimuth_method = -1;  // which of Path::methods its azimuth comes from; -1: nobody measured it
    int dip_method = -1;
    int measured_at = -1;  // the station whose reading gave its direction (itself, or the one that was carried up); -1: none

    // Set by `settle`.
    Eigen::Vector3d tangent = -Eigen::Vector3d::UnitZ();
    Eigen::Vector3d position = Eigen::Vector3d::Zero();
    Eigen::Vector3d azimuth_lever = Eigen::Vector3d::Zero();  // by which a turn of this station alone, by one radian about the
    Eigen::Vector3d dip_lever = Eigen::Vector3d::Zero();      // zenith or down, moves all below the next station, m
};

enum class PathKind { surveyed, extrapolated, forecast, planned };
const char* word_of(PathKind kind);

// One hole. Positions run from the kick-off (0 for a hole of its own) on, past the end too: from the last direction on along the
// circular arc of the lift and swing that are expected of it.
struct Path {
    std::string hole;
    std::size_t number = 0;  // index in the collar table
    tables::HoleStatus status = tables::HoleStatus::done;
    tables::HoleType type = tables::HoleType::core;
    std::optional<std::size_t> parent;                 // a daughter's: its parent's number
    Eigen::Vector3d collar = Eigen::Vector3d::Zero();  // where its depths are counted from: a daughter's is the first ancestor's
    double start_depth = 0.0;                          // 0, or a daughter's kick-off
    double end_depth = 0.0;                            // final depth, planned if active or planned
    double surveyed_depth = 0.0;                       // deepest measured station; start_depth where there is none
    double drilled_depth = 0.0;      // end_depth of a drilled hole, `drilled` of an active one, 0 of a planned one
    double lift_depth = 0.0;         // deepest station with a measured dip: below it the dip is a forecast; start_depth if none
    double swing_depth = 0.0;        // the same of the azimuth
    double lift = 0.0, swing = 0.0;  // expected past the last station: up and to the right, radians per metre
    std::vector<Station> stations;   // first one at start_depth; at least one
    std::vector<int> methods;        // numbers of the survey methods of its stations, the chosen run's first

    std::vector<ErrorSource> sources;  // its own, in the order of SourceId; `effects_at` says what each does at a depth
    // Of a daughter: its ancestors' sources at the kick-off. The displacement is constant below it; the rotation is zero, but for
    // a daughter that runs on in the parent's direction, which it turns. (Collar and depth scale, shared whole, are in
    // `sources`.)
    std::vector<SourceEffect> inherited;
};

// Works out the tangents, positions and levers of all stations, from their depths and directions and the first one's position.
// Depths must rise.
void settle(std::vector<Station>& stations);

// Position at any depth at or below start_depth, on the exact arc between stations and past the last one. Relative m.
Eigen::Vector3d position_at(const Path& path, double depth);
// Unit vector down the hole.
Eigen::Vector3d direction_at(const Path& path, double depth);
// Nearer to the vertical (88 degrees) than this an azimuth says nothing: what is divided by cos(dip) is held there.
double held_dip_cosine(double dip_cosine);
// The arc on which the path goes on past its last station, over `run` metres.
struct RunOn {
    Eigen::Vector3d displacement, tangent;
};
RunOn run_on(const Path& path, double run);
PathKind kind_at(const Path& path, double depth);

// Every source that matters at a depth, in the order of SourceId. The deviation's (is_deviation) are zero where it is surveyed.
std::vector<SourceEffect> effects_at(const Path& path, double depth);

// The sources' signs are these, the same for positions and for the core: an azimuth's turns anticlockwise seen from above
// (z x), a dip's turns down (h x, h = unit(z x t)), a lift's turns up, a swing's to the right (of a wander, sd x sqrt(run^3/3)
// after `run` metres, as of a random walk, its places taken as fully correlated), a collar's is along its axis. The station
// sources are exact derivatives of minimum curvature; those of a hole or project are the sums of its stations'. Mathematics:
// Williamson (2000), SPE 67616, with few and simple terms.

// Covariance of the position at one depth, m2 (east, north, up): the sum over its sources.
Eigen::Matrix3d covariance_at(const Path& path, double depth);
// Covariance of the positions of two points of any two paths: the sum over the sources that they share.
Eigen::Matrix3d covariance_between(const Path& a, double depth_a, const Path& b, double depth_b);

}  // namespace selvage::paths
