#pragma once

#include "sheets/long_section_content.h"
#include "sheets/marks.h"
#include "sheets/paper_frame.h"

namespace selvage::sheets {

// Where the mean plane leaves the property, and the old workings near it, laid square onto it.
struct LongSectionSite {
    Marks property, workings;
};
LongSectionSite long_section_site(const LongSectionContent& content, const PaperFrame& frame, const Results& results,
                                  const Tools& tools);

}  // namespace selvage::sheets
