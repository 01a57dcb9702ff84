#pragma once

#include "base/angle.h"
#include "base/finding.h"
#include "base/units.h"

#include <Eigen/Core>

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

// The input tables as records: numbers instead of text, metres, grid north, dip positive down, points relative to the project
// origin, holes and veins spelled as the collar table and the project file spell them.
namespace selvage::tables {

enum class HoleStatus { done, active, planned, suspended, abandoned, cancelled };
enum class HoleType { core, percussion, channel, trench, face };

// Core and percussion: counts for deviation, spacing and numbers of holes.
inline bool is_drill_hole(HoleType type) { return type == HoleType::core || type == HoleType::percussion; }
// Done, suspended or abandoned: no more depth will come.
inline bool is_drilled(HoleStatus status) {
    return status == HoleStatus::done || status == HoleStatus::suspended || status == HoleStatus::abandoned;
}

struct Target {
    std::string name;
    std::string vein;  // may be empty
    std::optional<Eigen::Vector3d> point;
    std::optional<double> radius;  // m, on the vein
};

struct Collar {
    base::Origin origin;
    std::string hole;
    Eigen::Vector3d position = Eigen::Vector3d::Zero();
    double depth = 0.0;                    // final depth, planned if the hole is active or planned
    std::optional<base::Azimuth> azimuth;  // planned start, grid
    std::optional<base::Dip> dip;
    HoleStatus status = HoleStatus::done;
    HoleType type = HoleType::core;
    std::string core_size, campaign, date, date_started, date_finished, collar_method, planned_as;
    std::optional<std::string> parent;
    std::optional<double> kickoff;
    std::optional<double> collar_sd, elevation_sd;
    std::optional<double> drilled;  // how far an active hole has come
    std::optional<Target> target;
};

struct Survey {
    base::Origin origin;
    std::string hole;
    double depth = 0.0;
    std::optional<base::Azimuth> azimuth;  // grid; nothing: a dip-only test
    base::Dip dip;
    std::string method, run, date;  // folded method
    std::optional<double> magnetic_field;
    bool magnetic = false;  // the azimuth was measured from magnetic north
    bool use = true;
};

enum class PickState { vein, structure, open_void, lost, faulted, absent };

struct Pick {
    base::Origin origin;
    std::string hole;
    double from = 0.0, to = 0.0;
    std::string vein;
    PickState state = PickState::vein;
    int certainty = 1;
    std::string zone, by, date, comment;
    std::optional<double> from_sd, to_sd;
};

struct GeologyInterval {
    base::Origin origin;
    std::string hole;
    double from = 0.0, to = 0.0;
    std::string rock, vein;
    int certainty = 1;
};

// An element in one column of results, as tables print it.
struct Analyte {
    std::string name;     // "ag_gpt"
    std::string element;  // "Ag"
    std::string unit;     // "g/t", "ppm", "ppb", "%", "oz/st", "oz/t" (troy ounces)
    std::string label() const { return element + " " + unit; }
};

// The analyte that classes, labels and plans speak of: the one of this name, else the first; nothing where there is none.
std::optional<std::size_t> leading_analyte(const std::vector<Analyte>& analytes, const std::string& name);

struct AssayValue {
    std::optional<double> value;   // in the analyte's unit; nothing: not assayed
    bool below_detection = false;  // value stands for "below the limit"
    bool over_limit = false;       // value is the limit
};

enum class SampleType { primary, field_duplicate, coarse_duplicate, pulp_duplicate, standard, blank, check };
enum class SampleStatus { final_result, pending, sent, not_sent, failed };

// What the samples that went to a laboratory together have in common. The dates are ISO 8601.
struct Dispatch {
    std::string certificate, laboratory, method, dispatched, received;
    bool operator==(const Dispatch& other) const {
        return certificate == other.certificate && laboratory == other.laboratory && method == other.method &&
               dispatched == other.dispatched && received == other.received;
    }
};

struct Assay {
    base::Origin origin;
    std::string hole;
    std::optional<double> from, to;
    std::string sample;
    std::shared_ptr<const Dispatch> dispatch;  // of the samples of one, which may be many, held once; nothing: none is known
    SampleType type = SampleType::primary;
    SampleStatus status = SampleStatus::final_result;
    std::optional<double> density;
    std::vector<AssayValue> values;  // one for each of Records::analytes
};

struct Structure {
    base::Origin origin;
    std::string hole;
    double depth = 0.0;
    std::string kind;  // folded
    std::optional<base::Angle> alpha, beta,
        gamma;                               // beta from the bottom line to the down-hole end, whatever the file's convention
    std::optional<base::Attitude> attitude;  // grid
    int quality = 2;
    std::string vein, line;
};

struct Recovery {
    base::Origin origin;
    std::string hole;
    double from = 0.0, to = 0.0;
    std::optional<double> recovery;  // 0 to 1 (and a little over)
    std::optional<double> rqd;       // 0 to 1
};

struct MineralInterval {
    base::Origin origin;
    std::string hole, mineral;
    double from = 0.0, to = 0.0;
    std::optional<double> strength;
};

struct DrillingEvent {
    base::Origin origin;
    std::string hole, kind, note;
    double depth = 0.0;
    std::optional<double> to;
};

struct SizeInterval {
    base::Origin origin;
    std::string hole, size;
    double from = 0.0, to = 0.0;
    bool casing = false, steered = false;
};

struct Outcrop {
    base::Origin origin;
    Eigen::Vector3d position = Eigen::Vector3d::Zero();
    std::string vein;
    std::optional<base::Attitude> attitude;  // grid
    std::optional<double> thickness;         // m
    bool trench = false;
    std::vector<AssayValue> values;  // one for each of Records::analytes, not assayed where the table has no such column
};

struct Pad {
    base::Origin origin;
    std::string pad, status;
    Eigen::Vector3d position = Eigen::Vector3d::Zero();
    std::optional<base::Angle> dip_min, dip_max;
    std::optional<base::Azimuth> azimuth_min, azimuth_max;
    std::optional<double> length_max, radius, move_cost;
};

struct Records {
    base::MapFrame frame;
    std::vector<Collar> collars;   // in the order of the collar table
    std::vector<Collar> left_out;  // rows of it that cannot be used: where a hole that no model knows may start
    std::vector<Survey> surveys;
    std::vector<Pick> picks;
    std::vector<GeologyInterval> geology;
    std::vector<Analyte> analytes;
    std::vector<Assay> assays;
    std::vector<Structure> structures;
    std::vector<Recovery> recovery;
    std::vector<MineralInterval> minerals;
    std::vector<DrillingEvent> drilling;
    std::vector<SizeInterval> sizes;
    std::vector<Outcrop> outcrops;
    std::vector<Pad> pads;
    std::string newest_date;                    // ISO 8601, over all date columns; empty where there is none
    std::map<std::string, std::string> hashes;  // source -> SHA-256 of its bytes
    std::string fingerprint;                    // SHA-256 over the parsed inputs: project values and cells, not their layout
};

}  // namespace selvage::tables
