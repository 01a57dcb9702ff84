#include "sheets/hits_drawing.h"

#include "base/text.h"
#include "orientation/structure_sets.h"
#include "paths/locate.h"
#include "sheets/assay_bars.h"
#include "sheets/drawn_side.h"
#include "sheets/intercept_table.h"
#include "sheets/label_text.h"
#include "sheets/no_vein_words.h"
#include "sheets/silent_holes.h"
#include "sheets/starts.h"
#include "sheets/symbols.h"
#include "sheets/trace_runs.h"
#include "sheets/traces.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace selvage::sheets {

namespace {

constexpr double least_intercept_mm = 0.8;  // so long is a thin vein's bar at least
constexpr double least_bar_mm = 0.3;        // a shorter grade bar is not drawn
constexpr double foliation_every_mm = 9.0;  // along a trace: closer readings are left out

const SectionHole* shown_hole(const SectionDrawing& drawing, const std::string& name) {
    for (const SectionHole& hole : drawing.content.holes)
        if (hole.shown && drawing.results.paths[hole.path].hole == name) return &hole;
    return nullptr;
}

bool in_slab(const SectionDrawing& drawing, const Eigen::Vector3d& point) {
    return slab_number(drawing.set, point) == drawing.section.number;
}

const paths::Path& path_of_hole(const SectionDrawing& drawing, const SectionHole& hole) {
    return drawing.results.paths[hole.path];
}

bool is_contact(const SectionDrawing& drawing, const std::string& kind) {
    const std::vector<std::string>& kinds = drawing.results.project.core_angles.contact_kinds;
    return std::find(kinds.begin(), kinds.end(), kind) != kinds.end();
}

struct Mark3 {
    Sign sign;
    const char* line;
    const char* length;
};

std::optional<Mark3> mark_of(const SectionDrawing& drawing, const std::string& kind) {
    if (is_contact(drawing, kind)) return Mark3{Sign::contact, "contact_mark", "contact_length"};
    if (kind.find("fault") != std::string::npos) return Mark3{Sign::fault, "fault_mark", "fault_length"};
    if (kind == "foliation" || kind == "schistosity" || kind == "cleavage")
        return Mark3{Sign::foliation, "foliation_mark", "foliation_length"};
    return std::nullopt;  // joints and the rest are for the stereonet
}

// Where the drawing, which lays a hit square onto the section's plane, puts it on the other side of faults than it lies: "in its
// place 0.4 m beyond Cross Fault, 6 m behind"; else empty.
std::string beyond_words(const SectionDrawing& drawing, const intercepts::Intercept& hit) {
    const auto vein = std::find_if(drawing.results.veins.begin(), drawing.results.veins.end(),
                                   [&](const veins::Vein& one) { return one.name() == hit.vein; });
    if (vein == drawing.results.veins.end() || !vein->blocks().is_cut()) return {};
    const faults::Blocks& blocks = vein->blocks();
    const SectionFrame& frame = drawing.view.frame;
    const std::size_t own = blocks.at(hit.point), drawn = blocks.at(frame.at(frame.distance(hit.point), hit.point.z()));
    const auto beyond = [&](const std::string& fault) {
        const double off = std::abs(distance_from_fault(drawing.results, fault, hit.point));
        return length_text(off, drawing.map()) + " beyond " + fault;
    };
    std::string words;
    for (std::size_t fault = 0; fault < blocks.faults().size(); ++fault)
        if (own != drawn && blocks.is_parted_by(fault) &&
            blocks.on_hanging_side(own, fault) != blocks.on_hanging_side(drawn, fault))
            words += (words.empty() ? "in its place " : ", ") + beyond(blocks.faults()[fault].name);
    return words.empty() ? words : words + ", " + offset_words(drawing, frame.offset(hit.point));
}

// "CH-07, channel": what is no drill hole has no trace up to the ground.
std::string hole_words(const SectionDrawing& drawing, const std::string& hole) {
    if (const paths::Path* path = paths::path_of(drawing.results.paths, hole); path != nullptr)
        if (const std::string word = sample_word(path->type); !word.empty()) return hole + ", " + word + ":";
    return hole;
}

// The bar of a sample's grade: its ends on the trace, and from there to its far side.
struct GradeBar {
    Point upper, lower, off;
    Point foot() const { return {(upper.x + lower.x) / 2.0, (upper.y + lower.y) / 2.0}; }
    Point tip() const { return {foot().x + off.x, foot().y + off.y}; }
};

// None for what is no sample of the section's slab, or too poor for a bar.
std::optional<GradeBar> grade_bar(const SectionDrawing& drawing, const tables::Assay& assay, const paths::Path& path) {
    if (assay.type != tables::SampleType::primary || !assay.from || !assay.to || *assay.to <= *assay.from) return std::nullopt;
    const std::size_t analyte = drawing.classes.analyte;
    const std::optional<double>& grade = assay.values[analyte].value;
    const double length = grade ? bar_length_mm(*grade, drawing.results.records.analytes[analyte].unit, drawing.tools) : 0.0;
    const double middle = (*assay.from + *assay.to) / 2.0;
    if (length < least_bar_mm || middle < path.start_depth || !in_slab(drawing, paths::position_at(path, middle)))
        return std::nullopt;
    const double half =
        std::max(*assay.to - *assay.from, drawing.tools.style.size_mm("bar_least_width") * drawing.view.metres_per_mm) / 2.0;
    const Point upper = sides_at(drawing, path, middle).upper;
    return GradeBar{drawing.paper_of(paths::position_at(path, std::max(path.start_depth, middle - half))),
                    drawing.paper_of(paths::position_at(path, middle + half)),
                    {-length * upper.x, -length * upper.y}};
}

// The tip of the longest grade bar within a hit.
std::optional<Point> longest_bar_tip(const SectionDrawing& drawing, const intercepts::Intercept& hit, const paths::Path& path) {
    std::optional<Point> tip;
    double longest = 0.0;
    if (!drawing.classes.any || !shown_hole(drawing, hit.hole)) return tip;
    for (const tables::Assay& assay : drawing.results.records.assays) {
        if (assay.hole != hit.hole || !assay.from || !assay.to || *assay.to <= hit.from || *assay.from >= hit.to) continue;
        const std::optional<GradeBar> bar = grade_bar(drawing, assay, path);
        if (const double length = bar ? std::hypot(bar->off.x, bar->off.y) : 0.0; length > longest) {
            longest = length;
            tip = bar->tip();
        }
    }
    return tip;
}

void want_hit_label(SectionDrawing& drawing, const intercepts::Intercept& hit, const paths::Path& path, const Point& at) {
    const drawing::Style& style = drawing.tools.style;
    WantedLabel label;
    label.label.owner = hit.hole + " " + hit.vein;
    label.label.at = at;
    if (const std::optional<Point> tip = longest_bar_tip(drawing, hit, path)) label.label.also_at = {*tip};
    label.label.clear_mm = 1.4;
    const std::string grade = hit_label(hit, drawing.results.records, drawing.classes.analyte);
    const std::string detail =
        hole_words(drawing, hit.hole) + " " + hit.vein + ", " + depth_range_text(hit.from, hit.to, drawing.map());
    label.label.soft_weight = on_foreign_traces;
    label.label.lines = {{grade, style.text("grade")}, {detail, style.text("detail")}};
    if (const std::string doubt = doubt_words(hit); !doubt.empty()) label.label.lines.push_back({doubt, style.text("detail")});
    if (const std::string beyond = beyond_words(drawing, hit); !beyond.empty())
        label.label.lines.push_back({beyond, style.text("detail")});
    label.label.priority = 3;
    label.head = sign_of(hit, drawing.classes, drawing.map());
    label.label.head_symbol = "class";
    label.label.head_mm = hit_symbol_width_mm(*label.head, drawing.tools);
    label.label.listed_text = hit.hole + "\t" + hit.vein + " " + grade + ", " + depth_range_text(hit.from, hit.to, drawing.map());
    label.link = intercept_row_destination(hit.hole, hit.vein);
    drawing.labels.push_back(std::move(label));
}

// Picks that were left out for an error in the data: whose the core and its grades are there.
void want_left_out_labels(SectionDrawing& drawing) {
    for (const tables::Pick& pick : drawing.results.records.picks) {
        const SectionHole* hole = shown_hole(drawing, pick.hole);
        if (!hole || vein_number(drawing.results, pick.vein) >= drawing.results.veins.size() ||
            !is_left_out(drawing.results, pick.hole, pick.vein))
            continue;
        const paths::Path& path = path_of_hole(drawing, *hole);
        const Eigen::Vector3d point = paths::position_at(path, std::max(path.start_depth, (pick.from + pick.to) / 2.0));
        const Point at = drawing.paper_of(point);
        if (!in_slab(drawing, point) || !drawing.in_window(at)) continue;
        WantedLabel label;
        label.label.owner = pick.hole + " " + pick.vein + " left out";
        label.label.at = at;
        label.label.clear_mm = 1.4;
        label.label.soft_weight = on_foreign_traces;
        label.label.lines = {
            {pick.hole + " " + pick.vein + ", " + depth_range_text(pick.from, pick.to, drawing.map()) + ": picked, left out",
             drawing.tools.style.text("detail")}};
        label.label.priority = 0;
        label.label.may_be_listed = false;  // the side list says it too
        drawing.labels.push_back(std::move(label));
    }
}

}  // namespace

