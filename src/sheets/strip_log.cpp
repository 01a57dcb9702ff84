#include "sheets/strip_log.h"

#include "base/text.h"
#include "sheets/cautions.h"
#include "sheets/column.h"
#include "sheets/intercept_table.h"
#include "sheets/label_text.h"
#include "sheets/legend_signs.h"
#include "sheets/log_columns.h"
#include "sheets/scale_bar.h"

#include <algorithm>
#include <array>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double facts_height = 25.0, side_air = 4.0, under = 6.0;          // mm
constexpr std::array<double, 6> beside_pick{5.0, 4.0, 3.0, 2.0, 1.5, 1.0};  // m of core shown large on either side

Box area_of(const PageBoxes& boxes) {
    return {boxes.panel.left + side_air, boxes.foot.top + under, boxes.panel.right - side_air, boxes.panel.top - facts_height};
}

LegendEntry line_sign(const std::string& words, const char* role, double slope, const Tools& tools) {
    return {words, [role, slope, &tools](const Box& box) {
                const double y = (box.bottom + box.top) / 2.0, x = (box.left + box.right) / 2.0;
                return Marks{line_of({{x - 2.2, y - 2.2 * slope}, {x + 2.2, y + 2.2 * slope}}, tools.style.line(role))};
            }};
}

// Where a vein should be: the sheet of a drilled hole is made after it, from the others.
LegendGroup said_group(const LogSigns& signs, const Tools& tools) {
    LegendGroup said{"Where a vein should be", {}};
    const auto range = [&tools](const Box& box) {
        const double y = (box.bottom + box.top) / 2.0;
        return Marks{box_outline({box.left + 1.0, box.bottom, box.left + 2.6, box.top}, tools.style.line("planned_tick")),
                     line_of({{box.left + 0.5, y}, {box.left + 2.6, y}}, tools.style.line("planned_rule"))};
    };
    if (signs.said) said.entries.push_back({"8 in 10, worked out afterwards from the other holes", range});
    if (signs.forecast) said.entries.push_back({"8 in 10, forecast, not yet drilled", range});
    if (signs.said_goes_on)
        said.entries.push_back({"goes on beyond the piece shown", [&tools](const Box& box) {
                                    const double x = box.left + 1.8, y = (box.bottom + box.top) / 2.0;
                                    return Marks{sheets::area_of({{x - 1.1, y + 0.75}, {x + 1.1, y + 0.75}, {x, y - 0.75}},
                                                                 plain(tools.style.colour("planned")))};
                                }});
    return said;
}

LegendGroup log_group(const LogSigns& signs, bool enlarged, const Tools& tools) {
    LegendGroup log{"Of the log itself", {}};
    const auto letter = [&tools](const char* text) {
        return [text, &tools](const Box& box) {
            return Marks{words({box.left + 1.8, box.bottom}, text, tools.style.text("body_strong"), drawing::Anchor::centre)};
        };
    };
    if (enlarged)
        log.entries.push_back({"shown enlarged under its letter", [&tools](const Box& box) {
                                   const double x = box.left + 0.8;
                                   return Marks{line_of({{x, box.bottom}, {x, box.top}}, tools.style.line("end_of_hole")),
                                                words({x + 0.7, box.bottom}, "A", tools.style.text("body_strong"))};
                               }});
    if (signs.certainty) log.entries.push_back({"after a vein: sure; 2 likely; 3 possible", letter("1")});
    if (signs.breaks)
        log.entries.push_back({"the log goes on elsewhere", [&tools](const Box& box) {
                                   return Marks{line_of(break_line(box.left, box.right, (box.bottom + box.top) / 2.0),
                                                        tools.style.line("table_rule"))};
                               }});
    if (signs.samples)
        log.entries.push_back({"limits of a sample", [&tools](const Box& box) {
                                   const double x = box.left + 1.8;
                                   Marks marks{line_of({{x, box.bottom}, {x, box.top}}, tools.style.line("table_rule"))};
                                   for (const double y : {box.bottom + 0.2, box.top - 0.2})
                                       marks.push_back(line_of({{x, y}, {x + 1.0, y}}, tools.style.line("depth_tick")));
                                   return marks;
                               }});
    return log;
}

