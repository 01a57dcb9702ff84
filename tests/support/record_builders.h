#pragma once

#include "orientation/orient.h"
#include "paths/path.h"
#include "tables/records.h"

#include <optional>
#include <string>
#include <vector>

// Short builders of records for tests: what a test does not speak of has its default.
namespace selvage::test {

// The analytes of invented projects: silver first.
inline std::vector<tables::Analyte> silver_and_lead() { return {{"ag_gpt", "Ag", "g/t"}, {"pb_pct", "Pb", "%"}}; }

inline tables::Collar collar(const std::string& hole, const Eigen::Vector3d& position, double depth) {
    tables::Collar out;
    out.origin = {"collars", "collars.csv", 2};
    out.hole = hole;
    out.position = position;
    out.depth = depth;
    return out;
}

inline tables::Pick pick(const std::string& hole, double from, double to, const std::string& vein, std::size_t row = 2) {
    tables::Pick out;
    out.origin = {"picks", "picks.csv", row};
    out.hole = hole;
    out.from = from;
    out.to = to;
    out.vein = vein;
    return out;
}

// A sample with a value for each analyte in turn; nothing: not assayed.
inline tables::Assay sample(const std::string& hole, double from, double to, const std::vector<std::optional<double>>& values) {
    tables::Assay out;
    out.origin = {"assays", "assays.csv", 2};
    out.hole = hole;
    out.from = from;
    out.to = to;
    for (const std::optional<double>& value : values) {
        tables::AssayValue assay;
        assay.value = value;
        out.values.push_back(assay);
    }
    return out;
}

inline tables::Recovery recovery(const std::string& hole, double from, double to, double share) {
    tables::Recovery out;
    out.hole = hole;
    out.from = from;
    out.to = to;
    out.recovery = share;
    return out;
}

// A straight hole, surveyed at its collar and its end.
inline paths::Path straight_path(const std::string& hole, std::size_t number, const Eigen::Vector3d& collar_position,
                                 const base::Direction& direction, double depth) {
    paths::Path out;
    out.hole = hole;
    out.number = number;
    out.end_depth = out.surveyed_depth = out.drilled_depth = depth;
    for (const double at : {0.0, depth}) {
        paths::Station station;
        station.depth = at;
        station.direction = direction;
        station.tangent = base::unit_vector(direction);
        station.position = collar_position + at * station.tangent;
        station.measured = true;
        out.stations.push_back(station);
    }
    return out;
}

inline orientation::Orientation contact(const std::string& hole, double depth, const std::string& vein,
                                        const std::optional<Eigen::Vector3d>& pole, const std::optional<base::Angle>& alpha) {
    orientation::Orientation out;
    out.origin = {"structures", "structures.csv", 2};
    out.hole = hole;
    out.depth = depth;
    out.kind = "contact";
    out.vein = vein;
    out.pole = pole;
    out.alpha = alpha;
    return out;
}

}  // namespace selvage::test
