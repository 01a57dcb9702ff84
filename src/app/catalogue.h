#pragma once

#include "base/finding.h"

#include <vector>

namespace selvage::app {

// The rooms' checks in one catalogue, by id.
std::vector<const base::Check*> catalogue();

}  // namespace selvage::app
