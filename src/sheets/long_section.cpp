#include "sheets/long_section.h"

#include "base/text.h"
#include "drawing/clipping.h"
#include "drawing/labels.h"
#include "sheets/broken_lines.h"
#include "sheets/forecast_note.h"
#include "sheets/grid.h"
#include "sheets/ground.h"
#include "sheets/ground_line.h"
#include "sheets/isolines.h"
#include "sheets/label_text.h"
#include "sheets/legend_signs.h"
#include "sheets/long_section_content.h"
#include "sheets/long_section_labels.h"
#include "sheets/long_section_page.h"
#include "sheets/symbols.h"
#include "sheets/vein_field.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace selvage::sheets {

namespace {

// Free paper round what has labels, mm (the sky takes those of outcrops), round the edges of the model, and over the ground.
constexpr double side_free = 20.0, foot_free = 10.0, sky_free = 9.0, edge_free = 2.0, ground_free = 6.0;
constexpr double fine_step_mm = 0.8;
constexpr double ground_within = 0.7;  // of the height: ground further above the vein than this is left out

struct GroundOnPlane {
    Eigen::Vector2d at_left = Eigen::Vector2d::Zero(), at_right = Eigen::Vector2d::Zero();
};

// Height up the dip at which the mean plane comes to the ground, at a distance along strike; nothing where they hardly meet.
std::optional<double> ground_y(const PlaneLayout& layout, const Ground& ground, double x) {
    const auto above = [&](double y) {
        const Eigen::Vector3d place = layout.world_from_layout({x, y});
        return place.z() - ground.elevation_at(place);
    };
    const double at_zero = above(0.0), slope = above(1.0) - at_zero;
    if (std::abs(slope) < 0.1) return std::nullopt;
    return -at_zero / slope;
}

std::optional<GroundOnPlane> ground_over(const LongSectionContent& content, const Ground& ground, double left, double right) {
    const std::optional<double> at_left = ground_y(content.layout, ground, left), at_right = ground_y(content.layout, ground, right);
    if (!at_left || !at_right) return std::nullopt;
    const double height = std::max(1.0, content.high.y() - content.low.y());
    if (std::max(*at_left, *at_right) - content.high.y() > ground_within * height) return std::nullopt;
    return GroundOnPlane{{left, *at_left}, {right, *at_right}};
}

struct Frame {
    PaperFrame paper;
    double denominator = 1000.0;
    std::optional<GroundOnPlane> ground;
};

// What must lie on the paper along one axis, with the free paper that it wants at either side, mm.
struct Wish {
    double low, high;              // m
    double free_low, free_high;  // mm
};

// Metres a millimetre at which all wishes fit a window of this length.
double needed(const std::vector<Wish>& wishes, double length_mm) {
    double most = 0.0;
    for (const Wish& top : wishes)
        for (const Wish& foot : wishes) most = std::max(most, (top.high - foot.low) / (length_mm - top.free_high - foot.free_low));
    return most;
}

// The middle of the window, as near the middle of the first wish as the others allow.
double middle_of(const std::vector<Wish>& wishes, double length_mm, double metres_per_mm) {
    double least = -1e300, most = 1e300;
    for (const Wish& wish : wishes) {
        least = std::max(least, wish.high + (wish.free_high - length_mm / 2.0) * metres_per_mm);
        most = std::min(most, wish.low - (wish.free_low - length_mm / 2.0) * metres_per_mm);
    }
    const double wished = (wishes.front().low + wishes.front().high + (wishes.front().free_high - wishes.front().free_low) * metres_per_mm) / 2.0;
    return std::max(least, std::min(wished, most));
}

Frame frame_of(const LongSectionContent& content, const Ground& ground, const Box& window, bool feet) {
    std::vector<Wish> across{{content.low.x(), content.high.x(), edge_free, edge_free},
                             {content.low_points.x(), content.high_points.x(), side_free, side_free}};
    std::vector<Wish> up{{content.low.y(), content.high.y(), edge_free, edge_free},
                         {content.low_points.y(), content.high_points.y(), foot_free, sky_free}};
    if (const auto near = ground_over(content, ground, content.low.x(), content.high.x()))
        up.push_back({std::min(near->at_left.y(), near->at_right.y()), std::max(near->at_left.y(), near->at_right.y()), edge_free, ground_free});
    Frame frame;
    frame.denominator = fitting_scale(needed(across, window.width()) * window.width(), needed(up, window.height()) * window.height(), window, feet);
    frame.paper.window = window;
    frame.paper.metres_per_mm = frame.denominator / 1000.0;
    frame.paper.centre = {middle_of(across, window.width(), frame.paper.metres_per_mm), middle_of(up, window.height(), frame.paper.metres_per_mm)};
    frame.ground = ground_over(content, ground, frame.paper.drawn_from_paper({window.left, 0.0}).x(),
                               frame.paper.drawn_from_paper({window.right, 0.0}).x());
    return frame;
}

std::vector<Point> on_paper(const std::vector<Eigen::Vector2d>& places, const PaperFrame& frame) {
    std::vector<Point> points;
    points.reserve(places.size());
    for (const Eigen::Vector2d& place : places) points.push_back(frame.paper_from_drawn(place));
    return points;
}

// Lines of equal grade x thickness, or of thickness where nothing is assayed for.
struct Mapped {
    Isolines isolines;
    std::vector<std::string> names;  // figures by level
    std::optional<std::size_t> strong;
    std::optional<MappedWords> words;
};

bool carries_quantity(const HitOnPlane& drawn, bool accumulation) {
    if (drawn.hit->state != tables::PickState::vein || drawn.hit->certainty > 2) return false;
    return accumulation ? drawn.accumulation.has_value() : drawn.hit->true_thickness.has_value();
}

// 1, 2 and 5 times powers of ten between the least and the most, at most four, from the top.
std::vector<double> round_levels(double least, double most) {
    std::vector<double> levels;
    for (int power = -3; power <= 3; ++power)
        for (const double digit : {1.0, 2.0, 5.0})
            if (const double level = digit * std::pow(10.0, power); level > least && level < most) levels.push_back(level);
    if (levels.size() > 4) levels.erase(levels.begin(), levels.end() - 4);
    return levels;
}

std::string in_lower_case(std::string words) {
    if (!words.empty() && words.front() >= 'A' && words.front() <= 'Z') words.front() = static_cast<char>(words.front() + 32);
    return words;
}

Mapped mapped_of(const LongSectionContent& content, const Results& results, const GradeClasses& classes, const Frame& frame) {
    const veins::Vein& vein = results.veins[content.vein];
    const double per_unit = base::metres_per(results.project.length_unit);
    std::vector<Eigen::Vector2d> hits;
    double least = 1e300, most = 0.0;
    for (const HitOnPlane& drawn : content.hits) {
        if (!carries_quantity(drawn, classes.any)) continue;
        hits.push_back(drawn.place);
        const double value = classes.any ? *drawn.accumulation : *drawn.hit->true_thickness / per_unit;
        least = std::min(least, value);
        most = std::max(most, value);
    }
    Mapped mapped;
    if (hits.size() < 2) return mapped;
    const std::vector<double> levels = classes.any ? classes.breaks : round_levels(least, most);
    std::vector<double> log_levels;
    for (const double level : levels) {
        log_levels.push_back(std::log(level * per_unit));
        mapped.names.push_back(base::significant(level, 3));
    }
    const veins::VeinSummary& summary = vein.summary();
    const FieldReach reach{summary.hole_spacing / 2.0, summary.step_out, summary.step_out};
    const Box& window = frame.paper.window;
    VeinField field = sample_field(
        vein, content.layout, content.extent, hits, reach,
        classes.any ? median_accumulation(classes.analyte) : median_thickness(),
        frame.paper.drawn_from_paper({window.left, window.bottom}), frame.paper.drawn_from_paper({window.right, window.top}),
        fine_step_mm * frame.paper.metres_per_mm);
    level_lone_rings(field, log_levels, hits);
    mapped.isolines = cut_isolines(field, log_levels, frame.paper);
    if (!classes.any) mapped.isolines.tints.clear();
    if (classes.any && classes.cut_off < levels.size()) mapped.strong = classes.cut_off;

    MappedWords words;
    words.quantity = classes.any ? in_lower_case(classes.quantity)
                                 : std::string("true thickness, ") + base::symbol_of(results.project.length_unit);
    words.hits = hits.size();
    words.near_hits = reach.near_hits;
    words.reach = reach.of_a_hit;
    words.tints = !mapped.isolines.tints.empty();
    for (const Isoline& line : mapped.isolines.lines) {
        (line.solid ? words.solid_lines : words.dashed_lines) = true;
        if (mapped.strong && line.level == *mapped.strong) words.strong_level = mapped.names[line.level];
    }
    if (words.tints || words.solid_lines || words.dashed_lines) mapped.words = words;
    return mapped;
}

Marks tint_marks(const Mapped& mapped, const Tools& tools) {
    Marks marks;
    const std::vector<drawing::Colour>& pale = tools.style.classes_pale;
    for (const Tint& tint : mapped.isolines.tints) {
        drawing::Shape shape;
        shape.rings = tint.rings;
        shape.closed = true;
        shape.fill = plain(pale[std::min(tint.level + 1, pale.size() - 1)]);
        marks.emplace_back(std::move(shape));
    }
    return marks;
}

Marks isoline_marks(const Mapped& mapped, const Tools& tools) {
    Marks marks;
    for (const Isoline& line : mapped.isolines.lines) {
        const bool strong = mapped.strong && line.level == *mapped.strong;
        marks.push_back(line_of(line.points, tools.style.line(strong ? (line.solid ? "isoline_strong" : "isoline_strong_inferred")
                                                                     : (line.solid ? "isoline" : "isoline_inferred"))));
    }
    return marks;
}

Marks edge_marks(const LongSectionContent& content, const Frame& frame, const Tools& tools) {
    Marks marks;
    for (const veins::EdgeLine& edge : content.edges) {
        if (edge.reason == veins::EdgeReason::topography && frame.ground) continue;  // the ground's own line stands there
        std::vector<Eigen::Vector2d> places;
        for (const Eigen::Vector3d& point : edge.points) places.push_back(content.layout.layout_from_world(point));
        marks.push_back(line_of(on_paper(places, frame.paper), edge_look(edge.reason, content.vein, tools)));
    }
    return marks;
}

Marks section_line_marks(const LongSectionContent& content, const SectionSet& sections, const PaperFrame& frame, const Tools& tools) {
    constexpr double name_gap = 2.0, name_drop = 3.4;
    Marks marks;
    const Box& window = frame.window;
    const Eigen::Vector2d low = frame.drawn_from_paper({window.left, window.bottom});
    const Eigen::Vector2d high = frame.drawn_from_paper({window.right, window.top});
    double free_from = window.left - side_free;
    for (const Section& section : sections.sections) {
        // On the plane the section is the line a x + b y + c = 0.
        const double a = section.frame.away.dot(content.layout.along), b = section.frame.away.dot(content.layout.up_dip);
        const double c = section.frame.away.dot(content.layout.origin - section.frame.origin);
        if (std::abs(a) < 0.1) continue;
        const Point foot = frame.paper_from_drawn({-(b * low.y() + c) / a, low.y()});
        const Point top = frame.paper_from_drawn({-(b * high.y() + c) / a, high.y()});
        const std::optional<drawing::Segment> seen = drawing::clipped({foot, top}, window);
        if (!seen) continue;
        marks.push_back(line_of({seen->a, seen->b}, tools.style.line("grid")));
        const drawing::TextLook& look = tools.style.text("section_name");
        const double half = drawing::text_width_mm(tools.fonts, look, section.name) / 2.0;
        if (foot.x < window.left || foot.x > window.right || std::abs(foot.x - free_from) < half) continue;
        if (foot.x - half < free_from && foot.x > free_from - half) continue;
        drawing::Text name{{foot.x, window.bottom - name_drop}, section.name, look, drawing::Anchor::centre, false, 0.0,
                           destination_of_sheet("cross-section", section.name)};
        marks.emplace_back(std::move(name));
        free_from = foot.x + half + name_gap;
    }
    return marks;
}

Marks symbol_marks(const LongSectionContent& content, const PaperFrame& frame, const Tools& tools) {
    Marks marks;
    for (const OutcropOnPlane& outcrop : content.outcrops) append(marks, outcrop_symbol(frame.paper_from_drawn(outcrop.place), tools));
    for (const MissOnPlane& miss : content.misses) append(marks, hit_symbol(HitSign::no_vein, frame.paper_from_drawn(miss.place), tools));
    for (const HitOnPlane& hit : content.hits) append(marks, hit_symbol(hit.sign, frame.paper_from_drawn(hit.place), tools));
    return marks;
}

Marks forecast_marks(const LongSectionContent& content, const PaperFrame& frame, const Tools& tools) {
    Marks marks;
    for (const PierceOnPlane& pierce : content.pierces) {
        drawing::Shape ellipse;
        ellipse.rings = {on_paper(pierce.ellipse, frame)};
        ellipse.closed = true;
        ellipse.line = tools.style.line("planned_edge");
        marks.emplace_back(std::move(ellipse));
        append(marks, planned_pierce_symbol(frame.paper_from_drawn(pierce.place), tools));
    }
    return marks;
}

Box square_at(const Point& at, double width) { return {at.x - width / 2.0, at.y - width / 2.0, at.x + width / 2.0, at.y + width / 2.0}; }

std::vector<Box> symbol_boxes(const LongSectionContent& content, const PaperFrame& frame, const Tools& tools) {
    std::vector<Box> boxes;
    for (const HitOnPlane& hit : content.hits)
        boxes.push_back(square_at(frame.paper_from_drawn(hit.place), hit_symbol_width_mm(hit.sign, tools)));
    for (const MissOnPlane& miss : content.misses)
        boxes.push_back(square_at(frame.paper_from_drawn(miss.place), hit_symbol_width_mm(HitSign::no_vein, tools)));
    for (const PierceOnPlane& pierce : content.pierces)
        boxes.push_back(square_at(frame.paper_from_drawn(pierce.place), tools.style.size_mm("planned_pierce") +
                                                                            2.0 * tools.style.size_mm("planned_pierce_tick")));
    for (const OutcropOnPlane& outcrop : content.outcrops) {
        const double width = tools.style.size_mm("outcrop");
        const Point at = frame.paper_from_drawn(outcrop.place);
        boxes.push_back({at.x - width / 2.0, at.y, at.x + width / 2.0, at.y + width});
    }
    return boxes;
}

void add_segments(std::vector<drawing::Segment>& segments, const Marks& marks) {
    for (const Mark& mark : marks) {
        const auto* shape = std::get_if<drawing::Shape>(&mark);
        if (shape == nullptr || !shape->line) continue;
        for (const std::vector<Point>& ring : shape->rings) {
            for (std::size_t i = 1; i < ring.size(); ++i) segments.push_back({ring[i - 1], ring[i]});
            if (shape->closed && ring.size() > 2) segments.push_back({ring.back(), ring.front()});
        }
    }
}

std::string section_words(const SectionSet& sections, const base::MapFrame& map) {
    if (sections.sections.empty()) return {};
    const std::string& first = sections.sections.front().name;
    const std::string& last = sections.sections.back().name;
    if (first == last) return "cross section " + first;
    return "cross sections " + first + " to " + last + ", every " + length_text(sections.spacing, map, 0);
}

std::optional<ForecastNote> note_of(const LongSectionContent& content, const drawing::Obstacles& obstacles, const Results& results,
                                    const GradeClasses& classes, const Box& window, const Tools& tools) {
    std::vector<const forecast::Pierce*> pierces;
    for (const PierceOnPlane& pierce : content.pierces) pierces.push_back(pierce.pierce);
    std::vector<drawing::Segment> lines = obstacles.lines;
    lines.insert(lines.end(), obstacles.soft_lines.begin(), obstacles.soft_lines.end());
    return forecast_note(pierces, results, classes, window, obstacles.boxes, lines, tools);
}

}  // namespace

