#pragma once

#include "base/angle.h"
#include "base/finding.h"
#include "base/plane.h"
#include "faults/blocks.h"
#include "faults/fault.h"
#include "intercepts/intercept.h"
#include "numerics/normal_mixture.h"
#include "paths/path.h"
#include "settings/project.h"
#include "site/site.h"
#include "tables/records.h"

#include <Eigen/Core>

#include <memory>
#include <optional>
#include <string>
#include <vector>

// A vein as something that answers questions. Its own chart (u, v, w) stays inside this room: a vein that folds over, modelled
// some other way, would be one more answerer. Points in metres relative to the project origin. Block and piece are in every
// answer.
namespace selvage::veins {

class SurfaceTeaching;  // this room's own

struct VeinSettings {
    std::vector<settings::VeinSetting> veins;  // in the project's order
    faults::Events events;                     // the faults younger than a vein cut it and moved its parts
    settings::Plan plan;
    std::vector<std::size_t> modelled_analytes;  // indices into Records::analytes
    bool alpha_as_data = false;
    base::Angle tool_tilt = base::Angle::degrees(0.3);  // sd of the low side of one core reading
};

enum class EdgeReason { extrapolation_distance, half_way_to_miss, presence, fault, other_vein, topography, property };
const char* words_of(EdgeReason reason);  // as a legend says it

// Where the mid-surface crosses a path: a curve of probability, for one fault block and piece.
struct Crossing {
    std::string block;  // empty where the vein has one block
    std::size_t block_number = 0;
    int piece = 0;
    std::vector<double> depth;                  // m along the hole, rising
    std::vector<double> cumulative;             // chance that the crossing comes at or before that depth, rising
    double chance = 1.0;                        // that the piece is crossed at all
    double depth_at(double probability) const;  // quantile, given that it is crossed
    double cumulative_at(double depth) const;
    bool within_extent = false;     // the median point lies within the modelled extent
    double beyond_extent_sd = 0.0;  // how far off the extent it is, in sds of position; 0 inside
};

// What the vein holds, given that it is there.
struct Content {
    numerics::NormalMixture log_thickness;            // log of the true thickness in m; empty: not known
    std::vector<numerics::NormalMixture> log_grades;  // one for each modelled analyte; empty: not known
};

// What is at a point.
struct AtPoint {
    Eigen::Vector3d on_vein =
        Eigen::Vector3d::Zero();  // the point of the mid-surface over the asked one, square to the mean plane
    std::string block;
    int piece = 0;
    numerics::NormalMixture height;                     // mid-surface over the asked point along the mean plane's normal, m
    Eigen::Vector3d normal = Eigen::Vector3d::UnitZ();  // upward unit normal of the mid-surface there
    base::Angle normal_sd;                              // of its direction, each way
    Content content;
    double presence = 0.0;  // chance that the vein is there
    bool within_extent = false;
    double nearest_hit = 0.0;  // m on the vein
};

// One point of the vein's trace on a plane that cuts it. mid, hanging and foot are the drawn surfaces, through every contact.
struct TracePoint {
    Eigen::Vector3d mid, hanging, foot;
    Eigen::Vector3d low80, high80;  // the 10 % and 90 % places of the model's mid-surface
    double sd = 0.0;                // of the mid-surface, square to the vein, m
    double presence = 0.0;
    bool within_extent = false;
    bool within_but_for_faults = false;  // the same, were there no fault: for who ends it at the fault himself
};

// A stretch of the outline within which the vein is modelled, on the drawn mid-surface, with the reason why it ends there.
struct EdgeLine {
    std::string block;
    int piece = 0;
    EdgeReason reason = EdgeReason::extrapolation_distance;
    std::vector<Eigen::Vector3d> points;
};

// Leave-one-out: an intercept's depth and thickness predicted along its hole from all the others, and the chance of it.
struct FitRow {
    std::string hole;
    double actual_depth = 0.0;  // m, middle of the pick
    double predicted_depth = 0.0, depth_sd = 0.0, depth_p10 = 0.0, depth_p90 = 0.0;
    double two_sided_probability = 1.0;  // of a miss this large
    bool is_doubtful() const { return two_sided_probability < 0.01; }
    bool present = true;    // the vein is there; false of a structure without fill
    double presence = 1.0;  // chance that it is there, from all the others
    std::optional<double> actual_thickness, predicted_thickness, thickness_p10, thickness_p90;
};

enum class NoVeinReason { absent, not_logged, fault_gap, lost_core, stopped_short, not_judged };
const char* words_of(NoVeinReason reason);  // as no_vein.csv writes it

// A hole that has no intercept of the vein, and what that means.
struct NoVein {
    std::string hole;
    std::size_t block = 0;                                 // of the faults that cut the vein
    double depth = 0.0, depth_p10 = 0.0, depth_p90 = 0.0;  // m, where the vein should have been
    NoVeinReason reason = NoVeinReason::not_judged;
    Eigen::Vector3d point = Eigen::Vector3d::Zero();
    double presence = 0.0;  // of a miss: chance that the vein is there, from all the others; where it should come is kept
    bool is_miss() const { return reason == NoVeinReason::absent || reason == NoVeinReason::not_logged; }
};

// How a younger fault moved the vein: given, or what the vein's data on both sides imply, within the fault's plane.
struct SlipEstimate {
    std::string fault;
    Eigen::Vector3d slip = Eigen::Vector3d::Zero();  // m, of the hanging-wall side
    Eigen::Vector3d sd = Eigen::Vector3d::Zero();    // m
    bool given = false;
    Eigen::Vector3d used =
        Eigen::Vector3d::Zero();  // m: a slip that is given, with what the data of both sides add to it; else 0
};

struct VeinSummary {
    std::size_t intercepts = 0, no_vein = 0, oriented = 0;
    base::Attitude attitude;        // of the area-weighted mean normal within the extent
    double area = 0.0;              // m2 on the vein
    double range = 0.0;             // m, weighted mean over the nodes
    double slope_sd = 0.0;          // weighted mean over the nodes, a tangent
    double thickness_median = 0.0;  // m, the data's
    double residual_rms = 0.0;      // m, of fit
    double coverage80 = 0.0;        // share, of fit
    double hole_spacing = 0.0;      // m
    double step_out = 0.0;          // m, the extrapolation distance used
    bool prior_only = false;        // fewer than three intercepts: errors come from the prior
};

// What the error of a forecast depth is made of, and what a further measurement would leave of it.
enum class ErrorKind { shape, contacts, core, deviation, settings, slips, surveys };
struct ErrorBudget {
    struct Part {
        std::string what;    // "shape of the vein", "survey of K-07", "hole deviation" ...
        double share = 0.0;  // of the variance; all add to 1
        ErrorKind kind = ErrorKind::surveys;
    };
    struct Measurement {
        std::string what;        // "survey K-07 again, to a third of the error", "orient the core of K-11 at the vein"
        double sd_factor = 1.0;  // what it would leave of the forecast's sd; foretold, no promise for one hole
    };
    std::vector<Part> parts;                // the largest first
    std::vector<Measurement> measurements;  // the most useful first
};

// A place of the modelled ground.
struct GroundPlace {
    Eigen::Vector3d point = Eigen::Vector3d::Zero();    // on the mid-surface
    Eigen::Vector3d normal = Eigen::Vector3d::UnitZ();  // upward unit
    double area = 0.0;                                  // m2 of the vein that it stands for
    double presence = 0.0;                              // chance that the vein is there
    double nearest_hit = 0.0;                           // m
    Content content;
};

// How the error over the ground falls as holes are drilled, whatever they find: it depends on where they are, not on what comes.
class Teaching {
public:
    explicit Teaching(std::shared_ptr<SurfaceTeaching> surface);
    double variance_sum() const;        // weighted, over the ground: weights x m2, square to the mean plane
    std::vector<double> gains() const;  // by how much a hole at each place would make it fall
    void drill(std::size_t place);      // as though a hole were there

private:
    std::shared_ptr<SurfaceTeaching> surface_;
};

class Vein {
public:
    struct Model;  // this room's own
    Vein(std::string name, std::shared_ptr<const Model> model);

