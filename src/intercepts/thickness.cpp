#include "intercepts/intercept.h"

#include <algorithm>
#include <cmath>

namespace selvage::intercepts {

namespace {

// Depth of a contact as logged on core, 1 sigma, m (common practice, no source: contacts are read to the nearest few
// centimetres). It is the error of one contact against the other; that of both together is the model's pick error.
constexpr double contact_reading_sd = 0.02;
// Direction error of one measured contact, radians: core measurement and small waves of the wall together.
constexpr double contact_direction_sd = 0.11;
// Below this dip a horizontal width says nothing (rule of the intercept table).
const base::Angle least_width_dip = base::Angle::degrees(30.0);
// Below this angle to the vein its true thickness changes fast with the angle (common practice, no source).
const base::Angle low_angle = base::Angle::degrees(30.0);

// The vein's plane at the intercept, as far as it is known.
struct KnownPlane {
    ThicknessSource from = ThicknessSource::unknown;
    std::optional<Eigen::Vector3d> normal;
    base::Angle angle;  // between hole and plane, 0 to 90
    double sd = 0.0;    // radians, of the angle
};

base::Angle angle_to_plane(const Eigen::Vector3d& direction, const Eigen::Vector3d& normal) {
    // atan2 keeps its digits at a right angle, where the arcsine loses half of them.
    return base::Angle::radians(std::atan2(std::abs(direction.dot(normal)), direction.cross(normal).norm()));
}

double of_mean(double sd, std::size_t count) { return sd / std::sqrt(static_cast<double>(std::max<std::size_t>(count, 1))); }

KnownPlane known_plane(const Intercept& intercept, const std::optional<LocalNormal>& model) {
    if (model)
        return {ThicknessSource::model, model->normal, angle_to_plane(intercept.hole_direction, model->normal),
                model->sd.radians()};
    if (intercept.core_normal)
        return {ThicknessSource::core, intercept.core_normal, angle_to_plane(intercept.hole_direction, *intercept.core_normal),
                of_mean(contact_direction_sd, intercept.poles)};
    if (intercept.mean_alpha)
        return {ThicknessSource::alpha, std::nullopt, *intercept.mean_alpha, of_mean(contact_direction_sd, intercept.alphas)};
    return {};
}

double thickness_sd(const Intercept& intercept, const KnownPlane& plane) {
    const double from_sd = intercept.from_sd.value_or(contact_reading_sd);
    const double to_sd = intercept.to_sd.value_or(contact_reading_sd);
    const double lost = intercept.lost_length;
    const double along_hole = from_sd * from_sd + to_sd * to_sd + lost * lost / 12.0;
    const double by_angle = intercept.length() * plane.angle.cos() * plane.sd;
    return std::sqrt(along_hole * plane.angle.sin() * plane.angle.sin() + by_angle * by_angle);
}

std::optional<double> horizontal_width(double thickness, const std::optional<Eigen::Vector3d>& normal) {
    if (!normal) return std::nullopt;
    const base::Attitude attitude = base::attitude_of_normal(*normal);
    // 1e-9 degrees: a dip of exactly 30 that went through a normal still has its width.
    if (attitude.dip < least_width_dip - base::Angle::degrees(1e-9)) return std::nullopt;
    return thickness / attitude.dip.sin();
}

}  // namespace

Intercept complete_thickness(Intercept intercept, const std::optional<LocalNormal>& model,
                             const std::vector<tables::Analyte>& analytes) {
    const KnownPlane plane = known_plane(intercept, model);
    const bool known = plane.from != ThicknessSource::unknown;
    const bool has_fill = intercept.state == tables::PickState::vein || intercept.state == tables::PickState::structure;
    intercept.thickness_from = plane.from;
    intercept.angle = known ? std::optional(plane.angle) : std::nullopt;
    intercept.true_thickness = intercept.thickness_sd = intercept.horizontal_width = std::nullopt;
    intercept.accumulations.assign(analytes.size(), std::nullopt);
    if (known && has_fill) {
        intercept.true_thickness = intercept.length() * plane.angle.sin();
        intercept.thickness_sd = thickness_sd(intercept, plane);
        intercept.horizontal_width = horizontal_width(*intercept.true_thickness, plane.normal);
        for (std::size_t i = 0; i < std::min(analytes.size(), intercept.grades.size()); ++i)
            if (intercept.grades[i]) intercept.accumulations[i] = intercept.grades[i]->value * *intercept.true_thickness;
    }
    set_flag(intercept, "alpha-only", plane.from == ThicknessSource::alpha);
    set_flag(intercept, "low-angle", known && plane.angle < low_angle);
    return intercept;
}

}  // namespace selvage::intercepts
