#pragma once

#include "drawing/style.h"
#include "intercepts/intercept.h"
#include "sheets/compose.h"
#include "sheets/page.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

// Classes of accumulation (grade x true thickness), chosen once a pack from all data.
namespace selvage::sheets {

// How a hit, or a hole without the vein, is marked. Values 0 to 4 are the classes, low to high.
enum class HitSign { class_0, class_1, class_2, class_3, class_4, pending, not_classed, no_vein };
constexpr std::size_t hit_signs = 8;

struct GradeClasses {
    std::size_t analyte = 0;     // index into Records::analytes
    bool any = false;            // false: nothing is assayed for
    std::vector<double> breaks;  // rising, at most 4: analyte's unit x the project's length unit
    std::size_t cut_off = 0;     // index of the break that is the cut-off
    bool cut_off_given = false;  // by the project (else the middle break, chosen from the data)
    std::string unit;            // "g/t·m", "oz/st·ft"
    std::string quantity;        // "Silver × true thickness, g/t·m"
};

// Breaks in a 1-2-5 ladder, one at the project's cut-off ([cut_off] accumulation, else chosen near the median of the data).
GradeClasses grade_classes(const Results& results);

// An intercept's accumulation in the classes' unit.
std::optional<double> accumulation_of(const intercepts::Intercept& hit, const GradeClasses& classes, const base::MapFrame& frame);
// Its figure with its sign where the grade stands at a limit of the laboratory: "412", "> 1020"; empty where it has none.
std::string accumulation_text(const intercepts::Intercept& hit, const GradeClasses& classes, const base::MapFrame& frame);
HitSign sign_of(const intercepts::Intercept& hit, const GradeClasses& classes, const base::MapFrame& frame);

// Rows for the column's block: every class, then those of pending, not classed and no vein that occur. `counts` by HitSign.
std::vector<ClassRow> class_rows(const GradeClasses& classes, const std::vector<std::size_t>& counts, bool fill_samples = false);

}  // namespace selvage::sheets
