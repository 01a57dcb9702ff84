#include "sheets/long_section_content.h"

#include "base/text.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double ellipse_share = 0.8;
constexpr std::size_t ellipse_points = 72;
// A pierce point this many extrapolation distances outside what is modelled would only make the drawing small.
constexpr double far_in_step_outs = 1.0;

tables::HoleStatus status_of(const Results& results, const std::string& hole) {
    for (const tables::Collar& collar : results.records.collars)
        if (collar.hole == hole) return collar.status;
    return tables::HoleStatus::planned;
}

// A hole that has not come to the vein yet says so by its forecast.
bool is_forecast(const Results& results, const std::string& hole, std::size_t vein) {
    return std::any_of(results.pierces.begin(), results.pierces.end(),
                       [&](const forecast::Pierce& pierce) { return pierce.vein_number == vein && pierce.hole == hole; });
}

// The box that points cover as they come.
struct Cover {
    bool any = false;
    Eigen::Vector2d low = Eigen::Vector2d::Zero(), high = Eigen::Vector2d::Zero();
    void add(const Eigen::Vector2d& place) {
        low = any ? Eigen::Vector2d(low.cwiseMin(place)) : place;
        high = any ? Eigen::Vector2d(high.cwiseMax(place)) : place;
        any = true;
    }
    double outside_by(const Eigen::Vector2d& place) const { return (place - place.cwiseMax(low).cwiseMin(high)).norm(); }
};

void add_results(LongSectionContent& content, const Results& results, const GradeClasses& classes) {
    const veins::Vein& vein = results.veins[content.vein];
    const std::string name = base::folded(vein.name());
    for (const intercepts::Intercept& hit : results.intercepts.met)
        if (base::folded(hit.vein) == name)
            content.hits.push_back({&hit, content.layout.layout_from_world(hit.point),
                                    sign_of(hit, classes, results.records.frame),
                                    accumulation_of(hit, classes, results.records.frame)});
    for (const tables::Outcrop& outcrop : results.records.outcrops)
        if (base::folded(outcrop.vein) == name)
            content.outcrops.push_back({&outcrop, content.layout.layout_from_world(outcrop.position)});
    std::map<veins::NoVeinReason, SilentHoles> silent;
    std::set<std::string> told;
    for (const HitOnPlane& hit : content.hits) told.insert(hit.hit->hole);
    for (const veins::NoVein& none : vein.no_vein()) {
        told.insert(none.hole);
        if (none.is_miss()) {
            content.misses.push_back({&none, content.layout.layout_from_world(none.point)});
        } else if (!is_forecast(results, none.hole, content.vein)) {
            silent[none.reason].reason = none.reason;
            silent[none.reason].holes.push_back(none.hole);
        }
    }
    for (const paths::Path& path : results.paths) {
        if (!tables::is_drill_hole(path.type) || path.status == tables::HoleStatus::cancelled) continue;
        if (told.count(path.hole) > 0 || is_forecast(results, path.hole, content.vein)) continue;
        silent[veins::NoVeinReason::not_judged].reason = veins::NoVeinReason::not_judged;
        silent[veins::NoVeinReason::not_judged].holes.push_back(path.hole);
    }
    for (auto& [reason, holes] : silent) content.silent.push_back(std::move(holes));
}

void add_forecasts(LongSectionContent& content, const Results& results, const Cover& cover) {
    const double far = far_in_step_outs * results.veins[content.vein].summary().step_out;
    for (const forecast::Pierce& pierce : results.pierces) {
        if (pierce.vein_number != content.vein) continue;
        PierceOnPlane drawn{&pierce, status_of(results, pierce.hole), content.layout.layout_from_world(pierce.point), {}};
        drawn.ellipse = ellipse_on_plane(content.layout, pierce.point, pierce.covariance, ellipse_share, ellipse_points);
        const bool near = !cover.any || cover.outside_by(drawn.place) <= far;
        (near ? content.pierces : content.far_pierces).push_back(std::move(drawn));
    }
}

}  // namespace

LongSectionContent long_section_content(const Results& results, std::size_t vein, const GradeClasses& classes) {
    const veins::Vein& modelled = results.veins[vein];
    const PlaneLayout layout = lay_out(modelled.mean_plane());
    std::vector<veins::EdgeLine> edges = modelled.edges();
    VeinExtent extent(edges, layout);
    LongSectionContent content{vein, layout, std::move(edges), std::move(extent), {}, {}, {}, {}, {}, {}, {}, {}, {}, {}, {}};
    add_results(content, results, classes);

    Cover cover, points;
    for (const HitOnPlane& hit : content.hits) points.add(hit.place);
    for (const MissOnPlane& miss : content.misses) points.add(miss.place);
    for (const OutcropOnPlane& outcrop : content.outcrops) points.add(outcrop.place);
    cover = points;
    for (const veins::EdgeLine& edge : content.edges)
        for (const Eigen::Vector3d& point : edge.points) cover.add(layout.layout_from_world(point));
    add_forecasts(content, results, cover);
    for (const planning::StepOut& step_out : results.step_outs)
        if (step_out.vein_number == vein) content.step_outs.push_back({&step_out, layout.layout_from_world(step_out.point)});
    for (const PierceOnPlane& pierce : content.pierces) {
        points.add(pierce.place);
        for (const Eigen::Vector2d& place : pierce.ellipse) cover.add(place);
    }
    if (!points.any) points.add(layout.layout_from_world(layout.origin));
    if (!cover.any) cover = points;
    content.low = cover.low;
    content.high = cover.high;
    content.low_points = points.low;
    content.high_points = points.high;
    return content;
}

}  // namespace selvage::sheets