void draw_samples(SectionDrawing& drawing) {
    if (!drawing.classes.any) return;
    const drawing::FillLook fill = plain(drawing.tools.style.colour("silver_bar"));
    Marks bars;
    for (const tables::Assay& assay : drawing.results.records.assays) {
        const SectionHole* hole = shown_hole(drawing, assay.hole);
        if (!hole) continue;
        const std::optional<GradeBar> bar = grade_bar(drawing, assay, path_of_hole(drawing, *hole));
        if (!bar) continue;
        const Point &a = bar->upper, &b = bar->lower, &off = bar->off;
        bars.push_back(area_of({a, b, {b.x + off.x, b.y + off.y}, {a.x + off.x, a.y + off.y}}, fill));
        drawing.keep_clear({bar->foot(), bar->tip()});
    }
    if (bars.empty()) return;
    drawing.put(Layer::results, std::move(bars));
    drawing.note(Sign::silver_bars);
}

void draw_structures(SectionDrawing& drawing) {
    const drawing::Style& style = drawing.tools.style;
    std::map<std::string, std::vector<Point>> foliations;
    Marks marks;
    for (const orientation::Orientation& row : drawing.results.orientations) {
        const std::optional<Mark3> kind = mark_of(drawing, row.kind);
        if (!kind || !row.pole || !in_slab(drawing, row.position) || !shown_hole(drawing, row.hole)) continue;
        const Point at = drawing.paper_of(row.position);
        const std::optional<Eigen::Vector2d> dip = apparent_dip_line(*row.pole, drawing.view.frame);
        if (!dip || !drawing.in_window(at)) continue;
        if (kind->sign == Sign::foliation) {
            std::vector<Point>& others = foliations[row.hole];
            const bool close = std::any_of(others.begin(), others.end(), [&](const Point& p) {
                return std::hypot(p.x - at.x, p.y - at.y) < foliation_every_mm;
            });
            if (close) continue;
            others.push_back(at);
        }
        const double half = style.size_mm(kind->length) / 2.0;
        const Point a{at.x - half * dip->x(), at.y - half * dip->y()}, b{at.x + half * dip->x(), at.y + half * dip->y()};
        const bool trusted = orientation::is_trusted(row);
        const drawing::LineLook look =
            trusted ? style.line(kind->line) : with_colour(style.line(kind->line), style.colour("off_slab_far"));
        marks.push_back(line_of({a, b}, look));
        drawing.keep_clear({a, b});
        if (kind->sign == Sign::fault)
            for (const Point& end : {a, b}) {
                const double bar = style.size_mm("fault_end") / 2.0;
                marks.push_back(line_of(
                    {{end.x - bar * dip->y(), end.y + bar * dip->x()}, {end.x + bar * dip->y(), end.y - bar * dip->x()}}, look));
            }
        if (!trusted) drawing.note(Sign::untrusted_structure);
        drawing.note(kind->sign);
    }
    drawing.put(Layer::holes, std::move(marks));
}

