#pragma once

#include "support/coverage.h"

#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

// Simulation studies as values: made-up worlds whose truth is known, what was said of them, and how often it came. A study is
// worked out once; tests hold its figures against their windows, the calibration page prints them.
namespace selvage::studies {

// Both ends belong to it. Laid down before the study was run, and never moved.
struct Window {
    double low, high;
};

struct Figure {
    double value;
    std::optional<Window> window;
};

// Figures of one pool, one for each of the study's columns; nothing where a column does not apply.
struct Row {
    std::string what;
    std::size_t count = 0;  // how many single forecasts stand behind it
    std::vector<std::optional<Figure>> figures;
};

struct Study {
    std::string name;
    std::string worlds;  // how many, and what they are like
    std::string seed;
    std::vector<std::string> columns;
    int decimals = 0;
    std::vector<Row> rows;
    std::vector<std::pair<std::string, made_up::Coverage>> reliability;  // pools for the chart of said against came
};

// A row of how often the ranges of 50, 80 and 95 % held.
Row coverage_row(const std::string& what, const made_up::Coverage& pool, std::optional<Window> window50 = std::nullopt,
                 std::optional<Window> window80 = std::nullopt, std::optional<Window> window95 = std::nullopt);

bool is_within(const Figure& figure);  // true where there is no window
std::string text_of(const Window& window);

}  // namespace selvage::studies
