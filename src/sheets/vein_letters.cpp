#include "sheets/vein_letters.h"

#include "base/text.h"
#include "drawing/clipping.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace selvage::sheets {

namespace {

constexpr double radius = 2.1, search_step = 2.5;        // mm
constexpr double least_clear = 0.6, clear_enough = 8.0;  // mm, from the disc to what is drawn
constexpr double least_area = 150.0;                     // mm2, of a part that gets a letter

double area_of(const std::vector<Point>& ring) {
    double sum = 0.0;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Point &a = ring[i], &b = ring[(i + 1) % ring.size()];
        sum += (a.x * b.y - a.y * b.x) / 2.0;
    }
    return sum;
}

double clearance(const Point& at, const std::vector<std::vector<Point>>& rings, const drawing::Obstacles& obstacles) {
    double least = clear_enough + radius;
    for (const Box& box : obstacles.boxes) least = std::min(least, drawing::distance(at, box));
    for (const drawing::Segment& line : obstacles.lines) least = std::min(least, drawing::distance(at, line));
    for (const std::vector<Point>& ring : rings)
        for (std::size_t i = 0; i < ring.size(); ++i)
            least = std::min(least, drawing::distance(at, drawing::Segment{ring[i], ring[(i + 1) % ring.size()]}));
    return least - radius;
}

// Within a part's outer ring and none of the vein's holes; from the lower left up, of equals the first.
std::optional<Point> freest(const std::vector<Point>& part, const std::vector<std::vector<Point>>& rings,
                            const drawing::Obstacles& obstacles) {
    Box about{part.front().x, part.front().y, part.front().x, part.front().y};
    for (const Point& point : part) about = drawing::united(about, {point.x, point.y, point.x, point.y});
    std::optional<Point> best;
    double most = least_clear;
    for (double y = about.bottom; y <= about.top; y += search_step)
        for (double x = about.left; x <= about.right; x += search_step) {
            const Point at{x, y};
            if (!drawing::inside(at, {part}) || !drawing::inside(at, rings)) continue;
            const double clear = clearance(at, rings, obstacles);
            if (clear <= most + 1e-9) continue;
            most = clear;
            best = at;
        }
    return best;
}

}  // namespace

std::vector<std::string> vein_letters(const std::vector<std::string>& names) {
    std::vector<std::string> letters;
    for (std::size_t i = 0; i < names.size(); ++i) {
        std::size_t length = 1;
        const auto is_shared = [&] {
            for (std::size_t k = 0; k < names.size(); ++k)
                if (k != i && base::folded(names[k].substr(0, length)) == base::folded(names[i].substr(0, length))) return true;
            return false;
        };
        // A letter of several bytes is not parted.
        const auto is_within_letter = [&] {
            return length < names[i].size() && (static_cast<unsigned char>(names[i][length]) & 0xC0U) == 0x80U;
        };
        while (length < names[i].size() && (is_within_letter() || is_shared())) ++length;
        letters.push_back(names[i].substr(0, length));
    }
    return letters;
}

Marks letters_on_bodies(const std::vector<std::string>& letters, const VisibleSurface& surface,
                        const std::function<std::size_t(int)>& vein_of, drawing::Obstacles& obstacles, const Tools& tools) {
    const drawing::TextLook& look = tools.style.text("body_strong");
    const double cap = drawing::cap_height_mm(tools.fonts, look);
    Marks marks;
    for (std::size_t vein = 0; vein < letters.size(); ++vein) {
        if (drawing::text_width_mm(tools.fonts, look, letters[vein]) > 2.0 * radius) continue;
        const std::vector<std::vector<Point>> rings = surface.outlines([&](int item) { return vein_of(item) == vein; });
        for (const std::vector<Point>& part : rings) {
            if (area_of(part) < least_area) continue;
            const std::optional<Point> at = freest(part, rings, obstacles);
            if (!at) continue;
            marks.push_back(ring(*at, radius, tools.style.line("symbol_edge"), plain(tools.style.colour("white"))));
            marks.push_back(words({at->x, at->y - cap / 2.0}, letters[vein], look, drawing::Anchor::centre));
            obstacles.boxes.push_back(drawing::grown({at->x, at->y, at->x, at->y}, radius));
        }
    }
    return marks;
}

}  // namespace selvage::sheets
