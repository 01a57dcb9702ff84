#include "studies/expect_windows.h"
#include "studies/studies.h"

#include <gtest/gtest.h>

namespace selvage::studies {
namespace {

// 50 made-up projects: what ten step-outs so chosen leave of the error over the ground that is not drilled yet, beside ten on a
// ring one hole spacing outside and ten next to the best hits.
TEST(StepOutsWorth, TenChosenHolesLeaveLessErrorThanARingOrHolesBesideTheBestHits) { expect_windows(step_outs_worth()); }

}  // namespace
}  // namespace selvage::studies
