#pragma once

#include "base/angle.h"
#include "settings/project.h"
#include "support/true_vein.h"

#include <Eigen/Core>

#include <cstdint>
#include <filesystem>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

// An invented project: veins that are known, holes drilled into them with the errors of real work, and the tables that come of
// it.
namespace selvage::made_up {

// How holes wander, degrees per 100 m, and how far their start misses the plan.
struct Deviation {
    double lift_mean = 1.0, lift_sd = 1.0;
    double swing_mean = 0.8, swing_sd = 1.2;
    double wander_sd = 0.6;  // degrees per square root of 100 m, each way
    double start_sd = 0.5;   // degrees, azimuth (times cos dip) and dip
};

struct Site {
    std::string name;
    Eigen::Vector3d map_origin = Eigen::Vector3d::Zero();
    double declination = 0.0, convergence = 0.0;              // degrees
    std::function<double(double, double)> ground;             // elevation at east, north (relative), m
    std::function<std::string(const Eigen::Vector3d&)> rock;  // at a place
    std::vector<std::string> vein_names;
    std::vector<TrueVein> veins;
    settings::SurveyErrorSizes survey_errors;  // drawn from, and what the project file says
    Deviation deviation;
    double station_spacing = 15.0;
    double collar_sd = 0.3;
    double contact_wave_sd = 5.0;  // degrees, small waves of the contacts
};

struct HolePlan {
    std::string name;
    std::string status = "done";
    Eigen::Vector3d collar = Eigen::Vector3d::Zero();  // relative
    base::Direction start;
    double length = 0.0;
    std::optional<double> drilled;  // of an active hole
    std::string core_size = "NQ";
    std::string parent;  // of a daughter
    double kickoff = 0.0;
    bool oriented = true;
    bool surveyed = true;
    bool assays_back = true;
    std::string date_started, date_finished;
    std::string target, target_vein;
    std::optional<Eigen::Vector3d> target_point;
};

// The straight start from a collar to a point.
base::Direction aimed(const Eigen::Vector3d& collar, const Eigen::Vector3d& target);

// A hole as it really runs: a point every metre of true depth, on past its end.
struct TruePath {
    std::vector<Eigen::Vector3d> positions, tangents;
    double depth_scale = 1.0;  // true depth = recorded depth x this
    Eigen::Vector3d at(double true_depth) const;
    Eigen::Vector3d direction(double true_depth) const;
};

class MadeUpProject {
public:
    MadeUpProject(Site site, std::uint64_t world);

    // Drills (or plans) a hole and adds its rows.
    void drill(const HolePlan& plan);
    // The recorded depth at which the hole really crosses a vein's mid-surface, drilled or not; nothing within `deepest` m.
    std::optional<double> true_pierce(const std::string& hole, std::size_t vein, double deepest) const;
    // Whether the vein is really there at that crossing.
    bool is_present_at(const std::string& hole, std::size_t vein, double recorded_depth) const;
    const TruePath& true_path(const std::string& hole) const { return paths_.at(hole); }

    void add_outcrop(std::size_t vein, const Eigen::Vector3d& near);
    void add_pad(const std::string& pad, const Eigen::Vector3d& position);
    // Lines of the project file after those that the site gives.
    void add_project_lines(const std::string& lines) { project_lines_ += lines; }

    // Tables by file name, and project.toml.
    std::map<std::string, std::string> files() const;
    void write(const std::filesystem::path& folder) const;

private:
    TruePath drawn_path(const HolePlan& plan, base::RandomStream& stream) const;
    void add_collar(const HolePlan& plan, const Eigen::Vector3d& recorded_collar);
    void add_surveys(const HolePlan& plan, const TruePath& path, double deepest, base::RandomStream& stream);
    void add_geology(const HolePlan& plan, const TruePath& path, double deepest);
    void add_vein_rows(const HolePlan& plan, const TruePath& path, double deepest, base::RandomStream& stream);
    void add_contact(const HolePlan& plan, const TruePath& path, double depth, std::size_t vein, base::RandomStream& stream);
    void add_samples(const HolePlan& plan, double from, double to, std::size_t vein, const Eigen::Vector2d& place,
                     base::RandomStream& stream);
    void add_recovery(const HolePlan& plan, double deepest, base::RandomStream& stream);
    void add_joints(const HolePlan& plan, double deepest, base::RandomStream& stream);

    Site site_;
    std::uint64_t world_;
    double azimuth_common_ = 0.0;  // radians, the project's
    std::map<std::string, TruePath> paths_;
    std::map<std::string, Eigen::Vector3d> recorded_collars_;
    std::map<std::string, std::vector<std::string>> rows_;
    std::string project_lines_;
    std::size_t next_sample_ = 20001;
};

}  // namespace selvage::made_up
