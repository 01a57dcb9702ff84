#include "paths/place_hole.h"

#include "base/text.h"
#include "paths/directed_reading.h"
#include "paths/hole_sources.h"
#include "paths/minimum_curvature.h"
#include "paths/path_checks.h"
#include "paths/planned_start.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cmath>

namespace selvage::paths {

namespace {

using base::Angle;
using base::Azimuth;
using base::Checked;
using base::Direction;
using base::Finding;
using Eigen::Vector3d;

// Depths nearer than this are one: tables print 0.01 m.
constexpr double same_depth = 0.005;
// A daughter's row above its kick-off is its parent's where both say the same to a figure of the table ...
const Angle same_reading = Angle::degrees(0.05);
// ... or where it lies on the parent's path to about what one reading is worth (another run than the chosen one may be copied).
const Angle near_path = Angle::degrees(0.5);

Finding about(const base::Check& check, const tables::Collar& collar, std::string message) {
    return {&check, collar.origin, collar.hole, std::move(message)};
}

// --- a daughter's rows above its kick-off

bool is_parents(const Reading& reading, const HoleToPlace& hole) {
    const Direction at_depth = base::direction_of(direction_at(*hole.parent, std::max(reading.depth, hole.parent->start_depth)));
    const Direction own{reading.azimuth.value_or(at_depth.azimuth), reading.dip};
    if (!(near_path < dogleg_between(at_depth, own))) return true;
    if (hole.parent_rows == nullptr) return false;
    return std::any_of(hole.parent_rows->begin(), hole.parent_rows->end(), [&](const tables::Survey* row) {
        return std::abs(row->depth - reading.depth) < same_depth && row->azimuth.has_value() == reading.azimuth.has_value() &&
               !(same_reading < dogleg_between({row->azimuth.value_or(Azimuth()), row->dip},
                                               {reading.azimuth.value_or(Azimuth()), reading.dip}));
    });
}

// The readings that make this hole's path: from its start on.
std::vector<Reading> own_readings(const HoleToPlace& hole, double start_depth, const base::MapFrame& frame,
                                  std::vector<Finding>& findings) {
    std::vector<Reading> own;
    for (const Reading& reading : hole.surveys->chosen) {
        if (reading.depth > start_depth - same_depth) {
            own.push_back(reading);
        } else if (hole.parent != nullptr && !is_parents(reading, hole)) {
            findings.push_back(
                about(daughter_survey_differs, *hole.collar,
                      fmt::format("the reading at {} {} lies above the kick-off and is not that of {}: left out",
                                  base::fixed(frame.length(reading.depth), 2), base::symbol_of(frame.unit), hole.parent->hole)));
        }
    }
    return own;
}

// --- stations

int method_number(const std::vector<int>& methods, int method) {
    return static_cast<int>(std::find(methods.begin(), methods.end(), method) - methods.begin());
}

class PathBuilder {
public:
    PathBuilder(const HoleToPlace& hole, const Placing& placing) : hole_(hole), placing_(placing), collar_(*hole.collar) {
        path_.hole = collar_.hole;
        path_.number = hole.number;
        path_.status = collar_.status;
        path_.type = collar_.type;
        path_.end_depth = collar_.depth;
        path_.collar = collar_.position;
        start_ = collar_.position;
        if (hole.parent != nullptr) {
            path_.parent = hole.parent->number;
            path_.collar = hole.parent->collar;
            path_.start_depth = *collar_.kickoff;
            start_ = position_at(*hole.parent, path_.start_depth);
            kickoff_direction_ = base::direction_of(direction_at(*hole.parent, path_.start_depth));
        }
        path_.drilled_depth = drilled_depth();
        lift_ = rate_ahead(deviation().lift, hole.sample->lift);
        swing_ = rate_ahead(deviation().swing, hole.sample->swing);
    }

    double start_depth() const { return path_.start_depth; }
    std::optional<PlannedStart> plan(const std::vector<Reading>& readings) const {
        std::optional<base::Dip> measured_dip;
        if (!readings.empty()) measured_dip = readings.front().dip;
        return planned_start(collar_, start_, kickoff_direction_, measured_dip);
    }

    Path surveyed(const std::vector<Reading>& readings, const std::vector<SurveyRun>& runs) {
        const std::vector<DirectedReading> all = directed(readings);
        add_methods(readings, runs);
        add_stations(all, true);
        path_.swing_depth = path_.surveyed_depth;
        return finished(all, std::nullopt);
    }

