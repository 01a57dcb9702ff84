#include "sheets/trace_remarks.h"

#include "drawing/clipping.h"
#include "drawing/polyline.h"
#include "sheets/drawn_side.h"
#include "sheets/trace_runs.h"
#include "sheets/traces.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <string>
#include <utility>
#include <vector>

namespace selvage::sheets {

namespace {

constexpr double remark_least_mm = 14.0;  // a shorter stretch is told by what it goes on from
constexpr double wedge_least_mm = 4.0;    // nothing else on the sheet may name a wedge
constexpr double own_trace_mm = 5.0;      // nearer to another hole's trace, words could be that one's
constexpr double own_end_mm = 9.0;        // nearer to where another hole's run ends, words would seem that one's
constexpr double told_apart_mm = 0.6;     // nearer to another all along, no sign tells a stretch from it
constexpr double at_collar = 1.0;         // m
constexpr int places_along = 20;

// What holes have on the sheet.
struct Others {
    std::vector<Point> ends;
    std::vector<drawing::Segment> traces;
};

// Of each shown hole, in the order of the section's.
std::vector<std::pair<std::string, Others>> all_traces(const SectionDrawing& drawing) {
    std::vector<std::pair<std::string, Others>> all;
    for (const SectionHole& hole : drawing.content.holes) {
        if (!hole.shown) continue;
        all.emplace_back(drawing.results.paths[hole.path].hole, Others{});
        for (const TraceRun& run : hole.runs) {
            const std::vector<Point> line = on_paper(drawing, run);
            Others& own = all.back().second;
            own.ends.insert(own.ends.end(), {line.front(), line.back()});
            for (std::size_t i = 1; i < line.size(); ++i) own.traces.push_back({line[i - 1], line[i]});
        }
    }
    return all;
}

// Those of the other holes that words along a line could be taken for: on a sheet of hundreds the rest would fill the memory.
Others others_near(const std::vector<std::pair<std::string, Others>>& all, const std::string& hole,
                   const std::vector<Point>& line) {
    constexpr double taken_for_mm = 50.0;
    Box near{line.front().x, line.front().y, line.front().x, line.front().y};
    for (const Point& point : line)
        near = {std::min(near.left, point.x), std::min(near.bottom, point.y), std::max(near.right, point.x),
                std::max(near.top, point.y)};
    near = drawing::grown(near, taken_for_mm);
    Others others;
    for (const auto& [name, own] : all) {
        if (name == hole) continue;
        std::copy_if(own.ends.begin(), own.ends.end(), std::back_inserter(others.ends),
                     [&](const Point& end) { return drawing::distance(end, near) == 0.0; });
        std::copy_if(own.traces.begin(), own.traces.end(), std::back_inserter(others.traces),
                     [&](const drawing::Segment& trace) { return drawing::touches(trace, near); });
    }
    return others;
}

// How much a place is by itself: 1 and over, words there can only be its own.
double loneliness(const Point& at, const Others& others) {
    double least = 1e3;
    for (const Point& end : others.ends) least = std::min(least, std::hypot(end.x - at.x, end.y - at.y) / own_end_mm);
    for (const drawing::Segment& trace : others.traces) least = std::min(least, drawing::distance(at, trace) / own_trace_mm);
    return least;
}

// A place along a run, the loneliness of its surroundings beside it.
struct LabelPlace {
    Point at;
    double from_middle = 0.0;  // 0 to 0.5 of the run's length
    double lonely = 0.0;
};

std::vector<LabelPlace> places_along_run(const std::vector<Point>& seen, const Others& others) {
    std::vector<LabelPlace> places;
    for (int i = 1; i < places_along; ++i) {
        const double share = static_cast<double>(i) / places_along;
        const Point at = drawing::point_along(seen, share * drawing::length_of(seen)).at;
        places.push_back({at, std::abs(share - 0.5), loneliness(at, others)});
    }
    std::stable_sort(places.begin(), places.end(),
                     [](const LabelPlace& a, const LabelPlace& b) { return a.from_middle < b.from_middle; });
    return places;
}

double offset_at(const SectionDrawing& drawing, const TraceRun& run, const Point& at) {
    const double distance = drawing.view.distance_at(at.x), up = drawing.view.up_at(at.y);
    const auto away = [&](const TracePlace& place) { return std::hypot(place.distance - distance, place.up - up); };
    return std::min_element(run.places.begin(), run.places.end(),
                            [&](const TracePlace& a, const TracePlace& b) { return away(a) < away(b); })
        ->offset;
}

// The hole's name, and off the slab its distance, in words beside the run where it is by itself; else, off the slab, a number
// where it is most so and a line in the side list. At its collar a run without a lonely place bears none: the collar's own words
// say how far off it is.
void want_remark(SectionDrawing& drawing, const std::vector<std::pair<std::string, Others>>& all, const TraceRun& run,
                 const paths::Path& path, const char* look) {
    const std::vector<std::vector<Point>> all_seen = drawing::clipped_line(on_paper(drawing, run), drawing.tile.core);
    const bool is_wedge = drawing.results.records.collars[path.number].parent.has_value();
    if (all_seen.empty() || drawing::length_of(all_seen.front()) < (is_wedge ? wedge_least_mm : remark_least_mm)) return;
    const Others others = others_near(all, path.hole, all_seen.front());
    std::vector<LabelPlace> places = places_along_run(all_seen.front(), others);
    const bool starts_at_collar = !is_wedge && run.places.front().depth < at_collar;
    WantedLabel wanted;
    drawing::Label& label = wanted.label;
    label.owner = path.hole;
    label.not_at = others.ends;
    label.not_along = others.traces;
    for (const LabelPlace& place : places)
        if (place.lonely >= 1.0) label.also_at.push_back(place.at);
    const bool in_words = !label.also_at.empty();
    if (!in_words && (starts_at_collar || run.in_slab)) return;
    std::stable_sort(places.begin(), places.end(), [](const LabelPlace& a, const LabelPlace& b) { return a.lonely > b.lonely; });
    if (places.front().lonely * own_trace_mm < told_apart_mm) return;
    for (const LabelPlace& place : places)
        if (place.lonely * own_trace_mm >= told_apart_mm) label.number_at.push_back(place.at);
    label.may_be_listed = !run.in_slab && !starts_at_collar;
    label.at = in_words ? label.also_at.front() : label.number_at.front();
    if (in_words) label.also_at.erase(label.also_at.begin());
    label.worst_place = in_words ? 6.0 : 0.0;
    label.clear_mm = 0.4;
    label.soft_weight = 40.0;  // on another trace it would seem that one's
    label.priority = 1;
    label.may_lead = false;  // a leader among traces looks like one more
    const std::string offset = offset_words(drawing, offset_at(drawing, run, label.at));
    label.listed_text = path.hole + "\ttrace " + offset;
    label.lines = {{run.in_slab ? path.hole : path.hole + ", " + offset, drawing.tools.style.text(look)}};
    const bool is_ahead = run.places.back().depth > path.drilled_depth;
    if (const std::string crossing = is_ahead && !run.in_slab ? apparent_crossing_words(drawing, path, run) : "";
        !crossing.empty()) {
        label.lines.push_back({crossing, drawing.tools.style.text(look)});
        label.listed_text += ", " + crossing;
    }
    drawing.labels.push_back(std::move(wanted));
}

// Whether other holes' names stand at its collar too: which of them a stretch is nobody could tell.
bool shares_collar(const SectionDrawing& drawing, const HoleRun& hole) {
    const Point at = drawing.paper(hole.run.places.front());
    return std::any_of(drawing.content.holes.begin(), drawing.content.holes.end(), [&](const SectionHole& other) {
        if (!other.shown || &drawing.results.paths[other.path] == hole.path) return false;
        const Point there = drawing.paper(other.runs.front().places.front());
        return std::hypot(there.x - at.x, there.y - at.y) < same_collar_mm;
    });
}

// Whether a stretch in the slab is named otherwise: at its own collar, its end, a hit, a miss or a forecast.
bool is_named(const SectionDrawing& drawing, const HoleRun& hole) {
    const auto is_here = [&](const TracePlace& place) { return drawing.tile.holds({place.distance, place.up}); };
    const TracePlace &first = hole.run.places.front(), &last = hole.run.places.back();
    if ((first.depth < at_collar && is_here(first) && !shares_collar(drawing, hole)) || (comes_to_its_end(hole) && is_here(last)))
        return true;
    const auto holds = [&](const std::string& name, double depth) {
        return name == hole.path->hole && depth >= hole.run.places.front().depth && depth <= hole.run.places.back().depth;
    };
    const SectionContent& content = drawing.content;
    return std::any_of(content.hits.begin(), content.hits.end(),
                       [&](const intercepts::Intercept* hit) { return holds(hit->hole, hit->middle()); }) ||
           std::any_of(content.misses.begin(), content.misses.end(),
                       [&](const SectionContent::Miss& miss) { return holds(miss.none->hole, miss.none->depth); });
}

}  // namespace

void want_trace_remarks(SectionDrawing& drawing) {
    const std::vector<std::pair<std::string, Others>> all = all_traces(drawing);
    for (const HoleRun& hole : drilled_runs(drawing)) {
        if (!hole.run.in_slab)
            want_remark(drawing, all, hole.run, *hole.path, "off_slab_text");
        else if (!is_named(drawing, hole))
            want_remark(drawing, all, hole.run, *hole.path, "body");
    }
    for (const SectionHole& hole : drawing.content.holes) {
        const paths::Path& path = drawing.results.paths[hole.path];
        for (const TraceRun& run : hole.runs) {
            const TraceRun ahead = part_between(run, std::max(path.start_depth, path.drilled_depth), path.end_depth);
            if (hole.shown && !run.in_slab && ahead.places.size() > 1) want_remark(drawing, all, ahead, path, "planned_text");
        }
    }
}

}  // namespace selvage::sheets
