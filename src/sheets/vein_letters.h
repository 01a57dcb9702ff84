#pragma once

#include "drawing/labels.h"
#include "sheets/compose.h"
#include "sheets/marks.h"
#include "sheets/visible_surface.h"

#include <functional>
#include <string>
#include <vector>

// Letters that tell veins apart on a grey copy.
namespace selvage::sheets {

// The shortest start of each name that no other begins with; the whole name where there is none.
std::vector<std::string> vein_letters(const std::vector<std::string>& names);

// A letter on each part that one sees of a vein's bodies and that has room, where it stands freest of what is drawn.
// `vein_of`: of an item of the surface. The boxes that they take are added to the obstacles.
Marks letters_on_bodies(const std::vector<std::string>& letters, const VisibleSurface& surface,
                        const std::function<std::size_t(int)>& vein_of, drawing::Obstacles& obstacles, const Tools& tools);

}  // namespace selvage::sheets
