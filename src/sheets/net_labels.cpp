#include "sheets/net_labels.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace selvage::sheets {

namespace {

// What a net's words stand among, and those that are set.
class NetWords {
public:
    NetWords(const Net& net, const Tools& tools) : net_(net), tools_(tools) {
        rules_.window = {net.centre.x - net.radius, net.centre.y - net.radius, net.centre.x + net.radius,
                         net.centre.y + net.radius};
    }
    // Sets those labels that find a place clear of all; gives the others.
    std::vector<drawing::Label> set(const std::vector<drawing::Label>& wanted, drawing::Obstacles& obstacles);
    // Sets a label at the nearest free place about its sign, on a straight leader that nothing stops; false where there is none.
    bool lead(const drawing::Label& label, drawing::Obstacles& obstacles);

    Marks marks;

private:
    const Net& net_;
    const Tools& tools_;
    drawing::LabelRules rules_;
};

std::vector<drawing::Label> NetWords::set(const std::vector<drawing::Label>& wanted, drawing::Obstacles& obstacles) {
    std::vector<drawing::Label> crowded;
    for (const drawing::PlacedLabel& one : drawing::place_labels(wanted, obstacles, rules_, tools_.fonts).labels) {
        const drawing::Label& label = wanted[one.label];
        if (one.placing == drawing::Placing::listed) {
            crowded.push_back(label);
            continue;
        }
        obstacles.boxes.push_back(drawing::grown(one.box, rules_.apart_mm));
        if (!one.leader.empty()) marks.push_back(line_of(one.leader, tools_.style.line("leader")));
        for (drawing::Text& text : drawing::texts_of(label, one, rules_, tools_.fonts, tools_.style.size_mm("halo")))
            marks.emplace_back(std::move(text));
    }
    return crowded;
}

bool NetWords::lead(const drawing::Label& label, drawing::Obstacles& obstacles) {
    constexpr int directions = 24;
    constexpr double pi = 3.14159265358979323846, step = 0.5;  // mm
    const drawing::LabelLine& line = label.lines.front();
    const double half_wide = drawing::text_width_mm(tools_.fonts, line.look, line.text) / 2.0,
                 half_high = drawing::cap_height_mm(tools_.fonts, line.look) / 2.0;
    for (double length = label.clear_mm + 1.0; length < 2.0 * net_.radius; length += step)
        for (int i = 0; i < directions; ++i) {
            const double turn = 2.0 * pi * i / directions, x = std::cos(turn), y = std::sin(turn);
            const Point end{label.at.x + length * x, label.at.y + length * y};
            const Point middle{end.x + (half_wide + 0.5) * x, end.y + (half_high + 0.5) * y};
            if (std::hypot(middle.x - net_.centre.x, middle.y - net_.centre.y) + half_wide > net_.radius) continue;
            const Box box{middle.x - half_wide, middle.y - half_high, middle.x + half_wide, middle.y + half_high};
            if (std::any_of(obstacles.boxes.begin(), obstacles.boxes.end(),
                            [&](const Box& other) { return drawing::overlap(box, other); }))
                continue;
            const Point start{label.at.x + label.clear_mm * x, label.at.y + label.clear_mm * y};
            marks.push_back(line_of({start, end}, tools_.style.line("leader")));
            marks.push_back(
                words({middle.x, box.bottom}, line.text, line.look, drawing::Anchor::centre, tools_.style.size_mm("halo")));
            obstacles.boxes.push_back(drawing::grown(box, rules_.apart_mm));
            return true;
        }
    return false;
}

}  // namespace

Marks net_labels(const std::vector<drawing::Label>& labels, const drawing::Obstacles& signs_and_planes,
                 const std::vector<Point>& poles, const Net& net, const Tools& tools) {
    drawing::Obstacles among = signs_and_planes;
    const double kept = pole_half + tools.style.size_mm("halo");
    for (const Point& at : poles) among.boxes.push_back(drawing::grown({at.x, at.y, at.x, at.y}, kept));
    NetWords placed(net, tools);
    std::vector<drawing::Label> crowded = placed.set(labels, among);
    among.soft_lines.insert(among.soft_lines.end(), among.lines.begin(), among.lines.end());
    among.lines.clear();
    for (const drawing::Label& label : placed.set(crowded, among))
        if (!placed.lead(label, among))
            placed.marks.push_back(words({label.at.x + label.clear_mm + 0.6, label.at.y - 1.0}, label.lines.front().text,
                                         label.lines.front().look, drawing::Anchor::left, tools.style.size_mm("halo")));
    return std::move(placed.marks);
}

}  // namespace selvage::sheets
