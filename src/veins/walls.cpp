#include "veins/walls.h"

#include "veins/bumps.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>

namespace selvage::veins {

namespace {

constexpr int most_rounds = 40;
constexpr double gap_wanted = 1e-8;      // m
constexpr double least_shrinkage = 0.2;  // of a thickness in one round: to a fifth
constexpr double thinnest = 1e-3;        // m: what a logarithm can still hold, and two walls may come together to
constexpr double gap_missed = 2e-3;      // m: more than that floor leaves

using Eigen::VectorXd;

// The intercepts as columns: what is measured at both contacts, what the smooth vein has there and in the middle, and how the
// bumps of all are felt at both contacts of each.
struct Layout {
    VectorXd hanging, foot;                            // measured heights
    VectorXd smooth_mid, smooth_hanging, smooth_foot;  // heights
    VectorXd log_mid, log_hanging, log_foot;           // of thickness
    BumpsSeen at_hanging, at_foot;

    explicit Layout(std::size_t count) {
        for (VectorXd* column :
             {&hanging, &foot, &smooth_mid, &smooth_hanging, &smooth_foot, &log_mid, &log_hanging, &log_foot}) {
            column->resize(static_cast<Eigen::Index>(count));
        }
    }
};

// What is aimed at in the middle of each intercept.
struct Aims {
    VectorXd mid, log_thickness;
};

struct Gaps {
    VectorXd hanging, foot;            // measured less drawn, m
    VectorXd half_hanging, half_foot;  // half the drawn thickness there
    double of(Eigen::Index i) const { return std::max(std::abs(hanging[i]), std::abs(foot[i])); }
    double squares() const { return hanging.squaredNorm() + foot.squaredNorm(); }
    double largest() const { return std::max(hanging.cwiseAbs().maxCoeff(), foot.cwiseAbs().maxCoeff()); }
};

Layout layout_of(const std::vector<WallContacts>& contacts, const SmoothVein& smooth, const BumpLayout& bumps) {
    Layout layout(contacts.size());
    std::vector<Eigen::Vector2d> hanging, foot;
    for (std::size_t k = 0; k < contacts.size(); ++k) {
        const auto i = static_cast<Eigen::Index>(k);
        const Eigen::Vector2d middle = contacts[k].middle().head<2>();
        hanging.emplace_back(contacts[k].hanging.head<2>());
        foot.emplace_back(contacts[k].foot.head<2>());
        layout.hanging[i] = contacts[k].hanging.z();
        layout.foot[i] = contacts[k].foot.z();
        layout.smooth_mid[i] = smooth.mid(middle);
        layout.smooth_hanging[i] = smooth.mid(hanging.back());
        layout.smooth_foot[i] = smooth.mid(foot.back());
        layout.log_mid[i] = smooth.log_thickness(middle);
        layout.log_hanging[i] = smooth.log_thickness(hanging.back());
        layout.log_foot[i] = smooth.log_thickness(foot.back());
    }
    layout.at_hanging = bumps.seen_from(hanging);
    layout.at_foot = bumps.seen_from(foot);
    return layout;
}

Gaps gaps_of(const BumpLayout& bumps, const Layout& layout, const Aims& aims) {
    const BumpHeights mid = bumps.heights_for(aims.mid - layout.smooth_mid);
    const BumpHeights log_thickness = bumps.heights_for(aims.log_thickness - layout.log_mid);
    Gaps gaps;
    gaps.half_hanging = 0.5 * (layout.log_hanging + sum_seen(layout.at_hanging, log_thickness)).array().exp().matrix();
    gaps.half_foot = 0.5 * (layout.log_foot + sum_seen(layout.at_foot, log_thickness)).array().exp().matrix();
    gaps.hanging = layout.hanging - layout.smooth_hanging - sum_seen(layout.at_hanging, mid) - gaps.half_hanging;
    gaps.foot = layout.foot - layout.smooth_foot - sum_seen(layout.at_foot, mid) + gaps.half_foot;
    return gaps;
}

// Each intercept by itself: its middle by the mean of its gaps, its thickness by their difference.
Aims moved_by(const Gaps& gaps, Aims aims) {
    aims.mid += (gaps.hanging + gaps.foot) / 2.0;
    for (Eigen::Index i = 0; i < aims.mid.size(); ++i) {
        const double thickness = std::exp(aims.log_thickness[i]);
        const double wanted = thickness + gaps.hanging[i] - gaps.foot[i];
        aims.log_thickness[i] = std::log(std::max({thinnest, wanted, least_shrinkage * thickness}));
    }
    return aims;
}

// The aims that leave the least gaps. Where holes lie closer than the contacts of one hole do, what one gains its neighbour
// loses: an intercept whose gap grew moves half as far from then on.
Aims settled(const BumpLayout& bumps, const Layout& layout, const Aims& first) {
    Aims best = first, aims = first;
    Gaps gaps = gaps_of(bumps, layout, aims);
    double least = gaps.squares();
    VectorXd pace = VectorXd::Ones(first.mid.size());
    for (int round = 0; round < most_rounds && gaps.largest() > gap_wanted; ++round) {
        const Aims wanted = moved_by(gaps, aims);
        aims.mid += pace.cwiseProduct(wanted.mid - aims.mid);
        aims.log_thickness += pace.cwiseProduct(wanted.log_thickness - aims.log_thickness);
        const Gaps next = gaps_of(bumps, layout, aims);
        for (Eigen::Index i = 0; i < pace.size(); ++i) {
            if (next.of(i) > gaps.of(i)) pace[i] /= 2.0;
        }
        gaps = next;
        if (gaps.squares() >= least) continue;
        least = gaps.squares();
        best = aims;
    }
    return best;
}

// What is left at one wall, as a bump for each contact that is zero at every other contact of that wall.
BumpField own_bumps(const std::vector<WallContacts>& contacts, Eigen::Vector3d WallContacts::*wall, const VectorXd& gaps,
                    double lone_radius) {
    std::vector<Bump> bumps;
    for (std::size_t i = 0; i < contacts.size(); ++i) {
        const double height = gaps[static_cast<Eigen::Index>(i)];
        if (std::abs(height) < gap_wanted) continue;
        const Eigen::Vector2d place = (contacts[i].*wall).head<2>();
        double radius = lone_radius;
        for (std::size_t j = 0; j < contacts.size(); ++j) {
            if (j != i) radius = std::min(radius, ((contacts[j].*wall).head<2>() - place).norm());
        }
        if (radius > 0.0) bumps.push_back({place, radius, height});
    }
    return BumpField(std::move(bumps));
}

// Thickness along w between the contacts, the slope taken out; negative where the slope turns them over.
double first_thickness(const WallContacts& contacts, const SmoothVein& smooth) {
    const Eigen::Vector3d across = contacts.hanging - contacts.foot;
    return across.z() - smooth.gradient(contacts.middle().head<2>()).dot(across.head<2>());
}

double gap_at(const Walls& walls, const SmoothVein& smooth, const WallContacts& contacts) {
    const auto drawn = [&](const Eigen::Vector2d& place) {
        return drawn_vein(walls, smooth.mid(place), smooth.log_thickness(place), place);
    };
    const DrawnVein hanging = drawn(contacts.hanging.head<2>()), foot = drawn(contacts.foot.head<2>());
    return std::max(std::abs(contacts.hanging.z() - hanging.mid - hanging.thickness / 2.0),
                    std::abs(contacts.foot.z() - foot.mid + foot.thickness / 2.0));
}

}  // namespace

Walls build_walls(const std::vector<WallContacts>& contacts, const SmoothVein& smooth, double lone_radius) {
    Walls walls;
    std::vector<WallContacts> sound;
    std::vector<Eigen::Vector2d> places;
    std::vector<double> mids, logs;
    for (const WallContacts& one : contacts) {
        const double thickness = first_thickness(one, smooth);
        if (thickness < 0.0) {
            walls.upside_down.push_back(one.hole);
            continue;
        }
        sound.push_back(one);
        places.emplace_back(one.middle().head<2>());
        mids.push_back(one.middle().z());
        logs.push_back(std::log(std::max(thinnest, thickness)));
    }
    if (sound.empty()) return walls;
    const BumpLayout bumps(places, lone_radius);
    const Layout layout = layout_of(sound, smooth, bumps);
    const auto count = static_cast<Eigen::Index>(sound.size());
    const Aims aims =
        settled(bumps, layout, {Eigen::Map<const VectorXd>(mids.data(), count), Eigen::Map<const VectorXd>(logs.data(), count)});
    walls.mid = BumpField(bumps.bumps_of(bumps.heights_for(aims.mid - layout.smooth_mid)));
    walls.log_thickness = BumpField(bumps.bumps_of(bumps.heights_for(aims.log_thickness - layout.log_mid)));
    const Gaps gaps = gaps_of(bumps, layout, aims);
    walls.hanging = own_bumps(sound, &WallContacts::hanging, gaps.hanging, lone_radius);
    walls.foot = own_bumps(sound, &WallContacts::foot, gaps.foot, lone_radius);
    for (const WallContacts& one : sound) {
        const double gap = gap_at(walls, smooth, one);
        walls.largest_gap = std::max(walls.largest_gap, gap);
        if (gap > gap_missed) walls.upside_down.push_back(one.hole);
    }
    return walls;
}

DrawnVein drawn_vein(const Walls& walls, double smooth_mid, double smooth_log_thickness, const Eigen::Vector2d& place) {
    const double mid = smooth_mid + walls.mid.at(place);
    const double thickness = std::exp(smooth_log_thickness + walls.log_thickness.at(place));
    if (walls.hanging.empty() && walls.foot.empty()) return {mid, thickness};
    const double hanging = walls.hanging.at(place), foot = walls.foot.at(place);
    return {mid + (hanging + foot) / 2.0, std::max(thickness + hanging - foot, std::min(thickness, thinnest))};
}

}  // namespace selvage::veins
