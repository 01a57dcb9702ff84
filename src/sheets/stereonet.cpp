#include "sheets/stereonet.h"

#include "base/text.h"
#include "drawing/clipping.h"
#include "drawing/labels.h"
#include "drawing/symbols.h"
#include "paths/locate.h"
#include "sheets/cautions.h"
#include "sheets/label_text.h"
#include "sheets/legend_signs.h"
#include "sheets/net_labels.h"
#include "sheets/net_table.h"
#include "sheets/pole_density.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double left_air = 13.0, round_net = 22.0, table_room = 100.0;  // mm
constexpr std::size_t density_nodes = 91, meeting_nodes = 131;
constexpr double lowest_level =
    3.0;  // standard deviations; each further level is twice as high: weak sets show beside strong ones
constexpr std::size_t least_contoured = 10;                            // poles: fewer say nothing of density
constexpr double blind_hatch_every = 1.6, blind_hatch_turned = 0.785;  // mm; radians

class NetSheet {
public:
    NetSheet(const PoleGroup& group, const Results& results, const Tools& tools, const Net& net)
        : group_(group), results_(results), tools_(tools), net_(net) {}

    void draw() {
        draw_density();
        draw_blind_zone();
        marks.push_back(net_mask(net_, tools_));
        append(marks, net_frame(net_, tools_));
        draw_planes();
        draw_dips();
        draw_means();
        draw_labels();
        draw_poles();  // over all else: each is seen whole
    }

    Marks marks;
    std::vector<double> levels;  // drawn
    bool blind = false;
    bool denser = false;  // somewhere than chance would have it

private:
    const drawing::LineLook& line(const char* role) const { return tools_.style.line(role); }
    drawing::Colour colour() const {
        return group_.vein_number ? vein_colour(*group_.vein_number, tools_) : tools_.style.colour("ink");
    }
    void cone(const Eigen::Vector3d& axis, base::Angle angle, const drawing::LineLook& look) {
        for (std::vector<Point>& piece : cone_on_net(net_, axis, angle))
            if (piece.size() > 1) {
                lines_.push_back(piece);
                marks.push_back(line_of(std::move(piece), look));
            }
    }
    void mean_symbol(const char* name, const Eigen::Vector3d& pole, double width, const std::string& label) {
        const Point at = net_.paper(pole);
        drawing::SymbolLook look;
        look.edge = line("symbol_ring");
        look.halo_mm = 0.4;  // open: what it stands among is seen through it
        const std::vector<drawing::Shape> shapes = drawing::symbol(name, at, width, look);  // halos, then as many outlines
        const auto outlines = shapes.begin() + static_cast<std::ptrdiff_t>(shapes.size() / 2);
        marks.insert(marks.end(), shapes.begin(), outlines);
        outlines_.insert(outlines_.end(), outlines, shapes.end());
        obstacles_.boxes.push_back(drawing::grown({at.x, at.y, at.x, at.y}, width / 2.0));
        drawing::Label wanted;
        wanted.owner = label;
        wanted.at = at;
        wanted.clear_mm = width / 2.0;
        wanted.lines = {{label, tools_.style.text("name")}};
        wanted.may_be_listed = false;
        labels_.push_back(std::move(wanted));
    }

    // Of several sets, which plane is whose: beside its steepest line or, where that is crowded, to either side of it.
    void name_plane(const orientation::StructureSet& set) {
        const Eigen::Vector3d pole = base::upward_normal(set.attitude),
                              steepest =
                                  base::unit_vector({set.attitude.dip_direction, base::Dip::degrees(set.attitude.dip.degrees())}),
                              level = pole.cross(steepest);
        drawing::Label wanted;
        wanted.owner = "plane " + std::to_string(set.number);
        wanted.at = net_.paper(steepest);
        for (const double degrees : {15.0, -15.0, 30.0, -30.0, 45.0, -45.0}) {
            const base::Angle turn = base::Angle::degrees(degrees);
            wanted.also_at.push_back(net_.paper(turn.cos() * steepest + turn.sin() * level));
        }
        wanted.clear_mm = 0.3;
        wanted.lines = {{wanted.owner, tools_.style.text("line_name")}};
        wanted.may_be_listed = false;
        labels_.push_back(std::move(wanted));
    }

    void draw_density();
    void draw_blind_zone();
    void draw_dips();
    void draw_planes();
    void draw_poles();
    std::vector<Point> pole_points() const;
    void draw_means();
    void draw_labels();

