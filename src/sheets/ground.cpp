#include "sheets/ground.h"

#include <algorithm>
#include <cmath>

namespace selvage::sheets {

double ground_elevation(const site::Ground& ground, const Eigen::Vector3d& place) {
    return ground.elevation_at(place.head<2>()).value_or(0.0);
}

double height_over_ground(const site::Ground& ground, const Eigen::Vector3d& point) {
    return ground.height_of(point).value_or(point.z());
}

std::vector<GroundPiece> ground_pieces(const site::Ground& ground, double left, double right,
                                       const std::function<Eigen::Vector3d(double)>& place,
                                       const std::function<drawing::Point(double)>& on_paper) {
    if (!ground.has_given()) return {{{on_paper(left), on_paper(right)}, false}};
    constexpr double step_mm = 0.5;
    const int steps = std::max(1, static_cast<int>(std::ceil((right - left) / step_mm)));
    std::vector<GroundPiece> pieces;
    for (int i = 0; i <= steps; ++i) {
        const double x = left + (right - left) * i / steps;
        const bool given = ground.is_given_at(place(x).head<2>());
        if (pieces.empty() || pieces.back().given != given) pieces.push_back({{}, given});
        pieces.back().line.push_back(on_paper(x));
    }
    return pieces;
}

double farthest_from_plane(const site::Ground& ground, const tables::Records& records) {
    const site::Ground plane(ground.assumed());
    double most = 0.0;
    for (const Eigen::Vector3d& point : site::ground_points(records))
        most = std::max(most, std::abs(point.z() - ground_elevation(plane, point)));
    return most;
}

}  // namespace selvage::sheets
