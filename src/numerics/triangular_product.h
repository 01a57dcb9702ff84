#pragma once

#include <Eigen/Core>

namespace selvage::numerics {

// The squared length of each column of L B, for the lower triangle L of a square matrix and columns B: what known values take off
// variances. Several times quicker than to write the product down. Every column is summed in one fixed order whatever the
// processor, so that all give the same bytes.
Eigen::VectorXd squared_columns(const Eigen::MatrixXd& lower, const Eigen::MatrixXd& columns);

}  // namespace selvage::numerics
