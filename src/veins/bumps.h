#pragma once

#include <Eigen/Cholesky>
#include <Eigen/Core>

#include <vector>

// Local bumps that carry residuals from the places where they are known: wide ones first, then narrower ones on what is left.
namespace selvage::veins {

// Height times (1 - r)^4 (4 r + 1), r the distance from its place over the radius, 0 from there on (Wendland 1995, C2).
struct Bump {
    Eigen::Vector2d place = Eigen::Vector2d::Zero();
    double radius = 1.0, height = 0.0;
};
double sum_of(const std::vector<Bump>& bumps, const Eigen::Vector2d& place);

// Where residuals are known, and how they become bumps. The first level is 1.5 times as wide as the median distance to the
// nearest other place; each takes up what a noise as large as the residuals leaves it, the next is half as wide; at the end each
// place has a bump of its own, zero at every other, so that the sum is exact. Linear in the residuals.
class BumpLayout {
public:
    // `lone_radius`: how far the bump of an only place reaches, m.
    BumpLayout(std::vector<Eigen::Vector2d> places, double lone_radius);

    std::vector<Bump> bumps_for(const Eigen::VectorXd& residuals) const;
    // The sum of bumps at other places for each residual: values = response x residuals.
    Eigen::MatrixXd response_at(const std::vector<Eigen::Vector2d>& other) const;

private:
    struct Level {
        double radius = 1.0;
        Eigen::LLT<Eigen::MatrixXd> bumps_and_noise;
    };
    void add_levels();

    std::vector<Eigen::Vector2d> places_;
    std::vector<double> own_radius_;
    std::vector<Level> levels_;
};

}  // namespace selvage::veins
