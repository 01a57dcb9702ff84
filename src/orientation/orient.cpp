#include "orientation/orient.h"

#include "base/text.h"
#include "orientation/core_angles.h"
#include "orientation/orientation_checks.h"
#include "paths/locate.h"

#include <fmt/format.h>
#include <Eigen/Geometry>

#include <cmath>
#include <map>
#include <utility>

namespace selvage::orientation {

namespace {

using base::Angle;
using base::Finding;
using Eigen::Vector3d;
using paths::Path;
using tables::Structure;

// From this dip on the low side is worth a warning: a tilt of the reading of 0.3 degrees is there one of 1.7 degrees in beta.
constexpr double steep_for_beta = 80.0;  // degrees, down or up
// The two ways of giving one plane may differ by this much.
const Angle most_apart = Angle::degrees(10.0);

Vector3d upward(const Vector3d& normal) { return normal.z() < 0.0 ? Vector3d(-normal) : normal; }

// Acute angle between two planes.
Angle between_planes(const Vector3d& a, const Vector3d& b) {
    return Angle::radians(std::atan2(a.cross(b).norm(), std::abs(a.dot(b))));
}

// What is said once a hole.
struct Steep {
    const Structure* first = nullptr;  // the first row that it concerns
    std::size_t rows = 0;
    double dip = 0.0;  // largest, degrees
    void add(const Structure& row, double hole_dip) {
        if (first == nullptr) first = &row;
        ++rows;
        dip = std::max(dip, hole_dip);
    }
};

class Orienter {
public:
    Orienter(const tables::Records& records, const std::vector<Path>& paths) : records_(records), index_(paths) {}

    base::Checked<std::vector<Orientation>> run() {
        for (const Structure& row : records_.structures)
            if (const Path* path = index_.find(row.hole)) place(row, *path);
        report_steep(beta_near_vertical, near_vertical_,
                     "the poles of {} rows with beta are uncertain: the hole dips up to {} degrees");
        report_steep(beta_refused, refused_, "beta of {} rows is not used: the hole dips up to {} degrees");
        return std::move(result_);
    }

private:
    void report(const base::Check& check, const Structure& row, std::string message) {
        result_.findings.push_back({&check, row.origin, row.hole, std::move(message)});
    }

    void report_steep(const base::Check& check, const std::map<std::size_t, Steep>& holes, const char* words) {
        for (const auto& [number, steep] : holes)
            report(check, *steep.first, fmt::format(fmt::runtime(words), steep.rows, base::fixed(steep.dip, 1)));
    }

    void place(const Structure& row, const Path& path) {
        if (!row.alpha && !row.attitude) return;
        if (row.depth < path.start_depth)
            return report(structure_above_kickoff, row,
                          fmt::format("at {} {}, above the kick-off: left out", base::fixed(records_.frame.length(row.depth), 2),
                                      base::symbol_of(records_.frame.unit)));
        Orientation placed;
        placed.origin = row.origin;
        placed.hole = row.hole;
        placed.depth = row.depth;
        placed.kind = row.kind;
        placed.vein = row.vein;
        placed.quality = row.quality;
        placed.line = row.line;
        placed.position = paths::position_at(path, row.depth);
        placed.alpha = row.alpha;
        orient_by_core(placed, row, path);
        orient_by_attitude(placed, row);
        result_.value.push_back(std::move(placed));
    }

    void orient_by_core(Orientation& placed, const Structure& row, const Path& path) {
        if (!row.alpha || !row.beta) return;
        const Vector3d hole_direction = paths::direction_at(path, row.depth);
        const double dip = std::abs(base::direction_of(hole_direction).dip.degrees());
        const CoreAngles angles{*row.alpha, *row.beta};
        const std::optional<Vector3d> pole = pole_from_core_angles(hole_direction, angles);
        if (!pole) return refused_[path.number].add(row, dip);
        if (dip >= steep_for_beta) near_vertical_[path.number].add(row, dip);
        placed.pole = upward(*pole);
        placed.from_core_angles = true;
        if (row.gamma) placed.lineation = base::direction_of(*lineation_from_gamma(hole_direction, angles, *row.gamma));
    }

    void orient_by_attitude(Orientation& placed, const Structure& row) {
        if (!row.attitude) return;
        const Vector3d pole = base::upward_normal(*row.attitude);
        if (!placed.pole) {
            placed.pole = pole;
            return;
        }
        const Angle apart = between_planes(*placed.pole, pole);
        if (most_apart < apart)
            report(core_angles_differ, row,
                   fmt::format("alpha and beta give a plane {} degrees from its dip and dip direction: alpha and beta are used",
                               base::fixed(apart.degrees(), 1)));
    }

    const tables::Records& records_;
    paths::PathIndex index_;
    std::map<std::size_t, Steep> near_vertical_, refused_;  // by the hole's number in the collar table
    base::Checked<std::vector<Orientation>> result_;
};

}  // namespace

base::Checked<std::vector<Orientation>> orient(const tables::Records& records, const std::vector<Path>& paths) {
    return Orienter(records, paths).run();
}

}  // namespace selvage::orientation
