#include "sheets/long_section_frame.h"

#include "sheets/ground.h"
#include "sheets/scale_bar.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double ground_within = 0.7;  // of the height: ground further above the vein than this is left out

// Height up the dip at which the mean plane comes to the ground, at a distance along strike; nothing where they hardly meet.
std::optional<double> plane_y(const PlaneLayout& layout, const site::Ground& ground, double x) {
    const auto above = [&](double y) {
        const Eigen::Vector3d place = layout.world_from_layout({x, y});
        return place.z() - ground_elevation(ground, place);
    };
    const double at_zero = above(0.0), slope = above(1.0) - at_zero;
    if (std::abs(slope) < 0.1) return std::nullopt;
    return -at_zero / slope;
}

// The same under a topography: the first time that the plane comes up through it from below what is drawn.
std::optional<double> relief_y(const LongSectionContent& content, const site::Ground& ground, double x) {
    const double height = std::max(1.0, content.high.y() - content.low.y()), foot = content.low.y() - height;
    const auto up = ground.distance_along(content.layout.world_from_layout({x, foot}), content.layout.up_dip, 4.0 * height);
    return up ? std::optional<double>(foot + *up) : std::nullopt;
}

// Where the modelled vein itself comes to the ground at a distance along strike, which is not just where its plane does.
std::optional<double> vein_y(const LongSectionContent& content, double x) {
    std::optional<double> highest;
    for (const BlockOnPlane& block : content.blocks)
        for (const veins::EdgeLine& edge : block.edges) {
            if (edge.reason != veins::EdgeReason::topography) continue;
            for (std::size_t i = 1; i < edge.points.size(); ++i) {
                const Eigen::Vector2d a = block.layout.layout_from_world(edge.points[i - 1]),
                                      b = block.layout.layout_from_world(edge.points[i]);
                if ((a.x() > x) == (b.x() > x)) continue;
                const double y = a.y() + (b.y() - a.y()) * (x - a.x()) / (b.x() - a.x());
                highest = std::max(highest.value_or(y), y);
            }
        }
    return highest;
}

// Moves the plane's ground to where the vein comes to it, evenly between such places.
void bend_to_vein(const LongSectionContent& content, GroundOnPlane& over) {
    std::vector<Eigen::Vector2d*> places;
    for (GroundOnPlane::Piece& piece : over.pieces)
        for (Eigen::Vector2d& place : piece.places) places.push_back(&place);
    std::vector<std::pair<std::size_t, double>> known;  // place, how much higher the vein's is
    for (std::size_t i = 0; i < places.size(); ++i)
        if (const auto y = vein_y(content, places[i]->x())) known.emplace_back(i, *y - places[i]->y());
    if (known.empty()) return;
    std::size_t next = 0;
    for (std::size_t i = 0; i < places.size(); ++i) {
        while (next < known.size() && known[next].first < i) ++next;
        const auto& after = known[std::min(next, known.size() - 1)];
        const auto& before = known[next > 0 ? next - 1 : 0];
        const double apart = static_cast<double>(after.first) - static_cast<double>(before.first);
        const double share =
            apart > 0.0 ? std::min(1.0, (static_cast<double>(i) - static_cast<double>(before.first)) / apart) : 1.0;
        places[i]->y() += before.second + share * (after.second - before.second);
    }
}

std::optional<GroundOnPlane> ground_over(const LongSectionContent& content, const site::Ground& ground, double left,
                                         double right) {
    constexpr int steps = 400;
    GroundOnPlane over;
    for (int i = 0; i <= steps; ++i) {
        const double x = i == steps ? right : left + (right - left) * i / steps;
        const std::optional<double> y = ground.has_given() ? relief_y(content, ground, x) : plane_y(content.layout, ground, x);
        if (!y) return std::nullopt;
        const bool given = ground.is_given_at(content.layout.world_from_layout({x, *y}).head<2>());
        if (over.pieces.empty() || over.pieces.back().given != given) over.pieces.push_back({{}, given});
        over.pieces.back().places.emplace_back(x, *y);
    }
    bend_to_vein(content, over);
    double highest = -1e300;
    for (const GroundOnPlane::Piece& piece : over.pieces)
        for (const Eigen::Vector2d& place : piece.places) highest = std::max(highest, place.y());
    const double height = std::max(1.0, content.high.y() - content.low.y());
    if (highest - content.high.y() > ground_within * height) return std::nullopt;
    return over;
}