void draw_hits(SectionDrawing& drawing) {
    for (const intercepts::Intercept* hit : drawing.content.hits) {
        const std::size_t number = path_number(drawing.results, hit->hole);
        if (number >= drawing.results.paths.size()) continue;
        const paths::Path& path = drawing.results.paths[number];
        const double half = std::max(hit->length(), least_intercept_mm * drawing.view.metres_per_mm) / 2.0;
        drawing.put(Layer::results,
                    {line_of({drawing.paper_of(paths::position_at(path, std::max(path.start_depth, hit->middle() - half))),
                              drawing.paper_of(paths::position_at(path, hit->middle() + half))},
                             drawing.tools.style.line("intercept_bar"))});
        drawing.note(Sign::vein_intercept);
        const Point at = drawing.paper_of(hit->point);
        drawing.obstacles.boxes.push_back({at.x - 0.7, at.y - 0.7, at.x + 0.7, at.y + 0.7});
        want_hit_label(drawing, *hit, path, at);
    }
    want_left_out_labels(drawing);
    for (const SectionContent::Miss& miss : drawing.content.misses) {
        const Point at = drawing.paper_of(miss.none->point);
        drawing.put(Layer::results, hit_symbol(HitSign::no_vein, at, drawing.tools));
        const double half = hit_symbol_width_mm(HitSign::no_vein, drawing.tools) / 2.0;
        drawing.obstacles.boxes.push_back({at.x - half, at.y - half, at.x + half, at.y + half});
        WantedLabel label;
        const std::string& vein = drawing.results.veins[miss.vein].name();
        label.label.owner = miss.none->hole + " " + vein;
        label.label.at = at;
        label.label.clear_mm = half;
        label.label.soft_weight = on_foreign_traces;
        label.label.lines = {
            {no_vein_words(*miss.none, drawing.map(), drawing.tools.style.content), drawing.tools.style.text("grade")},
            {miss.none->hole + " " + vein, drawing.tools.style.text("detail")}};
        label.label.priority = 3;
        label.link = intercept_row_destination(miss.none->hole, vein);
        label.label.listed_text =
            miss.none->hole + "\t" + vein + ": " + no_vein_words(*miss.none, drawing.map(), drawing.tools.style.content);
        drawing.labels.push_back(std::move(label));
    }
}

