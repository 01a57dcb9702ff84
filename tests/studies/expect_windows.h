#pragma once

#include "studies/study.h"

// Every figure of a study that has a window lies in it: one failure for each that does not. The figures are printed as they come.
namespace selvage::studies {

void expect_windows(const Study& study);

}  // namespace selvage::studies
