#pragma once

#include "veins/surface_parameters.h"

#include <cstddef>
#include <vector>

// How a surface with very many data is fitted: on a spread selection, and by neighbours. Private to the surface's files.
namespace selvage::veins {

// The first `count` places of the order in which each next one is the farthest from all before it, from the one nearest the
// middle.
std::vector<std::size_t> spread_order(const SurfaceRows& rows, std::size_t count);

// The rows of some places alone, in that order. Their sources are not carried along; what these do between rows is.
SurfaceRows rows_of_places(const SurfaceRows& rows, const std::vector<std::size_t>& places);

// log p(values) with each place of the spread order given only the nearest `neighbours` before it (Vecchia 1988; Guinness 2018).
// Exact where neighbours >= places - 1. Minus infinity where a matrix cannot be factored.
class NeighbourLikelihood {
public:
    NeighbourLikelihood(const SurfaceRows& rows, std::size_t neighbours);
    double operator()(const SurfaceGuess& guess) const;

private:
    std::vector<SurfaceRows> groups_;  // each place's own rows last
    std::vector<Eigen::Index> own_rows_;
};

}  // namespace selvage::veins
