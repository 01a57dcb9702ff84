#include "intercepts/contacts.h"

#include <Eigen/Eigenvalues>

#include <algorithm>
#include <cassert>

namespace selvage::intercepts {

namespace {

// A contact that names no vein belongs to a pick no further off than this, m (the rule of the core-angle table).
constexpr double contact_reach = 0.5;
// Quality 4 is printed, not used.
constexpr int worst_used_quality = 3;
// Under this an axis counts as level: rounding of a unit vector.
constexpr double level = 1e-12;

double gap_to(const Intercept& intercept, double depth) { return std::max({intercept.from - depth, depth - intercept.to, 0.0}); }

Eigen::Vector3d upward(const Eigen::Vector3d& axis) {
    const bool down = std::abs(axis.z()) > level ? axis.z() < 0.0 : axis.x() < 0.0;
    return down ? Eigen::Vector3d(-axis) : axis;
}

bool is_used_contact(const orientation::Orientation& row, const std::vector<std::string>& kinds) {
    return row.quality <= worst_used_quality && std::find(kinds.begin(), kinds.end(), row.kind) != kinds.end();
}

// The intercepts that a contact speaks of, by index.
std::vector<std::size_t> owners_of(const orientation::Orientation& contact, const std::vector<Intercept>& met) {
    std::vector<std::size_t> owners;
    if (contact.vein == met.front().vein) {
        std::size_t nearest = 0;
        for (std::size_t i = 1; i < met.size(); ++i)
            if (gap_to(met[i], contact.depth) < gap_to(met[nearest], contact.depth)) nearest = i;
        owners.push_back(nearest);
    } else if (contact.vein.empty()) {
        for (std::size_t i = 0; i < met.size(); ++i)
            if (gap_to(met[i], contact.depth) <= contact_reach) owners.push_back(i);
    }
    return owners;
}

}  // namespace

std::optional<Eigen::Vector3d> mean_axis(const std::vector<Eigen::Vector3d>& axes) {
    if (axes.empty()) return std::nullopt;
    Eigen::Matrix3d sum = Eigen::Matrix3d::Zero();
    for (const Eigen::Vector3d& axis : axes) sum += axis * axis.transpose();
    const Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> solver(sum);
    return upward(solver.eigenvectors().col(2).normalized());
}

void add_contacts(const std::vector<const orientation::Orientation*>& of_hole, const std::vector<std::string>& contact_kinds,
                  std::vector<Intercept>& met) {
    if (met.empty()) return;
    std::vector<double> alpha_sums(met.size(), 0.0);  // degrees
    for (const orientation::Orientation* contact : of_hole) {
        if (!is_used_contact(*contact, contact_kinds)) continue;
        for (const std::size_t owner : owners_of(*contact, met)) {
            if (contact->pole) met[owner].contact_poles.push_back(upward(*contact->pole));
            if (contact->alpha) {
                alpha_sums[owner] += contact->alpha->degrees();
                ++met[owner].alphas;
            }
        }
    }
    for (std::size_t i = 0; i < met.size(); ++i) {
        met[i].poles = met[i].contact_poles.size();
        met[i].core_normal = mean_axis(met[i].contact_poles);
        if (met[i].alphas > 0) met[i].mean_alpha = base::Angle::degrees(alpha_sums[i] / static_cast<double>(met[i].alphas));
    }
}

}  // namespace selvage::intercepts
