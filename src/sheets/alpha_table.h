#pragma once

#include "sheets/table_page.h"

#include <vector>

namespace selvage::sheets {

// How far one contact's measured alpha strays from the next: sd of one contact, from the two walls of one hit. `pairs`: of those
// that tell; too few: the usual scatter is taken.
struct AlphaScatter {
    base::Angle sd;
    std::size_t pairs = 0;
    bool is_usual = true;
};
AlphaScatter alpha_scatter(const std::vector<veins::AlphaTest>& tests);

// A measured alpha less the predicted one, in the sd of that difference: of the predicted angle and of one contact together.
double standardized(const veins::AlphaTest& test, const AlphaScatter& scatter);

// Contacts of core that was not oriented, held against the modelled walls, a row a vein. No row where there is none.
TypesetTable alpha_table(const Results& results);

}  // namespace selvage::sheets
