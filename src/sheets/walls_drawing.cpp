#include "sheets/walls_drawing.h"

#include "drawing/clipping.h"
#include "drawing/polyline.h"
#include "sheets/broken_lines.h"
#include "sheets/label_text.h"
#include "sheets/question_marks.h"
#include "sheets/stated_faults.h"
#include "sheets/vein_trace.h"
#include "sheets/wall_looks.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>
#include <string>

namespace selvage::sheets {

namespace {

constexpr double step_mm = 3.0;               // between points of a trace
constexpr double least_stretch_mm = 7.0;      // a style that lasts for less is not told apart
constexpr double band_clear_mm = 0.8;         // a band that keeps no more than that off the walls is not drawn
constexpr std::size_t least_band_places = 3;  // a shorter stretch of band is not drawn
constexpr double reach_mm = 40.0;             // how far a hit off the section bends the drawn trace

class VeinDrawer {
public:
    VeinDrawer(SectionDrawing& drawing, std::size_t vein, const std::vector<VeinPlace>& places)
        : drawing_(drawing), vein_(vein), places_(places) {}

    void draw() {
        drawing_.drawn.veins.insert(vein_);
        if (drawing_.tools.style.content.model_doubt) draw_band();
        const std::vector<WallStretch> all = stretches();
        for (const WallStretch& stretch : all)
            if (stretch.look.thick) draw_fill(stretch);
        for (const WallStretch& stretch : all) draw_walls(stretch);
        if (places_.size() > 1) draw_ends();
    }

    // The middle of the longest stretch along which the drawn vein stands outside its band.
    std::optional<Eigen::Vector2d> off_band() const {
        constexpr double off_mm = 1.0, least_mm = 4.0;
        std::optional<Eigen::Vector2d> longest;
        double most = least_mm;
        std::size_t first = 0;
        for (std::size_t i = 0; i <= places_.size(); ++i) {
            if (i < places_.size() && off_band_mm(places_[i]) > off_mm && drawing_.in_window(paper(places_[i].mid), 1.0))
                continue;
            if (i > first + 1)
                if (const double length = drawing::length_of(line(&VeinPlace::mid, first, i - 1)); length > most) {
                    most = length;
                    longest = places_[(first + i - 1) / 2].mid;
                }
            first = i + 1;
        }
        return longest;
    }

private:
    Point paper(const Eigen::Vector2d& place) const { return drawing_.view.paper(place.x(), place.y()); }

    std::vector<Point> line(Eigen::Vector2d VeinPlace::*member, std::size_t first, std::size_t last) const {
        std::vector<Point> points;
        for (std::size_t i = first; i <= last; ++i) points.push_back(paper(places_[i].*member));
        return points;
    }

    double apart_mm(Eigen::Vector2d VeinPlace::*a, Eigen::Vector2d VeinPlace::*b, std::size_t i) const {
        return (places_[i].*a - places_[i].*b).norm() / drawing_.view.metres_per_mm;
    }

    double off_band_mm(const VeinPlace& place) const {
        const Point mid = paper(place.mid);
        return drawing::distance(mid, drawing::Segment{paper(place.low80), paper(place.high80)});
    }

    WallLook look_at(std::size_t i) const {
        return {apart_mm(&VeinPlace::hanging, &VeinPlace::foot, i) > drawing_.tools.style.size_mm("single_vein_under"),
                wall_style(places_[i].sd, drawing_.view.metres_per_mm), places_[i].presence < questionable_presence};
    }

    double length_mm(const WallStretch& stretch) const {
        return drawing::length_of(line(&VeinPlace::mid, stretch.first, stretch.last));
    }

    // Whether enough of a line lies in the window to be told by its look.
    bool is_seen(const std::vector<Point>& whole) const {
        constexpr double least_mm = 3.0;
        double seen = 0.0;
        for (const std::vector<Point>& piece : drawing::clipped_line(whole, drawing_.view.window))
            seen += drawing::length_of(piece);
        return seen >= least_mm;
    }