    Path with_dips_alone(const std::vector<Reading>& readings, const std::vector<SurveyRun>& runs, const PlannedStart& plan) {
        std::vector<DirectedReading> all = directed(readings, plan.direction.azimuth);
        if (bends(plan.direction)) swing_on(all);
        add_methods(readings, runs);
        add_stations(all, false);
        path_.swing_depth = path_.start_depth;
        return finished(all, plan);
    }

    Path as_planned(const PlannedStart& plan) {
        Station start;
        start.depth = path_.start_depth;
        start.direction = plan.direction;
        path_.stations.push_back(start);
        path_.lift_depth = path_.swing_depth = path_.surveyed_depth = path_.start_depth;
        return finished({}, plan);
    }

private:
    const Deviation& deviation() const { return placing_.deviation.at(path_.type); }

    // Of a vertical hole nobody knows which way it will go, and in a trench nothing deviates.
    bool bends(const Direction& from) const {
        const double dip_cosine = from.dip.angle().cos();
        return tables::is_drill_hole(path_.type) && held_dip_cosine(dip_cosine) == dip_cosine;
    }

    // Azimuths that nobody measured turn as they are expected to from the start on.
    void swing_on(std::vector<DirectedReading>& readings) const {
        double depth = path_.start_depth, turn = 0.0;
        for (DirectedReading& reading : readings) {
            turn += swing_.mean * (reading.depth - depth) / held_dip_cosine(reading.direction.dip.angle().cos());
            depth = reading.depth;
            reading.direction.azimuth = Azimuth(reading.direction.azimuth.angle() + Angle::radians(turn));
        }
    }

    // How it goes on; of what is expected but has no direction the size counts as error.
    RateErrors bend_past_the_last() {
        if (!bends(path_.stations.back().direction))
            return {std::hypot(lift_.mean, lift_.sd), std::hypot(swing_.mean, swing_.sd)};
        path_.lift = lift_.mean;
        path_.swing = swing_.mean;
        return {lift_.sd, swing_.sd};
    }

    double drilled_depth() const {
        if (tables::is_drilled(path_.status)) return path_.end_depth;
        if (path_.status != tables::HoleStatus::active) return 0.0;
        return collar_.drilled.value_or(std::min(hole_.deepest_row, path_.end_depth));
    }

    int number_of(const std::string& method) const {
        const auto& all = placing_.methods;
        return static_cast<int>(std::lower_bound(all.begin(), all.end(), method) - all.begin());
    }

    void add_methods(const std::vector<Reading>& readings, const std::vector<SurveyRun>& runs) {
        std::vector<std::size_t> used;
        for (const Reading& reading : readings) used.push_back(reading.run);
        std::sort(used.begin(), used.end());
        for (const std::size_t run : used) {
            const int number = number_of(runs[run].method);
            if (std::find(path_.methods.begin(), path_.methods.end(), number) == path_.methods.end())
                path_.methods.push_back(number);
        }
        method_of_run_.clear();
        for (const SurveyRun& run : runs) method_of_run_.push_back(method_number(path_.methods, number_of(run.method)));
    }

    void add_stations(const std::vector<DirectedReading>& readings, bool azimuth_measured) {
        if (readings.front().depth > path_.start_depth + same_depth) add_start(readings.front(), azimuth_measured);
        for (const DirectedReading& reading : readings) {
            Station station = station_of(reading, azimuth_measured);
            station.depth = path_.stations.empty() ? path_.start_depth : reading.depth;
            station.measured = true;
            station.measured_at = static_cast<int>(path_.stations.size());
            path_.stations.push_back(station);
        }
        path_.surveyed_depth = path_.lift_depth = path_.stations.back().depth;
    }

    // A station at the start that nobody measured: the first reading carried up to the collar, or the parent's direction.
    void add_start(const DirectedReading& first, bool azimuth_measured) {
        Station start = station_of(first, azimuth_measured);
        start.depth = path_.start_depth;
        if (kickoff_direction_)
            start.direction = *kickoff_direction_;
        else
            start.measured_at = 1;
        path_.stations.push_back(start);
    }

    Station station_of(const DirectedReading& reading, bool azimuth_measured) const {
        Station station;
        station.direction = reading.direction;
        station.azimuth_method = azimuth_measured ? method_of_run_[reading.azimuth_run] : -1;
        station.dip_method = method_of_run_[reading.dip_run];
        return station;
    }

