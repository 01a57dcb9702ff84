#include "pdf/content_writer.h"
#include "pdf/page_content.h"

#include <cmath>

namespace selvage::pdf {

namespace {

using drawing::PatternMark;
using drawing::Point;

constexpr double pi = 3.14159265358979323846;

// Dots are this wide, mm: the least that print keeps.
constexpr double dot_mm = 0.22;

std::vector<Point> ring(double radius) {
    constexpr int corners = 16;
    std::vector<Point> points;
    for (int i = 0; i <= corners; ++i) {
        const double turn = 2.0 * pi * i / corners;
        points.push_back({radius * std::cos(turn), radius * std::sin(turn)});
    }
    return points;
}

std::vector<Point> wave(double across) {
    constexpr int steps = 8;
    std::vector<Point> points;
    for (int i = 0; i <= steps; ++i) {
        const double share = static_cast<double>(i) / steps - 0.5;
        points.push_back({share * 0.7 * across, 0.18 * std::sin(2.0 * pi * share)});
    }
    return points;
}

// The strokes of one mark about the origin, mm. They fill about half of the pitch.
std::vector<std::vector<Point>> strokes_of(const drawing::Pattern& pattern) {
    const double half = 0.25 * std::min(pattern.across_mm, 1.4 * pattern.up_mm);
    switch (pattern.mark) {
        case PatternMark::dots: return {{{0.0, 0.0}, {0.0, 0.0}}};
        case PatternMark::dashes: return {{{-0.24 * pattern.across_mm, 0.0}, {0.24 * pattern.across_mm, 0.0}}};
        case PatternMark::v_marks: return {{{-half, half}, {0.0, -half}, {half, half}}};
        case PatternMark::slashes: return {{{-half, -half}, {half, half}}};
        case PatternMark::pluses: return {{{-half, 0.0}, {half, 0.0}}, {{0.0, -half}, {0.0, half}}};
        case PatternMark::circles: return {ring(half)};
        case PatternMark::crosses: return {{{-half, -half}, {half, half}}, {{-half, half}, {half, -half}}};
        case PatternMark::waves: return {wave(pattern.across_mm)};
        case PatternMark::none: break;
    }
    return {};
}

}  // namespace

std::string pattern_content(const drawing::Pattern& pattern) {
    ContentWriter writer;
    const bool dots = pattern.mark == PatternMark::dots;
    writer.set_stroke({dots ? dot_mm : pattern.line_mm, pattern.colour, {}, dots}, false);
    // Two marks a cell, the second row shifted by half; their copies round the cell complete what its edges cut.
    for (int row = -1; row <= 2; ++row) {
        for (int column = -1; column <= 1; ++column) {
            const double shift = row % 2 == 0 ? 0.25 : 0.75;
            const Point centre{pattern.across_mm * (column + shift), pattern.up_mm * (row + 0.5)};
            std::vector<std::vector<Point>> strokes = strokes_of(pattern);
            for (auto& stroke : strokes)
                for (Point& p : stroke) p = {p.x + centre.x, p.y + centre.y};
            writer.path(strokes, false);
        }
    }
    writer.op("S\n");
    return writer.take();
}

}  // namespace selvage::pdf
