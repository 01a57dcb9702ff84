#include "sheets/card_depth_dangers.h"

#include "drawing/clipping.h"

#include <algorithm>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double high_top = 3.6;  // mm under the axis: clear of its ticks
constexpr double danger_under = 1.8, danger_height = 3.2, danger_letter_under = 4.2, letter_width = 3.4;

// A range that a fault is crossed in somewhere is left white, with a stroke where that is likely; what neighbours met is hatched.
Marks danger_marks(const planning::Danger& danger, const Box& box, const DepthScale& scale, const Tools& tools) {
    Marks marks{box_outline(box, tools.style.line("card_tick"))};
    if (danger.likely) {
        const double x = std::clamp(scale.x(*danger.likely), box.left, box.right);
        marks.push_back(line_of({{x, box.bottom}, {x, box.top}}, tools.style.line("card_axis")));
        return marks;
    }
    const std::vector<Point> ring{{box.left, box.bottom}, {box.right, box.bottom}, {box.right, box.top}, {box.left, box.top}};
    for (const drawing::Segment& stroke : drawing::hatch({ring}, 0.785, 0.9))
        marks.push_back(line_of({stroke.a, stroke.b}, tools.style.line("danger_hatch")));
    return marks;
}

}  // namespace

std::string danger_letter(std::size_t number) {
    return std::string(1, static_cast<char>('a' + static_cast<int>(std::min<std::size_t>(number, 25))));
}

std::vector<DangerPlace> danger_places(const CardFacts& facts, const std::vector<DepthMark>& marks, const DepthScale& scale) {
    std::vector<DangerPlace> places;
    for (std::size_t i = 0; i < facts.dangers.size(); ++i) {
        const planning::Danger& danger = facts.dangers[i];
        const double middle = (scale.x(danger.from) + scale.x(danger.to)) / 2.0;
        const double half = std::max(0.7, (scale.x(danger.to) - scale.x(danger.from)) / 2.0);
        places.push_back({i, middle - half, middle + half, danger.likely ? scale.x(*danger.likely) : middle, false});
    }
    std::sort(places.begin(), places.end(), [](const DangerPlace& a, const DangerPlace& b) {
        return std::pair(a.letter, a.danger) < std::pair(b.letter, b.danger);
    });
    std::vector<double> centres;
    for (const DangerPlace& place : places) centres.push_back(place.letter);
    keep_apart(centres, std::vector<double>(centres.size(), letter_width), CardPage::text_left, CardPage::text_right, 0.0);
    for (std::size_t i = 0; i < places.size(); ++i) places[i].letter = centres[i];
    for (DangerPlace& place : places) {
        const double left = std::min(place.left, place.letter - letter_width),
                     right = std::max(place.right, place.letter + letter_width);
        place.high = std::none_of(marks.begin(), marks.end(), [&](const DepthMark& mark) {
            return left < std::max(mark.x, mark.right) + 1.0 && right > mark.left - 1.0;
        });
    }
    return places;
}

double dangers_depth(const std::vector<DangerPlace>& places, double labels_depth) {
    double down = 0.0;
    for (const DangerPlace& place : places)
        down = std::max(down, (place.high ? high_top : labels_depth + danger_under) + danger_height + danger_letter_under);
    return down;
}

void draw_dangers(CardPage& page, const CardFacts& facts, const std::vector<DangerPlace>& places, const DepthScale& scale,
                  double axis, double labels_depth, const Tools& tools) {
    for (const DangerPlace& place : places) {
        const double top = place.high ? high_top : labels_depth + danger_under;
        page.draw(danger_marks(facts.dangers[place.danger], {place.left, axis - top - danger_height, place.right, axis - top},
                               scale, tools));
        page.write(place.letter, page.top() - axis + top + danger_height + danger_letter_under, danger_letter(place.danger),
                   "card_mark", drawing::Anchor::centre);
    }
}

}  // namespace selvage::sheets