std::vector<LegendGroup> legend_of(const LogSigns& signs, bool enlarged, const Results& results, const Tools& tools) {
    DrawnSigns drawn;
    drawn.rocks = signs.rocks;
    drawn.picked = signs.picked;
    if (signs.grades) drawn.signs.insert(Sign::silver_bars);
    std::vector<LegendGroup> groups = legend_groups(drawn, results, tools);
    LegendGroup angles{"At its angle to the core", {}};
    if (signs.structures.count("contact") > 0) angles.entries.push_back(line_sign("vein contact", "contact_mark", 0.4, tools));
    if (signs.structures.count("fault") > 0)
        angles.entries.push_back({"fault", [&tools](const Box& box) {
                                      const Point middle{(box.left + box.right) / 2.0, (box.bottom + box.top) / 2.0};
                                      Marks marks = fault_bars(middle, {2.2, 0.88}, drawing::grown(box, 1.0), tools);
                                      marks.push_back(
                                          line_of({{middle.x - 2.2, middle.y - 0.88}, {middle.x + 2.2, middle.y + 0.88}},
                                                  tools.style.line("fault_mark")));
                                      return marks;
                                  }});
    if (signs.structures.count("foliation") > 0) angles.entries.push_back(line_sign("any other", "foliation_mark", 0.4, tools));
    if (!angles.entries.empty()) groups.push_back(std::move(angles));
    LegendGroup core{"Core, 0 to 100 %", {}};
    if (signs.recovery)
        core.entries.push_back(
            {"recovered", [&tools](const Box& box) { return Marks{box_area(box, plain(tools.style.colour("recovered")))}; }});
    if (signs.rqd)
        core.entries.push_back({"RQD", [&tools](const Box& box) {
                                    const double x = (box.left + box.right) / 2.0;
                                    return Marks{line_of({{x, box.bottom}, {x, box.top}}, tools.style.line("trace"))};
                                }});
    if (!core.entries.empty()) groups.push_back(std::move(core));
    LegendGroup said = said_group(signs, tools);
    if (!said.entries.empty()) groups.push_back(std::move(said));
    LegendGroup told{"Told of the core", {}};
    if (signs.not_there)
        told.entries.push_back({"looked at for a vein, not there", [&tools](const Box& box) {
                                    const drawing::LineLook& look = tools.style.line("contact_mark");
                                    const Box looked{box.left + 1.0, box.bottom, box.left + 3.4, box.top};
                                    return Marks{box_outline(looked, look),
                                                 line_of({{looked.left, looked.bottom}, {looked.right, looked.top}}, look),
                                                 line_of({{looked.left, looked.top}, {looked.right, looked.bottom}}, look)};
                                }});
    if (signs.missed)
        told.entries.push_back({"passed where a vein should be: none", [&tools](const Box& box) {
                                    const drawing::LineLook& look = tools.style.line("contact_mark");
                                    const double x = box.left + 2.2, y = (box.bottom + box.top) / 2.0;
                                    return Marks{line_of({{x - 0.9, y - 0.9}, {x + 0.9, y + 0.9}}, look),
                                                 line_of({{x - 0.9, y + 0.9}, {x + 0.9, y - 0.9}}, look)};
                                }});
    if (signs.left_out)
        told.entries.push_back(
            {"picked, left out by an error", [&tools](const Box& box) {
                 return Marks{box_outline({box.left + 1.0, box.bottom, box.left + 3.4, box.top}, tools.style.line("left_out"))};
             }});
    if (signs.drilling)
        told.entries.push_back(
            {"by the drillers: see the list", [&tools](const Box& box) {
                 return Marks{box_area({box.left + 1.8, box.bottom, box.left + 2.6, box.top}, plain(tools.style.colour("ink")))};
             }});
    if (!told.entries.empty()) groups.push_back(std::move(told));
    LegendGroup log = log_group(signs, enlarged, tools);
    if (!log.entries.empty()) groups.push_back(std::move(log));
    return groups;
}

