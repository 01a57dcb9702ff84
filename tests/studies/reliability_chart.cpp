#include "studies/reliability_chart.h"

#include "drawing/symbols.h"

#include <fmt/format.h>

#include <array>
#include <string>

namespace selvage::studies {

namespace {

using drawing::Anchor;
using drawing::Box;
using drawing::Point;
using drawing::Sheet;
using drawing::Style;

constexpr std::array<double, 3> said{50.0, 80.0, 95.0};
constexpr double lowest = 40.0, highest = 100.0;                                        // %
constexpr double sign_width = 1.9, line_height = 3.5, legend_width = 53.0, head = 8.0;  // mm

struct Pool {
    std::string name;
    std::array<double, 3> came;
};

std::vector<Pool> pools_of(const std::vector<Study>& studies) {
    std::vector<Pool> pools;
    for (const Study& study : studies)
        for (const auto& [name, pool] : study.reliability)
            pools.push_back({name, {pool.percent50(), pool.percent80(), pool.percent95()}});
    return pools;
}

class Chart {
public:
    Chart(Sheet& sheet, const Box& box, const Style& style) : sheet_(sheet), style_(style), box_(box) {
        plot_ = {box.left + 8.0, box.bottom + 4.0, box.right - legend_width, box.top - head};
    }

    void axes() {
        set("Said against came", "heading", {box_.left, box_.top - 2.0}, Anchor::left);
        set("% of truths within ranges of 50, 80 and 95 %; the lines are what was said", "note", {box_.left, box_.top - 5.5},
            Anchor::left);
        outline(plot_);
        for (double percent = lowest; percent <= highest; percent += 10.0)
            set(fmt::format("{:.0f}", percent), "axis", {plot_.left - 1.5, y_of(percent) - 0.9}, Anchor::right);
        for (std::size_t i = 0; i < said.size(); ++i) {
            const double y = y_of(said[i]);
            line({group_left(i), y}, {group_left(i) + group_width(), y});
            set(fmt::format("{:.0f} % said", said[i]), "axis", {group_left(i) + group_width() / 2.0, plot_.bottom - 3.3},
                Anchor::centre);
        }
    }

    void pool(const Pool& pool, std::size_t number, std::size_t count) {
        for (std::size_t i = 0; i < said.size(); ++i) {
            const double share = (static_cast<double>(number) + 0.5) / static_cast<double>(count);
            sign(number, {group_left(i) + share * group_width(), y_of(pool.came[i])});
        }
        const double y = plot_.top - 1.5 - line_height * static_cast<double>(number);
        sign(number, {plot_.right + 4.0, y + 0.9});
        set(pool.name, "table_text", {plot_.right + 6.5, y}, Anchor::left);
    }

private:
    double y_of(double percent) const { return plot_.bottom + (percent - lowest) / (highest - lowest) * plot_.height(); }
    double group_width() const { return plot_.width() / 3.0 - 3.0; }
    double group_left(std::size_t group) const { return plot_.left + 1.5 + static_cast<double>(group) * plot_.width() / 3.0; }

    void set(const std::string& words, const std::string& role, Point at, Anchor anchor) {
        drawing::Text text;
        text.at = at;
        text.text = words;
        text.look = style_.text(role);
        text.anchor = anchor;
        sheet_.items.push_back({text, 0, 0});
    }

    void line(Point from, Point to) {
        drawing::Shape shape;
        shape.rings = {{from, to}};
        shape.line = drawing::LineLook{0.35, style_.colour("ink"), {}, false};
        sheet_.items.push_back({shape, 0, 0});
    }

    void outline(const Box& box) {
        drawing::Shape shape;
        shape.rings = {{{box.left, box.bottom}, {box.right, box.bottom}, {box.right, box.top}, {box.left, box.top}}};
        shape.closed = true;
        shape.line = style_.line("frame_outer");
        sheet_.items.push_back({shape, 0, 0});
    }

    // Eight shapes in turn, each with the colour of its place: told apart in grey too.
    void sign(std::size_t number, Point centre) {
        static const std::array<const char*, 8> shapes{"ring",    "square", "triangle",      "diamond",
                                                       "hexagon", "star",   "triangle_down", "target"};
        drawing::SymbolLook look;
        look.edge = drawing::LineLook{0.2, style_.colour("ink"), {}, false};
        look.fill = drawing::FillLook{style_.veins[number % style_.veins.size()], {}};
        for (const drawing::Shape& shape : drawing::symbol(shapes[number % shapes.size()], centre, sign_width, look))
            sheet_.items.push_back({shape, 0, 0});
    }

    Sheet& sheet_;
    const Style& style_;
    Box box_, plot_;
};

}  // namespace

void draw_reliability(Sheet& sheet, const Box& box, const std::vector<Study>& studies, const Style& style) {
    const std::vector<Pool> pools = pools_of(studies);
    Chart chart(sheet, box, style);
    chart.axes();
    for (std::size_t i = 0; i < pools.size(); ++i) chart.pool(pools[i], i, pools.size());
}

}  // namespace selvage::studies
