#include "checks/holes.h"

#include "base/text.h"

#include <algorithm>

namespace selvage::checks {

Holes::Holes(const std::vector<tables::Collar>& collars) : collars_(collars) {
    for (std::size_t i = 0; i < collars.size(); ++i) by_folded_name_.emplace(base::folded(collars[i].hole), i);
}

std::size_t Holes::number_of(const std::string& name) const {
    const auto found = by_folded_name_.find(base::folded(name));
    return found == by_folded_name_.end() ? none : found->second;
}

double Holes::end_of(std::size_t number) const {
    const tables::Collar& hole = collars_[number];
    return hole.status == tables::HoleStatus::active ? std::max(hole.depth, hole.drilled.value_or(0.0)) : hole.depth;
}

std::string Checking::length(double metres) const {
    return base::fixed(frame.length(metres), 2) + " " + base::symbol_of(frame.unit);
}

}  // namespace selvage::checks