    const std::string& name() const { return name_; }
    const VeinSummary& summary() const;
    // The plane that distances are laid out on; its normal points up (to the east where vertical), the hanging-wall side.
    const base::Plane& mean_plane() const;
    // The blocks into which younger faults cut it, and the one in which the vein lies at, or nearest to, a point of today.
    const faults::Blocks& blocks() const;
    std::size_t block_at(const Eigen::Vector3d& point) const;
    const std::vector<FitRow>& fit() const;
    const std::vector<NoVein>& no_vein() const;
    // Of the younger faults, the given ones first; none of those not given that have data of the vein on one side alone.
    const std::vector<SlipEstimate>& slips() const;
    std::vector<EdgeLine> edges() const;

    // Where a path crosses, a curve for each block piece that it may cross, largest chance first; empty where it runs along the
    // vein too closely to say or starts beyond it. The mid-surface is the model's, prolonged as far as need be.
    std::vector<Crossing> crossings(const paths::Path& path) const;
    // In a block, or else in the one where the vein lies nearest to the point.
    AtPoint at(const Eigen::Vector3d& point, std::optional<std::size_t> block = std::nullopt) const;
    // What `at` says of many points, for less: the content, and the mid-surface's upward unit normal.
    std::vector<Content> contents_at(const std::vector<Eigen::Vector3d>& points,
                                     std::optional<std::size_t> block = std::nullopt) const;
    std::vector<intercepts::LocalNormal> normals_at(const std::vector<Eigen::Vector3d>& points) const;
    // The vein's trace on a plane, within `radius` of `plane.point`, a point every `step` m; several where the extent is in
    // parts. Nothing where the plane lies within 15 degrees of the vein's.
    // Of one block's part, drawn on a little beyond the block: within_extent tells where it ends.
    std::vector<TracePoint> trace(const base::Plane& plane, double radius, double step, std::size_t block = 0) const;
    // Of each block that has one.
    std::vector<std::vector<TracePoint>> traces(const base::Plane& plane, double radius, double step) const;

