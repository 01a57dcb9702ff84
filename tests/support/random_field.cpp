#include "support/random_field.h"

#include <cmath>

namespace selvage::made_up {

namespace {

constexpr Eigen::Index waves = 800;  // enough for a field that nobody tells from a Gaussian one at the places asked
constexpr double pi = 3.14159265358979323846;

}  // namespace

RandomField::RandomField(base::RandomStream& stream, double range, double nu, double ratio, double axis_radians)
    : frequencies_(2, waves), phases_(waves) {
    const Eigen::Vector2d along(std::cos(axis_radians), std::sin(axis_radians));
    const Eigen::Vector2d across(-along.y(), along.x());
    for (Eigen::Index k = 0; k < waves; ++k) {
        double stretch = 1.0;
        if (std::isfinite(nu)) {
            double chi_squared = 0.0;  // with 2 nu degrees of freedom, a whole number here
            for (int i = 0; i < static_cast<int>(std::lround(2.0 * nu)); ++i) chi_squared += std::pow(stream.normal(), 2);
            stretch = std::sqrt(2.0 * nu / chi_squared);
        }
        const double a = stream.normal() * stretch / (range * std::sqrt(ratio));
        const double b = stream.normal() * stretch / (range / std::sqrt(ratio));
        frequencies_.col(k) = a * along + b * across;
        phases_[k] = stream.uniform(0.0, 2.0 * pi);
    }
}

double RandomField::at(const Eigen::Vector2d& place) const {
    if (phases_.size() == 0) return 0.0;
    const Eigen::ArrayXd arguments = (frequencies_.transpose() * place + phases_).array();
    return std::sqrt(2.0 / static_cast<double>(waves)) * arguments.cos().sum();
}

}  // namespace selvage::made_up
