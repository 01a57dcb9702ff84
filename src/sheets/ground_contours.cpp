#include "sheets/ground_contours.h"

#include "base/text.h"
#include "drawing/polyline.h"
#include "sheets/paper_values.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double step_mm = 1.5;
constexpr double apart_mm = 5.0;     // between lines, on the usual slope
constexpr double most_lines = 30.0;  // levels
constexpr int numbered_every = 5;
constexpr double few_lines = 10.0;  // so few levels are all numbered
constexpr double thinning_mm = 0.05;
constexpr double level_enough = 0.01;  // of relief: what rounding makes is none

struct Relief {
    double low = 1e300, high = -1e300;
    double slope = 0.0;  // mean, elevation for each mm of paper
};

Relief relief_of(const drawing::ValueGrid& grid) {
    Relief relief;
    double sum = 0.0, count = 0.0;
    for (std::size_t row = 0; row < grid.rows; ++row)
        for (std::size_t column = 0; column < grid.columns; ++column) {
            const double here = grid.at(column, row);
            if (std::isnan(here)) continue;
            relief.low = std::min(relief.low, here);
            relief.high = std::max(relief.high, here);
            if (column == 0 || row == 0) continue;
            const double left = grid.at(column - 1, row), below = grid.at(column, row - 1);
            if (std::isnan(left) || std::isnan(below)) continue;
            sum += std::hypot((here - left) / grid.step_x, (here - below) / grid.step_y);
            count += 1.0;
        }
    relief.slope = count > 0.0 ? sum / count : 0.0;
    return relief;
}

// The least of 1, 2, 5, 10 ... times a power of ten that is no less.
double round_figure(double least) {
    const double tens = std::pow(10.0, std::floor(std::log10(least)));
    for (const double step : {1.0, 2.0, 5.0})
        if (step * tens >= least * (1.0 - 1e-9)) return step * tens;
    return 10.0 * tens;
}

}  // namespace

GroundContours ground_contours(const site::Ground& ground, const PaperFrame& frame, std::optional<double> wished,
                               const base::MapFrame& map) {
    GroundContours contours;
    if (!ground.has_given()) return contours;
    const drawing::ValueGrid grid = values_on_paper(frame.window, step_mm, [&](const Point& at) {
        const Eigen::Vector2d place = frame.drawn_from_paper(at);
        if (!ground.is_given_at(place)) return std::numeric_limits<double>::quiet_NaN();
        return map.map_from_project({place.x(), place.y(), *ground.elevation_at(place)}).z();
    });
    const Relief relief = relief_of(grid);
    const double range = relief.high - relief.low;
    if (!(range > level_enough)) return contours;
    contours.interval = wished && *wished > 0.0 ? std::max(map.length(*wished), range / 500.0)
                                                : round_figure(std::max({apart_mm * relief.slope, range / most_lines, 1e-3}));
    const bool all_numbered = range / contours.interval < few_lines;
    const double first = std::ceil(relief.low / contours.interval), last = std::floor(relief.high / contours.interval);
    for (double number = first; number <= last; ++number) {
        const bool numbered = all_numbered || std::fmod(std::abs(number), numbered_every) == 0.0;
        std::vector<Isoline>& lines = numbered ? contours.numbered : contours.others;
        for (drawing::ContourLine& line : drawing::contour_lines(grid, number * contours.interval)) {
            if (line.closed && !line.points.empty()) line.points.push_back(line.points.front());
            if (line.points.size() > 1)
                lines.push_back({drawing::simplified(line.points, thinning_mm), true, contours.names.size()});
        }
        if (numbered) contours.names.push_back(base::significant(number * contours.interval, 6));
    }
    return contours;
}

Marks contour_marks(const GroundContours& contours, const Tools& tools) {
    Marks marks;
    for (const Isoline& line : contours.others) marks.push_back(line_of(line.points, tools.style.line("ground_contour")));
    for (const Isoline& line : contours.numbered)
        marks.push_back(line_of(line.points, tools.style.line("ground_contour_strong")));
    return marks;
}

}  // namespace selvage::sheets
