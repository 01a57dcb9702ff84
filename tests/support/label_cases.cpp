#include "support/label_cases.h"

#include "base/random.h"

#include <iterator>

namespace selvage::made_up {

namespace {

using drawing::Label;
using drawing::Point;

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

}  // namespace selvage::made_up
