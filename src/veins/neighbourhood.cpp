#include "veins/neighbourhood.h"

#include <algorithm>
#include <cstdint>
#include <limits>
#include <map>
#include <numeric>

namespace selvage::veins {

namespace {

// The nearest `count` of some data, nearest first, by a distance each; ties by number.
std::vector<std::size_t> nearest_by(std::vector<std::size_t> data, const std::vector<double>& distance, std::size_t count) {
    const auto nearer = [&](std::size_t a, std::size_t b) {
        return distance[a] < distance[b] || (distance[a] == distance[b] && a < b);
    };
    const auto end = data.begin() + static_cast<std::ptrdiff_t>(std::min(count, data.size()));
    std::partial_sort(data.begin(), end, data.end(), nearer);
    data.erase(end, data.end());
    return data;
}

std::vector<std::size_t> numbers_to(std::size_t count) {
    std::vector<std::size_t> numbers(count);
    std::iota(numbers.begin(), numbers.end(), std::size_t{0});
    return numbers;
}

}  // namespace

std::vector<std::size_t> spread_order(const Places& places, std::size_t count) {
    std::vector<double> distance(places.size(), std::numeric_limits<double>::infinity());
    std::vector<std::size_t> order;
    std::size_t next = 0;
    for (std::size_t i = 1; i < places.size(); ++i)
        if (places[i].squaredNorm() < places[next].squaredNorm()) next = i;
    while (order.size() < std::min(count, places.size())) {
        order.push_back(next);
        for (std::size_t i = 0; i < places.size(); ++i)
            distance[i] = std::min(distance[i], (places[i] - places[next]).squaredNorm());
        distance[next] = -1.0;
        next = static_cast<std::size_t>(std::max_element(distance.begin(), distance.end()) - distance.begin());
    }
    return order;
}

std::vector<std::vector<std::size_t>> groups_of_order(const Places& places, const std::vector<std::size_t>& order,
                                                      std::size_t neighbours) {
    std::vector<std::vector<std::size_t>> groups(order.size());
    base::parallel_for(order.size(), [&](std::size_t i) {
        const std::vector<std::size_t> before(order.begin(), order.begin() + static_cast<std::ptrdiff_t>(i));
        std::vector<double> distance(places.size());
        for (const std::size_t one : before) distance[one] = (places[one] - places[order[i]]).squaredNorm();
        groups[i] = nearest_by(before, distance, neighbours);
        std::reverse(groups[i].begin(), groups[i].end());
        groups[i].push_back(order[i]);
    });
    return groups;
}

Neighbourhoods::Neighbourhoods(Places places, std::size_t nearest, std::size_t spread)
    : places_(std::move(places)), nearest_(nearest), spread_(spread_order(places_, spread)) {}

std::size_t Neighbourhoods::cell_of(const Eigen::Vector2d& place) const {
    std::size_t cell = 0;
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < places_.size(); ++i) {
        const double distance = (places_[i] - place).squaredNorm();
        if (distance < least) {
            least = distance;
            cell = i;
        }
    }
    return cell;
}

std::vector<std::size_t> Neighbourhoods::around(std::size_t cell) const {
    std::vector<double> distance(places_.size());
    for (std::size_t i = 0; i < places_.size(); ++i) distance[i] = (places_[i] - places_[cell]).squaredNorm();
    distance[cell] = -1.0;  // before others at its very place
    return with_spread(nearest_by(numbers_to(places_.size()), distance, nearest_));
}

std::vector<std::size_t> Neighbourhoods::around_all(const Places& places, std::size_t count) const {
    std::vector<double> distance(places_.size(), std::numeric_limits<double>::infinity());
    for (std::size_t i = 0; i < places_.size(); ++i)
        for (const Eigen::Vector2d& place : places) distance[i] = std::min(distance[i], (places_[i] - place).squaredNorm());
    return with_spread(nearest_by(numbers_to(places_.size()), distance, count));
}

std::vector<std::size_t> Neighbourhoods::with_spread(std::vector<std::size_t> chosen) const {
    chosen.insert(chosen.end(), spread_.begin(), spread_.end());
    std::sort(chosen.begin(), chosen.end());
    chosen.erase(std::unique(chosen.begin(), chosen.end()), chosen.end());
    return chosen;
}

std::size_t position_in(const std::vector<std::size_t>& sorted, std::size_t number) {
    return static_cast<std::size_t>(std::lower_bound(sorted.begin(), sorted.end(), number) - sorted.begin());
}

std::vector<Cell> cells_of(const Neighbourhoods& neighbourhoods, const Places& places) {
    std::vector<std::size_t> cell(places.size());
    base::parallel_for(places.size(), [&](std::size_t i) { cell[i] = neighbourhoods.cell_of(places[i]); });
    std::map<std::size_t, std::vector<std::size_t>> gathered;
    for (std::size_t i = 0; i < places.size(); ++i) gathered[cell[i]].push_back(i);
    std::vector<Cell> cells;
    for (auto& [middle, asked] : gathered) cells.push_back({middle, std::move(asked)});
    return cells;
}

Places from_middle(const Places& places, Eigen::Vector2d& middle) {
    middle.setZero();
    for (const Eigen::Vector2d& place : places) middle += place / static_cast<double>(places.size());
    Places counted;
    for (const Eigen::Vector2d& place : places) counted.push_back(place - middle);
    return counted;
}

}  // namespace selvage::veins
