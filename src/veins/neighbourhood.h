#pragma once

#include "base/parallel.h"

#include <Eigen/Core>

#include <cstddef>
#include <utility>
#include <vector>

// Which of very many data foretell what: the nearest of a place, and some spread over all the ground, without which far places
// and the trend are lost. Private to this room; it knows places alone.
namespace selvage::veins {

using Places = std::vector<Eigen::Vector2d>;

// The first `count` places of the order in which each next one is the farthest from all before it (max-min), from the one nearest
// the origin; ties by number.
std::vector<std::size_t> spread_order(const Places& places, std::size_t count);

// Each place of an order with the nearest `neighbours` before it: those, nearest last, then the place itself (Vecchia 1988;
// Guinness 2018).
std::vector<std::vector<std::size_t>> groups_of_order(const Places& places, const std::vector<std::size_t>& order,
                                                      std::size_t neighbours);

// Data by neighbourhood. All places that lie nearest to one datum form its cell and are foretold by one and the same set, so that
// they share its factors: wherever data are dense, cells are small.
class Neighbourhoods {
public:
    Neighbourhoods() = default;
    // places: of the data, from their middle
    Neighbourhoods(Places places, std::size_t nearest, std::size_t spread);

    std::size_t cell_of(const Eigen::Vector2d& place) const;
    // A cell's own datum, the nearest to it and the spread ones, in the data's order.
    std::vector<std::size_t> around(std::size_t cell) const;
    // The `count` data nearest to any of some places, and the spread ones, in the data's order.
    std::vector<std::size_t> around_all(const Places& places, std::size_t count) const;

private:
    std::vector<std::size_t> with_spread(std::vector<std::size_t> chosen) const;

    Places places_;
    std::size_t nearest_ = 0;
    std::vector<std::size_t> spread_;
};

// What is asked at some places, gathered by cell, in the order of the cells.
struct Cell {
    std::size_t middle = 0;
    std::vector<std::size_t> asked;  // numbers of the places
};
std::vector<Cell> cells_of(const Neighbourhoods& neighbourhoods, const Places& places);

// An answer for each place, cell by cell on all threads: ask(cell) gives those of its places.
template <typename Answer, typename Ask>
std::vector<Answer> answers_by_cell(const Neighbourhoods& neighbourhoods, const Places& places, const Ask& ask) {
    const std::vector<Cell> cells = cells_of(neighbourhoods, places);
    std::vector<Answer> answers(places.size());
    base::parallel_for(cells.size(), [&](std::size_t i) {
        std::vector<Answer> found = ask(cells[i]);
        for (std::size_t j = 0; j < found.size(); ++j) answers[cells[i].asked[j]] = std::move(found[j]);
    });
    return answers;
}

template <typename Value>
std::vector<Value> picked(const std::vector<Value>& values, const std::vector<std::size_t>& numbers) {
    std::vector<Value> some;
    for (const std::size_t i : numbers) some.push_back(values[i]);
    return some;
}

// Where a number stands in rising ones that hold it.
std::size_t position_in(const std::vector<std::size_t>& sorted, std::size_t number);

// Places counted from their mean.
Places from_middle(const Places& places, Eigen::Vector2d& middle);

}  // namespace selvage::veins