    const PoleGroup& group_;
    const Results& results_;
    const Tools& tools_;
    Net net_;
    std::vector<std::vector<Point>> lines_;  // of planes and cones
    Marks outlines_;                         // of signs, over the halos of all: one sign hides no other
    drawing::Obstacles obstacles_;
    std::vector<drawing::Label> labels_;
};

void NetSheet::draw_density() {
    const WeightedPoles used = weighted_poles(group_, results_.paths);
    if (used.poles.empty()) return;
    const drawing::ValueGrid grid = density_grid(used.poles, used.weights, density_nodes);
    const double highest = *std::max_element(grid.values.begin(), grid.values.end());
    denser = highest > lowest_level;
    if (group_.used.size() < least_contoured) return;
    for (double level = lowest_level; level < highest && levels.size() < most_density_levels; level *= 2.0)
        levels.push_back(level);
    for (std::size_t i = 0; i < levels.size(); ++i) {
        const double next = i + 1 < levels.size() ? levels[i + 1] : std::numeric_limits<double>::infinity();
        drawing::Shape area;
        area.rings = on_net(net_, drawing::contour_area(grid, levels[i], next));
        area.closed = true;
        area.fill = density_fill(i, tools_);
        marks.emplace_back(std::move(area));
        for (const drawing::ContourLine& contour : drawing::contour_lines(grid, levels[i])) {
            drawing::Shape drawn;
            drawn.rings = on_net(net_, {contour.points});
            drawn.closed = contour.closed;
            drawn.line = line("isoline");
            marks.emplace_back(std::move(drawn));
        }
    }
}

// Where no hole that gave oriented core would have met a plane at more than the angle from which on it counts in full.
void NetSheet::draw_blind_zone() {
    std::set<std::string> seen;
    std::vector<Eigen::Vector3d> directions;
    for (const orientation::Orientation& row : results_.orientations) {
        const paths::Path* path = row.pole && seen.insert(row.hole).second ? paths::path_of(results_.paths, row.hole) : nullptr;
        if (path == nullptr) continue;
        for (const double depth : {path->start_depth, path->drilled_depth})
            directions.push_back(paths::direction_at(*path, depth));
    }
    const drawing::ValueGrid grid = meeting_grid(directions, meeting_nodes);
    const std::vector<std::vector<Point>> rings =
        on_net(net_, drawing::contour_area(grid, -std::numeric_limits<double>::infinity(), blind_sine()));
    if (rings.empty()) return;
    blind = true;
    for (const drawing::Segment& stroke : drawing::hatch(rings, blind_hatch_turned, blind_hatch_every))
        marks.push_back(line_of({stroke.a, stroke.b}, line("blind_hatch")));
    for (const std::vector<Point>& ring : rings) {
        std::vector<Point> closed = ring;
        closed.push_back(ring.front());
        marks.push_back(line_of(std::move(closed), line("blind_hatch")));
    }
}

std::vector<Point> NetSheet::pole_points() const {
    std::vector<Point> points;
    for (const std::vector<const orientation::Orientation*>* rows : {&group_.used, &group_.shown_only})
        for (const orientation::Orientation* row : *rows) points.push_back(net_.paper(*row->pole));
    return points;
}

// The dip of the planes whose poles stand on each circle, where it covers no pole and no line; downwards before the other ways.
void NetSheet::draw_dips() {
    const std::vector<Point> poles = pole_points();
    const drawing::TextLook look = with_colour(tools_.style.text("axis_title"), tools_.style.colour("ink"));
    for (const double dip : {30.0, 60.0}) {
        const std::string said = "dip " + base::fixed(dip, 0) + "°";
        for (const double bearing : {180.0, 90.0, 0.0, 270.0, 150.0, 120.0, 60.0, 30.0, 330.0, 300.0, 240.0, 210.0}) {
            const Point at = net_.paper(base::unit_vector({base::Azimuth::degrees(bearing), base::Dip::degrees(90.0 - dip)}));
            drawing::Text text = std::get<drawing::Text>(words({at.x + 0.8, at.y + 0.8}, said, look));
            text.halo_mm = tools_.style.size_mm("halo");
            const Box box = drawing::grown(box_of_words(text, tools_.fonts), pole_half);
            if (std::any_of(poles.begin(), poles.end(), [&](const Point& pole) { return drawing::distance(pole, box) <= 0.0; }) ||
                std::any_of(lines_.begin(), lines_.end(),
                            [&](const std::vector<Point>& line) { return !drawing::clipped_line(line, box).empty(); }))
                continue;
            obstacles_.boxes.push_back(box);
            marks.emplace_back(std::move(text));
            break;
        }
    }
}

