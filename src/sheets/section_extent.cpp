#include "sheets/section_extent.h"

#include <algorithm>
#include <cmath>

namespace selvage::sheets {

namespace {

// mm of free paper round what must be seen: at the least (it decides the scale), and where the paper allows it.
constexpr double least_side_air = 12.0, least_sky = 12.0, least_foot_air = 9.0;
constexpr double side_air = 22.0, sky = 20.0, foot_air = 16.0;
constexpr double sky_share = 0.5;  // of the paper that is left over, to the sky

struct Range {
    double low = 1e18, high = -1e18;
    void take(double value) {
        low = std::min(low, value);
        high = std::max(high, value);
    }
    double width() const { return high - low; }
};

struct Extent {
    Range across, up;
};

Extent extent_of(const std::vector<Eigen::Vector2d>& points) {
    Extent extent;
    for (const Eigen::Vector2d& point : points) {
        extent.across.take(point.x());
        extent.up.take(point.y());
    }
    return extent;
}

// Must be seen: hits, misses, forecasts with their ranges and stops, and collars and ends of the holes that are shown.
std::vector<Eigen::Vector2d> needed_points(const SectionContent& content, const Results& results, const Section& section) {
    std::vector<Eigen::Vector2d> points;
    const auto take = [&](const Eigen::Vector3d& point) { points.emplace_back(section.frame.distance(point), point.z()); };
    for (const intercepts::Intercept* hit : content.hits) take(hit->point);
    for (const SectionContent::Miss& miss : content.misses) take(miss.none->point);
    for (const forecast::Pierce* pierce : content.pierces) {
        take(pierce->point);
        const std::size_t path = path_number(results, pierce->hole);
        if (path >= results.paths.size()) continue;
        const paths::Path& hole = results.paths[path];
        for (const double depth : {pierce->depth_p90, std::min(pierce->stop_depth, hole.end_depth), hole.end_depth})
            take(paths::position_at(hole, depth));
    }
    for (const SectionHole& hole : content.holes)
        if (hole.shown) {
            take(paths::position_at(results.paths[hole.path], results.paths[hole.path].start_depth));
            const TraceRun& last = hole.runs.back();
            if (last.in_slab || hole.has_point_here) points.emplace_back(last.places.back().distance, last.places.back().up);
        }
    if (points.empty()) take(section.frame.origin);
    return points;
}

// Start of a window of `room` over what must be seen, moved towards what is wished; `before`: free paper wanted at its start.
double start_of(const Range& needed, const Range& wished, double room, double before, double after, double share_before) {
    const double spare = room - wished.width() - before - after;
    if (spare >= 0.0) return wished.low - before - share_before * spare;
    const double least = needed.high + after - room, most = needed.low - before;  // must be seen
    const double middle = (wished.low + wished.high) / 2.0 - room / 2.0;
    return std::clamp(middle, std::min(least, most), std::max(least, most));
}

}  // namespace

std::vector<Eigen::Vector2d> shown_points(const SectionContent& content, const Results& results, const Section& section) {
    std::vector<Eigen::Vector2d> points = needed_points(content, results, section);
    for (const SectionHole& hole : content.holes)
        if (hole.shown)
            for (const TraceRun& run : hole.runs)
                if (run.in_slab || &run == &hole.runs.back())
                    for (const TracePlace& place : run.places) points.emplace_back(place.distance, place.up);
    return points;
}

double needed_scale(const SectionContent& content, const Results& results, const Section& section, const drawing::Box& window,
                    const Scales& scales) {
    const Extent extent = extent_of(needed_points(content, results, section));
    const drawing::Box room{window.left + least_side_air, window.bottom + least_foot_air, window.right - least_side_air,
                            window.top - least_sky};
    return fitting_scale(extent.across.width(), extent.up.width(), room, scales);
}

SectionView view_of(const SectionContent& content, const Results& results, const Section& section, const drawing::Box& window,
                    double denominator) {
    const Extent needed = extent_of(needed_points(content, results, section)),
                 wished = extent_of(shown_points(content, results, section));
    SectionView view;
    view.frame = section.frame;
    view.window = window;
    view.metres_per_mm = denominator / 1000.0;
    const double m = view.metres_per_mm;
    const double width = window.width() * m, height = window.height() * m;
    const bool wide = wished.across.width() + 2.0 * side_air * m <= width;
    const double side = (wide ? side_air : least_side_air) * m;
    view.left_distance = start_of(needed.across, wished.across, width, side, side, 0.5);
    // From above: the sky first, then what is wished below.
    const double spare = height - wished.up.width() - (sky + foot_air) * m;
    const double tight = height - needed.up.width() - (least_sky + least_foot_air) * m;
    const double air = spare >= 0.0 ? sky * m + sky_share * spare : std::min(sky * m, least_sky * m + std::max(0.0, tight) / 2.0);
    view.bottom_up = std::max(needed.up.high, wished.up.high) + air - height;
    return view;
}

}  // namespace selvage::sheets
