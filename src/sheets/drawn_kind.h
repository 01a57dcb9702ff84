#pragma once

#include "paths/path.h"

namespace selvage::sheets {

// How a sheet draws a trace at a depth down the hole, m: what an active hole has drilled past its last survey is run on, as any
// drilled hole's; only what is ahead of it is a forecast.
paths::PathKind drawn_kind(const paths::Path& path, double depth);

}  // namespace selvage::sheets