void NetSheet::draw_planes() {
    for (const orientation::StructureSet& set : group_.sets) {
        if (!denser) break;
        const Eigen::Vector3d pole = base::upward_normal(set.attitude);
        cone(pole, base::Angle::degrees(90.0), with_colour(line("trace"), colour()));
        if (group_.sets.size() > 1) name_plane(set);
        if (set.cone95.degrees() < 90.0) cone(pole, set.cone95, line("cone95"));
    }
    if (group_.vein_number)
        cone(base::upward_normal(results_.veins[*group_.vein_number].summary().attitude), base::Angle::degrees(90.0),
             line("wall_approximate"));
}

void NetSheet::draw_poles() {
    constexpr double half = pole_half;
    const drawing::LineLook edge = with_colour(line("symbol_edge"), tools_.style.colour("white"));
    for (const orientation::Orientation* row : group_.used)
        marks.push_back(ring(net_.paper(*row->pole), half, edge, plain(tools_.style.colour("ink"))));
    for (const orientation::Orientation* row : group_.shown_only)
        marks.push_back(ring(net_.paper(*row->pole), half, line("symbol_edge"), plain(tools_.style.colour("white"))));
}

void NetSheet::draw_means() {
    for (const orientation::StructureSet& set : group_.sets)
        mean_symbol("square", base::upward_normal(set.attitude), 3.0, std::to_string(set.number));
    if (group_.vein_number)
        mean_symbol("diamond", base::upward_normal(results_.veins[*group_.vein_number].summary().attitude), 4.0, "model");
    for (const faults::Fault* fault : group_.faults) mean_symbol("diamond", fault->plane.normal, 4.0, fault->name);
    append(marks, outlines_);
}

void NetSheet::draw_labels() {
    for (const std::vector<Point>& line : lines_)
        for (std::size_t i = 1; i < line.size(); ++i) obstacles_.lines.push_back({line[i - 1], line[i]});
    append(marks, net_labels(labels_, obstacles_, pole_points(), net_, tools_));
}

PageContent content_of(const PoleGroup& group, const NetSheet& net, const Tools& tools) {
    const std::string what = group_words(group);
    PageContent content;
    content.kind = stereonet_kind;
    content.name = group.vein.empty() ? group.kind : group.vein + " " + group.kind;
    content.whole_panel = true;
    content.title.title = "Net of " + what;
    content.bookmark = content.title.title;
    content.title.subtitle = "poles, lower hemisphere, equal area";
    content.title.identification = "NET-" + (group.vein.empty() ? group.kind : group.vein);
    content.title.document_type = "stereonet";
    std::string directions = "Directions are from grid north.";
    if (net.blind)
        directions +=
            " Hatched: planes that no hole could meet at a fair angle. Few poles there, or none, say nothing of how "
            "many there are; those there count for more, by their weights, and swell sets.";
    content.cautions = {working_document_caution(), std::move(directions)};
    content.legend = net_legend(group, net.levels, net.denser, net.blind, tools);
    content.legend_in_one_column = true;
    content.side_list_heading = "How it is counted";
    content.side_list = net_methods(group, net.levels, net.blind);
    return content;
}

}  // namespace

drawing::Sheet stereonet(const PoleGroup& group, const Results& results, const RunFacts& run, const Tools& tools) {
    const Paper paper = paper_of(results.project, tools.style);
    const PageBoxes boxes = page_boxes(paper.width_mm, paper.height_mm, tools.style.page.layout);
    const double radius =
        std::min((boxes.panel.top - boxes.foot.top) / 2.0 - round_net, (boxes.panel.width() - table_room) / 2.0);
    const Net net{{boxes.panel.left + left_air + radius, (boxes.foot.top + boxes.panel.top) / 2.0 - 4.0}, radius};
    NetSheet sheet_net(group, results, tools, net);
    sheet_net.draw();
    drawing::Sheet sheet = begin_page(content_of(group, sheet_net, tools), results, run, tools);
    put(sheet, Layer::results, 0, std::move(sheet_net.marks));
    Marks words_above{words({boxes.panel.left + 4.0, boxes.panel.top - 6.5}, net_sentence(group), tools.style.text("sentence"))};
    put(sheet, Layer::page, 0, std::move(words_above));
    const Box beside{net.centre.x + radius + 14.0, boxes.foot.top, boxes.panel.right - 4.0, boxes.panel.top - 20.0};
    put(sheet, Layer::page, 0, net_table(group, results, beside, tools));
    return sheet;
}

}  // namespace selvage::sheets