// What must lie on the paper along one axis, with the free paper that it wants at either side, mm.
struct Wish {
    double low, high;            // m
    double free_low, free_high;  // mm
};

Wish wish_of(const GroundOnPlane& ground, const FreePaper& free) {
    Wish wish{1e300, -1e300, free.edges, free.ground};
    for (const GroundOnPlane::Piece& piece : ground.pieces)
        for (const Eigen::Vector2d& place : piece.places) {
            wish.low = std::min(wish.low, place.y());
            wish.high = std::max(wish.high, place.y());
        }
    return wish;
}

// Metres a millimetre at which all wishes fit a window of this length.
double needed(const std::vector<Wish>& wishes, double length_mm) {
    double most = 0.0;
    for (const Wish& top : wishes)
        for (const Wish& foot : wishes)
            most = std::max(most, (top.high - foot.low) / (length_mm - top.free_high - foot.free_low));
    return most;
}

// The middle of the window, as near the middle of the first wish as the others allow.
double middle_of(const std::vector<Wish>& wishes, double length_mm, double metres_per_mm) {
    double least = -1e300, most = 1e300;
    for (const Wish& wish : wishes) {
        least = std::max(least, wish.high + (wish.free_high - length_mm / 2.0) * metres_per_mm);
        most = std::min(most, wish.low - (wish.free_low - length_mm / 2.0) * metres_per_mm);
    }
    const double wished =
        (wishes.front().low + wishes.front().high + (wishes.front().free_high - wishes.front().free_low) * metres_per_mm) / 2.0;
    return std::max(least, std::min(wished, most));
}

}  // namespace

LongSectionFrame long_section_frame(const LongSectionContent& content, const site::Ground& ground, const drawing::Box& window,
                                    const Scales& scales, const FreePaper& free) {
    std::vector<Wish> across{{content.low.x(), content.high.x(), free.edges, free.edges},
                             {content.low_points.x(), content.high_points.x(), free.sides, free.sides}};
    std::vector<Wish> up{{content.low.y(), content.high.y(), free.edges, free.edges},
                         {content.low_points.y(), content.high_points.y(), free.foot, free.sky}};
    if (const auto near = ground_over(content, ground, content.low.x(), content.high.x())) up.push_back(wish_of(*near, free));
    LongSectionFrame frame;
    const double width = needed(across, window.width()) * window.width(), height = needed(up, window.height()) * window.height();
    frame.denominator = fitting_scale(width, height, window, scales);
    frame.paper.window = window;
    frame.paper.metres_per_mm = frame.denominator / 1000.0;
    frame.paper.centre = {middle_of(across, window.width(), frame.paper.metres_per_mm),
                          middle_of(up, window.height(), frame.paper.metres_per_mm)};
    return moved_to(frame.paper, frame.denominator, content, ground);
}

LongSectionFrame moved_to(const PaperFrame& paper, double denominator, const LongSectionContent& content,
                          const site::Ground& ground) {
    return {paper, denominator,
            ground_over(content, ground, paper.drawn_from_paper({paper.window.left, 0.0}).x(),
                        paper.drawn_from_paper({paper.window.right, 0.0}).x())};
}

std::vector<drawing::Point> on_paper(const std::vector<Eigen::Vector2d>& places, const PaperFrame& frame) {
    std::vector<drawing::Point> points;
    points.reserve(places.size());
    for (const Eigen::Vector2d& place : places) points.push_back(frame.paper_from_drawn(place));
    return points;
}

}  // namespace selvage::sheets