    // Of the forecast of a path's crossing of a block, at its median depth. `paths`: of all holes, for their names.
    ErrorBudget error_budget(const paths::Path& path, double depth, std::size_t block,
                             const std::vector<paths::Path>& paths) const;

    // The ground on which the vein is modelled as places, about `step` m apart.
    std::vector<GroundPlace> ground(double step) const;
    // What holes at these places would teach; see Teaching.
    Teaching teaching(const std::vector<GroundPlace>& ground, const std::vector<double>& weights,
                      const std::vector<double>& error_variances) const;

    const Model& model() const { return *model_; }  // for this room's own files

private:
    std::string name_;
    std::shared_ptr<const Model> model_;
};

// Models every vein of the project that has an intercept, an outcrop or a stated plane, in the project's order;
// `site`: where ground and property end them.
base::Checked<std::vector<Vein>> model_veins(const intercepts::Intercepts& intercepts, const std::vector<paths::Path>& paths,
                                             const tables::Records& records, const site::Site& site,
                                             const VeinSettings& settings);

// Each intercept completed by its vein's model where that has three intercepts or more: true thickness by the normal there, and
// the flag of the doubtful ones.
std::vector<intercepts::Intercept> completed_by_models(std::vector<intercepts::Intercept> met, const std::vector<Vein>& veins,
                                                       const std::vector<tables::Analyte>& analytes);

// The alpha that the modelled vein predicts, against a measured one.
struct AlphaTest {
    std::string hole, vein;
    double depth = 0.0;
    base::Angle alpha, predicted, sd;
};
std::vector<AlphaTest> alpha_tests(const std::vector<orientation::Orientation>& orientations,
                                   const intercepts::Intercepts& intercepts, const std::vector<paths::Path>& paths,
                                   const std::vector<Vein>& veins, const settings::CoreAngles& core_angles);

const std::vector<const base::Check*>& checks();

}  // namespace selvage::veins