    // Where the model ends under the ground, a bar across the vein.
    void draw_ends() {
        constexpr double half_mm = 1.6, off_ground_mm = 2.0;
        for (const bool first : {true, false}) {
            const VeinPlace& end = first ? places_.front() : places_.back();
            const VeinPlace& before = first ? places_[1] : places_[places_.size() - 2];
            const Point at = paper(end.mid), inner = paper(before.mid);
            const double ground = ground_elevation(drawing_.ground, drawing_.view.frame.at(end.mid.x(), 0.0));
            const double under = (ground - end.mid.y()) / drawing_.view.metres_per_mm;
            const double run = std::hypot(at.x - inner.x, at.y - inner.y);
            if (under < off_ground_mm || run <= 0.0 || !drawing_.in_window(at, 1.0)) continue;
            const double x = -(at.y - inner.y) / run * half_mm, y = (at.x - inner.x) / run * half_mm;
            const std::vector<Point> bar{{at.x - x, at.y - y}, {at.x + x, at.y + y}};
            drawing_.put(Layer::veins,
                         {line_of(bar, with_colour(drawing_.tools.style.line("model_end"), vein_colour(vein_, drawing_.tools)))});
            drawing_.keep_clear(bar);
            drawing_.note(Sign::model_end);
        }
    }

    // A short stretch takes the look of the one before it.
    std::vector<WallStretch> stretches() const {
        return wall_stretches(
            places_.size(), [this](std::size_t i) { return look_at(i); },
            [this](const WallStretch& stretch) { return length_mm(stretch); }, least_stretch_mm);
    }

    void draw_band() {
        const drawing::Colour colour = vein_colour(vein_, drawing_.tools);
        drawing::Shape strokes;
        strokes.line = with_colour(drawing_.tools.style.line("band_hatch"), paled(colour, band_hatch_share));
        Marks edges;
        std::size_t first = 0;
        const auto wide = [this](std::size_t i) {
            return apart_mm(&VeinPlace::low80, &VeinPlace::high80, i) >
                   apart_mm(&VeinPlace::hanging, &VeinPlace::foot, i) + band_clear_mm;
        };
        for (std::size_t i = 0; i <= places_.size(); ++i) {
            if (i < places_.size() && wide(i)) continue;
            if (i > first + least_band_places) add_band(first, i - 1, strokes, edges, colour);
            first = i + 1;
        }
        if (edges.empty()) return;
        drawing_.note(Sign::band);
        if (!strokes.rings.empty()) drawing_.put(Layer::veins, {strokes});
        drawing_.put(Layer::veins, std::move(edges));
    }

    void add_band(std::size_t first, std::size_t last, drawing::Shape& strokes, Marks& edges, const drawing::Colour& colour) {
        const std::vector<Point> low = line(&VeinPlace::low80, first, last), high = line(&VeinPlace::high80, first, last);
        std::vector<Point> area = low;
        area.insert(area.end(), high.rbegin(), high.rend());
        for (const drawing::Segment& stroke : drawing::hatch({area}, 0.0, drawing_.tools.style.size_mm("band_stroke_every")))
            strokes.rings.push_back({stroke.a, stroke.b});
        const drawing::LineLook look = with_colour(drawing_.tools.style.line("band"), colour);
        for (const std::vector<Point>& edge : {low, high}) {
            edges.push_back(line_of(edge, look));
            for (std::size_t i = 0; i + 1 < edge.size(); ++i) drawing_.obstacles.soft_lines.push_back({edge[i], edge[i + 1]});
        }
    }

    void draw_fill(const WallStretch& stretch) {
        std::vector<Point> area = line(&VeinPlace::hanging, stretch.first, stretch.last);
        const std::vector<Point> foot = line(&VeinPlace::foot, stretch.first, stretch.last);
        area.insert(area.end(), foot.rbegin(), foot.rend());
        drawing_.put(Layer::veins, {area_of(area, plain(vein_pale(vein_, drawing_.tools)))});
        drawing_.note(Sign::vein_fill);
    }

    void draw_walls(const WallStretch& stretch) {
        constexpr std::array<const char*, 3> roles{"wall_accurate", "wall_approximate", "wall_inferred"};
        constexpr std::array<Sign, 3> signs{Sign::wall_accurate, Sign::wall_approximate, Sign::wall_inferred};
        const auto style = static_cast<std::size_t>(stretch.look.style);
        const bool seen = is_seen(line(&VeinPlace::mid, stretch.first, stretch.last));
        drawing::LineLook look = with_colour(drawing_.tools.style.line(roles[style]), vein_colour(vein_, drawing_.tools));
        if (seen) drawing_.note(signs[style]);
        std::vector<std::vector<Point>> lines;
        if (stretch.look.thick) {
            lines = {line(&VeinPlace::hanging, stretch.first, stretch.last), line(&VeinPlace::foot, stretch.first, stretch.last)};
        } else {
            look.width_mm = drawing_.tools.style.line("single_vein").width_mm;
            lines = {line(&VeinPlace::mid, stretch.first, stretch.last)};
            if (seen) drawing_.note(Sign::single_line);
        }
        for (const std::vector<Point>& wall : lines) {
            drawing_.put(Layer::veins, {line_of(wall, look)});
            drawing_.keep_clear(wall);
        }
        if (stretch.look.questionable) draw_questions(lines.front());
    }

