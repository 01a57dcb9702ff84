#include "veins/bump_field.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <utility>

namespace selvage::veins {

double bump_shape(double distance, double radius) {
    if (distance >= radius) return 0.0;
    const double r = distance / radius, left = 1.0 - r, squared = left * left;
    return squared * squared * (4.0 * r + 1.0);
}

BumpField::BumpField(std::vector<Bump> bumps) : bumps_(std::move(bumps)) {
    std::map<int, std::vector<Bump>> by_radius;
    for (const Bump& one : bumps_) by_radius[std::ilogb(one.radius)].push_back(one);
    for (auto& [power, shelved] : by_radius) {
        std::vector<Eigen::Vector2d> places;
        double widest = 0.0;
        for (const Bump& one : shelved) {
            places.push_back(one.place);
            widest = std::max(widest, one.radius);
        }
        shelves_.push_back({std::move(shelved), SquareGrid(places, widest)});
    }
}

double BumpField::at(const Eigen::Vector2d& place) const {
    double sum = 0.0;
    for (const Shelf& shelf : shelves_) {
        shelf.grid.near(place, [&](std::size_t i) {
            const Bump& one = shelf.bumps[i];
            const double squared = (place - one.place).squaredNorm();
            if (squared < one.radius * one.radius) sum += one.height * bump_shape(std::sqrt(squared), one.radius);
        });
    }
    return sum;
}

}  // namespace selvage::veins
