#pragma once

#include "base/units.h"
#include "drawing/style.h"
#include "veins/vein.h"

#include <string>

namespace selvage::sheets {

// Why a hole has no intercept of a vein, as far as a style lets a sheet tell it: with the depth where the model puts the vein, as
// no_vein_label has it; in a style without forecasts "no vein logged", "stopped short", "core lost" or "not judged" alone.
std::string no_vein_words(const veins::NoVein& none, const base::MapFrame& frame, const drawing::ContentLook& content);

}  // namespace selvage::sheets
