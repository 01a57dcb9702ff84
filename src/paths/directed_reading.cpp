#include "paths/directed_reading.h"

#include <cassert>
#include <cmath>

namespace selvage::paths {

namespace {

base::Azimuth between(const Reading& above, const Reading& below, double depth) {
    const double share = (depth - above.depth) / (below.depth - above.depth);
    return base::Azimuth(above.azimuth->angle() + share * base::turn_between(*above.azimuth, *below.azimuth));
}

DirectedReading from_neighbours(const Reading& reading, const Reading* above, const Reading* below) {
    assert(above != nullptr || below != nullptr);
    const bool nearer_above =
        below == nullptr || (above != nullptr && reading.depth - above->depth <= below->depth - reading.depth);
    const Reading& nearest = nearer_above ? *above : *below;
    const bool inside = above != nullptr && below != nullptr;
    const base::Azimuth azimuth = inside ? between(*above, *below, reading.depth) : *nearest.azimuth;
    return {reading.depth, {azimuth, reading.dip}, nearest.run, reading.run, std::abs(nearest.depth - reading.depth)};
}

}  // namespace

std::vector<DirectedReading> directed(const std::vector<Reading>& readings) {
    std::vector<const Reading*> next(readings.size() + 1, nullptr);  // the first with an azimuth from here on
    for (std::size_t i = readings.size(); i-- > 0;) next[i] = readings[i].azimuth ? &readings[i] : next[i + 1];
    std::vector<DirectedReading> all;
    const Reading* above = nullptr;
    for (std::size_t i = 0; i < readings.size(); ++i) {
        const Reading& reading = readings[i];
        if (reading.azimuth) above = &reading;
        if (reading.azimuth)
            all.push_back({reading.depth, {*reading.azimuth, reading.dip}, reading.run, reading.run, 0.0});
        else
            all.push_back(from_neighbours(reading, above, next[i]));
    }
    return all;
}

std::vector<DirectedReading> directed(const std::vector<Reading>& readings, base::Azimuth azimuth) {
    std::vector<DirectedReading> all;
    for (const Reading& reading : readings) all.push_back({reading.depth, {azimuth, reading.dip}, reading.run, reading.run, 0.0});
    return all;
}

}  // namespace selvage::paths
