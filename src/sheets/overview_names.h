#pragma once

#include "sheets/long_section_labels.h"
#include "sheets/overview_marks.h"

#include <string>
#include <vector>

namespace selvage::sheets {

// A letter of each vein's own name, as many as tell them apart.
std::vector<std::string> letters_of(const Results& results);

// Names of veins and faults, each beside what one sees of its edge.
std::vector<NamedLabel> names_of_surfaces(const Results& results, const VisibleSurface& surface,
                                          const std::vector<FaultOutline>& faults, const Box& window, const Tools& tools);
// Names of holes at their collars, of collars that stand together in one label, and at the likely pierce points in sight.
std::vector<NamedLabel> names_of_holes(const Results& results, const VisibleSurface& surface, const AxonometricView& view,
                                       const Tools& tools);

}  // namespace selvage::sheets
