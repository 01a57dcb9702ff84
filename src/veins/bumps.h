#pragma once

#include "veins/bump_field.h"

#include <Eigen/Core>
#include <Eigen/SparseCholesky>
#include <Eigen/SparseCore>

#include <memory>
#include <vector>

// Local bumps that carry residuals from the places where they are known: wide ones first, then narrower ones on what is left.
namespace selvage::veins {

// Heights of bumps at the places of a layout: a column a level and, last, the places' own.
using BumpHeights = std::vector<Eigen::VectorXd>;

// Each level's bumps (and the own ones), as high as 1, as other places see them: a row a place. Few are felt anywhere.
using BumpsSeen = std::vector<Eigen::SparseMatrix<double>>;
Eigen::VectorXd sum_seen(const BumpsSeen& seen, const BumpHeights& heights);

// Where residuals are known, and how they become bumps. The first level is 1.5 times as wide as the median distance to the
// nearest other place; each takes up what a noise as large as the residuals leaves it, the next is half as wide; at the end each
// place has a bump of its own, zero at every other, so that the sum is exact. Linear in the residuals.
class BumpLayout {
public:
    // `lone_radius`: how far the bump of an only place reaches, m.
    BumpLayout(std::vector<Eigen::Vector2d> places, double lone_radius);

    BumpHeights heights_for(const Eigen::VectorXd& residuals) const;
    std::vector<Bump> bumps_of(const BumpHeights& heights) const;
    BumpsSeen seen_from(const std::vector<Eigen::Vector2d>& other) const;

private:
    struct Level {
        double radius = 1.0;
        std::unique_ptr<Eigen::SimplicialLLT<Eigen::SparseMatrix<double>>> bumps_and_noise;
    };
    void add_levels();

    std::vector<Eigen::Vector2d> places_;
    std::vector<double> own_radius_;
    std::vector<Level> levels_;
};

}  // namespace selvage::veins
