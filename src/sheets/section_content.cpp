#include "sheets/section_content.h"

#include "paths/locate.h"
#include "sheets/clearance.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <string>

namespace selvage::sheets {

namespace {

constexpr double trace_step = 1.0;    // m along the hole
constexpr double shown_share = 0.25;  // of a hole's length, in the slab: enough to be worth drawing
constexpr double least_length = 0.5;  // m in the slab: less is not even named

TracePlace place_at(const paths::Path& path, double depth, const SectionFrame& frame) {
    const Eigen::Vector3d point = paths::position_at(path, depth);
    return {depth, frame.distance(point), point.z(), frame.offset(point)};
}

TracePlace between(const TracePlace& a, const TracePlace& b, double share) {
    return {a.depth + share * (b.depth - a.depth), a.distance + share * (b.distance - a.distance), a.up + share * (b.up - a.up),
            a.offset + share * (b.offset - a.offset)};
}

// Depths where the step from a to b passes a face of the slab, as shares of the step, rising.
std::vector<double> face_crossings(const TracePlace& a, const TracePlace& b, double half_width) {
    std::vector<double> shares;
    for (const double face : {-half_width, half_width})
        if ((a.offset < face) != (b.offset < face)) shares.push_back((face - a.offset) / (b.offset - a.offset));
    std::sort(shares.begin(), shares.end());
    return shares;
}

std::vector<TraceRun> runs_of(const paths::Path& path, const Section& section) {
    const auto in_slab = [&section](const TracePlace& place) {
        return place.offset >= -section.half_width && place.offset < section.half_width;
    };
    std::vector<TracePlace> places;
    const int steps = std::max(1, static_cast<int>(std::ceil((path.end_depth - path.start_depth) / trace_step)));
    for (int i = 0; i <= steps; ++i) {
        const TracePlace next = place_at(path, path.start_depth + (path.end_depth - path.start_depth) * i / steps, section.frame);
        if (!places.empty()) {
            const TracePlace before = places.back();
            for (const double share : face_crossings(before, next, section.half_width))
                places.push_back(between(before, next, share));
        }
        places.push_back(next);
    }
    std::vector<TraceRun> runs;
    for (std::size_t i = 0; i + 1 < places.size(); ++i) {
        const bool inside = in_slab(between(places[i], places[i + 1], 0.5));
        if (runs.empty() || runs.back().in_slab != inside) runs.push_back({inside, {places[i]}});
        runs.back().places.push_back(places[i + 1]);
    }
    return runs;
}

// Whether this section alone holds a hole that has no hit, miss or forecast anywhere.
bool held_here(const Results& results, const SectionSet& set, const Section& section, const paths::Path& path) {
    for (const intercepts::Intercept& hit : results.intercepts.met)
        if (hit.hole == path.hole) return false;
    for (const veins::Vein& vein : results.veins)
        for (const veins::NoVein& none : vein.no_vein())
            if (none.is_miss() && none.hole == path.hole) return false;
    for (const forecast::Pierce& pierce : results.pierces)
        if (pierce.hole == path.hole) return false;
    return slab_number(set, paths::position_at(path, path.end_depth)) == section.number;
}

// Of a section along a hole that is still to be drilled: the holes that its card names, too near, beside its start, nearest.
std::set<std::string> named_on_its_card(const Results& results, const SectionSet& set, const Section& section) {
    const paths::Path* own = set.of_pack == nullptr ? nullptr : paths::path_of(results.paths, section.name);
    const bool ahead =
        own != nullptr && (own->status == tables::HoleStatus::active || own->status == tables::HoleStatus::planned);
    if (!ahead) return {};
    const planning::NearHoles near = near_ahead(*own, results);
    std::set<std::string> named;
    for (const std::vector<planning::NearHole>* all : {&near.under, &near.beside})
        for (const planning::NearHole& one : *all) named.insert(one.hole);
    if (near.nearest) named.insert(near.nearest->hole);
    return named;
}

}  // namespace

std::size_t path_number(const Results& results, const std::string& hole) {
    for (std::size_t i = 0; i < results.paths.size(); ++i)
        if (results.paths[i].hole == hole) return i;
    return results.paths.size();
}

std::size_t vein_number(const Results& results, const std::string& vein) {
    for (std::size_t i = 0; i < results.veins.size(); ++i)
        if (results.veins[i].name() == vein) return i;
    return results.veins.size();
}

SectionContent section_content(const Results& results, const SectionSet& set, const Section& section) {
    SectionContent content;
    const auto here = [&](const Eigen::Vector3d& point) { return slab_number(set, point) == section.number; };
    std::vector<bool> has_point(results.paths.size() + 1, false);
    for (const intercepts::Intercept& hit : results.intercepts.met)
        if (here(hit.point)) {
            content.hits.push_back(&hit);
            has_point[path_number(results, hit.hole)] = true;
        }
    for (std::size_t vein = 0; vein < results.veins.size(); ++vein)
        for (const veins::NoVein& none : results.veins[vein].no_vein())
            if (none.is_miss() && here(none.point)) {
                content.misses.push_back({vein, &none});
                has_point[path_number(results, none.hole)] = true;
            }
    for (const forecast::Pierce& pierce : results.pierces)
        if (here(pierce.point)) {
            content.pierces.push_back(&pierce);
            has_point[path_number(results, pierce.hole)] = true;
        }
    for (const tables::Outcrop& outcrop : results.records.outcrops)
        if (here(outcrop.position)) content.outcrops.push_back(&outcrop);
    std::vector<bool> has_opening(results.paths.size() + 1, false);
    for (OpeningInSpace& opening : openings_in_space(results))
        if (here(opening.point)) {
            has_opening[path_number(results, opening.opened.hole)] = true;
            content.openings.push_back(std::move(opening));
        }
    const std::set<std::string> named = named_on_its_card(results, set, section);
    for (std::size_t i = 0; i < results.paths.size(); ++i) {
        const paths::Path& path = results.paths[i];
        if (path.status == tables::HoleStatus::cancelled || path.end_depth <= path.start_depth) continue;
        SectionHole hole;
        hole.path = i;
        hole.runs = runs_of(path, section);
        for (const TraceRun& run : hole.runs)
            if (run.in_slab) hole.length_in_slab += run.length();
        hole.has_point_here = has_point[i];
        if (hole.length_in_slab < least_length && !hole.has_point_here && !has_opening[i]) continue;
        const bool planned = path.status == tables::HoleStatus::planned;
        const bool long_enough = !planned && hole.length_in_slab >= shown_share * (path.end_depth - path.start_depth);
        hole.shown = hole.has_point_here || has_opening[i] || long_enough || named.count(path.hole) > 0 ||
                     held_here(results, set, section, path);
        content.holes.push_back(std::move(hole));
    }
    return content;
}

}  // namespace selvage::sheets
