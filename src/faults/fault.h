#pragma once

#include "base/finding.h"
#include "base/plane.h"
#include "orientation/orient.h"
#include "paths/path.h"
#include "settings/project.h"
#include "tables/records.h"

#include <Eigen/Core>

#include <string>
#include <vector>

// Faults as planes that moved what is older than they are. Points in metres relative to the project origin.
namespace selvage::faults {

struct Fault {
    std::string name;
    std::size_t number = 0;                          // among the project's faults
    base::Plane plane;                               // before younger faults moved it; its normal points to the hanging-wall side
    Eigen::Vector3d slip = Eigen::Vector3d::Zero();  // m: how the hanging-wall side moved, within the plane; 0 where not given
    double slip_sd = 0.0;                            // m, each axis
    bool slip_given = false;
    Eigen::Matrix3d covariance = Eigen::Matrix3d::Zero();  // of the plane's offset at its point (m) and its tilts about two axes
    Eigen::Vector3d first_axis = Eigen::Vector3d::UnitX(), second_axis = Eigen::Vector3d::UnitY();  // within the plane, unit
    std::size_t data = 0;                                                                           // picks, points, outcrops
    double residual_rms = 0.0;                                                                      // m, of those off the plane
};

// How far younger faults moved something, and how well that is known.
struct Shift {
    Eigen::Vector3d by = Eigen::Vector3d::Zero();  // m
    double variance = 0.0;                         // m2, in any direction

    void add(const Fault& fault) {
        by += fault.slip;
        variance += fault.slip_sd * fault.slip_sd;
    }
};

// Sd of the plane's place near a point of it, square to it, m; and near a point of today, where younger faults moved it.
double offset_sd(const Fault& fault, const Eigen::Vector3d& point);
double offset_sd(const Fault& fault, const Shift& moved, const Eigen::Vector3d& point);

// The order of events: `oldest first` as the project file writes it.
struct Events {
    std::vector<std::string> names;  // of all faults of the project
    std::vector<Fault> faults;       // those that could be placed, oldest first; those that the order does not name stand last
    std::vector<std::string> order;

    bool is_fault(const std::string& name) const;
    // Whether the order says that one event came before another; false where it does not name both.
    bool is_older(const std::string& one, const std::string& other) const;
    // The faults that cut what happened at the place of `event` (a vein's name), oldest first: those named after it. None where
    // the order does not name the vein. Of a fault itself: those younger than it is.
    std::vector<Fault> younger_than(const std::string& event) const;
};

// Each fault's plane by its stated point and attitude, further points, outcrops and picks in holes that bear its name, and poles
// of its core, all taken back by the younger faults that moved them: robust least squares about the stated attitude (5 degrees
// unless `attitude_sd`), each place known to its own error and 2 m of the fault's waves. A stated point alone is taken as it is.
// A fault whose attitude nothing tells is left out and named; so is what the order of events leaves open. strike_slip and
// dip_slip are turned into a vector; a slip that leaves the plane is held within it and named.
base::Checked<Events> model_faults(const std::vector<settings::FaultSetting>& faults, const std::vector<std::string>& order,
                                   const std::vector<std::string>& veins, const tables::Records& records,
                                   const std::vector<paths::Path>& paths,
                                   const std::vector<orientation::Orientation>& orientations);

const std::vector<const base::Check*>& checks();

}  // namespace selvage::faults
