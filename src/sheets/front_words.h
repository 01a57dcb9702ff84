#pragma once

#include "sheets/grade_classes.h"
#include "sheets/news.h"
#include "sheets/running_text.h"
#include "sheets/section_set.h"
#include "sheets/table_page.h"
#include "sheets/vein_ahead.h"

#include <cstddef>
#include <string>
#include <vector>

// What the week on a page says.
namespace selvage::sheets {

// A large figure and what it counts.
struct KeyFigure {
    std::string figure, caption;
};

// "Week to 2026-11-20: about 192 m drilled, 1 hit, no miss", and which days that are.
std::string headline(const News& news, const base::MapFrame& frame);
std::string days_words(const News& news);
std::vector<KeyFigure> key_figures(const News& news, const Results& results, const RunFacts& run);

// The results that the page tells: new ones, else the latest.
const std::vector<VeinResult>& told_results(const News& news);

// A vein that a hole is long enough for.
struct NextPierce {
    VeinAhead ahead;
    double to_call = 0.0;  // m that an active hole still has to go
    double end = 0.0;      // m, of the hole as it is planned
    bool active = false;
};
// Active holes first, the nearest to its call depth before the others.
std::vector<NextPierce> next_pierces(const Results& results);

// Each new result beside what was said before; where nothing came, the latest there are.
TypesetTable came_table(const News& news, const Results& results, const GradeClasses& classes, const SectionSet& sections);
// The next holes to meet a vein: active ones, the nearest to their call depth first, then planned ones.
TypesetTable next_table(const Results& results);

// What a person has to decide, the most pressing first, each with a box to tick.
std::vector<Paragraph> decisions(const Results& results, const GradeClasses& classes, const RunFacts& run);
// Faults of the data, the worst in words; assays that are waited for.
std::vector<Paragraph> data_words(const News& news, const RunFacts& run);

// Holes worth a name on the thumbnails: of the results told, and those not drilled yet.
std::vector<std::string> holes_told(const News& news, const Results& results);
// Numbers of the veins of the results told and of those that the next holes should meet; all where there is neither.
std::vector<std::size_t> veins_told(const News& news, const Results& results);

}  // namespace selvage::sheets
