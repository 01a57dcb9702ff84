#include "support/label_cases.h"

#include "base/random.h"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace selvage::made_up {

namespace {

using drawing::Box;
using drawing::Label;
using drawing::LabelFigures;
using drawing::PlacedLabel;
using drawing::Placing;
using drawing::Point;
using drawing::Segment;

// More than this is more than touching, mm.
constexpr double least_mm = 1e-7;

bool share_paper(const Box& a, const Box& b) {
    return std::min(a.right, b.right) - std::max(a.left, b.left) > least_mm &&
           std::min(a.top, b.top) - std::max(a.bottom, b.bottom) > least_mm;
}

// How far `p` lies left of a line, times the line's length.
double left_of(const Segment& line, const Point& p) {
    return (line.b.x - line.a.x) * (p.y - line.a.y) - (line.b.y - line.a.y) * (p.x - line.a.x);
}

bool cross_each_other(const Segment& a, const Segment& b) {
    return left_of(a, b.a) * left_of(a, b.b) < -least_mm && left_of(b, a.a) * left_of(b, a.b) < -least_mm;
}

// Whether part of a segment lies inside of a box: what is left of it after each side's cut.
bool runs_through(const Segment& line, const Box& box) {
    double from = 0.0, to = 1.0;
    const auto cut = [&](double start, double end, double low, double high) {
        const double step = end - start;
        if (std::abs(step) < least_mm) {
            if (start <= low || start >= high) to = -1.0;
            return;
        }
        const double a = (low - start) / step, b = (high - start) / step;
        from = std::max(from, std::min(a, b));
        to = std::min(to, std::max(a, b));
    };
    cut(line.a.x, line.b.x, box.left, box.right);
    cut(line.a.y, line.b.y, box.bottom, box.top);
    return to - from > 1e-6;
}

Box round_point(const Label& label) {
    const double clear = label.clear_mm - 1e-6;
    return {label.at.x - clear, label.at.y - clear, label.at.x + clear, label.at.y + clear};
}

bool is_drawn(const PlacedLabel& placed) { return placed.placing != Placing::listed || placed.number > 0; }

class Faults {
public:
    Faults(const LabelCase& made, const drawing::PlacedLabels& placed) : made_(made), placed_(placed) {}

    std::string all() {
        if (placed_.labels.size() != made_.labels.size()) return "labels were lost\n";
        for (std::size_t i = 0; i < placed_.labels.size(); ++i)
            if (is_drawn(placed_.labels[i])) look_at(i);
        compare_figures();
        compare_numbers();
        return said_;
    }

private:
    void say(const std::string& what, std::size_t i) { said_ += what + " (label " + std::to_string(i) + ")\n"; }

    void look_at(std::size_t i) {
        const PlacedLabel& one = placed_.labels[i];
        const Box& window = label_rules().window;
        if (one.box.left < window.left - least_mm || one.box.bottom < window.bottom - least_mm ||
            one.box.right > window.right + least_mm || one.box.top > window.top + least_mm)
            say("outside of the window", i);
        for (const Segment& line : made_.obstacles.lines)
            if (runs_through(line, one.box)) say("a trace runs through it", i);
        for (const Box& box : made_.obstacles.boxes)
            if (share_paper(box, one.box)) say("on a symbol", i);
        for (const Label& label : made_.labels)
            if (share_paper(round_point(label), one.box)) say("on a point", i);
        for (std::size_t j = i + 1; j < placed_.labels.size(); ++j)
            if (is_drawn(placed_.labels[j]) && share_paper(one.box, placed_.labels[j].box)) say("on another label", i);
        if (one.leader.size() == 2) look_at_leader(i, {one.leader[0], one.leader[1]});
    }

    void look_at_leader(std::size_t i, const Segment& leader) {
        if (std::hypot(leader.b.x - leader.a.x, leader.b.y - leader.a.y) > label_rules().leader_max_mm + least_mm)
            say("a leader too long", i);
        for (std::size_t j = 0; j < placed_.labels.size(); ++j) {
            const PlacedLabel& other = placed_.labels[j];
            if (j == i || !is_drawn(other)) continue;
            if (runs_through(leader, other.box)) say("its leader runs through another label", i);
            if (j > i && other.leader.size() == 2 && cross_each_other(leader, {other.leader[0], other.leader[1]}))
                say("its leader crosses another", i);
        }
    }

    void compare_figures() {
        LabelFigures counted;
        for (std::size_t i = 0; i < placed_.labels.size(); ++i) {
            const Placing placing = placed_.labels[i].placing;
            counted.beside += placing == Placing::beside ? 1U : 0U;
            counted.on_leaders += placing == Placing::leader ? 1U : 0U;
            counted.listed += placing == Placing::listed && made_.labels[i].may_be_listed ? 1U : 0U;
            if (placing == Placing::leader && placed_.labels[i].leader.size() != 2) say("no leader to it", i);
        }
        const LabelFigures& said = placed_.figures;
        if (said.wanted != made_.labels.size() || said.beside != counted.beside || said.on_leaders != counted.on_leaders ||
            said.listed != counted.listed || said.overlaps != 0 || said.crossings != 0)
            said_ += "the figures are wrong\n";
    }

    // The side list counts 1, 2, 3 ... without a gap.
    void compare_numbers() {
        std::vector<std::size_t> numbers;
        for (const PlacedLabel& one : placed_.labels)
            if (one.number > 0) numbers.push_back(one.number);
        std::sort(numbers.begin(), numbers.end());
        for (std::size_t i = 0; i < numbers.size(); ++i)
            if (numbers[i] != i + 1) said_ += "the side list's numbers have a gap\n";
    }

