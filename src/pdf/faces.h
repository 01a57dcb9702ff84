#pragma once

#include "pdf/document.h"
#include "pdf/haru.h"

#include <array>
#include <set>
#include <string>

namespace selvage::pdf {

// Embeds the faces that are used, each as a subset of those code points, and returns the entries of a font dictionary: "/F0 7 0
// R ...".
std::string add_faces(Haru& haru, const Fonts& fonts, const std::array<std::set<unsigned>, 4>& codes);

}  // namespace selvage::pdf
