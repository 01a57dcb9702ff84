#pragma once

#include "support/made_up_project.h"

namespace selvage::made_up {

// The project of examples/: Cold Hythe, two veins in layered rocks, 27 drilled holes, 3 planned, 2 active. All of it is invented.
MadeUpProject cold_hythe();

}  // namespace selvage::made_up