    const LabelCase& made_;
    const drawing::PlacedLabels& placed_;
    std::string said_;
};

// A place of one of five kinds of scatter.
Point place_of(std::uint64_t kind, std::size_t i, base::RandomStream& random, const std::vector<Point>& centres) {
    const Point anywhere{random.uniform(14.0, 296.0), random.uniform(14.0, 246.0)};
    const Point& centre = centres[random.below(centres.size())];
    switch (kind) {
        case 0: return anywhere;
        case 1: return {centre.x + random.uniform(-18.0, 18.0), centre.y + random.uniform(-12.0, 12.0)};
        case 2: return {20.0 + 4.5 * static_cast<double>(i), 60.0 + 2.5 * static_cast<double>(i)};
        case 3: return {40.0 + 11.0 * static_cast<double>(i % 10), 80.0 + 7.0 * static_cast<double>(i / 10)};
        default: return i % 3 == 0 ? centre : anywhere;
    }
}

void add_obstacles(LabelCase& made, base::RandomStream& random) {
    for (std::uint64_t trace = random.below(8); trace > 0; --trace) {
        Point at{random.uniform(20.0, 290.0), 245.0};
        const double slope = random.uniform(-0.6, 0.6);
        for (int step = 0; step < 25; ++step) {
            const Point next{at.x + 8.0 * slope + random.uniform(-0.3, 0.3), at.y - random.uniform(4.0, 9.0)};
            made.obstacles.lines.push_back({at, next});
            at = next;
        }
    }
    for (std::uint64_t symbol = random.below(20); symbol > 0; --symbol) {
        const Point at{random.uniform(15.0, 290.0), random.uniform(15.0, 240.0)};
        made.obstacles.boxes.push_back({at.x, at.y, at.x + 3.0, at.y + 3.0});
    }
    for (double x = 50.0; x < 300.0; x += 50.0) made.obstacles.soft_lines.push_back({{x, 10.0}, {x, 250.0}});
}

}  // namespace

drawing::FontMetrics plain_metrics() {
    drawing::FontMetrics fonts;
    for (auto& advances : fonts.advances) advances.assign(0x10000, 500);
    return fonts;
}

const drawing::LabelRules& label_rules() {
    static const drawing::LabelRules rules{{10.0, 10.0, 300.0, 250.0}};
    return rules;
}

Label label_at(Point at, int priority, const std::string& second_line) {
    Label label;
    label.owner = "hole";
    label.at = at;
    label.priority = priority;
    label.lines = {{"AB-10", {8.0, drawing::FontFace::bold, {}}}, {second_line, {7.0, drawing::FontFace::regular, {}}}};
    return label;
}

LabelCase random_labels(std::uint64_t number, std::size_t count) {
    base::RandomStream random("label test", {number});
    LabelCase made;
    for (std::size_t i = 0; i < count; ++i) {
        const double spread = i % 3 == 0 ? 120.0 : 40.0;
        const Point at{155.0 + spread * random.uniform(-1.0, 1.0), 130.0 + spread * random.uniform(-0.9, 0.9)};
        Label label = label_at(at, static_cast<int>(random.below(6)));
        if (i % 4 == 0) {
            label.head_symbol = "ring";
            label.head_mm = 2.5;
        }
        made.labels.push_back(label);
    }
    for (std::size_t i = 0; i < count / 4; ++i) {
        Point at{random.uniform(20.0, 200.0), 240.0};
        for (int step = 0; step < 30; ++step) {
            const Point next{at.x + random.uniform(0.5, 4.0), at.y - random.uniform(2.0, 8.0)};
            made.obstacles.lines.push_back({at, next});
            at = next;
        }
    }
    return made;
}

LabelCase fan_case(std::uint64_t number) {
    base::RandomStream random("label fan test", {number});
    LabelCase made;
    for (int hole = 0; hole < 6; ++hole) {
        const Point collar{20.0 + 40.0 * hole, 240.0};
        const double slope = random.uniform(0.3, 0.9);
        const auto at_depth = [&](double depth) { return Point{collar.x + slope * depth, collar.y - depth}; };
        for (int step = 0; step < 40; ++step) made.obstacles.lines.push_back({at_depth(5.0 * step), at_depth(5.0 * step + 5.0)});
        for (int hit = 0; hit < 3; ++hit) {
            const Point at = at_depth(random.uniform(10.0, 190.0));
            if (at.x < label_rules().window.right - 5.0) made.labels.push_back(label_at(at, 3));
        }
    }
    return made;
}

LabelCase any_labels(std::uint64_t number) {
    base::RandomStream random("any labels", {number});
    LabelCase made;
    const std::uint64_t kind = number % 5;
    const std::size_t count = 1 + random.below(45);
    std::vector<Point> centres;
    for (int i = 0; i < 4; ++i) centres.push_back({random.uniform(30.0, 280.0), random.uniform(30.0, 230.0)});
    const std::string lines[] = {"no vein", "1.5 m TW @ 885 g/t Ag", "0.84 m DH @ > 1500 g/t Ag and 12.5 % Pb, pending in part"};
    for (std::size_t i = 0; i < count; ++i) {
        const Point at = place_of(kind, i, random, centres);
        Label label = label_at(at, static_cast<int>(random.below(6)), lines[random.below(std::size(lines))]);
        label.clear_mm = random.uniform(0.8, 2.0);
        if (random.below(4) == 0) {
            label.head_symbol = "ring";
            label.head_mm = 2.5;
        }
        made.labels.push_back(label);
    }
    add_obstacles(made, random);
    return made;
}

std::string faults_of(const LabelCase& made, const drawing::PlacedLabels& placed) { return Faults(made, placed).all(); }

}  // namespace selvage::made_up
