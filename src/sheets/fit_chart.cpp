#include "sheets/fit_chart.h"

#include "base/text.h"
#include "drawing/symbols.h"
#include "sheets/intercept_table.h"
#include "sheets/label_text.h"
#include "sheets/marks.h"
#include "sheets/scale_bar.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

namespace selvage::sheets {

namespace {

constexpr double strip_width = 302.0, rows_high = 12.0;  // mm; table rows
constexpr double axis_room = 12.0, right_room = 4.0, head_room = 8.0, most_foot = 24.0, name_air = 1.5, bare_foot = 3.0,
                 chart_gap = 8.0;                                          // mm
constexpr double widest_step = 7.5, names_step = 3.1, least_chart = 64.0;  // mm
constexpr std::size_t most_drawn = 280;                                    // intercepts of one vein
constexpr double bar_width = 1.3, dot = 0.62;

struct VeinFit {
    std::string vein;
    std::vector<const veins::FitRow*> rows;
    std::size_t of = 0;  // all there are
    double limit = 1.0;  // m, of the axis either way
    double step = widest_step;
    double foot = bare_foot;  // mm under the chart, of its names
    double width() const { return std::max(least_chart, axis_room + right_room + step * static_cast<double>(rows.size())); }
};

double off(const veins::FitRow& row) { return row.actual_depth - row.predicted_depth; }
bool is_within(const veins::FitRow& row) { return row.actual_depth >= row.depth_p10 && row.actual_depth <= row.depth_p90; }

// So wide that nine ranges of ten are whole, and every difference but wild ones.
double axis_limit(const std::vector<const veins::FitRow*>& rows) {
    std::vector<double> ends;
    double most = 0.0;
    for (const veins::FitRow* row : rows) {
        ends.push_back(std::max(row->depth_p90 - row->predicted_depth, row->predicted_depth - row->depth_p10));
        most = std::max(most, std::abs(off(*row)));
    }
    std::sort(ends.begin(), ends.end());
    const double usual = ends[ends.size() * 9 / 10];
    return 1.1 * std::max(usual, std::min(most, 3.0 * usual));
}

// Room for the longest of the holes' names, upright.
double foot_of(const VeinFit& fit, const Tools& tools) {
    if (fit.step < names_step) return bare_foot;
    double longest = 0.0;
    for (const veins::FitRow* row : fit.rows)
        longest = std::max(longest, drawing::text_width_mm(tools.fonts, tools.style.text("axis"), row->hole));
    return std::min(most_foot, longest + name_air + 0.1);
}

std::vector<VeinFit> fits_of(const Results& results, const Tools& tools) {
    std::vector<VeinFit> fits;
    for (const veins::Vein& vein : results.veins) {
        if (vein.fit().empty()) continue;
        VeinFit fit{vein.name(), {}, vein.fit().size()};
        for (const veins::FitRow& row : vein.fit()) fit.rows.push_back(&row);
        if (fit.rows.size() > most_drawn) {
            std::stable_sort(fit.rows.begin(), fit.rows.end(), [](const auto* a, const auto* b) {
                return std::abs(off(*a)) / std::max(a->depth_sd, 1e-6) > std::abs(off(*b)) / std::max(b->depth_sd, 1e-6);
            });
            fit.rows.resize(most_drawn);
            std::sort(fit.rows.begin(), fit.rows.end());  // as they stand in the vein again
        }
        fit.limit = axis_limit(fit.rows);
        fit.step = std::min(widest_step, (strip_width - axis_room - right_room) / static_cast<double>(fit.rows.size()));
        fits.push_back(std::move(fit));
    }
    double foot = bare_foot;  // one of all, so that charts side by side stand level
    for (const VeinFit& fit : fits) foot = std::max(foot, foot_of(fit, tools));
    for (VeinFit& fit : fits) fit.foot = foot;
    return fits;
}

std::string title_of(const VeinFit& fit, const veins::Vein& vein, const base::MapFrame& frame) {
    std::size_t within = 0;
    for (const veins::FitRow& row : vein.fit()) within += is_within(row) ? 1 : 0;
    std::string words = fit.vein + ": " + std::to_string(within) + " of " + std::to_string(fit.of) + " came within, rms " +
                        length_text(vein.summary().residual_rms, frame);
    if (fit.of > fit.rows.size()) words += "; the " + std::to_string(fit.rows.size()) + " furthest off";
    return words;
}

Marks axis_marks(const VeinFit& fit, const Box& box, const base::MapFrame& frame, const Tools& tools) {
    const double middle = (box.bottom + box.top) / 2.0, per_metre = box.height() / 2.0 / fit.limit;
    const double unit = base::metres_per(frame.unit), step = round_length(fit.limit / unit);
    Marks marks;
    for (const double figure : {-step, 0.0, step}) {
        const double y = middle + figure * unit * per_metre;
        marks.push_back(line_of({{box.left, y}, {box.right, y}}, tools.style.line(figure == 0.0 ? "axis_tick" : "grid")));
        marks.push_back(words({box.left - 1.2, y - 0.9}, (figure > 0.0 ? "+" : "") + base::significant(figure, 3),
                              tools.style.text("axis"), drawing::Anchor::right));
    }
    marks.push_back(box_outline(box, tools.style.line("axis_tick")));
    return marks;
}

Marks row_marks(const veins::FitRow& row, const VeinFit& fit, const Box& box, double x, const base::MapFrame& frame,
                const Tools& tools) {
    const double middle = (box.bottom + box.top) / 2.0, per_metre = box.height() / 2.0 / fit.limit;
    const auto y = [&](double metres) { return middle + std::clamp(metres, -fit.limit, fit.limit) * per_metre; };
    const double half = std::min(bar_width, 0.7 * fit.step) / 2.0;
    Marks marks{box_area({x - half, y(row.depth_p10 - row.predicted_depth), x + half, y(row.depth_p90 - row.predicted_depth)},
                         plain(paled(tools.style.colour("ink"), 0.25)))};
    for (const double end : {row.depth_p10 - row.predicted_depth, row.depth_p90 - row.predicted_depth})
        if (std::abs(end) > fit.limit)  // the range goes on past the chart
            marks.emplace_back(
                drawing::arrow_head({x, y(end)}, 0.0, end > 0.0 ? 1.0 : -1.0, 2.0 * half, tools.style.colour("ink")));
    const Point at{x, y(off(row))};
    const double radius = std::min(dot, 0.45 * fit.step);
    if (is_within(row))
        marks.push_back(disc(at, radius, plain(tools.style.colour("ink"))));
    else
        marks.push_back(ring(at, 1.35 * radius, tools.style.line("symbol_ring"), plain(tools.style.colour("white"))));
    if (std::abs(off(row)) > fit.limit && fit.step >= names_step)
        marks.push_back(words({x + 1.2, at.y + (off(row) > 0.0 ? -2.6 : 0.6)}, length_figure(off(row), frame),
                              tools.style.text("table_strong")));
    if (fit.step >= names_step) {
        drawing::Text name{{x + 0.9, box.bottom - 1.0},
                           row.hole,
                           tools.style.text("axis"),
                           drawing::Anchor::right,
                           true,
                           0.0,
                           intercept_row_destination(row.hole, fit.vein)};
        name.text = drawing::shortened(tools.fonts, name.look, name.text, fit.foot - name_air);
        marks.emplace_back(std::move(name));
    }
    return marks;
}

Marks chart_of(const VeinFit& fit, const veins::Vein& vein, const Box& cell, const base::MapFrame& frame, const Tools& tools) {
    const Box box{cell.left + axis_room, cell.bottom + fit.foot, cell.right - right_room, cell.top - head_room};
    const std::string title = title_of(fit, vein, frame);
    Marks marks{words({cell.left, cell.top - 5.0},
                      drawing::shortened(tools.fonts, tools.style.text("heading"), title, cell.width()),
                      tools.style.text("heading"))};
    append(marks, axis_marks(fit, box, frame, tools));
    for (std::size_t i = 0; i < fit.rows.size(); ++i)
        append(marks, row_marks(*fit.rows[i], fit, box, box.left + fit.step * (static_cast<double>(i) + 0.5), frame, tools));
    return marks;
}

const veins::Vein& vein_of(const VeinFit& fit, const std::vector<veins::Vein>& veins) {
    return *std::find_if(veins.begin(), veins.end(), [&](const veins::Vein& vein) { return vein.name() == fit.vein; });
}

// What the charts' signs mean.
LegendGroup fit_legend(const Tools& tools) {
    const auto middle = [](const Box& box) { return Point{(box.left + box.right) / 2.0, (box.bottom + box.top) / 2.0}; };
    return {
        "Fit",
        {{"range of 8 in 10",
          [&tools, middle](const Box& box) {
              const double x = middle(box).x;
              return Marks{box_area({x - bar_width / 2.0, box.bottom, x + bar_width / 2.0, box.top},
                                    plain(paled(tools.style.colour("ink"), 0.25)))};
          }},
         {"came, within it",
          [&tools, middle](const Box& box) { return Marks{disc(middle(box), dot, plain(tools.style.colour("ink")))}; }},
         {"came, outside it", [&tools, middle](const Box& box) {
              return Marks{ring(middle(box), 1.35 * dot, tools.style.line("symbol_ring"), plain(tools.style.colour("white")))};
          }}}};
}

}  // namespace

TypesetTable fit_charts(const Results& results, const Tools& tools) {
    const base::MapFrame& frame = results.records.frame;
    TypesetTable table;
    table.heading = "Fit: by how much each intercept came deeper (+) or sooner (-) than all the others foretold, " +
                    std::string(base::symbol_of(frame.unit)) + " down the hole";
    table.columns = {{"", "", Cells::drawing, false, strip_width}};
    table.rows_high = rows_high;
    std::vector<std::vector<VeinFit>> strips;
    double used = strip_width;
    for (VeinFit& fit : fits_of(results, tools)) {
        if (strips.empty() || used + chart_gap + fit.width() > strip_width) {
            strips.emplace_back();
            used = -chart_gap;
        }
        used += chart_gap + fit.width();
        strips.back().push_back(std::move(fit));
    }
    for (std::vector<VeinFit>& strip : strips) {
        TableCell cell;
        cell.draw = [strip = std::move(strip), frame, &veins = results.veins, tools](const Box& box) {
            Marks marks;
            double left = box.left;
            for (const VeinFit& fit : strip) {
                append(marks, chart_of(fit, vein_of(fit, veins), {left, box.bottom, left + fit.width(), box.top}, frame, tools));
                left += fit.width() + chart_gap;
            }
            return marks;
        };
        TableRow row;
        row.cells.push_back(std::move(cell));
        table.rows.push_back(std::move(row));
    }
    table.legend = {fit_legend(tools)};
    table.end_words =
        "Eight of ten should come within. Far fewer: the ranges are too narrow here; all of them: too wide. An arrow: the range "
        "goes on. Figures: "
        "tables/fit.csv.";
    return table;
}

}  // namespace selvage::sheets
