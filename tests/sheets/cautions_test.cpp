#include "sheets/cautions.h"

#include <gtest/gtest.h>

namespace selvage::sheets {
namespace {

TEST(Cautions, CountTheErrorsAndWarningsOfTheInput) {
    EXPECT_EQ(input_caution(0, 0), "");
    EXPECT_EQ(input_caution(13, 24), "Input: 13 errors (rows left out, cut or read as empty), 24 warnings: see the checks.");
    EXPECT_EQ(input_caution(1, 0), "Input: 1 error (rows left out, cut or read as empty): see the checks.");
    EXPECT_EQ(input_caution(0, 1), "Input: 1 warning: see the checks.");
}

}  // namespace
}  // namespace selvage::sheets
