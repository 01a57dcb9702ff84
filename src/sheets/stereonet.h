#pragma once

#include "faults/fault.h"
#include "orientation/structure_sets.h"
#include "sheets/net_drawing.h"
#include "sheets/page.h"

#include <Eigen/Core>

#include <optional>
#include <string>
#include <vector>

namespace selvage::sheets {

constexpr const char* stereonet_kind = "stereonet";

// Poles of one kind of plane, of one vein or of none: a group of sets.csv, with its sets.
struct PoleGroup {
    std::string kind, vein;                                         // vein empty: of no vein
    std::vector<const orientation::Orientation*> used, shown_only;  // with a pole; shown_only: quality 4
    std::size_t unoriented = 0;                                     // rows with alpha alone
    std::vector<orientation::StructureSet> sets;                    // denser than chance, as in sets.csv
    std::size_t chance_sets = 0;                                    // further sets of sets.csv, no denser than chance
    std::optional<std::size_t> vein_number;                         // of a vein's contacts: in Results::veins
    std::vector<const faults::Fault*> faults{};                     // modelled ones that these poles may show
};

// The veins' contacts first, in the veins' order, each with a pole or more; then kinds with a set, in alphabetical order.
std::vector<PoleGroup> pole_groups(const Results& results);

// The poles that are used, with the weights of the holes that met them (Terzaghi 1965).
struct WeightedPoles {
    std::vector<Eigen::Vector3d> poles;
    std::vector<double> weights;
};
WeightedPoles weighted_poles(const PoleGroup& group, const std::vector<paths::Path>& paths);

// One net: the lower hemisphere in equal area with its poles, contours, sets and their planes, of a vein the modelled one, and
// what the drilling could not have met.
drawing::Sheet stereonet(const PoleGroup& group, const Results& results, const RunFacts& run, const Tools& tools);

}  // namespace selvage::sheets
