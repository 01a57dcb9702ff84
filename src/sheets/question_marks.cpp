#include "sheets/question_marks.h"

#include "drawing/polyline.h"

#include <algorithm>

namespace selvage::sheets {

std::size_t add_question_marks(std::vector<drawing::Text>& there, const std::vector<Point>& line, const drawing::Colour& colour,
                               const Tools& tools) {
    const double every = tools.style.size_mm("question_every"), halo = tools.style.size_mm("halo");
    const drawing::TextLook look = with_colour(tools.style.text("body_strong"), colour);
    const double half_cap = drawing::cap_height_mm(tools.fonts, look) / 2.0;
    const std::size_t before = there.size();
    for (double along = every / 2.0; along < drawing::length_of(line); along += every) {
        const Point at = drawing::point_along(line, along).at, foot{at.x, at.y - half_cap};
        const auto touches = [&](const drawing::Text& other) {
            return drawing::length_of(other.at.x - foot.x, other.at.y - foot.y) < 4.0 * half_cap;
        };
        if (std::any_of(there.begin(), there.end(), touches)) continue;
        there.push_back(std::get<drawing::Text>(words(foot, "?", look, drawing::Anchor::centre, halo)));
    }
    return there.size() - before;
}

}  // namespace selvage::sheets
