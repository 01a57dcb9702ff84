#include "sheets/alpha_table.h"

#include "sheets/changed_results.h"

#include <gtest/gtest.h>

#include <string>

namespace selvage::sheets {
namespace {

TEST(AlphaTable, CountsEveryContactOfEveryVein) {
    const MadeUpPack& pack = made_up_pack();
    const TypesetTable table = alpha_table(pack.results());
    std::size_t counted = 0;
    for (const TableRow& row : table.rows) counted += std::stoul(row.cells[1].text);
    EXPECT_EQ(counted, pack.run_results.alpha_tests.size());
}

}  // namespace
}  // namespace selvage::sheets