    void draw_questions(const std::vector<Point>& wall) {
        const std::size_t before = questions_.size();
        add_question_marks(questions_, wall, vein_colour(vein_, drawing_.tools), drawing_.tools);
        for (std::size_t i = before; i < questions_.size(); ++i) {
            const drawing::Text& mark = questions_[i];
            if (!drawing_.in_window(mark.at, 2.0)) continue;
            drawing_.obstacles.boxes.push_back(box_of_words(mark, drawing_.tools.fonts));
            drawing_.put(Layer::veins, {mark});
            drawing_.note(Sign::questionable);
        }
    }

    SectionDrawing& drawing_;
    std::size_t vein_;
    const std::vector<VeinPlace>& places_;
    std::vector<drawing::Text> questions_;
};

// The stretches of a vein's parts that are seen, the longest first.
std::vector<std::vector<Point>> seen_pieces(const SectionDrawing& drawing, const std::vector<std::vector<VeinPlace>>& parts) {
    std::vector<std::vector<Point>> pieces;
    for (const std::vector<VeinPlace>& part : parts) {
        std::vector<Point> seen;
        for (const VeinPlace& place : part) {
            const Point at = drawing.view.paper(place.mid.x(), place.mid.y());
            if (drawing.in_window(at, 2.0)) seen.push_back(at);
        }
        if (!seen.empty()) pieces.push_back(std::move(seen));
    }
    std::stable_sort(pieces.begin(), pieces.end(), [](const auto& a, const auto& b) { return a.size() > b.size(); });
    return pieces;
}

// The vein's name, with its block's where it has several, stands at the upper end of its longest part that is seen, or further
// along it; beside every other part that has room for it.
void want_name(SectionDrawing& drawing, std::size_t vein, std::size_t block, const std::vector<std::vector<VeinPlace>>& parts) {
    const veins::Vein& modelled = drawing.results.veins[vein];
    const std::string where = block_words(modelled.blocks().name(block));
    constexpr double least_mm = 12.0;  // a shorter other part goes without
    bool first = true;
    for (const std::vector<Point>& piece : seen_pieces(drawing, parts)) {
        const double length = drawing::length_of(piece);
        if (!first && length < least_mm) continue;
        WantedLabel label;
        label.label.owner = modelled.name() + modelled.blocks().name(block);
        label.label.at = piece[std::min<std::size_t>(piece.size() - 1, 1)];
        for (const double share : {0.1, 0.95, 0.2, 0.85, 0.3, 0.7})
            label.label.also_at.push_back(drawing::point_along(piece, share * length).at);
        label.label.clear_mm = 1.0;
        label.label.soft_weight = 6.0;  // not on its own band
        label.label.lines = {{modelled.name() + " vein" + (where.empty() ? "" : ", " + where),
                              with_colour(drawing.tools.style.text("vein_name"), vein_colour(vein, drawing.tools))}};
        label.label.priority = first ? 4 : 0;
        label.label.may_lead = label.label.may_be_listed = first;
        drawing.labels.push_back(std::move(label));
        first = false;
    }
}

// Block by block.
void want_names(SectionDrawing& drawing, std::size_t vein, const std::vector<std::vector<VeinPlace>>& parts) {
    const veins::Vein& modelled = drawing.results.veins[vein];
    std::map<std::size_t, std::vector<std::vector<VeinPlace>>> by_block;
    for (const std::vector<VeinPlace>& part : parts) {
        const Eigen::Vector2d& middle = part[part.size() / 2].mid;
        by_block[modelled.block_at(drawing.view.frame.at(middle.x(), middle.y()))].push_back(part);
    }
    for (const auto& [block, own] : by_block) want_name(drawing, vein, block, own);
}

// The intercept of the vein that leads the drawn surface furthest from the model near a place: by what leave-one-out finds it
// off, less the further away.
std::string hole_that_leads(const SectionDrawing& drawing, std::size_t vein, const Eigen::Vector3d& place) {
    constexpr double beside = 5.0;  // m
    const veins::Vein& modelled = drawing.results.veins[vein];
    std::string words;
    double most = 0.0;
    for (const intercepts::Intercept& hit : drawing.results.intercepts.met) {
        if (vein_number(drawing.results, hit.vein) != vein) continue;
        for (const veins::FitRow& row : modelled.fit()) {
            if (row.hole != hit.hole) continue;
            const double off = std::abs(row.actual_depth - row.predicted_depth);
            const double weight = off / std::max(beside, (hit.point - place).norm());
            if (weight <= most) continue;
            most = weight;
            words = hit.hole + ", met " + length_text(off, drawing.results.records.frame, 0) + " from where the others say";
        }
    }
    return words;
}

// A scrap of ground that the section just touches says nothing.
bool is_worth_drawing(const SectionDrawing& drawing, const std::vector<VeinPlace>& part) {
    constexpr double least_mm = 12.0;
    std::vector<Point> line;
    for (const VeinPlace& place : part) line.push_back(drawing.view.paper(place.mid.x(), place.mid.y()));
    double seen = 0.0;
    for (const std::vector<Point>& piece : drawing::clipped_line(line, drawing.view.window)) seen += drawing::length_of(piece);
    return seen >= least_mm;
}

std::vector<const intercepts::Intercept*> hits_of(const SectionDrawing& drawing, std::size_t vein) {
    std::vector<const intercepts::Intercept*> hits;
    for (const intercepts::Intercept* hit : drawing.content.hits)
        if (vein_number(drawing.results, hit->vein) == vein) hits.push_back(hit);
    return hits;
}

}  // namespace

void draw_veins(SectionDrawing& drawing) {
    const Box& window = drawing.view.window;
    const double m = drawing.view.metres_per_mm;
    const Eigen::Vector3d middle = drawing.view.frame.at(drawing.view.distance_at((window.left + window.right) / 2.0),
                                                         drawing.view.up_at((window.bottom + window.top) / 2.0));
    const double radius = std::hypot(window.width(), window.height()) / 2.0 * m;
    for (std::size_t vein = 0; vein < drawing.results.veins.size(); ++vein) {
        const std::vector<std::vector<VeinPlace>> parts =
            vein_trace(drawing.results.veins[vein], hits_of(drawing, vein), drawing.section, middle, radius, step_mm * m,
                       reach_mm * m, drawing.ground);
        bool seen = false;
        std::optional<Eigen::Vector2d> off_band;
        for (const std::vector<VeinPlace>& part : parts) {
            const bool in_sight = is_worth_drawing(drawing, part);
            seen = seen || in_sight;
            if (!in_sight) continue;
            VeinDrawer drawer(drawing, vein, part);
            drawer.draw();
            if (!off_band) off_band = drawer.off_band();
        }
        if (seen) want_names(drawing, vein, parts);
        if (off_band && drawing.tools.style.content.model_doubt)
            drawing.side_list.push_back(drawing.results.veins[vein].name() + "\tdrawn off its band towards " +
                                        hole_that_leads(drawing, vein, drawing.view.frame.at(off_band->x(), off_band->y())));
    }
}

void draw_faults(SectionDrawing& drawing) {
    const auto place = [&view = drawing.view](const Point& at) {
        return view.frame.at(view.distance_at(at.x), view.up_at(at.y));
    };
    const std::vector<StatedFault> faults = stated_faults(drawing.results, place, drawing.view.window, &drawing.ground);
    if (Marks bands = fault_bands(faults, drawing.tools); !bands.empty() && drawing.tools.style.content.model_doubt) {
        add_segments(drawing.obstacles.soft_lines, bands);
        drawing.put(Layer::veins, std::move(bands));
        drawing.note(Sign::fault_band);
    }
    drawing.put(Layer::veins, fault_marks(faults, drawing.tools));
    for (const Sign sign : fault_signs(faults)) drawing.note(sign);
    for (const StatedFault& fault : faults) {
        drawing.keep_clear(fault.line);
        WantedLabel label;
        label.label =
            line_label(fault.name, fault.line, drawing.tools, older_words(drawing.results, fault.name, drawing.drawn.veins));
        drawing.labels.push_back(std::move(label));
    }
}

}  // namespace selvage::sheets
