#pragma once

#include "drawing/labels.h"
#include "sheets/marks.h"
#include "sheets/page.h"
#include "sheets/paper_frame.h"

#include <Eigen/Core>

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

// Drawings that would need a smaller scale than [sheets] smallest_scale allows, over several sheets that meet at match lines.
namespace selvage::sheets {

// One sheet of a drawing, or its only one.
struct Tile {
    PaperFrame paper;
    Box core;  // between its match lines; a window without neighbours is all core
    std::size_t number = 1, count = 1;
    std::size_t left = 0, right = 0, above = 0, below = 0;  // numbers of its neighbours; 0: none
    bool is_part() const { return count > 1; }
    bool holds(const Eigen::Vector2d& drawn) const;
};

struct Tiling {
    double denominator = 1000.0;  // before the page is enlarged
    std::vector<Tile> tiles;      // row by row from the top, each from the left; those that would hold no data are none
};

// The drawing as it fits its window where its scale is allowed, or in tiles at the smallest allowed scale. `whole`, denominator:
// as it would fit; data (at least one): what must be seen, m across and up on the drawn plane.
Tiling tiles_of(const PaperFrame& whole, double denominator, const std::vector<Eigen::Vector2d>& data,
                const settings::Project& project, const drawing::Style& style);

// The sheets of several drawings, one after another.
std::vector<drawing::Sheet> joined(std::vector<std::vector<drawing::Sheet>> drawings);

// The name of a sheet's part: "part 2", "Ouzel part 2".
std::string part_name(const std::string& name, std::size_t number);
// Says in title, name and number which part a sheet is; leaves an only sheet as it is.
void name_part(PageContent& page, const Tile& tile);

// The match lines of a tile, each with the sheet that goes on beyond it, for a drawing of that kind and name. Their words end in
// the number of that sheet once the pack is whole.
struct MatchLines {
    Marks marks;
    std::vector<Box> boxes;  // of the words
};
MatchLines match_lines(const Tile& tile, const std::string& kind, const std::string& name, const Tools& tools);
// Fills in those numbers.
void number_match_lines(std::vector<drawing::Sheet>& sheets);

// A small picture of all tiles, the data as dots, this tile filled.
std::function<Marks(const Box&)> tile_key(const Tiling& tiling, const Tile& tile, const std::vector<Eigen::Vector2d>& data,
                                          const Tools& tools);

// Whether a label's point, or another of its places, lies between the match lines; places beyond them, of its number too, are
// taken off.
bool keep_within(drawing::Label& label, const Tile& tile);

}  // namespace selvage::sheets
