#pragma once

#include "sheets/table_page.h"

namespace selvage::sheets {

// Leave-one-out: how far each intercept came from where all the others foretold it, with its range of 8 in 10, a chart a vein;
// no row where no vein has a fit.
TypesetTable fit_charts(const Results& results, const Tools& tools);

}  // namespace selvage::sheets
