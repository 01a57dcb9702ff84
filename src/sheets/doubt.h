#pragma once

// How doubt looks on paper: the thresholds between the styles of a vein's wall. Two standard deviations on paper.
namespace selvage::sheets {

constexpr double accurate_mm = 2.0;             // under it: a solid line
constexpr double approximate_mm = 10.0;         // under it: long dashes; else short ones
constexpr double questionable_presence = 0.75;  // under it: question marks in the line
constexpr double band_hatch_share = 0.45;       // how strong the vein's colour is in the band's strokes

enum class WallStyle { accurate, approximate, inferred };

constexpr WallStyle wall_style(double sd, double metres_per_mm) {
    return 2.0 * sd < accurate_mm * metres_per_mm      ? WallStyle::accurate
           : 2.0 * sd < approximate_mm * metres_per_mm ? WallStyle::approximate
                                                       : WallStyle::inferred;
}

}  // namespace selvage::sheets