void draw_openings(SectionDrawing& drawing) {
    std::vector<OpeningOnSheet> here;
    for (const OpeningInSpace& opening : drawing.content.openings)
        if (const Point at = drawing.paper_of(opening.point); drawing.in_window(at)) here.push_back({opening.opened, at});
    OpeningSigns signs = opening_signs(here, drawing.map(), drawing.drawn, drawing.tools);
    drawing.put(Layer::results, std::move(signs.marks));
    drawing.obstacles.boxes.insert(drawing.obstacles.boxes.end(), signs.boxes.begin(), signs.boxes.end());
    for (drawing::Label& name : signs.names) {
        WantedLabel label;
        label.label = std::move(name);
        label.label.soft_weight = on_foreign_traces;
        drawing.labels.push_back(std::move(label));
    }
}

void draw_outcrops(SectionDrawing& drawing) {
    for (const tables::Outcrop* outcrop : drawing.content.outcrops) {
        const double distance = drawing.view.frame.distance(outcrop->position);
        const Point at = drawing.view.paper(distance, ground_elevation(drawing.ground, drawing.view.frame.at(distance, 0.0)));
        if (!drawing.in_window(at, 1.0)) continue;
        const double half = drawing.tools.style.size_mm("outcrop") / 2.0;
        drawing.put(Layer::ground, outcrop_symbol({at.x, at.y + 0.3}, drawing.tools));
        drawing.obstacles.boxes.push_back({at.x - half, at.y, at.x + half, at.y + 2.0 * half});
        drawing.note(Sign::outcrop);
    }
}

}  // namespace selvage::sheets
