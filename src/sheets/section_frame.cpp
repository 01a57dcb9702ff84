#include "sheets/section_frame.h"

#include <cmath>

namespace selvage::sheets {

namespace {

constexpr double parallel_sine = 0.0175;  // of 1 degree

}  // namespace

Eigen::Vector3d SectionFrame::at(double distance, double up) const {
    Eigen::Vector3d point = origin + distance * right;
    point.z() = up;
    return point;
}

SectionFrame section_frame(base::Azimuth line_azimuth, const Eigen::Vector3d& origin, std::optional<base::Azimuth> looking) {
    SectionFrame frame;
    frame.origin = origin;
    frame.right_azimuth = line_azimuth.degrees() < 180.0 ? line_azimuth : base::Azimuth::degrees(line_azimuth.degrees() - 180.0);
    if (looking && base::turn_between(frame.looking(), *looking).cos() < 0.0)
        frame.right_azimuth = base::Azimuth::degrees(frame.right_azimuth.degrees() + 180.0);
    frame.right = base::unit_vector({frame.right_azimuth, base::Dip::degrees(0.0)});
    frame.away = base::unit_vector({frame.looking(), base::Dip::degrees(0.0)});
    return frame;
}

drawing::Point SectionView::paper(double distance, double up) const {
    return {window.left + (distance - left_distance) / metres_per_mm, window.bottom + (up - bottom_up) / metres_per_mm};
}

drawing::Point SectionView::paper(const Eigen::Vector3d& point) const { return paper(frame.distance(point), point.z()); }

std::optional<Eigen::Vector2d> apparent_dip_line(const Eigen::Vector3d& plane_normal, const SectionFrame& frame) {
    const Eigen::Vector3d cut = plane_normal.cross(frame.away);
    if (cut.norm() < parallel_sine) return std::nullopt;
    const Eigen::Vector2d line = Eigen::Vector2d(frame.right.dot(cut), cut.z()).normalized();
    return line.y() > 0.0 ? -line : line;
}

}  // namespace selvage::sheets
