#include "sheets/plan_neighbours.h"

#include "drawing/clipping.h"
#include "paths/locate.h"
#include "sheets/plan_marks.h"

#include <algorithm>
#include <cmath>

namespace selvage::sheets {

namespace {

constexpr double taken_for_mm = 50.0;  // further off a name is not taken for another hole's

}  // namespace

std::vector<Point> signs_of_others(const Results& results, const std::string& hole, const PaperFrame& frame) {
    std::vector<Point> points;
    for (const intercepts::Intercept& hit : results.intercepts.met)
        if (hit.hole != hole) points.push_back(on_plan(frame, hit.point));
    for (const forecast::Pierce& pierce : results.pierces)
        if (pierce.hole != hole) points.push_back(on_plan(frame, pierce.point));
    return points;
}

std::vector<std::vector<drawing::Segment>> traces_in_chords(const Results& results, const PaperFrame& frame) {
    constexpr int chords = 12;
    std::vector<std::vector<drawing::Segment>> traces(results.paths.size());
    for (std::size_t i = 0; i < traces.size(); ++i) {
        const paths::Path& path = results.paths[i];
        std::vector<Point> points;
        for (int k = 0; k <= chords; ++k)
            points.push_back(
                on_plan(frame, paths::position_at(path, path.start_depth + (path.end_depth - path.start_depth) * k / chords)));
        for (std::size_t k = 1; k < points.size(); ++k) traces[i].push_back({points[k - 1], points[k]});
    }
    return traces;
}

std::vector<drawing::Segment> traces_of_others(const std::vector<std::vector<drawing::Segment>>& all, const Results& results,
                                               const std::string& hole) {
    std::vector<drawing::Segment> traces;
    for (std::size_t i = 0; i < all.size(); ++i)
        if (results.paths[i].hole != hole) traces.insert(traces.end(), all[i].begin(), all[i].end());
    return traces;
}

void keep_near(const Point& at, std::vector<drawing::Segment>& traces, std::vector<Point>& signs) {
    traces.erase(std::remove_if(traces.begin(), traces.end(),
                                [&](const drawing::Segment& trace) { return drawing::distance(at, trace) > taken_for_mm; }),
                 traces.end());
    traces.shrink_to_fit();
    signs.erase(std::remove_if(signs.begin(), signs.end(),
                               [&](const Point& sign) { return std::hypot(sign.x - at.x, sign.y - at.y) > taken_for_mm; }),
                signs.end());
    signs.shrink_to_fit();
}

bool ends_near(const Results& results, const std::string& hole, const Point& at, double within_mm, const PaperFrame& frame) {
    const paths::Path* path = paths::path_of(results.paths, hole);
    if (path == nullptr) return false;
    const Point foot = on_plan(frame, paths::position_at(*path, path->end_depth));
    return std::hypot(foot.x - at.x, foot.y - at.y) < within_mm;
}

}  // namespace selvage::sheets
