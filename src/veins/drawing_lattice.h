#pragma once

#include "veins/log_field.h"
#include "veins/mean_lattice.h"
#include "veins/surface.h"

#include <Eigen/Core>

#include <memory>
#include <vector>

namespace selvage::veins {

// What is drawn of a vein beside its mean surface.
struct DrawnField {
    double low80 = 0.0, high80 = 0.0;        // 10 % and 90 % heights of the mid-surface from its mean, m
    double height_sd = 0.0;                  // of the mid-surface along w, m
    double log_thickness = 0.0;              // smooth, of the thickness along w in m
    double chance_of_more_than_trace = 1.0;  // given that the vein is there
};

// Log of the thickness along w where no intercept tells it, m: the prior's centre.
double usual_log_thickness();

// The fields on the mean surface's lattice, linear in between; dear to ask, quick to look up. Fields change over a quarter of the
// hole spacing by much less than they are uncertain; beside a hit a band is drawn a little too wide, never too narrow.
class DrawingLattice {
public:
    DrawingLattice() = default;
    // `thickness` may be null: not known.
    DrawingLattice(std::shared_ptr<const SurfaceModel> surface, std::shared_ptr<const MeanLattice> mean,
                   std::shared_ptr<const LogField> thickness);
    // Off the lattice it asks the models themselves.
    DrawnField at(const Eigen::Vector2d& place) const;
    double log_thickness_at(const Eigen::Vector2d& place) const;

private:
    std::vector<DrawnField> fields_at(const std::vector<Eigen::Vector2d>& places) const;

    std::shared_ptr<const SurfaceModel> surface_;
    std::shared_ptr<const MeanLattice> mean_;
    std::shared_ptr<const LogField> thickness_;
    std::vector<DrawnField> nodes_;
};

// Half the log of 1 + slope^2: thickness along w over true thickness.
double log_stretch(const Eigen::Vector2d& gradient);

// Chance that the true thickness is over 0.02 m, thinner not being there; 1 where not known.
double chance_of_more_than_trace(const numerics::NormalMixture& log_true_thickness);

}  // namespace selvage::veins
