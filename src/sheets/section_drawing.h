#pragma once

#include "drawing/labels.h"
#include "sheets/grade_classes.h"
#include "sheets/ground.h"
#include "sheets/legend_signs.h"
#include "sheets/marks.h"
#include "sheets/match_lines.h"
#include "sheets/section_content.h"
#include "sheets/section_frame.h"

#include <optional>
#include <string>
#include <vector>

// A cross section while it is drawn: what its parts share, and what they have drawn so far.
namespace selvage::sheets {

// Soft weight of words that would seem another hole's on that hole's trace.
constexpr double on_foreign_traces = 4.0;

// A label wanted at a point, with what is drawn when it has its place.
struct WantedLabel {
    drawing::Label label;
    std::optional<HitSign> head;  // class sign at the label's head
    bool planned = false;         // leader in the colour of what is not drilled
    std::string link;             // of its first line
};

struct SectionDrawing {
    const Results& results;
    const SectionSet& set;
    const Section& section;
    const SectionContent& content;
    const GradeClasses& classes;
    const Tools& tools;
    SectionView view;
    Tile tile;  // of the view's window: the whole of it, or a part between match lines
    const site::Ground& ground;

    std::vector<drawing::Item> items;  // in window 1
    Marks off_slab;                    // broken round words,
    std::size_t off_slab_at = 0;  // before the item of this number: over forecasts and logged rock, under what is in the slab
    DrawnSigns drawn;
    drawing::Obstacles obstacles;
    std::vector<WantedLabel> labels;
    std::vector<std::string> side_list;

    const base::MapFrame& map() const { return results.records.frame; }
    Point paper(const TracePlace& place) const { return view.paper(place.distance, place.up); }
    Point paper_of(const Eigen::Vector3d& point) const { return view.paper(point); }
    void put(Layer layer, Marks marks) { sheets::put(items, layer, 1, std::move(marks)); }
    void note(Sign sign) { drawn.signs.insert(sign); }
    bool in_window(const Point& point, double inside_by_mm = 0.0) const;
    void keep_clear(const std::vector<Point>& line);  // of words
};

// The step between depth ticks: about 20 mm on paper in round figures of the project's unit; metres.
double depth_tick_step(const SectionDrawing& drawing);

}  // namespace selvage::sheets
