#include "checks/stations.h"

#include "base/text.h"
#include "checks/record_checks.h"
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

// The earth's field changes by some parts in a thousand over a hole and a season; rods and casing by parts in a hundred. Common
// practice, no source.
constexpr double field_tolerance = 0.02;
constexpr std::size_t enough_fields = 5;
constexpr double collar_depth = 0.5;  // m: a reading at the collar is taken before the casing is set
// Ten times the error of a station by a good tool (0.4 degrees), and half the turn of a bend that rods can follow in one joint.
constexpr double spike = 5.0;  // degrees off the line between both neighbours

std::optional<double> usual_field(const std::vector<Survey>& surveys, const std::vector<std::size_t>& run) {
    std::vector<double> fields;
    for (const std::size_t i : run)
        if (surveys[i].magnetic_field) fields.push_back(*surveys[i].magnetic_field);
    return fields.size() < enough_fields ? std::nullopt : std::optional<double>(numerics::median(std::move(fields)));
}

void set_aside(Survey& station, const base::Check& check, std::string why, Checking& checking) {
    checking.report(check, station.origin, station.hole,
                    fmt::format("at {}: {}: only the dip is used", checking.length(station.depth), why));
    station.azimuth.reset();
    station.magnetic = false;
}

void set_aside_disturbed(std::vector<Survey>& surveys, const std::vector<std::size_t>& run,
                         const std::optional<double>& project_field, Checking& checking) {
    const std::optional<double> own = usual_field(surveys, run);
    const std::optional<double> usual = own ? own : project_field;
    for (const std::size_t i : run) {
        Survey& station = surveys[i];
        if (!station.magnetic || !station.magnetic_field || !usual || *usual <= 0.0) continue;
        const double off = *station.magnetic_field / *usual - 1.0;
        if (std::abs(off) > field_tolerance)
            set_aside(station, disturbed_azimuth,
                      fmt::format("the magnetic field is {} % off the usual {}", base::fixed(100.0 * off, 1),
                                  base::significant(*usual, 6)),
                      checking);
    }
}

// Magnetic azimuths in steel, where no field strength tells that they were right.
void set_aside_cased(std::vector<Survey>& surveys, const std::vector<std::size_t>& run, const std::vector<SizeInterval>& sizes,
                     const std::vector<std::size_t>& of_hole, Checking& checking) {
    for (const std::size_t i : run) {
        Survey& station = surveys[i];
        if (!station.magnetic || station.magnetic_field || station.depth < collar_depth) continue;
        const bool cased = std::any_of(of_hole.begin(), of_hole.end(), [&](std::size_t row) {
            return sizes[row].casing && station.depth >= sizes[row].from && station.depth <= sizes[row].to;
        });
        if (cased) set_aside(station, disturbed_azimuth, "a magnetic azimuth within casing", checking);
    }
}

// How far a station lies off the line between its neighbours: its azimuth as an angle in space, and its dip.
struct Deviation {
    double azimuth = 0.0, dip = 0.0;  // degrees
};

Deviation deviation(const Survey& above, const Survey& station, const Survey& below) {
    const double share = (station.depth - above.depth) / (below.depth - above.depth);
    const double dip = above.dip.degrees() + share * (below.dip.degrees() - above.dip.degrees());
    Deviation off{0.0, std::abs(station.dip.degrees() - dip)};
    if (!above.azimuth || !station.azimuth || !below.azimuth) return off;
    const double turn = base::turn_between(*above.azimuth, *below.azimuth).degrees();
    const base::Azimuth between = base::Azimuth::degrees(above.azimuth->degrees() + share * turn);
    off.azimuth = std::abs(base::turn_between(between, *station.azimuth).degrees()) * base::Dip::degrees(dip).angle().cos();
    return off;
}

// The worst station of a run, once those with an azimuth, once all: its neighbours look bad beside it, so it goes first.
template <typename Size>
std::optional<std::size_t> worst_spike(const std::vector<Survey>& surveys, const std::vector<std::size_t>& run, Size size) {
    std::optional<std::size_t> worst;
    double most = spike;
    for (std::size_t n = 1; n + 1 < run.size(); ++n) {
        const double off = size(deviation(surveys[run[n - 1]], surveys[run[n]], surveys[run[n + 1]]));
        if (off > most) {
            most = off;
            worst = n;
        }
    }
    return worst;
}

std::vector<std::size_t> with_azimuth(const std::vector<Survey>& surveys, const std::vector<std::size_t>& run) {
    std::vector<std::size_t> own;
    std::copy_if(run.begin(), run.end(), std::back_inserter(own), [&](std::size_t i) { return surveys[i].azimuth.has_value(); });
    return own;
}

void set_aside_spikes(std::vector<Survey>& surveys, std::vector<std::size_t> run, std::vector<char>& marked, Checking& checking) {
    while (const auto worst = worst_spike(surveys, run, [](const Deviation& off) { return off.dip; })) {
        const Survey& station = surveys[run[*worst]];
        const Deviation off = deviation(surveys[run[*worst - 1]], station, surveys[run[*worst + 1]]);
        checking.report(
            dip_spike, station.origin, station.hole,
            fmt::format("at {}: dip {} is {} degrees off the line of its neighbours: the row is left out",
                        checking.length(station.depth), base::fixed(station.dip.degrees(), 1), base::fixed(off.dip, 1)));
        marked[run[*worst]] = 1;
        run.erase(run.begin() + static_cast<std::ptrdiff_t>(*worst));
    }
    for (;;) {
        const std::vector<std::size_t> own = with_azimuth(surveys, run);
        const auto worst = worst_spike(surveys, own, [](const Deviation& off) { return off.azimuth; });
        if (!worst) return;
        Survey& station = surveys[own[*worst]];
        const double turn = base::turn_between(*surveys[own[*worst - 1]].azimuth, *station.azimuth).degrees();
        set_aside(station, azimuth_spike,
                  fmt::format("the azimuth turns by {} degrees from its neighbours", base::fixed(turn, 1)), checking);
    }
}

}  // namespace

void settle_stations(Records& records, const Holes& holes, Checking& checking) {
    std::vector<Survey>& surveys = records.surveys;
    std::vector<std::size_t> magnetic;
    for (std::size_t i = 0; i < surveys.size(); ++i)
        if (surveys[i].magnetic) magnetic.push_back(i);
    const std::optional<double> project_field = usual_field(surveys, magnetic);
    const auto of_sizes = rows_by_hole(records.sizes, holes);
    std::vector<char> marked(surveys.size(), 0);
    for (const SurveyRun& run : survey_runs(surveys, holes)) {
        set_aside_disturbed(surveys, run.stations, project_field, checking);
        set_aside_cased(surveys, run.stations, records.sizes, of_sizes[run.hole], checking);
        set_aside_spikes(surveys, distinct_depths(surveys, run.stations), marked, checking);
    }
    remove_marked(surveys, marked);
}

}  // namespace selvage::checks
