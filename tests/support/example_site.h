#pragma once

#include "support/made_up_project.h"

namespace selvage::made_up {

// The project of examples/: Cold Hythe, two veins in layered rocks, 27 drilled holes, 3 planned, 2 active. All of it is invented.
MadeUpProject cold_hythe();
// Its ground, m, at a place relative to its map origin (E 431000, N 5214000).
double ground_of_cold_hythe(double east, double north);

}  // namespace selvage::made_up
