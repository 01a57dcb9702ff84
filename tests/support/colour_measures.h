#pragma once

#include "drawing/style.h"

#include <algorithm>
#include <cmath>

// What is measured of colours, for tests of styles.
namespace selvage::test {

// W3C WCAG 2.1, definitions of relative luminance and contrast ratio.
inline double luminance(const drawing::Colour& colour) {
    const auto linear = [](int part) {
        const double c = part / 255.0;
        return c <= 0.03928 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
    };
    return 0.2126 * linear(colour.red) + 0.7152 * linear(colour.green) + 0.0722 * linear(colour.blue);
}
inline double contrast(const drawing::Colour& a, const drawing::Colour& b) {
    const double la = luminance(a), lb = luminance(b);
    return (std::max(la, lb) + 0.05) / (std::min(la, lb) + 0.05);
}

// CIE 1976 lightness of relative luminance.
inline double lightness(const drawing::Colour& colour) {
    const double y = luminance(colour);
    return y > 0.008856 ? 116.0 * std::cbrt(y) - 16.0 : 903.3 * y;
}

}  // namespace selvage::test