    Path finished(const std::vector<DirectedReading>& readings, const std::optional<PlannedStart>& plan) {
        path_.stations.front().position = start_;
        settle(path_.stations);
        std::vector<double> azimuth_from(path_.stations.size(), 0.0);
        for (std::size_t i = 0; i < readings.size(); ++i)
            azimuth_from[path_.stations.size() - readings.size() + i] = readings[i].azimuth_from;
        const RateErrors ahead = bend_past_the_last();
        path_.sources =
            hole_sources(path_, collar_, hole_.parent, azimuth_from, placing_.errors, deviation(), ahead, placing_.methods);
        if (hole_.parent != nullptr)
            path_.inherited = inherited_effects(*hole_.parent, path_.start_depth, plan && plan->from_parent);
        return std::move(path_);
    }

    const HoleToPlace& hole_;
    const Placing& placing_;
    const tables::Collar& collar_;
    Path path_;
    Vector3d start_;
    RateAhead lift_, swing_;
    std::optional<Direction> kickoff_direction_;
    std::vector<int> method_of_run_;  // place in Path::methods
};

std::size_t without_azimuth(const std::vector<Reading>& readings) {
    return static_cast<std::size_t>(
        std::count_if(readings.begin(), readings.end(), [](const Reading& reading) { return !reading.azimuth; }));
}

void report_plan(const HoleToPlace& hole, const PlannedStart& plan, std::vector<Finding>& findings) {
    if (!plan.aimed) return;
    findings.push_back(
        about(aimed_at_target, *hole.collar,
              fmt::format("aimed at its target from the {}: azimuth {}, dip {}", hole.parent != nullptr ? "kick-off" : "collar",
                          base::fixed(plan.direction.azimuth.degrees(), 1), base::fixed(plan.direction.dip.degrees(), 1))));
}

void report_unsurveyed(const HoleToPlace& hole, const PlannedStart& plan, std::vector<Finding>& findings) {
    const tables::Collar& collar = *hole.collar;
    const bool begun = tables::is_drilled(collar.status) || collar.status == tables::HoleStatus::active;
    if (!begun || !tables::is_drill_hole(collar.type)) return;
    findings.push_back(
        about(hole_not_surveyed, collar,
              fmt::format("no surveys: it starts at azimuth {}, dip {} as planned",
                          base::fixed(plan.direction.azimuth.degrees(), 1), base::fixed(plan.direction.dip.degrees(), 1))));
}

void report_azimuths(const HoleToPlace& hole, const std::vector<Reading>& readings, std::vector<Finding>& findings) {
    const std::size_t count = without_azimuth(readings);
    if (count == 0) return;
    findings.push_back(
        about(azimuth_from_neighbours, *hole.collar,
              fmt::format("{} of {} survey rows have no azimuth, or one set aside: it is taken from their neighbours", count,
                          readings.size())));
}

}  // namespace

Checked<std::optional<Path>> place_hole(const HoleToPlace& hole, const Placing& placing) {
    Checked<std::optional<Path>> result;
    PathBuilder builder(hole, placing);
    const std::vector<Reading> readings = own_readings(hole, builder.start_depth(), placing.frame, result.findings);
    if (without_azimuth(readings) < readings.size()) {
        report_azimuths(hole, readings, result.findings);
        result.value = builder.surveyed(readings, hole.surveys->runs);
        return result;
    }
    const std::optional<PlannedStart> plan = builder.plan(readings);
    if (!plan) {
        result.findings.push_back(about(hole_without_direction, *hole.collar,
                                        readings.empty() ? "no surveys, no planned azimuth and dip, no target: not placed"
                                                         : "its surveys have dips alone and no azimuth is planned: not placed"));
        return result;
    }
    report_plan(hole, *plan, result.findings);
    if (readings.empty()) {
        report_unsurveyed(hole, *plan, result.findings);
        result.value = builder.as_planned(*plan);
    } else {
        result.findings.push_back(about(azimuth_not_measured, *hole.collar,
                                        fmt::format("{} survey rows have dips alone: azimuth {} as planned", readings.size(),
                                                    base::fixed(plan->direction.azimuth.degrees(), 1))));
        result.value = builder.with_dips_alone(readings, hole.surveys->runs, *plan);
    }
    return result;
}

Path placed_by_run(const HoleToPlace& hole, const SurveyRun& run, const Path& path, const Placing& placing) {
    std::vector<Reading> readings;
    for (Reading reading : run.readings) {
        if (reading.depth <= path.start_depth - same_depth) continue;
        if (!reading.azimuth) reading.azimuth = base::direction_of(direction_at(path, reading.depth)).azimuth;
        reading.run = 0;
        readings.push_back(reading);
    }
    if (readings.empty()) return path;
    return PathBuilder(hole, placing).surveyed(readings, {run});
}

}  // namespace selvage::paths