// As much core beside the picks as takes the fewest pages, and of those the fewest pieces; core that was looked at for a vein in
// vain is not shown large where that takes a further page.
LogLayout layout_of(const LoggedHole& hole, const Box& area, const Scales& scales) {
    const double from = hole.path->start_depth, to = hole.path->drilled_depth;
    std::optional<LogLayout> best;
    for (const bool not_there : {true, false})
        for (const double beside : beside_pick) {
            LogLayout layout =
                log_layout(from, to, windows_round(picked_ranges(hole, not_there), beside, from, to), area, scales);
            const auto is_better = [&](const LogLayout& than) {
                return not_there ? std::pair(layout.pages, layout.cuts) < std::pair(than.pages, than.cuts)
                                 : layout.pages < than.pages;
            };
            if (!best || is_better(*best)) best = std::move(layout);
        }
    return *best;
}

// "A", "B" ... of the windows, "A" again from the 27th on.
std::string window_letter(std::size_t number) { return std::string(1, static_cast<char>('A' + static_cast<int>(number % 26))); }

// What stands over a stretch; a window's place in the strips.
void add_titles(std::vector<Marks>& pages, const LogLayout& layout, const Results& results, const Tools& tools) {
    const base::MapFrame& map = results.records.frame;
    std::size_t window = 0;
    for (const LogStretch& stretch : layout.stretches) {
        const double y = stretch.box.top + (stretch.is_first ? log_head + 1.2 : 2.0);
        const std::string range = depth_range_text(stretch.from, stretch.to, map);
        const std::string scale = scale_text(stretch.metres_per_mm * 1000.0 / tools.style.page.enlarged).substr(6);
        if (!stretch.is_window) {
            pages[0].push_back(words({stretch.box.left, y}, range, tools.style.text("table_strong")));
            continue;
        }
        const std::string letter = window_letter(window++);
        pages[stretch.page].push_back(
            words({stretch.box.left, y}, letter + "  " + range + ", " + scale, tools.style.text("heading")));
        for (const LogStretch& strip : layout.stretches) {
            if (strip.is_window || strip.to < stretch.from || strip.from > stretch.to) continue;
            const double top = strip.y(std::max(strip.from, stretch.from)), bottom = strip.y(std::min(strip.to, stretch.to));
            const double x = strip.box.right + 0.9;
            pages[0].push_back(line_of({{x, bottom}, {x, top}}, tools.style.line("end_of_hole")));
            if (stretch.from >= strip.from)
                pages[0].push_back(words({x + 0.7, (bottom + top) / 2.0 - 0.9}, letter, tools.style.text("body_strong")));
        }
    }
}

PageContent content_of(const LoggedHole& hole, const LogLayout& layout, std::size_t page, double times) {
    PageContent content;
    content.kind = strip_log_kind;
    content.name = hole.collar->hole + (page == 0 ? "" : " " + std::to_string(page + 1));
    content.whole_panel = true;
    content.title.title = "Log of " + hole.collar->hole;
    content.title.subtitle = "core as logged, picks enlarged";
    if (layout.pages > 1) content.title.subtitle += ", part " + std::to_string(page + 1) + " of " + std::to_string(layout.pages);
    content.bookmark = "Log of " + hole.collar->hole + (page == 0 ? "" : ", part " + std::to_string(page + 1));
    content.title.identification = "LOG-" + hole.collar->hole + (page == 0 ? "" : "-" + std::to_string(page + 1));
    content.title.document_type = "strip log";
    const bool enlarged = std::any_of(layout.stretches.begin(), layout.stretches.end(),
                                      [](const LogStretch& stretch) { return stretch.is_window; });
    content.title.scale = scale_text(layout.strip_scale / times).substr(6);
    if (enlarged) content.title.scale += ", picks " + scale_text(layout.window_scale / times).substr(6);
    content.scale_denominator = page == 0 ? layout.strip_scale : layout.window_scale;
    content.scale_note = page == 0 ? "of the whole hole" : "of the picks";
    content.cautions = {
        working_document_caution(), thickness_caution(),
        "Depths are down the hole. After a vein's name: 1 sure, 2 likely, 3 possible. Structures in a picked window: "
        "dip/dip direction, or α to the core axis."};
    content.side_list_heading = "Picks, where veins should be, checks";
    return content;
}

