#include "site/property.h"

#include "drawing/clipping.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace selvage::site {

namespace {

constexpr double between_areas = 0.5;  // m: how far apart two surveys of one corner may lie
constexpr double finest_step = 1.0;    // m

drawing::Segment side_of(const Ring& ring, std::size_t i) {
    const Eigen::Vector2d &a = ring[i], &b = ring[(i + 1) % ring.size()];
    return {{a.x(), a.y()}, {b.x(), b.y()}};
}

// What the sides looked at so far say of a place: the nearest of them, and whether an odd number lies to its east.
struct Nearness {
    double nearest = std::numeric_limits<double>::infinity();
    bool inside = false;

    void look_at(const Eigen::Vector2d& a, const Eigen::Vector2d& b, const Eigen::Vector2d& place) {
        nearest = std::min(nearest, drawing::distance({place.x(), place.y()}, {{a.x(), a.y()}, {b.x(), b.y()}}));
        if ((a.y() > place.y()) != (b.y() > place.y()) &&
            place.x() < a.x() + (place.y() - a.y()) / (b.y() - a.y()) * (b.x() - a.x()))
            inside = !inside;
    }
};

}  // namespace

double inside_of_rings(const std::vector<Ring>& rings, const Eigen::Vector2d& place) {
    Nearness near;
    for (const Ring& ring : rings)
        for (std::size_t i = 0; i < ring.size(); ++i) near.look_at(ring[i], ring[(i + 1) % ring.size()], place);
    return near.inside ? near.nearest : -near.nearest;
}

Property::Property(std::vector<Area> areas) : areas_(std::move(areas)) {
    constexpr std::size_t sides_together = 16;
    for (const Area& area : areas_) {
        std::vector<Stretch>& stretches = stretches_.emplace_back();
        for (const Ring& ring : area)
            for (std::size_t first = 0; first < ring.size(); first += sides_together) {
                Stretch stretch{{}, ring[first], ring[first]};
                for (std::size_t i = first; i <= std::min(first + sides_together, ring.size()); ++i) {
                    stretch.corners.push_back(ring[i % ring.size()]);
                    stretch.low = stretch.low.cwiseMin(stretch.corners.back());
                    stretch.high = stretch.high.cwiseMax(stretch.corners.back());
                }
                stretches.push_back(std::move(stretch));
            }
    }
}

double Property::inside_area(const std::vector<Stretch>& stretches, const Eigen::Vector2d& place) const {
    Nearness near;
    for (const Stretch& stretch : stretches) {
        const bool beside = place.y() < stretch.low.y() || place.y() > stretch.high.y() || place.x() > stretch.high.x();
        const double to_box = (place - place.cwiseMax(stretch.low).cwiseMin(stretch.high)).norm();
        if (beside && to_box >= near.nearest) continue;  // no side of it is crossed to the east, none is nearer
        for (std::size_t i = 1; i < stretch.corners.size(); ++i) near.look_at(stretch.corners[i - 1], stretch.corners[i], place);
    }
    return near.inside ? near.nearest : -near.nearest;
}

double Property::inside_by(const Eigen::Vector2d& place) const {
    double most = -std::numeric_limits<double>::infinity();
    for (const std::vector<Stretch>& area : stretches_) most = std::max(most, inside_area(area, place));
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
