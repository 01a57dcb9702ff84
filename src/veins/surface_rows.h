#pragma once

#include "veins/surface.h"

#include <Eigen/Core>

#include <cstddef>
#include <utility>
#include <vector>

// The data of a surface as rows of one normal vector: heights, and slopes along u and v. Private to the surface's files.
namespace selvage::veins {

// What one place contributes: rows first, then first + 1 ... in the order height, slope u, slope v.
struct RowPlace {
    Eigen::Vector2d place = Eigen::Vector2d::Zero();  // from the centre, m
    Eigen::Index first = 0;
    bool has_height = false, has_slopes = false;

    Eigen::Index count() const { return (has_height ? 1 : 0) + (has_slopes ? 2 : 0); }
    Eigen::Index slope_row() const { return first + (has_height ? 1 : 0); }
};

// One source of error and the rows that it moves: truth = value + effect x e.
struct RowSource {
    paths::ErrorSource source;
    std::vector<std::pair<Eigen::Index, double>> effects;
};

// Slope rows are multiplied by `slope_scale` throughout, which keeps the matrix well conditioned. Only lower triangles of the
// matrices are filled; very many data have none (0 x 0), only some places' rows of them have.
// Noise and trend = unscaled + f_n^2 scaled + g_n^2 diag(core).
struct SurfaceRows {
    Eigen::Vector2d centre = Eigen::Vector2d::Zero();
    double slope_scale = 1.0;
    std::vector<RowPlace> places;
    std::vector<std::size_t> datum;  // index of each place in the caller's vector
    Eigen::VectorXd values;
    Eigen::MatrixXd unscaled, scaled;
    Eigen::VectorXd core;
    Eigen::VectorXd own_unscaled, own_scaled;  // of each row alone: what the matrices hold beside sources and trend
    std::vector<RowSource> sources;            // in the order of their ids, their effects in that of the rows
    std::vector<std::size_t> hole;             // number of each place's hole
    std::vector<std::vector<std::size_t>> sources_of_place;
    Eigen::Vector3d trend_variances{100.0 * 100.0, 0.5 * 0.5, 0.5 * 0.5};  // of b0 + b1 u + b2 v about the centre
    bool shared_sources = false;                                           // a source ties the rows of several holes
};

// The trend's row of a height at a place from the centre.
inline Eigen::Vector3d trend_row(const Eigen::Vector2d& place) { return {1.0, place.x(), place.y()}; }

// Rows in an order of their own (by place), so that the order of the data leaves no trace. `slopes` are those of the surface at
// each datum, for what sideways errors do to heights and errors of angles to slopes: zero at first, then the fit's.
SurfaceRows surface_rows(const std::vector<SurfaceDatum>& data, const std::vector<Eigen::Vector2d>& slopes, double spacing,
                         const SurfaceRules& rules);
// The same without the matrices, which grow with the square of the data.
SurfaceRows rows_without_matrices(const std::vector<SurfaceDatum>& data, const std::vector<Eigen::Vector2d>& slopes,
                                  double spacing, const SurfaceRules& rules);
void fill_matrices(SurfaceRows& rows);

// Whether the factor f_n^2 scales it: how well surveys and picks are measured. Hole deviation has a spread of its own, and no
// measurement bears on what somebody says of a slip.
bool is_scaled(const paths::ErrorSource& source);

// The rows of some places alone, in that order, with their matrices and their parts of the sources.
SurfaceRows rows_of_places(const SurfaceRows& rows, const std::vector<std::size_t>& places);

// Covariance of the rows' errors with that of a point whose height over the true path changes by `effects` x e, split as the
// noise is: without and with the factor f_n^2.
struct SharedError {
    Eigen::VectorXd unscaled, scaled;
};
SharedError shared_error(const SurfaceRows& rows, const std::vector<std::pair<paths::ErrorSource, double>>& effects);

}  // namespace selvage::veins
