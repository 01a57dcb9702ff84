#include "tables/north.h"

namespace selvage::tables {

std::optional<base::Azimuth> grid_azimuth(double measured, settings::NorthReference reference,
                                          const std::optional<base::Angle>& declination, base::Angle convergence) {
    const base::Angle angle = base::Angle::degrees(measured);
    switch (reference) {
        case settings::NorthReference::grid: return base::Azimuth(angle);
        case settings::NorthReference::true_north: return base::Azimuth(angle - convergence);
        default: break;
    }
    if (!declination) return std::nullopt;
    return base::Azimuth(angle + *declination - convergence);
}

}  // namespace selvage::tables
