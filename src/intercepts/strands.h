#pragma once

#include "base/finding.h"
#include "base/units.h"
#include "faults/blocks.h"
#include "intercepts/intercept.h"
#include "paths/path.h"
#include "tables/records.h"

#include <optional>
#include <string>
#include <vector>

// Rows that say where a hole met a vein, and how several of them make one intercept.
namespace selvage::intercepts {

// Depths this close (m) are one depth: half of the centimetre to which contacts are logged, and a hair for the rounding of sums.
constexpr double same_depth = 0.005 + 1e-9;

// One pick, or several joined: then its envelope.
struct Strand {
    base::Origin origin;  // of its first pick
    std::string hole, vein;
    double from = 0.0, to = 0.0;  // m
    tables::PickState state = tables::PickState::vein;
    int certainty = 1;
    std::string zone;
    std::optional<double> from_sd, to_sd;  // m
};

// The picks, then the geology rows that name a vein in holes that have no pick, in the order of the tables.
std::vector<Strand> strands_of(const tables::Records& records);

// Strands of one vein and hole joined where they share a zone, adjoin or overlap; by depth. The envelope takes the least sure
// certainty, and of the states the one that leaves most unknown: open_void, lost, vein, structure.
std::vector<Strand> joined(const std::vector<Strand>& strands);

// Joined strands of one vein that may stand beside each other in one hole; the others are left out in one finding. Two neighbours
// may stand where a fault younger than the vein parts them.
base::Checked<std::vector<Strand>> told_apart(std::vector<Strand> strands, const paths::Path& path,
                                              const std::vector<faults::Fault>& faults, const base::MapFrame& frame);

}  // namespace selvage::intercepts
