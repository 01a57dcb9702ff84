#include "support/label_faults.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

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

}  // namespace

std::string faults_of(const LabelCase& made, const drawing::PlacedLabels& placed) { return Faults(made, placed).all(); }

}  // namespace selvage::made_up
