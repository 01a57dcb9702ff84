#pragma once

#include "output/write.h"

#include <vector>

namespace selvage::output {

// model/<vein>.ply of each vein that has a body.
std::vector<PackFile> ply_files(const std::vector<veins::VeinSolid>& solids, const base::MapFrame& frame);

}  // namespace selvage::output
