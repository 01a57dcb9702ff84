#include "numerics/median.h"
#include "tables/make_records.h"

#include <cmath>
#include <utility>

namespace selvage::tables {

namespace {

constexpr double map_step = 1000.0;       // m: round figures in models and files
constexpr double elevation_step = 100.0;  // m

double rounded_median(std::vector<double> values, double step) {
    return values.empty() ? 0.0 : std::round(numerics::median(std::move(values)) / step) * step;
}

Eigen::Vector3d origin_of(const std::vector<Collar>& collars) {
    Eigen::Vector3d origin;
    for (Eigen::Index axis = 0; axis < 3; ++axis) {
        std::vector<double> values;
        for (const Collar& collar : collars) values.push_back(collar.position[axis]);
        origin[axis] = rounded_median(std::move(values), axis == 2 ? elevation_step : map_step);
    }
    return origin;
}

}  // namespace

void settle_origin(Records& records) {
    const Eigen::Vector3d origin = origin_of(records.collars);
    records.frame.origin = origin;
    for (Collar& collar : records.collars) {
        collar.position -= origin;
        if (collar.target && collar.target->point) *collar.target->point -= origin;
    }
    for (Outcrop& outcrop : records.outcrops) outcrop.position -= origin;
    for (Pad& pad : records.pads) pad.position -= origin;
}

}  // namespace selvage::tables
