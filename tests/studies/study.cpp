#include "studies/study.h"

#include "base/text.h"

#include <fmt/format.h>

#include <cmath>

namespace selvage::studies {

Row coverage_row(const std::string& what, const made_up::Coverage& pool, std::optional<Window> window50,
                 std::optional<Window> window80, std::optional<Window> window95) {
    return {what,
            pool.count,
            {Figure{pool.percent50(), window50}, Figure{pool.percent80(), window80}, Figure{pool.percent95(), window95}}};
}

bool is_within(const Figure& figure) {
    return !figure.window || (figure.value >= figure.window->low && figure.value <= figure.window->high);
}

std::string text_of(const Window& window) {
    const std::string high = base::significant(window.high, 3);
    if (window.low == -window.high) return fmt::format("±{}", high);
    if (std::isinf(window.high)) return fmt::format("≥ {}", base::significant(window.low, 3));
    if (window.low <= 0.0) return fmt::format("≤ {}", high);
    return fmt::format("{}–{}", base::significant(window.low, 3), high);
}

}  // namespace selvage::studies
