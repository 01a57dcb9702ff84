#include "sheets/long_section.h"

#include "base/text.h"
#include "drawing/labels.h"
#include "sheets/broken_lines.h"
#include "sheets/column.h"
#include "sheets/forecast_note.h"
#include "sheets/free_place.h"
#include "sheets/grid.h"
#include "sheets/ground_line.h"
#include "sheets/label_text.h"
#include "sheets/long_section_content.h"
#include "sheets/long_section_faults.h"
#include "sheets/long_section_frame.h"
#include "sheets/long_section_labels.h"
#include "sheets/long_section_map.h"
#include "sheets/long_section_marks.h"
#include "sheets/long_section_page.h"
#include "sheets/long_section_site.h"
#include "sheets/match_lines.h"
#include "sheets/paper_choice.h"
#include "sheets/side_list.h"
#include "sheets/stated_faults.h"

#include <algorithm>
#include <optional>
#include <set>
#include <utility>

namespace selvage::sheets {

namespace {

// What stands on the drawing before a word is placed, in the order in which it gives way.
struct Body {
    Marks tints, ground, lines, section_lines, forecasts, symbols;
    LongSectionSite site;
    FaultsOnPlane parting;
    OpeningSigns openings;
    std::vector<StatedFault> faults;  // the others
    std::set<Sign> fault_signs;       // of those at which it ends
    drawing::Obstacles obstacles;
    std::optional<ForecastNote> note;
};

// The words, and the figures of the isolines.
struct Words : PlacedWords {
    Marks figures;
};

std::vector<const forecast::Pierce*> pierces_of(const LongSectionContent& content) {
    std::vector<const forecast::Pierce*> pierces;
    for (const PierceOnPlane& pierce : content.pierces) pierces.push_back(pierce.pierce);
    return pierces;
}

std::optional<ForecastNote> note_of(const LongSectionContent& content, const drawing::Obstacles& obstacles,
                                    const Results& results, const GradeClasses& classes, const Box& window, const Tools& tools) {
    std::vector<drawing::Segment> lines = obstacles.lines;
    lines.insert(lines.end(), obstacles.soft_lines.begin(), obstacles.soft_lines.end());
    return forecast_note(pierces_of(content), results, classes, window, obstacles.boxes, lines, tools);
}

Body body_of(const LongSectionContent& content, const LongSectionFrame& frame, const Mapped& mapped, const Results& results,
             const GradeClasses& classes, const SectionSet& sections, const Tools& tools) {
    Body body;
    body.tints = tint_marks(mapped, tools);
    if (frame.ground)
        for (const GroundOnPlane::Piece& piece : frame.ground->pieces)
            append(body.ground, ground_line_marks(on_paper(piece.places, frame.paper), tools,
                                                  results.site.ground.has_given() && !piece.given));
    body.site = long_section_site(content, frame.paper, results, tools);
    body.lines = isoline_marks(mapped, tools);
    if (tools.style.content.model_doubt)
        append(body.lines, edge_marks(content, results.veins[content.vein], frame, body.fault_signs, tools));
    const auto place = [&](const Point& at) { return content.layout.world_from_layout(frame.paper.drawn_from_paper(at)); };
    body.parting = faults_on_plane(content, results.veins[content.vein], frame.paper);
    for (StatedFault& fault : stated_faults(results, place, frame.paper.window, &results.site.ground)) {
        const std::vector<std::string>& drawn = body.parting.names;
        if (std::find(drawn.begin(), drawn.end(), fault.name) != drawn.end()) continue;
        if (results.events.is_older(fault.name, results.veins[content.vein].name()))
            fault.name += ", older: does not cut the vein";
        body.faults.push_back(std::move(fault));
    }
    append(body.lines, between_marks(body.parting, tools));
    append(body.lines, span_marks(body.parting, content.vein, tools));
    body.section_lines = section_line_marks(content, sections, frame.paper, tools);
    body.forecasts = forecast_marks(content, frame.paper, tools);
    body.symbols = symbol_marks(content, frame.paper, tools);
    append(body.symbols, little_core_marks(content.hits, frame.paper, tools));

    std::vector<OpeningOnSheet> openings;
    for (const OpeningOnPlane& opening : content.openings)
        openings.push_back({opening.opened, frame.paper.paper_from_drawn(opening.place)});
    DrawnSigns noted;  // the legend asks the content
    body.openings = opening_signs(openings, results.records.frame, noted, tools);
    append(body.symbols, body.openings.marks);

    drawing::Obstacles& obstacles = body.obstacles;
    obstacles.boxes = symbol_boxes(content, frame.paper, tools);
    for (const Box& box : little_core_boxes(content.hits, frame.paper, tools)) obstacles.boxes.push_back(box);
    obstacles.boxes.insert(obstacles.boxes.end(), body.openings.boxes.begin(), body.openings.boxes.end());
    add_segments(obstacles.lines, body.ground);
    add_segments(obstacles.lines, body.forecasts);
    add_segments(obstacles.soft_lines, body.site.property);
    add_segments(obstacles.soft_lines, body.site.workings);
    add_faults(obstacles, fault_marks(body.faults, tools));
    for (const std::vector<std::vector<Point>>& ends : body.parting.ends)
        for (const std::vector<Point>& end : ends) add_faults(obstacles, {line_of(end, tools.style.line("fault"))});
    add_segments(obstacles.soft_lines, body.lines);
    for (const Tint& tint : mapped.isolines.tints)
        for (const std::vector<Point>& ring : tint.rings)
            for (std::size_t i = 0; i < ring.size(); ++i) obstacles.soft_lines.push_back({ring[i], ring[(i + 1) % ring.size()]});
    body.note = note_of(content, obstacles, results, classes, frame.paper.window, tools);
    if (body.note) obstacles.boxes.push_back(body.note->box);
    add_segments(obstacles.soft_lines, body.section_lines);
    return body;
}

// Labels beside their points, then the isolines' figures where room is left.
Words words_of(const std::vector<NamedLabel>& named, const Body& body, const Mapped& mapped, const Results& results,
               const Box& core, const Tools& tools) {
    const drawing::LabelRules rules = label_rules(drawing::grown(core, -1.5), results.project, tools);
    Words words{placed_words(named, body.obstacles, rules, tools), {}};
    if (body.note) words.boxes.insert(words.boxes.begin(), drawing::grown(body.note->box, 1.0));
    drawing::Obstacles taken = body.obstacles;
    taken.boxes.insert(taken.boxes.end(), words.boxes.begin(), words.boxes.end());
    taken.lines.insert(taken.lines.end(), words.leaders.begin(), words.leaders.end());
    for (const IsolineFigure& figure : isoline_figures(mapped.isolines.lines, mapped.names, taken, rules.window, tools)) {
        words.boxes.push_back(figure.box);
        words.figures.emplace_back(figure.text);
    }
    return words;
}

std::string section_words(const SectionSet& sections, const base::MapFrame& map) {
    if (sections.sections.empty()) return {};
    if (sections.sections.size() == 1) return "cross section " + section_names(sections);
    return "cross sections " + section_names(sections) + ", every " + base::significant(map.length(sections.spacing), 4) + " " +
           base::symbol_of(map.unit);
}

LongSectionDrawn drawn_of(const LongSectionContent& content, const LongSectionFrame& frame, const Mapped& mapped,
                          const Body& body, const Words& words, const SectionSet& sections, const Results& results) {
    const Box& window = frame.paper.window;
    const double middle = (window.bottom + window.top) / 2.0;
    LongSectionDrawn drawn;
    drawn.scale_denominator = frame.denominator;
    drawn.mapped = mapped.words;
    if (frame.ground)
        for (const GroundOnPlane::Piece& piece : frame.ground->pieces)
            (results.site.ground.has_given() && !piece.given ? drawn.ground_assumed : drawn.ground) = true;
    drawn.property = !body.site.property.empty();
    drawn.workings = !body.site.workings.empty();
    drawn.faults = fault_signs(body.faults);
    drawn.faults.insert(body.fault_signs.begin(), body.fault_signs.end());
    for (const PierceOnPlane& pierce : content.pierces) {
        drawn.forecasts.insert({pierce.sign, Sign::planned_ellipse});
        if (goes_round_a_hit(pierce, content, frame.paper)) drawn.forecasts.insert(Sign::pierce_round_sign);
    }
    drawn.parting = body.parting;
    drawn.sections = !body.section_lines.empty();
    drawn.section_words = section_words(sections, results.records.frame);
    drawn.listed = words.listed;
    if (!body.note && !content.pierces.empty()) drawn.listed.push_back(forecast_note_line(pierces_of(content), results));
    drawn.left = frame.paper.drawn_from_paper({window.left, middle});
    drawn.right = frame.paper.drawn_from_paper({window.right, middle});
    return drawn;
}

// Elevations at both sides: on the plane they stand apart by rise over sin(dip). Along strike the sections are the marks.
Marks axes_of(const LongSectionContent& content, const LongSectionFrame& frame, bool sections, const base::MapFrame& map,
              const Tools& tools) {
    const double unit = base::metres_per(map.unit);
    const Box& window = frame.paper.window;
    const Eigen::Vector2d foot = frame.paper.drawn_from_paper({window.left, window.bottom});
    GridAxis across, up;
    across.at_start = foot.x() / unit;
    across.units_per_mm = frame.paper.metres_per_mm / unit;
    across.labelled = false;
    across.lines = !sections;
    up.at_start = (content.layout.elevation_at(foot.y()) + map.origin.z()) / unit;
    up.units_per_mm = frame.paper.metres_per_mm * content.layout.rise() / unit;
    up.title = std::string("elevation, ") + base::symbol_of(map.unit);
    return grid_marks(window, across, up, tools);
}

// What must be seen: the points, and the edges of the model.
std::vector<Eigen::Vector2d> data_of(const LongSectionContent& content) {
    std::vector<Eigen::Vector2d> data{content.low_points, content.high_points};
    for (const HitOnPlane& hit : content.hits) data.push_back(hit.place);
    for (const MissOnPlane& miss : content.misses) data.push_back(miss.place);
    for (const PierceOnPlane& pierce : content.pierces) data.push_back(pierce.place);
    for (const TargetOnPlane& target : content.targets) data.push_back(target.place);
    for (const OutcropOnPlane& outcrop : content.outcrops) data.push_back(outcrop.place);
    for (const OpeningOnPlane& opening : content.openings) data.push_back(opening.place);
    for (const StepOutOnPlane& step_out : content.step_outs) data.push_back(step_out.place);
    for (const BlockOnPlane& block : content.blocks)
        for (const veins::EdgeLine& edge : block.edges)
            for (const Eigen::Vector3d& point : edge.points) data.push_back(block.layout.layout_from_world(point));
    return data;
}

// The points between the match lines of a part.
LongSectionContent within(LongSectionContent content, const Tile& tile) {
    if (!tile.is_part()) return content;
    const auto keep = [&](auto& all) {
        all.erase(std::remove_if(all.begin(), all.end(), [&](const auto& one) { return !tile.holds(one.place); }), all.end());
    };
    keep(content.hits);
    keep(content.misses);
    keep(content.pierces);
    keep(content.targets);
    keep(content.outcrops);
    keep(content.step_outs);
    keep(content.openings);
    return content;
}

struct Laid {
    LongSectionFrame whole;
    Tiling tiling;
};

Laid laid_out(const LongSectionContent& content, const Results& results, const Tools& tools) {
    const Paper paper = paper_of(results.project, tools.style);
    const Box window = page_boxes(paper.width_mm, paper.height_mm, tools.style.page.layout).window;
    Laid laid{long_section_frame(content, results.site.ground, window, scales_of(results.project, tools.style)), {}};
    laid.tiling = tiles_of(laid.whole.paper, laid.whole.denominator, data_of(content), results.project, tools.style);
    return laid;
}

// Lines that the column does not hold go to free paper of the drawing.
Marks moved_on(PageContent& page, const Body& body, const Words& words, const Box& window, const Results& results,
               const Tools& tools) {
    const Paper paper = paper_of(results.project, tools.style);
    const PageBoxes boxes = page_boxes(paper.width_mm, paper.height_mm, tools.style.page.layout);
    const auto room = static_cast<std::ptrdiff_t>(side_list_room(page, boxes, tools));
    if (room == static_cast<std::ptrdiff_t>(page.side_list.size())) return {};
    std::vector<Box> taken = body.obstacles.boxes;
    taken.insert(taken.end(), words.boxes.begin(), words.boxes.end());
    std::vector<drawing::Segment> lines = body.obstacles.lines;
    lines.insert(lines.end(), words.leaders.begin(), words.leaders.end());
    for (const Marks* all : {&body.lines, &body.site.property, &body.site.workings}) add_segments(lines, *all);
    const auto place = [&](double width, double height) { return free_place(window, width, height, {taken, lines, 4.0, 2.0}); };
    const auto beyond = page.side_list.begin() + room;
    std::optional<ContinuedList> list = continued_list({beyond, page.side_list.end()}, place, tools);
    if (!list) return {};
    page.side_list.erase(beyond, page.side_list.end());
    return std::move(list->marks);
}

SheetTrial drawn_on_paper(const LongSectionContent& all, const Laid& laid, std::size_t number,
                          const std::vector<CoarseField>& sampled, const Results& results, const RunFacts& run,
                          const GradeClasses& classes, const SectionSet& sections, const KeyMap& map, const Tools& tools) {
    const Tile& tile = laid.tiling.tiles[number];
    const LongSectionContent content = within(all, tile);
    const LongSectionFrame frame =
        tile.is_part() ? moved_to(tile.paper, laid.tiling.denominator, all, results.site.ground) : laid.whole;
    const Mapped mapped =
        tools.style.content.modelled_grades ? mapped_of(content, sampled, results, classes, frame, tools) : Mapped{};
    Body body = body_of(content, frame, mapped, results, classes, sections, tools);
    std::vector<NamedLabel> labels = long_section_labels(content, results, classes, frame.paper, tools);
    for (const StatedFault& fault : body.faults) labels.push_back({line_label(fault.name, fault.line, tools), {}, false});
    for (NamedLabel& label : fault_labels(content, body.parting, frame.paper, tools)) labels.push_back(std::move(label));
    for (const drawing::Label& name : body.openings.names) labels.push_back({name, {}, false});
    labels.erase(std::remove_if(labels.begin(), labels.end(), [&](NamedLabel& one) { return !keep_within(one.label, tile); }),
                 labels.end());
    Words words = words_of(labels, body, mapped, results, tile.core, tools);
    MatchLines match = match_lines(tile, "long-section", results.veins[content.vein].name(), tools);
    words.boxes.insert(words.boxes.end(), match.boxes.begin(), match.boxes.end());
    const LongSectionDrawn drawn = drawn_of(content, frame, mapped, body, words, sections, results);

    PageContent page = long_section_page(content, drawn, results, classes, map, tools);
    name_part(page, tile);
    const Marks further = moved_on(page, body, words, frame.paper.window, results, tools);
    drawing::Sheet sheet = begin_page(page, results, run, tools);
    sheet.labels = words.counts;
    put(sheet, Layer::veins, 1, std::move(body.tints));
    put(sheet, Layer::grid, 0, broken_round(axes_of(content, frame, drawn.sections, results.records.frame, tools), words.boxes));
    put(sheet, Layer::grid, 0, broken_round(std::move(body.section_lines), words.boxes));
    put(sheet, Layer::ground, 1, broken_round(std::move(body.site.workings), words.boxes));
    put(sheet, Layer::ground, 1, broken_round(std::move(body.site.property), words.boxes));
    put(sheet, Layer::ground, 1, std::move(body.ground));
    put(sheet, Layer::veins, 1, broken_round(std::move(body.lines), words.boxes));
    put(sheet, Layer::veins, 1, std::move(words.figures));
    put(sheet, Layer::veins, 1, broken_round(fault_marks(body.faults, tools), words.boxes));
    put(sheet, Layer::forecasts, 1, std::move(body.forecasts));
    if (body.note) put(sheet, Layer::forecasts, 0, std::move(body.note->marks));
    put(sheet, Layer::labels, 0, further);
    put(sheet, Layer::results, 1, std::move(body.symbols));
    put(sheet, Layer::grid, 0, std::move(match.marks));
    put(sheet, Layer::labels, 0, std::move(words.marks));
    return {std::move(sheet), listed_on(page, words.listed.size(), results, tools)};
}

}  // namespace

std::vector<drawing::Sheet> long_section(const Results& results, std::size_t vein, const RunFacts& run,
                                         const GradeClasses& classes, const SectionSet& sections, const KeyMap& map,
                                         const Tools& tools) {
    const LongSectionContent content = long_section_content(results, vein, classes);
    const std::vector<CoarseField> sampled =
        tools.style.content.modelled_grades ? sampled_of(content, results, classes) : std::vector<CoarseField>{};
    const auto drawn = [&](const Results& trial) {
        const Laid laid = laid_out(content, trial, tools);
        return each_part(laid.tiling, [&](std::size_t part) {
            return drawn_on_paper(content, laid, part, sampled, trial, run, classes, sections, map, tools);
        });
    };
    return on_paper_that_bears(
        results, tools.style,
        {results.veins[vein].name(), [&](const Results& trial) { return laid_out(content, trial, tools).tiling; }, drawn});
}

}  // namespace selvage::sheets
