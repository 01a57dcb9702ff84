#pragma once

#include "drawing/labels.h"
#include "drawing/sheet.h"
#include "sheets/compose.h"
#include "sheets/match_lines.h"
#include "sheets/page.h"

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

namespace selvage::sheets {

// Lines of the side list that leave the column its legend and key plan.
constexpr std::size_t listed_most = 8;

// A sheet as drawn on the project's paper, and how many labels found no place on the drawing (more than `listed_most` also where
// the side list ran out of paper).
struct SheetTrial {
    drawing::Sheet sheet;
    std::size_t listed = 0;
};

// Of a trial on this paper: the labels listed, or more than a sheet bears where the page's column runs out of paper.
std::size_t listed_on(const PageContent& page, std::size_t listed, const Results& results, const Tools& tools);

// Labels within a window: where so many find no place at once that the sheet will be drawn on larger paper anyhow, they are not
// looked at further.
drawing::LabelRules label_rules(const drawing::Box& window, const settings::Project& project, const Tools& tools);

// A drawing for which paper is chosen. The results that it is given say on which paper and at what smallest scale.
struct DrawingOnPaper {
    std::string name;                                // of its sheet where it is one: links to it lead to the first of its parts
    std::function<Tiling(const Results&)> laid_out;  // over how many sheets
    std::function<std::vector<SheetTrial>(const Results&)> drawn;  // those sheets
};

// Draws on the project's paper; where more labels went to the side list than it bears, or more than one in five stand away from
// their points, or their leaders are long, on the next larger one of the same kind, up to [sheets] largest_paper: a whole vein
// with a hundred holes is no A3 sheet. Of papers on which it stays crowded, the smallest that no larger one betters clearly.
// Where one label in three stands away from its point even there, the drawing goes over several sheets at the next larger scales,
// each time on that paper which takes the least of it. A style with a paper of its own keeps to it.
std::vector<drawing::Sheet> on_paper_that_bears(const Results& results, const drawing::Style& style,
                                                const DrawingOnPaper& drawing);

// The trials of all parts, each drawn by its place among the tiles.
std::vector<SheetTrial> each_part(const Tiling& tiling, const std::function<SheetTrial(std::size_t)>& draw);

// The project with its paper, but no larger than A3 (279x432): logs and nets are read on a desk, whatever a long section takes.
settings::Project on_desk_paper(settings::Project project, const drawing::Style& style);
// On A3 (279x432): pages of tables, which smaller paper would cut short and larger leave empty.
settings::Project on_table_paper(settings::Project project, const drawing::Style& style);
// The same results, drawn on that project's paper; both must outlive what is given.
Results with_project(const Results& results, const settings::Project& project);

}  // namespace selvage::sheets
