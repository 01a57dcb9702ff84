#pragma once

#include <Eigen/Core>

#include <cstddef>
#include <memory>
#include <vector>

// Whether a vein is there, from where it was met and where it was missed: a hidden normal field h whose sign decides with unit
// noise, by expectation propagation (Minka 2001; Rasmussen & Williams 2006, section 3.6), its range and spread integrated over
// nodes.
namespace selvage::veins {

struct PresenceDatum {
    Eigen::Vector2d place = Eigen::Vector2d::Zero();  // (u, v), m
    bool hit = true;
    bool sure = true;  // a pick of certainty 2 is believed with 0.1 + 0.8 Phi instead of Phi
};

struct Presence;

// spacing s between holes, m. No data: what is known beforehand, where one drills veins are mostly there. Beyond `most_exact`
// data (lower in tests alone) the nodes are weighed and the sites found hole by hole from neighbours, and a chance comes from the
// sites about the datum nearest to the place.
constexpr std::size_t most_exact_presences = 500;
std::shared_ptr<const Presence> fit_presence(std::vector<PresenceDatum> data, double spacing,
                                             std::size_t most_exact = most_exact_presences);

// Chance that the vein's window is open at each place, 0 to 1.
std::vector<double> presences_at(const Presence& presence, const std::vector<Eigen::Vector2d>& places);
double presence_at(const Presence& presence, const Eigen::Vector2d& place);

// Leave-one-out: the chance that the window is open at each datum's place, from all the others. Nothing is fitted again: each
// node's own cavity distribution is what it foretells without the datum (Opper & Winther 2000; Rasmussen & Williams 2006, section
// 3.6; both from memory), and the nodes are weighed anew. The other sites stay as the datum left them, which makes a few
// hundredths at most.
std::vector<double> leave_one_out_presences(const Presence& presence);

// One node's expectation propagation, for the tests of it.
//   prior  covariance of the hidden values at the data, their mean the same everywhere; five sweeps
struct PropagatedSites {
    Eigen::VectorXd precision, shift;  // of the sites: precision x their mean, less the prior's mean
    double log_evidence = 0.0;         // log p(hits and misses)
};
PropagatedSites propagate(const Eigen::MatrixXd& prior, double mean, const std::vector<PresenceDatum>& data);

}  // namespace selvage::veins