drawing::Sheet long_section(const Results& results, std::size_t vein, const RunFacts& run, const GradeClasses& classes,
                            const SectionSet& sections, const KeyMap& map, const Tools& tools) {
    const LongSectionContent content = long_section_content(results, vein, classes);
    const Paper paper = paper_of(results.project);
    const PageBoxes boxes = page_boxes(paper.width_mm, paper.height_mm);
    const bool feet = results.project.length_unit != base::LengthUnit::metre;
    const Frame frame = frame_of(content, ground_of(results.records), boxes.window, feet);
    const Mapped mapped = mapped_of(content, results, classes, frame);

    // 1 What is drawn, in the order in which it gives way.
    Marks ground;
    if (frame.ground)
        ground = ground_line_marks(on_paper({frame.ground->at_left, frame.ground->at_right}, frame.paper), tools);
    Marks lines = isoline_marks(mapped, tools);
    append(lines, edge_marks(content, frame, tools));
    Marks section_lines = section_line_marks(content, sections, frame.paper, tools);
    const Marks forecasts = forecast_marks(content, frame.paper, tools);

    // 2 The labels, clear of all that must not be covered.
    const std::vector<NamedLabel> named = long_section_labels(content, results, classes, frame.paper, tools);
    drawing::Obstacles obstacles;
    obstacles.boxes = symbol_boxes(content, frame.paper, tools);
    add_segments(obstacles.lines, ground);
    add_segments(obstacles.lines, forecasts);
    add_segments(obstacles.soft_lines, lines);
    const std::optional<ForecastNote> note = note_of(content, obstacles, results, classes, boxes.window, tools);
    if (note) obstacles.boxes.push_back(note->box);
    add_segments(obstacles.soft_lines, section_lines);
    drawing::LabelRules rules;
    rules.window = drawing::grown(boxes.window, -1.5);
    std::vector<drawing::Label> labels;
    for (const NamedLabel& one : named) labels.push_back(one.label);
    const drawing::PlacedLabels placed = drawing::place_labels(labels, obstacles, rules, tools.fonts);

    Marks label_words;
    std::vector<Box> words_taken;
    if (note) words_taken.push_back(drawing::grown(note->box, 1.0));
    LongSectionDrawn drawn;
    for (const drawing::PlacedLabel& one : placed.labels) {
        append(label_words, label_marks(named[one.label], one, rules, tools));
        words_taken.push_back(drawing::grown(one.box, tools.style.size_mm("gap_round_words")));
        if (one.placing == drawing::Placing::listed) drawn.listed.push_back(listed_line(named[one.label], one));
    }

    // 3 Figures in gaps of their own lines, where room is left.
    std::vector<Box> taken = words_taken;
    taken.insert(taken.end(), obstacles.boxes.begin(), obstacles.boxes.end());
    const std::vector<IsolineFigure> figures = isoline_figures(mapped.isolines.lines, mapped.names, taken, rules.window, tools);
    Marks figure_words;
    for (const IsolineFigure& figure : figures) {
        words_taken.push_back(figure.box);
        figure_words.emplace_back(figure.text);
    }

    // 4 The page.
    drawn.scale_denominator = frame.denominator;
    drawn.mapped = mapped.words;
    drawn.ground = frame.ground.has_value();
    drawn.sections = !section_lines.empty();
    drawn.section_words = section_words(sections, results.records.frame);
    drawn.left = frame.paper.drawn_from_paper({boxes.window.left, (boxes.window.bottom + boxes.window.top) / 2.0});
    drawn.right = frame.paper.drawn_from_paper({boxes.window.right, (boxes.window.bottom + boxes.window.top) / 2.0});
    drawing::Sheet sheet = begin_page(long_section_page(content, drawn, results, classes, map, tools), results, run, tools);
    sheet.labels = placed.figures;

    const double unit = base::metres_per(results.project.length_unit);
    GridAxis across, up;
    across.at_start = drawn.left.x() / unit;
    across.units_per_mm = frame.paper.metres_per_mm / unit;
    across.labelled = false;
    across.lines = section_lines.empty();  // else the sections are the marks along strike
    const Eigen::Vector2d foot = frame.paper.drawn_from_paper({boxes.window.left, boxes.window.bottom});
    up.at_start = (content.layout.elevation_at(foot.y()) + results.records.frame.origin.z()) / unit;
    up.units_per_mm = frame.paper.metres_per_mm * content.layout.rise() / unit;
    up.title = std::string("elevation, ") + base::symbol_of(results.project.length_unit);
    put(sheet, Layer::veins, 1, tint_marks(mapped, tools));
    put(sheet, Layer::grid, 0, broken_round(grid_marks(boxes.window, across, up, tools), words_taken));
    put(sheet, Layer::grid, 0, broken_round(std::move(section_lines), words_taken));
    put(sheet, Layer::ground, 1, std::move(ground));
    put(sheet, Layer::veins, 1, broken_round(std::move(lines), words_taken));
    put(sheet, Layer::veins, 1, std::move(figure_words));
    put(sheet, Layer::forecasts, 1, forecasts);
    if (note) put(sheet, Layer::forecasts, 0, note->marks);
    put(sheet, Layer::results, 1, symbol_marks(content, frame.paper, tools));
    put(sheet, Layer::labels, 0, std::move(label_words));
    return sheet;
}

}  // namespace selvage::sheets
