#include "base/text.h"
#include "checks/record_checks.h"
#include "checks/stations.h"
#include "checks/survey_runs.h"
#include "numerics/median.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace selvage::checks {

namespace {

using namespace tables;

// Rods in steep core holes bend by 3 to 5 degrees in 30 m at a wedge, far less elsewhere. Common practice, no source.
constexpr double sharpest_bend = 8.0;        // degrees in 30 m
constexpr double bend_length = 30.0;         // m
constexpr double least_bend = 4.0;           // degrees: less than this between two stations may be their errors
constexpr double first_station = 1.0;        // m below the collar
constexpr double longest_unsurveyed = 60.0;  // m: two stations at the usual 30 m
constexpr double off_plan = 15.0;            // degrees between the first station and the planned start
constexpr double near_collar = 30.0;         // m: a first station deeper than this tells nothing about the start
constexpr double turned = 4.0;               // degrees by which most holes start off their planned azimuth
constexpr std::size_t enough_holes = 5;
constexpr double azimuth_tells = 75.0;  // degrees of dip up to which an azimuth means something
constexpr double share_upwards = 0.8;

base::Angle angle_between(const base::Direction& a, const base::Direction& b) {
    return base::Angle::radians(std::acos(std::clamp(base::unit_vector(a).dot(base::unit_vector(b)), -1.0, 1.0)));
}

void check_bends(const std::vector<Survey>& surveys, const std::vector<std::size_t>& run, Checking& checking) {
    const Survey* above = nullptr;
    for (const std::size_t i : run) {
        const Survey& station = surveys[i];
        if (!station.azimuth) continue;
        if (above != nullptr) {
            const double bend = angle_between({*above->azimuth, above->dip}, {*station.azimuth, station.dip}).degrees();
            const double rate = bend / (station.depth - above->depth) * bend_length;
            if (bend > least_bend && rate > sharpest_bend)
                checking.report(sharp_bend, station.origin, station.hole,
                                fmt::format("it bends by {} degrees between {} and {}", base::fixed(bend, 1),
                                            base::fixed(checking.frame.length(above->depth), 2), checking.length(station.depth)));
        }
        above = &station;
    }
}

// First and last stations of each hole over all its runs.
struct Ends {
    const Survey *first = nullptr, *last = nullptr;
};

std::vector<Ends> ends_of(const std::vector<Survey>& surveys, const Holes& holes) {
    std::vector<Ends> ends(holes.count());
    const auto of_holes = rows_by_hole(surveys, holes);
    for (std::size_t hole = 0; hole < holes.count(); ++hole)
        for (const std::size_t row : of_holes[hole]) {
            const Survey& station = surveys[row];
            if (!station.use) continue;
            Ends& own = ends[hole];
            if (own.first == nullptr || station.depth < own.first->depth) own.first = &station;
            if (own.last == nullptr || station.depth > own.last->depth) own.last = &station;
        }
    return ends;
}

void check_ends(const Collar& collar, const Ends& ends, Checking& checking) {
    if (ends.first == nullptr || !is_drill_hole(collar.type)) return;
    if (!collar.parent && ends.first->depth > first_station)
        checking.report(no_station_at_collar, ends.first->origin, collar.hole,
                        fmt::format("its first station is at {}: its direction is carried up to the collar",
                                    checking.length(ends.first->depth)));
    const double rest = collar.depth - ends.last->depth;
    if (is_drilled(collar.status) && rest > longest_unsurveyed)
        checking.report(end_not_surveyed, ends.last->origin, collar.hole,
                        fmt::format("its last station is at {}, its end at {}", checking.length(ends.last->depth),
                                    checking.length(collar.depth)));
}

void check_start(const Collar& collar, const Ends& ends, Checking& checking) {
    if (ends.first == nullptr || collar.parent || !collar.azimuth || !collar.dip || ends.first->depth > near_collar) return;
    if (!ends.first->azimuth) return;
    const base::Direction start{*ends.first->azimuth, ends.first->dip};
    const double off = angle_between({*collar.azimuth, *collar.dip}, start).degrees();
    if (off > off_plan)
        checking.report(
            start_off_plan, ends.first->origin, collar.hole,
            fmt::format("its first station, azimuth {} dip {}, is {} degrees from its planned start, azimuth {} dip {}",
                        base::fixed(start.azimuth.degrees(), 1), base::fixed(start.dip.degrees(), 1), base::fixed(off, 0),
                        base::fixed(collar.azimuth->degrees(), 1), base::fixed(collar.dip->degrees(), 1)));
}

void check_north(const Holes& holes, const std::vector<Ends>& ends, const base::Origin& table, Checking& checking) {
    std::vector<double> turns;
    for (std::size_t i = 0; i < holes.count(); ++i) {
        const Collar& collar = holes.collar(i);
        const Survey* first = ends[i].first;
        if (first == nullptr || !first->azimuth || !collar.azimuth || collar.parent || first->depth > near_collar) continue;
        if (std::abs(first->dip.degrees()) > azimuth_tells) continue;
        turns.push_back(base::turn_between(*collar.azimuth, *first->azimuth).degrees());
    }
    if (turns.size() < enough_holes) return;
    const double middle = numerics::median(turns);
    if (std::abs(middle) > turned)
        checking.report(
            north_doubtful, table, "",
            fmt::format(
                "the first stations of {} holes are turned against their planned azimuths, half of them by {} degrees or more",
                turns.size(), base::fixed(middle, 1)));
}

template <typename Row, typename DipOf>
void check_dip_signs(const std::vector<Row>& rows, DipOf dip_of, Checking& checking) {
    std::size_t count = 0, upwards = 0;
    for (const Row& row : rows) {
        const std::optional<base::Dip> dip = dip_of(row);
        if (!dip) continue;
        ++count;
        upwards += dip->degrees() < 0.0 ? 1U : 0U;
    }
    if (count == 0 || static_cast<double>(upwards) <= share_upwards * static_cast<double>(count)) return;
    base::Origin whole = rows.front().origin;
    whole.row = 0;
    checking.report(
        dip_sign_doubtful, whole, "",
        fmt::format(
            "{} of {} dips point upwards: if they are written negative downwards, say dip_sign = \"negative_down\"; if that "
            "is said, take it out",
            upwards, count));
}

}  // namespace

void check_stations(const Records& records, const Holes& holes, Checking& checking) {
    for (const SurveyRun& run : survey_runs(records.surveys, holes))
        check_bends(records.surveys, distinct_depths(records.surveys, run.stations), checking);
    const std::vector<Ends> ends = ends_of(records.surveys, holes);
    for (std::size_t i = 0; i < holes.count(); ++i) {
        check_ends(holes.collar(i), ends[i], checking);
        check_start(holes.collar(i), ends[i], checking);
    }
    if (!records.surveys.empty()) {
        const base::Origin& any = records.surveys.front().origin;
        check_north(holes, ends, {any.table, any.source, 0}, checking);
    }
    check_dip_signs(
        records.surveys, [](const Survey& s) { return s.use ? std::optional<base::Dip>(s.dip) : std::nullopt; }, checking);
    check_dip_signs(
        records.collars, [](const Collar& c) { return is_drill_hole(c.type) ? c.dip : std::nullopt; }, checking);
}

}  // namespace selvage::checks
