#include "sheets/vein_trace.h"

#include "sheets/ground.h"
#include "sheets/wall_looks.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>
#include <utility>

namespace selvage::sheets {

namespace {

using Places = std::vector<VeinPlace>;

Eigen::Vector2d on_section(const SectionFrame& frame, const Eigen::Vector3d& point) { return {frame.distance(point), point.z()}; }

// The line of the mean dip on the section, downwards; straight down where the vein runs along it.
Eigen::Vector2d dip_line(const veins::Vein& vein, const SectionFrame& frame) {
    return apparent_dip_line(vein.mean_plane().normal, frame).value_or(Eigen::Vector2d(0.0, -1.0));
}

VeinPlace mixed(const VeinPlace& a, const VeinPlace& b, double share) {
    const auto mix = [share](const auto& x, const auto& y) { return (x + share * (y - x)).eval(); };
    VeinPlace place;
    place.along = a.along + share * (b.along - a.along);
    place.mid = mix(a.mid, b.mid);
    place.hanging = mix(a.hanging, b.hanging);
    place.foot = mix(a.foot, b.foot);
    place.low80 = mix(a.low80, b.low80);
    place.high80 = mix(a.high80, b.high80);
    place.sd = a.sd + share * (b.sd - a.sd);
    place.presence = a.presence + share * (b.presence - a.presence);
    place.inside = a.inside + share * (b.inside - a.inside);
    return place;
}

// One cut of the vein, in parts down the dip.
class Cut {
public:
    Cut(const veins::Vein& vein, std::size_t block, const SectionFrame& frame, const Eigen::Vector2d& line,
        const base::Plane& plane, double radius, double step) {
        Places all;
        for (const veins::TracePoint& point : vein.trace(plane, radius, step, block)) {
            VeinPlace place;
            place.mid = on_section(frame, point.mid);
            place.along = line.dot(place.mid);
            place.hanging = on_section(frame, point.hanging);
            place.foot = on_section(frame, point.foot);
            place.low80 = on_section(frame, point.low80);
            place.high80 = on_section(frame, point.high80);
            place.sd = drawn_sd(point);
            place.presence = point.presence;
            place.inside = point.within_but_for_faults ? 1.0 : 0.0;
            all.push_back(place);
        }
        std::stable_sort(all.begin(), all.end(), [](const VeinPlace& a, const VeinPlace& b) { return a.along < b.along; });
        for (const VeinPlace& place : all) {
            if (parts_.empty() || (place.mid - parts_.back().back().mid).norm() > 2.5 * step) parts_.emplace_back();
            parts_.back().push_back(place);
        }
    }

    std::optional<VeinPlace> at(double along) const {
        for (const Places& part : parts_) {
            if (along < part.front().along || along > part.back().along) continue;
            const auto after = std::lower_bound(part.begin(), part.end(), along,
                                                [](const VeinPlace& place, double wanted) { return place.along < wanted; });
            if (after == part.begin()) return *after;
            const VeinPlace &a = *(after - 1), &b = *after;
            return mixed(a, b, b.along > a.along ? (along - a.along) / (b.along - a.along) : 0.0);
        }
        return std::nullopt;
    }

