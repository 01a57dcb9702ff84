#pragma once

#include "drawing/labels.h"
#include "drawing/sheet.h"
#include "sheets/compose.h"
#include "sheets/page.h"

#include <cstddef>
#include <functional>

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

// Draws on the project's paper; where more labels went to the side list than it bears, or more than one in five stand away from
// their points, or their leaders are long, on the next larger one of the same kind, up to [sheets] largest_paper: a whole vein
// with a hundred holes is no A3 sheet. Of papers on which it stays crowded, the smallest that no larger one betters clearly. The
// results given to `draw` say which paper. A style with a paper of its own keeps to it.
drawing::Sheet on_paper_that_bears(const Results& results, const drawing::Style& style,
                                   const std::function<SheetTrial(const Results&)>& draw);

// The project with its paper, but no larger than A3 (279x432): logs and nets are read on a desk, whatever a long section takes.
settings::Project on_desk_paper(settings::Project project, const drawing::Style& style);
// On A3 (279x432): pages of tables, which smaller paper would cut short and larger leave empty.
settings::Project on_table_paper(settings::Project project, const drawing::Style& style);
// The same results, drawn on that project's paper; both must outlive what is given.
Results with_project(const Results& results, const settings::Project& project);

}  // namespace selvage::sheets
