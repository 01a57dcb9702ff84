#include "studies/expect_windows.h"

#include "base/text.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdio>

namespace selvage::studies {

void expect_windows(const Study& study) {
    std::size_t windows = 0;
    for (const Row& row : study.rows) {
        std::string line = fmt::format("{}: {} ({})", study.name, row.what, row.count);
        for (std::size_t i = 0; i < row.figures.size(); ++i) {
            if (!row.figures[i]) continue;
            const Figure& figure = *row.figures[i];
            line += fmt::format("; {} {}", study.columns[i], base::fixed(figure.value, study.decimals + 1));
            if (!figure.window) continue;
            ++windows;
            EXPECT_TRUE(is_within(figure)) << study.name << ", " << row.what << ", " << study.columns[i] << ": " << figure.value
                                           << " is not in " << text_of(*figure.window);
        }
        std::printf("%s\n", line.c_str());
    }
    EXPECT_GT(windows, 0U) << study.name << " has no window";
}

}  // namespace selvage::studies
