#pragma once

#include "base/angle.h"
#include "base/finding.h"
#include "faults/fault.h"
#include "orientation/orient.h"
#include "paths/path.h"
#include "settings/project.h"
#include "tables/records.h"

#include <Eigen/Core>

#include <optional>
#include <string>
#include <vector>

// Where a hole met a vein: contacts, core thickness, grades. The point is the middle of the pick.
namespace selvage::intercepts {

enum class SampledState { assayed, part_assayed, pending, not_sampled };
const char* word_of(SampledState state);

enum class ThicknessSource { unknown, alpha, core, model };
const char* word_of(ThicknessSource source);
const char* word_of(tables::PickState state);

// A grade over the pick, in the analyte's unit.
struct Grade {
    double value = 0.0;
    bool over_limit = false;       // printed with ">"
    bool below_detection = false;  // every sample was below its limit
};

struct Intercept {
    base::Origin origin;  // of its first pick
    std::string hole, vein;
    double from = 0.0, to = 0.0;                        // m, envelope of its strands
    tables::PickState state = tables::PickState::vein;  // vein, structure, open_void or lost (faulted and absent: see NoVeinPick)
    int certainty = 1;                                  // the least sure of its strands
    std::string zone;
    std::optional<double> from_sd, to_sd;
    double lost_length = 0.0;        // m of core lost in the pick
    std::optional<double> recovery;  // 0 to 1, length-weighted over the pick
    Eigen::Vector3d point = Eigen::Vector3d::Zero();
    Eigen::Vector3d hole_direction = -Eigen::Vector3d::UnitZ();

    std::optional<Eigen::Vector3d> core_normal;  // mean of the contacts' poles, upward unit
    std::size_t poles = 0;                       // as many as contact_poles
    std::size_t alphas = 0;                      // that made mean_alpha
    std::vector<Eigen::Vector3d> contact_poles;  // each, upward unit
    std::optional<base::Angle> mean_alpha;       // of all contacts, oriented or not

    SampledState sampled = SampledState::not_sampled;
    double sampled_share = 0.0;                // assayed length of the first analyte over the pick's
    std::vector<std::optional<Grade>> grades;  // one for each of Records::analytes

    // Filled by `complete_thickness`, once there is a model.
    std::optional<double> true_thickness;    // m
    std::optional<double> thickness_sd;      // m
    std::optional<double> horizontal_width;  // m, empty below a dip of 30
    std::optional<base::Angle> angle;        // acute, between hole and vein plane; 90 is a right-angle hit
    ThicknessSource thickness_from = ThicknessSource::unknown;
    std::vector<std::optional<double>> accumulations;  // grade x true thickness, analyte's unit x m
    std::vector<std::string> flags;                    // words of a closed list

    double length() const { return to - from; }
    double middle() const { return (from + to) / 2.0; }
};

// A pick that says the vein is not there: state faulted or absent.
struct NoVeinPick {
    base::Origin origin;
    std::string hole, vein;
    double from = 0.0, to = 0.0;
    tables::PickState state = tables::PickState::absent;
};

struct Intercepts {
    std::vector<Intercept> met;  // by collar order, then depth, then vein order
    std::vector<NoVeinPick> not_there;
};

struct InterceptSettings {
    settings::CoreAngles core_angles;
    settings::CompositeRules composites;
    std::vector<std::string> veins;  // in the project's order
    faults::Events events;           // a fault younger than a vein may lie between two picks of it
};

// Picks (or geology rows, in holes that have no pick) joined by zone and adjacency, with their contacts' poles, lost core and
// composites. Two picks of one vein and hole that share no zone and do not adjoin are both left out and named, unless a fault
// that the order of events puts after the vein cuts the hole between them. A pick of a hole without a path, above a daughter's
// kick-off or of a vein that the project does not name is left out and named. A contact (a kind of `contact_kinds`, quality 1 to
// 3) counts for the nearest intercept of the vein that it names, or, without a name, for those within 0.5 m of it.
base::Checked<Intercepts> make_intercepts(const tables::Records& records, const std::vector<paths::Path>& paths,
                                          const std::vector<orientation::Orientation>& orientations,
                                          const InterceptSettings& settings);

// A word of Intercept::flags.
struct Flag {
    const char* word;
    const char* meaning;
};
// The closed list, in the order in which an intercept carries them.
const std::vector<Flag>& flags();
// Adds (or, where it is not `wanted`, takes away) a word of the closed list, keeping the list's order.
void set_flag(Intercept& intercept, const char* word, bool wanted);

// The normal by which an intercept's true thickness is told, and how sure it is.
struct LocalNormal {
    Eigen::Vector3d normal = Eigen::Vector3d::UnitZ();
    base::Angle sd;  // of its direction, each way
};

// The intercept with true thickness, angle, horizontal width and accumulations: by the model's normal where it is given, else by
// core, else by alpha, else left unknown. With L the length down the hole and a the angle between hole and plane,
//   T = L sin a,   sd(T)^2 = sin^2 a (sd_from^2 + sd_to^2 + lost^2 / 12) + L^2 cos^2 a sd_a^2
// (first order; core lost in the pick stands at a uniform place). sd_a is the model's, else 0.11 rad over the root of the number
// of poles or alphas. A void or lost pick gets its angle, but no thickness, width or accumulation.
Intercept complete_thickness(Intercept intercept, const std::optional<LocalNormal>& model,
                             const std::vector<tables::Analyte>& analytes);

const std::vector<const base::Check*>& checks();

}  // namespace selvage::intercepts
