#include "sheets/long_section_frame.h"

#include "sheets/page.h"

#include <algorithm>
#include <cmath>

namespace selvage::sheets {

namespace {

// Free paper round what has labels, mm (the sky takes those of outcrops), round the edges of the model, and over the ground.
constexpr double side_free = 20.0, foot_free = 10.0, sky_free = 9.0, edge_free = 2.0, ground_free = 6.0;
constexpr double ground_within = 0.7;  // of the height: ground further above the vein than this is left out

// Height up the dip at which the mean plane comes to the ground, at a distance along strike; nothing where they hardly meet.
std::optional<double> ground_y(const PlaneLayout& layout, const Ground& ground, double x) {
    const auto above = [&](double y) {
        const Eigen::Vector3d place = layout.world_from_layout({x, y});
        return place.z() - ground.elevation_at(place);
    };
    const double at_zero = above(0.0), slope = above(1.0) - at_zero;
    if (std::abs(slope) < 0.1) return std::nullopt;
    return -at_zero / slope;
}

std::optional<GroundOnPlane> ground_over(const LongSectionContent& content, const Ground& ground, double left, double right) {
    const std::optional<double> at_left = ground_y(content.layout, ground, left),
                                at_right = ground_y(content.layout, ground, right);
    if (!at_left || !at_right) return std::nullopt;
    const double height = std::max(1.0, content.high.y() - content.low.y());
    if (std::max(*at_left, *at_right) - content.high.y() > ground_within * height) return std::nullopt;
    return GroundOnPlane{{left, *at_left}, {right, *at_right}};
}

// What must lie on the paper along one axis, with the free paper that it wants at either side, mm.
struct Wish {
    double low, high;            // m
    double free_low, free_high;  // mm
};

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

LongSectionFrame long_section_frame(const LongSectionContent& content, const Ground& ground, const drawing::Box& window,
                                    bool feet) {
    std::vector<Wish> across{{content.low.x(), content.high.x(), edge_free, edge_free},
                             {content.low_points.x(), content.high_points.x(), side_free, side_free}};
    std::vector<Wish> up{{content.low.y(), content.high.y(), edge_free, edge_free},
                         {content.low_points.y(), content.high_points.y(), foot_free, sky_free}};
    if (const auto near = ground_over(content, ground, content.low.x(), content.high.x()))
        up.push_back({std::min(near->at_left.y(), near->at_right.y()), std::max(near->at_left.y(), near->at_right.y()), edge_free,
                      ground_free});
    LongSectionFrame frame;
    frame.denominator = fitting_scale(needed(across, window.width()) * window.width(),
                                      needed(up, window.height()) * window.height(), window, feet);
    frame.paper.window = window;
    frame.paper.metres_per_mm = frame.denominator / 1000.0;
    frame.paper.centre = {middle_of(across, window.width(), frame.paper.metres_per_mm),
                          middle_of(up, window.height(), frame.paper.metres_per_mm)};
    frame.ground = ground_over(content, ground, frame.paper.drawn_from_paper({window.left, 0.0}).x(),
                               frame.paper.drawn_from_paper({window.right, 0.0}).x());
    return frame;
}

std::vector<drawing::Point> on_paper(const std::vector<Eigen::Vector2d>& places, const PaperFrame& frame) {
    std::vector<drawing::Point> points;
    points.reserve(places.size());
    for (const Eigen::Vector2d& place : places) points.push_back(frame.paper_from_drawn(place));
    return points;
}

}  // namespace selvage::sheets
