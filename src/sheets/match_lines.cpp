#include "sheets/match_lines.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>

namespace selvage::sheets {

namespace {

constexpr double strip_mm = 6.0;  // from a match line to the window's edge: there both sheets show the same
constexpr double free_mm = 12.0;  // round the data of a tiled drawing
constexpr double metre_default = 10000.0, foot_default = 12000.0;
const std::string words_of_line = "match line: sheet";

// The smallest allowed scale of the ladder.
double smallest_step(const settings::Project& project, const Scales& scales) {
    const double asked = project.sheets.smallest_scale.value_or(scales.feet ? foot_default : metre_default);
    double step = scale_ladder(scales.feet).front();
    for (const double each : scale_ladder(scales.feet))
        if (each <= asked * (1.0 + 1e-9)) step = each;
    return step;
}

bool inside(const Box& box, const Point& at) {
    return at.x >= box.left && at.x <= box.right && at.y >= box.bottom && at.y <= box.top;
}

Box drawn_core(const Tile& tile) {
    const Eigen::Vector2d low = tile.paper.drawn_from_paper({tile.core.left, tile.core.bottom});
    const Eigen::Vector2d high = tile.paper.drawn_from_paper({tile.core.right, tile.core.top});
    return {low.x(), low.y(), high.x(), high.y()};
}

}  // namespace

bool Tile::holds(const Eigen::Vector2d& drawn) const { return inside(core, paper.paper_from_drawn(drawn)); }

Tiling tiles_of(const PaperFrame& whole, double denominator, const std::vector<Eigen::Vector2d>& data,
                const settings::Project& project, const drawing::Style& style) {
    const Scales scales = scales_of(project, style);
    const double smallest = smallest_step(project, scales) * scales.enlarged;
    Tile only{whole, whole.window};
    if (denominator <= smallest * (1.0 + 1e-9)) return {denominator, {only}};

    Tiling tiling{smallest, {}};
    const double m = smallest / 1000.0;
    const Box core = drawing::grown(whole.window, -strip_mm);
    const Eigen::Vector2d step(core.width() * m, core.height() * m);
    Eigen::Vector2d low = data.front(), high = data.front();
    for (const Eigen::Vector2d& point : data) {
        low = low.cwiseMin(point);
        high = high.cwiseMax(point);
    }
    const Eigen::Vector2d extent = high - low + Eigen::Vector2d::Constant(2.0 * free_mm * m), middle = (low + high) / 2.0;
    const auto count = [&](int axis) { return static_cast<long>(std::ceil(extent[axis] / step[axis] - 1e-9)); };
    const long columns = count(0), rows = count(1);
    std::map<std::pair<long, long>, std::size_t> numbers;  // row from the top, column
    for (long row = 0; row < rows; ++row)
        for (long column = 0; column < columns; ++column) {
            Tile tile{{whole.window,
                       middle + Eigen::Vector2d((static_cast<double>(column) - static_cast<double>(columns - 1) / 2.0) * step.x(),
                                                (static_cast<double>(rows - 1) / 2.0 - static_cast<double>(row)) * step.y()),
                       m},
                      core};
            if (std::none_of(data.begin(), data.end(), [&](const Eigen::Vector2d& point) { return tile.holds(point); })) continue;
            tile.number = tiling.tiles.size() + 1;
            numbers[{row, column}] = tile.number;
            tiling.tiles.push_back(tile);
        }
    for (const auto& [place, number] : numbers) {
        const auto neighbour = [&](long down, long across) {
            const auto found = numbers.find({place.first + down, place.second + across});
            return found == numbers.end() ? std::size_t{0} : found->second;
        };
        Tile& tile = tiling.tiles[number - 1];
        tile.count = tiling.tiles.size();
        tile.left = neighbour(0, -1);
        tile.right = neighbour(0, 1);
        tile.above = neighbour(-1, 0);
        tile.below = neighbour(1, 0);
        const Box& window = whole.window;
        tile.core = {tile.left > 0 ? core.left : window.left, tile.below > 0 ? core.bottom : window.bottom,
                     tile.right > 0 ? core.right : window.right, tile.above > 0 ? core.top : window.top};
    }
    return tiling;
}

std::vector<drawing::Sheet> joined(std::vector<std::vector<drawing::Sheet>> drawings) {
    std::vector<drawing::Sheet> sheets;
    for (std::vector<drawing::Sheet>& drawing : drawings)
        sheets.insert(sheets.end(), std::make_move_iterator(drawing.begin()), std::make_move_iterator(drawing.end()));
    return sheets;
}

std::string part_name(const std::string& name, std::size_t number) {
    return name + (name.empty() ? "" : " ") + "part " + std::to_string(number);
}

void name_part(PageContent& page, const Tile& tile) {
    if (!tile.is_part()) return;
    const std::string words = ", part " + std::to_string(tile.number) + " of " + std::to_string(tile.count);
    page.bookmark = (page.bookmark.empty() ? page.title.title : page.bookmark) + words;
    page.title.subtitle =
        "part " + std::to_string(tile.number) + " of " + std::to_string(tile.count) + ": " + page.title.subtitle;
    page.title.identification += "-" + std::to_string(tile.number);
    page.name = part_name(page.name, tile.number);
}

MatchLines match_lines(const Tile& tile, const std::string& kind, const std::string& name, const Tools& tools) {
    MatchLines made;
    const Box &core = tile.core, &window = tile.paper.window;
    const drawing::LineLook& look = tools.style.line("match_line");
    const drawing::TextLook& text_look = tools.style.text("line_name");
    const double cap = drawing::cap_height_mm(tools.fonts, text_look);
    const double half = drawing::text_width_mm(tools.fonts, text_look, words_of_line + " 000") / 2.0;
    const double x = (core.left + core.right) / 2.0, y = (core.bottom + core.top) / 2.0;
    const auto add = [&](std::size_t neighbour, const Point& a, const Point& b, const Point& base, bool upright) {
        if (neighbour == 0) return;
        made.marks.push_back(line_of({a, b}, look));
        drawing::Text text{base, words_of_line, text_look, drawing::Anchor::centre, upright, tools.style.size_mm("halo"), {}};
        text.link = destination_of_sheet(kind, part_name(name, neighbour));
        made.boxes.push_back(drawing::grown(upright ? Box{base.x - cap, base.y - half, base.x, base.y + half}
                                                    : Box{base.x - half, base.y, base.x + half, base.y + cap},
                                            tools.style.size_mm("gap_round_words")));
        made.marks.emplace_back(std::move(text));
    };
    const double off = (strip_mm - cap) / 2.0;  // words in the middle between line and edge
    add(tile.left, {core.left, window.bottom}, {core.left, window.top}, {window.left + off + cap, y}, true);
    add(tile.right, {core.right, window.bottom}, {core.right, window.top}, {window.right - off, y}, true);
    add(tile.below, {window.left, core.bottom}, {window.right, core.bottom}, {x, window.bottom + off}, false);
    add(tile.above, {window.left, core.top}, {window.right, core.top}, {x, window.top - off - cap}, false);
    return made;
}

void number_match_lines(std::vector<drawing::Sheet>& sheets) {
    std::map<std::string, std::size_t> numbers;
    for (std::size_t i = 0; i < sheets.size(); ++i)
        for (const drawing::Destination& place : sheets[i].destinations) numbers.emplace(place.name, i + 1);
    for (drawing::Sheet& sheet : sheets)
        for (drawing::Item& item : sheet.items) {
            auto* text = std::get_if<drawing::Text>(&item.mark);
            if (text == nullptr || text->text != words_of_line) continue;
            if (const auto found = numbers.find(text->link); found != numbers.end())
                text->text += " " + std::to_string(found->second);
        }
}

std::function<Marks(const Box&)> tile_key(const Tiling& tiling, const Tile& tile, const std::vector<Eigen::Vector2d>& data,
                                          const Tools& tools) {
    return [tiling, number = tile.number, data, tools](const Box& box) {
        constexpr double inset = 2.0, dot_mm = 0.35;
        Box all = drawn_core(tiling.tiles.front());
        for (const Tile& each : tiling.tiles) all = drawing::united(all, drawn_core(each));
        const double per_mm = std::max(all.width() / (box.width() - 2.0 * inset), all.height() / (box.height() - 2.0 * inset));
        const auto paper = [&](double x, double y) {
            return Point{(box.left + box.right) / 2.0 + (x - (all.left + all.right) / 2.0) / per_mm,
                         (box.bottom + box.top) / 2.0 + (y - (all.bottom + all.top) / 2.0) / per_mm};
        };
        Marks marks, names;
        for (const Tile& each : tiling.tiles) {
            const Box core = drawn_core(each);
            const Point low = paper(core.left, core.bottom), high = paper(core.right, core.top);
            const Box outline{low.x, low.y, high.x, high.y};
            const bool here = each.number == number;
            if (here) marks.push_back(box_area(outline, plain(tools.style.colour("grid"))));
            marks.push_back(box_outline(outline, tools.style.line(here ? "panel" : "rule")));
            names.push_back(words({low.x + 1.0, high.y - 3.2}, std::to_string(each.number),
                                  tools.style.text(here ? "body_strong" : "body"), drawing::Anchor::left,
                                  tools.style.size_mm("halo")));
        }
        for (const Eigen::Vector2d& point : data)
            marks.push_back(disc(paper(point.x(), point.y()), dot_mm, plain(tools.style.colour("off_slab"))));
        append(marks, std::move(names));
        return marks;
    };
}

bool keep_within(drawing::Label& label, const Tile& tile) {
    if (!tile.is_part()) return true;
    std::vector<Point> places{label.at};
    places.insert(places.end(), label.also_at.begin(), label.also_at.end());
    places.erase(std::remove_if(places.begin(), places.end(), [&](const Point& at) { return !inside(tile.core, at); }),
                 places.end());
    label.number_at.erase(
        std::remove_if(label.number_at.begin(), label.number_at.end(), [&](const Point& at) { return !inside(tile.core, at); }),
        label.number_at.end());
    if (places.empty()) return false;
    label.at = places.front();
    label.also_at.assign(places.begin() + 1, places.end());
    return true;
}

}  // namespace selvage::sheets
