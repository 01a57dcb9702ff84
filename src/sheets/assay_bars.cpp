#include "sheets/assay_bars.h"

#include <algorithm>
#include <cmath>

namespace selvage::sheets {

double bar_zero(const std::string& unit) {
    if (unit == "%") return 0.01;
    if (unit == "ppb") return 100.0;
    return unit == "oz/st" || unit == "oz/t" ? 0.1 : 1.0;
}

double bar_length_mm(double grade, const std::string& unit, const Tools& tools) {
    if (!(grade > bar_zero(unit))) return 0.0;
    return tools.style.size_mm("bar_per_tenfold") * std::log10(grade / bar_zero(unit));
}

}  // namespace selvage::sheets
