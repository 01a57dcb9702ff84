#pragma once

#include "drawing/text_width.h"

#include <string>
#include <string_view>

namespace selvage::drawing {

// A name cut in its middle with "…" so that it fits: most of its start and at least a third of what is kept from its end, which
// is what tells names of one project apart ("Northeast…n-104"). The name itself where it fits.
std::string shortened_name(const FontMetrics& fonts, const TextLook& look, std::string_view utf8, double width_mm);

}  // namespace selvage::drawing
