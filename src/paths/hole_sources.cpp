#include "paths/hole_sources.h"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace selvage::paths {

namespace {

using settings::SurveyErrorSizes;

// An azimuth between neighbours is never worse than this.
const double most_azimuth_error = base::Angle::degrees(60.0).radians();

bool is_shared_whole(SourceKind kind) {
    return kind == SourceKind::depth_scale || kind == SourceKind::collar_east || kind == SourceKind::collar_north ||
           kind == SourceKind::collar_elevation;
}

class SourceList {
public:
    SourceList(const Path& path, const settings::SurveyErrors& errors, const std::vector<std::string>& methods)
        : path_(path), owner_(static_cast<int>(path.number)) {
        for (const int method : path.methods) sizes_.push_back(&errors.of(methods[static_cast<std::size_t>(method)]));
        if (sizes_.empty()) sizes_.push_back(&errors.usual);
    }

    void add(SourceKind kind, int owner, int station, Scope scope, double sd) {
        all_.push_back({{kind, owner, station}, scope, sd});
    }
    void add_of_hole(SourceKind kind, double sd) { add(kind, owner_, 0, Scope::hole, sd); }

    void add_tools() {
        for (std::size_t tool = 0; tool < path_.methods.size(); ++tool) {
            const auto number = static_cast<int>(tool);
            const auto uses = [&](const auto& method_of) {
                return std::any_of(path_.stations.begin(), path_.stations.end(), method_of);
            };
            if (uses([&](const Station& station) { return station.azimuth_method == number; })) {
                add(SourceKind::azimuth_common, path_.methods[tool], 0, Scope::project, sizes_[tool]->azimuth_common.radians());
                add(SourceKind::azimuth_hole, owner_, number, Scope::hole, sizes_[tool]->azimuth_hole.radians());
            }
            if (uses([&](const Station& station) { return station.dip_method == number; }))
                add(SourceKind::dip_hole, owner_, number, Scope::hole, sizes_[tool]->dip_hole.radians());
        }
    }

    void add_stations(const std::vector<double>& azimuth_from, double swing_rate) {
        for (std::size_t i = 0; i < path_.stations.size(); ++i) {
            const Station& station = path_.stations[i];
            const auto number = static_cast<int>(i);
            if (!station.measured) continue;
            if (station.azimuth_method >= 0) {
                const double read = sizes_[static_cast<std::size_t>(station.azimuth_method)]->azimuth_station.radians();
                const double swing = swing_rate * azimuth_from[i] / held_dip_cosine(station.direction.dip.angle().cos());
                add(SourceKind::azimuth_station, owner_, number, Scope::station,
                    std::min(most_azimuth_error, std::hypot(read, swing)));
            }
            if (station.dip_method >= 0)
                add(SourceKind::dip_station, owner_, number, Scope::station,
                    sizes_[static_cast<std::size_t>(station.dip_method)]->dip_station.radians());
        }
    }

    void add_collar(const tables::Collar& collar, double usual) {
        const double plan = collar.collar_sd.value_or(usual);
        add_of_hole(SourceKind::depth_scale, sizes_.front()->depth_scale);
        add_of_hole(SourceKind::collar_east, plan);
        add_of_hole(SourceKind::collar_north, plan);
        add_of_hole(SourceKind::collar_elevation, collar.elevation_sd.value_or(plan));
    }

    // The start where nobody measured it, the rates where the drill goes on unmeasured.
    void add_deviation(const Deviation& deviation, const RateErrors& ahead) {
        const Station& last = path_.stations.back();
        if (last.azimuth_method < 0) add_of_hole(SourceKind::start_azimuth, deviation.start_azimuth.radians());
        if (last.dip_method < 0) add_of_hole(SourceKind::start_dip, deviation.start_dip.radians());
        if (!tables::is_drill_hole(path_.type)) return;
        add_of_hole(SourceKind::lift_rate, ahead.lift);
        add_of_hole(SourceKind::swing_rate, ahead.swing);
        add_of_hole(SourceKind::lift_wander, deviation.lift.wander);
        add_of_hole(SourceKind::swing_wander, deviation.swing.wander);
    }

    std::vector<ErrorSource> sorted() {
        std::sort(all_.begin(), all_.end(), [](const ErrorSource& a, const ErrorSource& b) { return a.id < b.id; });
        return std::move(all_);
    }

private:
    const Path& path_;
    int owner_;
    std::vector<const SurveyErrorSizes*> sizes_;  // of each of Path::methods; of an unsurveyed hole the usual ones
    std::vector<ErrorSource> all_;
};

}  // namespace

std::vector<ErrorSource> hole_sources(const Path& path, const tables::Collar& collar, const Path* parent,
                                      const std::vector<double>& azimuth_from, const settings::SurveyErrors& errors,
                                      const Deviation& deviation, const RateErrors& ahead,
                                      const std::vector<std::string>& methods) {
    SourceList list(path, errors, methods);
    list.add_tools();
    list.add_stations(azimuth_from, size_about_zero(deviation.swing));
    if (parent == nullptr)
        list.add_collar(collar, errors.collar);
    else
        for (const ErrorSource& source : parent->sources)
            if (is_shared_whole(source.id.kind))
                list.add(source.id.kind, source.id.owner, source.id.station, source.scope, source.sd);
    list.add_deviation(deviation, ahead);
    return list.sorted();
}

std::vector<SourceEffect> inherited_effects(const Path& parent, double kickoff, bool goes_on_as_parent) {
    std::vector<SourceEffect> all;
    for (const SourceEffect& effect : effects_at(parent, kickoff)) {
        if (is_shared_whole(effect.source.id.kind)) continue;
        all.push_back(effect);
        if (!goes_on_as_parent) all.back().rotation.setZero();
    }
    return all;
}

}  // namespace selvage::paths
