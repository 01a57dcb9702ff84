#pragma once

#include "veins/lattice.h"
#include "veins/log_field.h"
#include "veins/mean_lattice.h"
#include "veins/surface.h"

#include <Eigen/Core>

#include <memory>
#include <vector>

// What is drawn of a vein beside its mean surface: fields on a lattice, linear in between; dear to ask, quick to look up. They
// change over a quarter of the hole spacing by much less than they are uncertain; beside a hit a band is drawn a little too wide,
// never too narrow. Off their lattice they ask the models themselves.
namespace selvage::veins {

// How well the mid-surface is known.
struct DrawnBand {
    double low80 = 0.0, high80 = 0.0;  // 10 % and 90 % heights of the mid-surface from its mean, m
    double height_sd = 0.0;            // of the mid-surface along w, m
};

// Of the vein within one block, as it lies today: with what errors of the slips do to it.
class BandLattice {
public:
    BandLattice() = default;
    // `lattice`: where it is drawn; `slips`: in chart axes.
    BandLattice(std::shared_ptr<const SurfaceModel> surface, std::shared_ptr<const MeanLattice> mean,
                std::vector<ChartEffect> slips, Lattice lattice);
    DrawnBand at(const Eigen::Vector2d& place) const;

private:
    std::vector<DrawnBand> bands_at(const std::vector<Eigen::Vector2d>& places) const;

    std::shared_ptr<const SurfaceModel> surface_;
    std::shared_ptr<const MeanLattice> mean_;
    std::vector<ChartEffect> slips_;
    Lattice lattice_;
    std::vector<DrawnBand> nodes_;
};

struct DrawnThickness {
    double log_thickness = 0.0;              // smooth, of the thickness along w in m
    double chance_of_more_than_trace = 1.0;  // given that the vein is there
};

// Log of the thickness along w where no intercept tells it, m: the prior's centre.
double usual_log_thickness();

class ThicknessLattice {
public:
    ThicknessLattice() = default;
    // `thickness` may be null: not known.
    ThicknessLattice(std::shared_ptr<const MeanLattice> mean, std::shared_ptr<const LogField> thickness);
    DrawnThickness at(const Eigen::Vector2d& place) const;
    double log_thickness_at(const Eigen::Vector2d& place) const;

private:
    std::vector<DrawnThickness> thicknesses_at(const std::vector<Eigen::Vector2d>& places) const;

    std::shared_ptr<const MeanLattice> mean_;
    std::shared_ptr<const LogField> thickness_;
    std::vector<DrawnThickness> nodes_;
};

// Half the log of 1 + slope^2: thickness along w over true thickness.
double log_stretch(const Eigen::Vector2d& gradient);

// Chance that the true thickness is over 0.02 m, thinner not being there; 1 where not known.
double chance_of_more_than_trace(const numerics::NormalMixture& log_true_thickness);

}  // namespace selvage::veins