void keep_to_room(PageContent& content, const PageBoxes& boxes, const Tools& tools) {
    std::size_t room = side_list_room(content, boxes, tools);
    if (room >= content.side_list.size()) return;
    const std::vector<std::string> all = content.side_list;
    for (; room > 0; --room) {
        content.side_list.assign(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(room - 1));
        content.side_list.push_back("more\t" + std::to_string(all.size() - room + 1) + " further: see checks.csv and fit.csv");
        if (side_list_room(content, boxes, tools) >= content.side_list.size()) return;
    }
}

void add_facts(Marks& marks, const LoggedHole& hole, const PageBoxes& boxes, const Results& results, const std::string& date,
               const Tools& tools) {
    const double left = boxes.panel.left + side_air, width = boxes.panel.width() - 2.0 * side_air;
    const drawing::TextLook& name = tools.style.text("title");
    Mark heading = words({left, boxes.panel.top - 8.0}, hole.collar->hole, name);
    if (!hole.hits.empty())
        std::get<drawing::Text>(heading).link = intercept_row_destination(hole.collar->hole, hole.hits.front()->vein);
    marks.push_back(std::move(heading));
    const double x = left + std::max(34.0, drawing::text_width_mm(tools.fonts, name, hole.collar->hole) + 6.0);
    double y = boxes.panel.top - 5.6;
    for (const std::string& line : log_facts(hole, results, date)) {
        marks.push_back(words({x, y}, drawing::shortened(tools.fonts, tools.style.text("body"), line, left + width - x),
                              tools.style.text("body")));
        y -= tools.style.size_mm("leading") + 0.4;
    }
    marks.push_back(line_of({{boxes.panel.left, boxes.panel.top - 14.0}, {boxes.panel.right, boxes.panel.top - 14.0}},
                            tools.style.line("rule")));
}

// A style without forecasts does not tell where a vein that was not met should have been.
LoggedHole shown(LoggedHole hole, const drawing::ContentLook& content) {
    if (!content.forecasts)
        hole.said.erase(
            std::remove_if(hole.said.begin(), hole.said.end(), [](const SaidDepth& said) { return said.unmet.has_value(); }),
            hole.said.end());
    return hole;
}

}  // namespace

std::vector<drawing::Sheet> strip_log(const LoggedHole& of_hole, const Results& results, const RunFacts& run,
                                      const Tools& tools) {
    const LoggedHole hole = shown(of_hole, tools.style.content);
    const Paper paper = paper_of(results.project, tools.style);
    const PageBoxes boxes = page_boxes(paper.width_mm, paper.height_mm, tools.style.page.layout);
    const Box area = area_of(boxes);
    const LogLayout layout = layout_of(hole, area, scales_of(results.project, tools.style));
    const std::optional<std::size_t> analyte = tables::leading_analyte(results.records.analytes, results.project.cut_off.analyte);
    std::vector<Marks> pages(layout.pages);
    std::vector<LogSigns> signs(layout.pages);
    for (const LogStretch& stretch : layout.stretches)
        append(pages[stretch.page], log_stretch(stretch, hole, analyte, results, signs[stretch.page], tools));
    add_titles(pages, layout, results, tools);
    const bool enlarged = std::any_of(layout.stretches.begin(), layout.stretches.end(),
                                      [](const LogStretch& stretch) { return stretch.is_window; });
    std::vector<drawing::Sheet> sheets;
    for (std::size_t page = 0; page < layout.pages; ++page) {
        PageContent content = content_of(hole, layout, page, tools.style.page.enlarged);
        content.legend = legend_of(signs[page], page == 0 && enlarged, results, tools);
        content.side_list = log_remarks(hole, results);
        keep_to_room(content, boxes, tools);
        drawing::Sheet sheet = begin_page(content, results, run, tools);
        add_facts(pages[page], hole, boxes, results, run.date, tools);
        put(sheet, Layer::holes, 0, std::move(pages[page]));
        sheets.push_back(std::move(sheet));
    }
    return sheets;
}

}  // namespace selvage::sheets
