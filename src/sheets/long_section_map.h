#pragma once

#include "sheets/isolines.h"
#include "sheets/long_section_content.h"
#include "sheets/long_section_frame.h"
#include "sheets/long_section_page.h"
#include "sheets/vein_field.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace selvage::sheets {

// Where the fill says something else than a hit, two classes off or more: it is left out there, as nothing is known to hold.
struct ContraryHit {
    Point at;
    double radius_mm = 0.0;  // a quarter of the hole spacing, half way to the next hit at most
};

// Lines of equal grade x thickness, or of thickness where nothing is assayed for.
struct Mapped {
    Isolines isolines;
    std::vector<std::string> names;  // figures by level
    std::optional<std::size_t> strong;
    std::vector<ContraryHit> contrary;
    std::optional<MappedWords> words;
};

// What is mapped as the model gives it, by block, the same on every paper; nothing for a block with fewer than two hits.
std::vector<CoarseField> sampled_of(const LongSectionContent& content, const Results& results, const GradeClasses& classes);

Mapped mapped_of(const LongSectionContent& content, const std::vector<CoarseField>& sampled, const Results& results,
                 const GradeClasses& classes, const LongSectionFrame& frame, const Tools& tools);

Marks tint_marks(const Mapped& mapped, const Tools& tools);
Marks isoline_marks(const Mapped& mapped, const Tools& tools);

}  // namespace selvage::sheets