    double first() const { return parts_.empty() ? 0.0 : parts_.front().front().along; }
    double last() const { return parts_.empty() ? -1.0 : parts_.back().back().along; }

private:
    std::vector<Places> parts_;
};

// A hit, or a few at nearly one place: where they stand along the dip, and how far off the section.
struct Knot {
    double along = 0.0, offset = 0.0;
    Eigen::Vector2d place = Eigen::Vector2d::Zero();  // (distance, up)
    std::size_t count = 1;
};

std::vector<Knot> knots_of(const std::vector<const intercepts::Intercept*>& hits, const SectionFrame& frame,
                           const Eigen::Vector2d& line, double nearest) {
    std::vector<Knot> knots;
    for (const intercepts::Intercept* hit : hits) {
        const Eigen::Vector2d place = on_section(frame, hit->point);
        knots.push_back({line.dot(place), frame.offset(hit->point), place, 1});
    }
    std::sort(knots.begin(), knots.end(),
              [](const Knot& a, const Knot& b) { return a.along < b.along || (a.along == b.along && a.offset < b.offset); });
    std::vector<Knot> apart;
    for (const Knot& knot : knots) {
        if (apart.empty() || knot.along - apart.back().along > nearest) {
            apart.push_back(knot);
            continue;
        }
        Knot& last = apart.back();
        const double share = 1.0 / static_cast<double>(++last.count);
        last.along += share * (knot.along - last.along);
        last.offset += share * (knot.offset - last.offset);
        last.place += share * (knot.place - last.place);
    }
    return apart;
}

// Weight of each knot's cut at a place: 1 at the knot, falling smoothly to 0 at its neighbour or `reach` away; those of two
// neighbours add to 1. The rest is the section's own.
std::vector<double> weights_at(double along, const std::vector<Knot>& knots, double reach) {
    std::vector<double> weights(knots.size(), 0.0);
    for (std::size_t i = 0; i < knots.size(); ++i) {
        const bool below = along > knots[i].along;
        double room = reach;
        if (below && i + 1 < knots.size()) room = std::min(room, knots[i + 1].along - knots[i].along);
        if (!below && i > 0) room = std::min(room, knots[i].along - knots[i - 1].along);
        const double share = std::max(0.0, 1.0 - std::abs(along - knots[i].along) / room);
        weights[i] = share * share * (3.0 - 2.0 * share);
    }
    return weights;
}

std::optional<VeinPlace> blended(double along, const Cut& own, const std::vector<Cut>& cuts, const std::vector<double>& weights) {
    std::optional<VeinPlace> place = own.at(along);
    double total = place ? 1.0 : 0.0;
    for (const double weight : weights) total -= place ? weight : 0.0;
    for (std::size_t i = 0; i < cuts.size(); ++i) {
        if (weights[i] <= 0.0) continue;
        const std::optional<VeinPlace> other = cuts[i].at(along);
        if (!other) continue;
        total += weights[i];
        place = place ? mixed(*place, *other, std::min(1.0, weights[i] / std::max(total, 1e-9))) : other;
    }
    return place;
}

// The stretches where a quantity is negative, cut where it passes zero.
std::vector<Places> where_negative(const std::vector<Places>& parts, const std::function<double(const VeinPlace&)>& quantity) {
    std::vector<Places> below;
    for (const Places& part : parts) {
        bool open = false;
        for (std::size_t i = 0; i < part.size(); ++i) {
            const double here = quantity(part[i]);
            const double before = i > 0 ? quantity(part[i - 1]) : here;
            if (i > 0 && (here > 0.0) != (before > 0.0)) {
                const VeinPlace edge = mixed(part[i - 1], part[i], before / (before - here));
                if (!open) below.emplace_back();
                below.back().push_back(edge);
                open = here <= 0.0;
            }
            if (here > 0.0) continue;
            if (!open) below.emplace_back();
            open = true;
            below.back().push_back(part[i]);
        }
    }
    below.erase(std::remove_if(below.begin(), below.end(), [](const Places& part) { return part.size() < 2; }), below.end());
    return below;
}

std::vector<Places> trace_of_block(const veins::Vein& vein, std::size_t block,
                                   const std::vector<const intercepts::Intercept*>& hits, const Section& section,
                                   const Eigen::Vector3d& middle, double radius, double step, double reach,
                                   const site::Ground& ground) {
    const SectionFrame& frame = section.frame;
    const Eigen::Vector2d line = dip_line(vein, frame);
    const Cut own(vein, block, frame, line, base::Plane{middle, frame.away}, radius, step);
    const std::vector<Knot> knots = knots_of(hits, frame, line, step);
    std::vector<Cut> cuts;
    double first = own.first(), last = own.last();
    for (std::size_t i = 0; i < knots.size(); ++i) {
        const double room = std::min(reach, std::max(i > 0 ? knots[i].along - knots[i - 1].along : reach,
                                                     i + 1 < knots.size() ? knots[i + 1].along - knots[i].along : reach));
        const Eigen::Vector3d about = frame.at(knots[i].place.x(), knots[i].place.y()) + knots[i].offset * frame.away;
        cuts.emplace_back(vein, block, frame, line, base::Plane{about, frame.away}, room + 2.0 * step, step);
        if (cuts.back().last() < cuts.back().first()) continue;
        first = last < first ? cuts.back().first() : std::min(first, cuts.back().first());
        last = std::max(last, cuts.back().last());
    }
    if (last < first) return {};

    std::vector<double> stations;
    for (double along = first; along < last; along += step) stations.push_back(along);
    stations.push_back(last);
    for (const Knot& knot : knots) stations.push_back(knot.along);
    std::sort(stations.begin(), stations.end());
    std::vector<Places> parts;
    bool open = false;
    for (const double along : stations) {
        const std::optional<VeinPlace> place = blended(along, own, cuts, weights_at(along, knots, reach));
        if (place && !open) parts.emplace_back();
        if (place) parts.back().push_back(*place);
        open = place.has_value();
    }
    const std::vector<Places> modelled = where_negative(parts, [](const VeinPlace& place) { return 0.5 - place.inside; });
    const auto on_plane = [&](const VeinPlace& place) { return frame.at(place.mid.x(), place.mid.y()); };
    const std::vector<Places> below =
        where_negative(modelled, [&](const VeinPlace& place) { return height_over_ground(ground, on_plane(place)); });
    if (!vein.blocks().is_cut()) return below;
    // Bent over from cuts on either side, it ends where the fault is drawn.
    return where_negative(below, [&](const VeinPlace& place) { return -vein.blocks().inside(block, on_plane(place)).distance; });
}

}  // namespace

std::vector<std::vector<VeinPlace>> vein_trace(const veins::Vein& vein, const std::vector<const intercepts::Intercept*>& hits,
                                               const Section& section, const Eigen::Vector3d& middle, double radius, double step,
                                               double reach, const site::Ground& ground) {
    std::vector<Places> all;
    for (std::size_t block = 0; block < vein.blocks().count(); ++block) {
        std::vector<const intercepts::Intercept*> own;
        for (const intercepts::Intercept* hit : hits)
            if (vein.block_at(hit->point) == block) own.push_back(hit);
        for (Places& part : trace_of_block(vein, block, own, section, middle, radius, step, reach, ground))
            all.push_back(std::move(part));
    }
    return all;
}

}  // namespace selvage::sheets
