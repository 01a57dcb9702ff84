#pragma once

#include "base/units.h"
#include "drawing/style.h"
#include "veins/vein.h"

#include <string>

namespace selvage::sheets {

// Why a hole has no intercept of a vein, with the depth where the model puts the vein, as no_vein_label has it. As far as a style
// lets a sheet tell it: without forecasts "no vein logged at 156 m", "core lost at 156 m" or "not judged at 156 m", and
// "stopped short of it" without the depth that it has not come to.
std::string no_vein_words(const veins::NoVein& none, const base::MapFrame& frame, const drawing::ContentLook& content);

}  // namespace selvage::sheets
