#include "sheets/trace_runs.h"

#include "drawing/polyline.h"
#include "sheets/label_text.h"

#include <algorithm>
#include <cmath>

namespace selvage::sheets {

namespace {

constexpr double thinning_mm = 0.03;  // points of a trace that lie nearer to its line are left out

}  // namespace

TraceRun part_between(const TraceRun& run, double from_depth, double to_depth) {
    TraceRun part;
    part.in_slab = run.in_slab;
    const auto cut = [](const TracePlace& a, const TracePlace& b, double depth) {
        const double share = (depth - a.depth) / (b.depth - a.depth);
        return TracePlace{depth, a.distance + share * (b.distance - a.distance), a.up + share * (b.up - a.up),
                          a.offset + share * (b.offset - a.offset)};
    };
    for (std::size_t i = 0; i + 1 < run.places.size(); ++i) {
        const TracePlace& a = run.places[i];
        const TracePlace& b = run.places[i + 1];
        const double from = std::max(a.depth, from_depth), to = std::min(b.depth, to_depth);
        if (!(to > from)) continue;
        if (part.places.empty()) part.places.push_back(cut(a, b, from));
        part.places.push_back(cut(a, b, to));
    }
    return part;
}

std::vector<HoleRun> drilled_runs(const SectionDrawing& drawing) {
    std::vector<HoleRun> runs;
    for (const SectionHole& hole : drawing.content.holes) {
        const paths::Path& path = drawing.results.paths[hole.path];
        if (!hole.shown || path.status == tables::HoleStatus::planned) continue;
        for (const TraceRun& run : hole.runs)
            if (TraceRun drilled = part_between(run, path.start_depth, path.drilled_depth); drilled.places.size() > 1)
                runs.push_back({&path, std::move(drilled)});
    }
    return runs;
}

bool comes_to_its_end(const HoleRun& hole) {
    constexpr double depth_step = 0.01;  // m, as depths are written
    return hole.run.places.back().depth >= hole.path->drilled_depth - depth_step;
}

std::vector<Point> on_paper(const SectionDrawing& drawing, const TraceRun& run) {
    std::vector<Point> points;
    for (const TracePlace& place : run.places) points.push_back(drawing.paper(place));
    return drawing::simplified(points, thinning_mm);
}

std::string offset_words(const SectionDrawing& drawing, double offset) { return behind_words(offset, drawing.map()); }

}  // namespace selvage::sheets
