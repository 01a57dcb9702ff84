#include "support/made_up_content.h"

#include "numerics/normal_mixture.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace selvage::made_up {

namespace {

constexpr double spacing = 50.0, trace_of_vein = 0.02;  // m

// All places of a world, one after the other: holes, then the three groups.
struct Layout {
    Places holes;
    TruthPlaces truth;
    Places all() const {
        Places places = holes;
        for (const Places* group : {&truth.inside, &truth.one_out, &truth.two_out})
            places.insert(places.end(), group->begin(), group->end());
        return places;
    }
};

Layout layout_of(std::size_t holes, base::RandomStream& stream) {
    Layout layout;
    layout.holes = lattice_holes(holes, spacing, stream);
    layout.truth = truth_places(layout.holes, spacing, stream);
    return layout;
}

ContentWorld world_of(const Layout& layout, const std::vector<ContentAt>& all) {
    ContentWorld world;
    auto next = all.begin();
    const auto take = [&](std::size_t count) {
        std::vector<ContentAt> part(next, next + static_cast<std::ptrdiff_t>(count));
        next += static_cast<std::ptrdiff_t>(count);
        return part;
    };
    world.holes = take(layout.holes.size());
    world.truth = {take(layout.truth.inside.size()), take(layout.truth.one_out.size()), take(layout.truth.two_out.size())};
    return world;
}

Eigen::VectorXd white(std::size_t count, base::RandomStream& stream) {
    Eigen::VectorXd values(static_cast<Eigen::Index>(count));
    for (double& value : values) value = stream.normal();
    return values;
}

std::vector<char> in_windows(const Places& places, base::RandomStream& stream) {
    const Eigen::VectorXd open = values_of({stream.log_uniform(60.0, 200.0), 1.5}, places, stream);
    const double level = numerics::normal_quantile(stream.uniform(0.05, 0.35));
    std::vector<char> there;
    for (const double value : open) there.push_back(value > level ? 1 : 0);
    return there;
}

std::vector<char> before_an_edge(const Places& places, std::size_t holes, base::RandomStream& stream) {
    const double direction = stream.uniform(0.0, 2.0 * std::acos(-1.0));
    const Eigen::Vector2d along(std::cos(direction), std::sin(direction));
    std::vector<double> of_holes;
    for (std::size_t i = 0; i < holes; ++i) of_holes.push_back(places[i].dot(along));
    std::sort(of_holes.begin(), of_holes.end());
    const double share = stream.uniform(0.6, 1.0);
    const double edge = of_holes[static_cast<std::size_t>(share * static_cast<double>(holes - 1))] + stream.uniform(0.0, 40.0);
    std::vector<char> there;
    for (const Eigen::Vector2d& place : places) there.push_back(place.dot(along) < edge ? 1 : 0);
    return there;
}

}  // namespace

std::size_t ContentWorld::hits() const {
    return static_cast<std::size_t>(std::count_if(holes.begin(), holes.end(), [](const ContentAt& hole) { return hole.there; }));
}

ContentWorld content_world(std::uint64_t seed, std::size_t holes, std::uint64_t number) {
    base::RandomStream stream("made-up content", {seed, holes, number});
    const auto kind = static_cast<ContentKind>(number % 4);
    const Layout layout = layout_of(holes, stream);
    const Places places = layout.all();
    const double range = stream.log_uniform(50.0, 250.0), median = stream.log_uniform(0.3, 1.5);
    const std::array<double, 3> smoothnesses{0.5, 1.5, 2.5};
    const double nu = smoothnesses[stream.below(3)];
    Eigen::VectorXd logs;
    std::vector<char> there(places.size(), 1);
    const Eigen::VectorXd noise = white(places.size(), stream);
    if (kind == ContentKind::pinch) {
        logs = (1.3 * values_of({range, nu}, places, stream) + 0.3 * noise).array() + std::log(0.25);
    } else if (kind == ContentKind::lens) {
        const double level = stream.uniform(0.4, 1.2);
        const Eigen::VectorXd field = values_of({range, 1.5}, places, stream);
        logs = (field.array() + level).cwiseMax(1e-6).log() + std::log(median) + 0.25 * noise.array();
    } else {
        const double smooth = stream.uniform(0.4, 0.7), rough = stream.uniform(0.15, 0.4);
        logs = (smooth * values_of({range, nu}, places, stream) + rough * noise).array() + std::log(median);
        there = kind == ContentKind::window ? in_windows(places, stream) : before_an_edge(places, holes, stream);
    }
    std::vector<ContentAt> all;
    for (std::size_t i = 0; i < places.size(); ++i) {
        const double log_thickness = logs(static_cast<Eigen::Index>(i));
        all.push_back({places[i], log_thickness, 0.0, there[i] != 0 && log_thickness > std::log(trace_of_vein)});
    }
    return world_of(layout, all);
}

ContentWorld grade_world(std::uint64_t seed, std::size_t holes, std::uint64_t number) {
    base::RandomStream stream("made-up grades", {seed, holes, number});
    const Layout layout = layout_of(holes, stream);
    const Places places = layout.all();
    const double smooth = stream.uniform(0.3, 0.6), spread = stream.uniform(0.9, 1.3), rough_share = stream.uniform(0.5, 0.8);
    const double range = stream.log_uniform(40.0, 250.0), grade_range = stream.log_uniform(40.0, 250.0);
    const std::array<double, 3> correlations{-0.3, 0.0, 0.3};
    const double correlation = correlations[stream.below(3)];
    const Eigen::VectorXd first = white(places.size(), stream), own = white(places.size(), stream);
    const Eigen::VectorXd second = correlation * first + std::sqrt(1.0 - correlation * correlation) * own;
    const Eigen::VectorXd thickness = (smooth * values_of({range, 1.5}, places, stream) + 0.3 * first).array() + std::log(0.6);
    const Eigen::VectorXd grade = (spread * std::sqrt(1.0 - rough_share) * values_of({grade_range, 1.5}, places, stream) +
                                   spread * std::sqrt(rough_share) * second)
                                      .array() +
                                  std::log(300.0);
    std::vector<ContentAt> all;
    for (std::size_t i = 0; i < places.size(); ++i)
        all.push_back({places[i], thickness(static_cast<Eigen::Index>(i)), grade(static_cast<Eigen::Index>(i)), true});
    return world_of(layout, all);
}

}  // namespace selvage::made_up
