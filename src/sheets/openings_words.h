#pragma once

#include "sheets/compose.h"
#include "site/openings.h"

#include <string>
#include <vector>

// Openings that the tables tell of, in words: one wording for cards, week and methods.
namespace selvage::sheets {

// "Known openings: HC-03 ran into a void at 239.1 to 240.8 m (old stope, no return); 7 channels (CH-01, CH-02, CH-03 ...) were
// sampled up to 66 m below the ground, in workings." Empty: none.
std::string openings_words(const Results& results);
// The same after what is known of old workings as a whole: that there is no map of them, or that maps are often incomplete.
std::string workings_known_words(const Results& results);
// The same in one line, where the other stands over the leaf: "No map of old workings. Known: void in HC-03, 7 channels
// underground (see the back)."
std::string workings_known_in_short(const Results& results);
// Of all holes.
std::vector<std::string> hole_names(const std::vector<paths::Path>& paths);
// For the foot of a drawing that shows voids and holes: "Known openings: void in HC-03, 7 channels underground." Empty: none.
std::string openings_caution(const std::vector<site::OpenedVoid>& voids, const std::vector<std::string>& holes,
                             const Results& results);

}  // namespace selvage::sheets
