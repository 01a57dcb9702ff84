#include "site/relief.h"

#include <Eigen/LU>

#include <cmath>

namespace selvage::site {

namespace {

struct ElevationAt {
    Eigen::Vector2d place;
    std::optional<double> operator()(const gis::ElevationGrid& grid) const { return gis::elevation_at(grid, place); }
    std::optional<double> operator()(const TriangulatedRelief& relief) const { return relief.elevation_at(place); }
};

struct Spacing {
    double operator()(const gis::ElevationGrid& grid) const {
        Eigen::Matrix2d cell;
        cell << grid.along_row, grid.along_column;
        return std::sqrt(std::abs(cell.determinant()));
    }
    double operator()(const TriangulatedRelief& relief) const { return relief.usual_side(); }
};

// A triangulation has no holes: it reaches as far as its hull.
struct LiesWithin {
    Eigen::Vector2d place;
    bool operator()(const gis::ElevationGrid& grid) const { return gis::is_within(grid, place); }
    bool operator()(const TriangulatedRelief& relief) const { return relief.elevation_at(place).has_value(); }
};

}  // namespace

std::optional<double> elevation_at(const Relief& relief, const Eigen::Vector2d& place) {
    return std::visit(ElevationAt{place}, relief.surface);
}

double spacing_of(const Relief& relief) { return std::visit(Spacing(), relief.surface); }

Coverage coverage_at(const Relief& relief, const Eigen::Vector2d& place) {
    if (elevation_at(relief, place)) return Coverage::data;
    return std::visit(LiesWithin{place}, relief.surface) ? Coverage::hole : Coverage::beyond;
}

}  // namespace selvage::site
