#include "veins/base_plane.h"

#include <algorithm>
#include <cstddef>
#include <limits>
#include <utility>

namespace selvage::veins {

namespace {

using Places = std::vector<Eigen::Vector2d>;

struct Edge {
    double length = 0.0;
    std::size_t from = 0, to = 0;
};

// Edges of the minimum spanning tree, shortest first (Prim's rule; the earlier point first where two are as near).
std::vector<Edge> spanning_tree(const Places& places) {
    std::vector<Edge> nearest(places.size(), {std::numeric_limits<double>::infinity(), 0, 0});
    std::vector<bool> joined(places.size(), false);
    std::vector<Edge> edges;
    std::size_t last = 0;
    for (std::size_t count = 1; count < places.size(); ++count) {
        joined[last] = true;
        std::size_t next = places.size();
        for (std::size_t i = 0; i < places.size(); ++i) {
            if (joined[i]) continue;
            const double length = (places[i] - places[last]).norm();
            if (length < nearest[i].length) nearest[i] = {length, last, i};
            if (next == places.size() || nearest[i].length < nearest[next].length) next = i;
        }
        edges.push_back(nearest[next]);
        last = next;
    }
    std::stable_sort(edges.begin(), edges.end(), [](const Edge& a, const Edge& b) { return a.length < b.length; });
    return edges;
}

// Length up to which edges join points of one cluster: under 20 m and with the widest gap above it, the next edge at least twice
// as long. Zero where there is none. The two longest edges are never within a cluster.
double joining_length(const std::vector<Edge>& edges) {
    constexpr double longest = 20.0, least_ratio = 2.0;
    constexpr double no_length = 0.01;  // m; coinciding points
    double best_ratio = 0.0, best = 0.0;
    for (std::size_t i = 0; i + 2 < edges.size() && edges[i].length <= longest; ++i) {
        const double ratio = edges[i + 1].length / std::max(edges[i].length, no_length);
        if (ratio > best_ratio) {
            best_ratio = ratio;
            best = std::max(edges[i].length, no_length);
        }
    }
    return best_ratio < least_ratio ? 0.0 : best;
}

Places joined(const Places& places, const std::vector<Edge>& edges, double length) {
    std::vector<std::size_t> cluster(places.size());
    for (std::size_t i = 0; i < cluster.size(); ++i) cluster[i] = i;
    for (const Edge& edge : edges) {
        if (edge.length > length) break;
        const std::size_t kept = std::min(cluster[edge.from], cluster[edge.to]);
        const std::size_t gone = std::max(cluster[edge.from], cluster[edge.to]);
        std::replace(cluster.begin(), cluster.end(), gone, kept);
    }
    Places means;
    for (std::size_t i = 0; i < places.size(); ++i) {
        if (cluster[i] != i) continue;
        Eigen::Vector2d sum = Eigen::Vector2d::Zero();
        for (std::size_t j = 0; j < places.size(); ++j)
            if (cluster[j] == i) sum += places[j];
        means.push_back(sum / static_cast<double>(std::count(cluster.begin(), cluster.end(), i)));
    }
    return means;
}

std::vector<double> nearest_distances(const Places& places) {
    std::vector<double> distances;
    for (std::size_t i = 0; i < places.size(); ++i) {
        double nearest = std::numeric_limits<double>::infinity();
        for (std::size_t j = 0; j < places.size(); ++j)
            if (j != i) nearest = std::min(nearest, (places[i] - places[j]).norm());
        distances.push_back(nearest);
    }
    return distances;
}

// Median of distances that each weigh as the ground they stand for.
double median_by_ground(std::vector<double> distances) {
    std::sort(distances.begin(), distances.end());
    double all = 0.0, passed = 0.0;
    for (const double distance : distances) all += distance * distance;
    for (const double distance : distances) {
        passed += distance * distance;
        if (passed >= 0.5 * all) return distance;
    }
    return distances.back();
}

}  // namespace

double hole_spacing(std::vector<Eigen::Vector2d> places, double otherwise) {
    constexpr int most_rounds = 4;
    constexpr std::size_t least_places = 3;
    constexpr double factor = 1.1, narrowest = 10.0, widest = 200.0;  // m
    std::sort(places.begin(), places.end(), [](const Eigen::Vector2d& a, const Eigen::Vector2d& b) {
        return std::make_pair(a.x(), a.y()) < std::make_pair(b.x(), b.y());
    });
    for (int round = 0; round < most_rounds && places.size() > least_places; ++round) {
        const std::vector<Edge> edges = spanning_tree(places);
        const double length = joining_length(edges);
        if (length == 0.0) break;
        places = joined(places, edges, length);
    }
    if (places.size() < least_places) return otherwise;
    return std::clamp(factor * median_by_ground(nearest_distances(places)), narrowest, widest);
}

}  // namespace selvage::veins
