#include "site/property.h"

#include "drawing/clipping.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace selvage::site {

namespace {

constexpr double between_areas = 0.5;  // m: how far apart two surveys of one corner may lie
constexpr double finest_step = 1.0;    // m

drawing::Segment side_of(const Ring& ring, std::size_t i) {
    const Eigen::Vector2d &a = ring[i], &b = ring[(i + 1) % ring.size()];
    return {{a.x(), a.y()}, {b.x(), b.y()}};
}

}  // namespace

double inside_of_rings(const std::vector<Ring>& rings, const Eigen::Vector2d& place) {
    double nearest = std::numeric_limits<double>::infinity();
    bool inside = false;
    for (const Ring& ring : rings)
        for (std::size_t i = 0; i < ring.size(); ++i) {
            const Eigen::Vector2d &a = ring[i], &b = ring[(i + 1) % ring.size()];
            nearest = std::min(nearest, drawing::distance({place.x(), place.y()}, side_of(ring, i)));
            if ((a.y() > place.y()) != (b.y() > place.y()) &&
                place.x() < a.x() + (place.y() - a.y()) / (b.y() - a.y()) * (b.x() - a.x()))
                inside = !inside;
        }
    return inside ? nearest : -nearest;
}

double Property::inside_by(const Eigen::Vector2d& place) const {
    double most = -std::numeric_limits<double>::infinity();
    for (const std::vector<Ring>& area : areas) most = std::max(most, inside_of_rings(area, place));
    return most;
}

bool Property::holds(const Eigen::Vector2d& place) const { return inside_by(place) >= -between_areas; }

std::optional<double> Property::first_outside(const Eigen::Vector2d& from, const Eigen::Vector2d& to) const {
    const double length = (to - from).norm();
    for (double along = 0.0;;) {
        const double share = length > 0.0 ? along / length : 0.0;
        const double inside = inside_by(from + share * (to - from));
        if (inside < -between_areas) return share;
        if (along >= length) return std::nullopt;
        along = std::min(length, along + std::max(finest_step, inside));  // nothing outside is nearer than that
    }
}

std::optional<Eigen::Vector2d> self_crossing(const Ring& ring) {
    const std::size_t count = ring.size();
    for (std::size_t i = 0; i < count; ++i)
        for (std::size_t j = i + 2; j < count; ++j) {
            if (i == 0 && j + 1 == count) continue;
            if (const auto at = drawing::crossing(side_of(ring, i), side_of(ring, j))) return Eigen::Vector2d(at->x, at->y);
        }
    return std::nullopt;
}

}  // namespace selvage::site
