#include "sheets/three_norths.h"

#include "base/text.h"

#include <cmath>

namespace selvage::sheets {

namespace {

std::string east_or_west(base::Angle angle, int decimals) {
    const std::string figure = base::fixed(std::abs(angle.degrees()), decimals) + "°";
    return figure + (angle.degrees() < 0.0 ? " west" : " east");
}

}  // namespace

ThreeNorths three_norths(base::Azimuth grid, const settings::North& north) {
    ThreeNorths norths{grid, {}, {}, {}};
    const std::string declination = north.declination ? "declination " + east_or_west(*north.declination, 2) : "";
    if (!north.convergence_given) {
        norths.words = "No grid_convergence" + std::string(north.declination ? "" : " and no declination") +
                       " given: true and magnetic azimuth cannot be told. Do not set a compass by this card.";
        return norths;
    }
    norths.from_true = base::Azimuth(grid.angle() + north.grid_convergence);
    norths.words = "grid north " + east_or_west(north.grid_convergence, 2) + " of true north";
    if (!north.declination) {
        norths.words += "; no declination is given: do not set a compass by this card.";
        return norths;
    }
    norths.from_magnetic = base::Azimuth(norths.from_true->angle() - *north.declination);
    norths.words = declination + " (undated), " + norths.words;
    return norths;
}

std::string azimuth_figure(const std::optional<base::Azimuth>& azimuth) {
    if (!azimuth) return "not given";
    const std::string figure = base::fixed(azimuth->degrees(), 1);
    const std::string shown = figure == "360.0" ? "0.0" : figure;
    return std::string(shown.size() < 5 ? 5 - shown.size() : 0, '0') + shown + "°";
}

}  // namespace selvage::sheets
