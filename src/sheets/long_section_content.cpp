#include "sheets/long_section_content.h"
#include "sheets/label_text.h"
#include "sheets/pierce_sign.h"
#include "sheets/silent_holes.h"
#include "sheets/site_marks.h"

#include "base/text.h"

#include <algorithm>
#include <cmath>
#include <iterator>
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

// How far each block lies off the mean plane, along its normal, m: by the mean of its hits and outcrops; one without any as the
// faults moved it against the block that has most.
std::vector<double> off_plane_of_blocks(const Results& results, const veins::Vein& vein, const PlaneLayout& layout) {
    const faults::Blocks& blocks = vein.blocks();
    std::vector<double> off(blocks.count(), 0.0);
    if (!blocks.is_cut()) return off;
    std::vector<std::size_t> count(blocks.count(), 0);
    const auto add = [&](const Eigen::Vector3d& point) {
        const std::size_t block = vein.block_at(point);
        off[block] += layout.normal.dot(point - layout.origin);
        ++count[block];
    };
    for (const intercepts::Intercept& hit : results.intercepts.met)
        if (base::folded(hit.vein) == base::folded(vein.name())) add(hit.point);
    for (const tables::Outcrop& outcrop : results.records.outcrops)
        if (base::folded(outcrop.vein) == base::folded(vein.name())) add(outcrop.position);
    const auto most = static_cast<std::size_t>(std::max_element(count.begin(), count.end()) - count.begin());
    for (std::size_t block = 0; block < off.size(); ++block)
        if (count[block] > 0) off[block] /= static_cast<double>(count[block]);
    for (std::size_t block = 0; block < off.size(); ++block)
        if (count[block] == 0) off[block] = off[most] + layout.normal.dot(blocks.shift(block) - blocks.shift(most));
    return off;
}

std::vector<BlockOnPlane> blocks_on_plane(const Results& results, const veins::Vein& vein, const PlaneLayout& layout) {
    const std::vector<double> off = off_plane_of_blocks(results, vein, layout);
    const std::vector<veins::EdgeLine> edges = vein.edges();
    std::vector<BlockOnPlane> blocks;
    for (std::size_t block = 0; block < off.size(); ++block) {
        const std::string& name = vein.blocks().name(block);
        std::vector<veins::EdgeLine> own;
        std::copy_if(edges.begin(), edges.end(), std::back_inserter(own),
                     [&](const veins::EdgeLine& edge) { return edge.block == name; });
        const PlaneLayout own_layout = moved_off(layout, off[block]);
        VeinExtent extent(own, own_layout);
        blocks.push_back({block_words(name), own_layout, off[block], std::move(own), std::move(extent)});
    }
    return blocks;
}

constexpr const char* left_out = "picked, left out: an error in the data, see the checks";

std::string words_of_silence(const veins::NoVein& none, const Results& results, std::size_t vein) {
    if (is_left_out(results, none.hole, results.veins[vein].name())) return left_out;
    switch (none.reason) {
        case veins::NoVeinReason::stopped_short: return "stopped short of the vein";
        case veins::NoVeinReason::lost_core: return "core lost where it should be";
        case veins::NoVeinReason::fault_gap: return "in the gap of a fault";
        default: break;
    }
    const auto logged = [&](const tables::GeologyInterval& row) {
        return row.hole == none.hole && row.from <= none.depth && row.to >= none.depth;
    };
    const std::vector<tables::GeologyInterval>& rows = results.records.geology;
    return std::any_of(rows.begin(), rows.end(), logged) ? "off the ground modelled" : "not logged where it should be";
}

// Of a hole for which the vein was never due.
std::string words_of_passing(const paths::Path& path, const Results& results, std::size_t vein) {
    if (is_left_out(results, path.hole, results.veins[vein].name())) return left_out;
    for (const intercepts::Intercept& hit : results.intercepts.met)
        if (results.records.collars[path.number].parent == hit.hole && hit.vein == results.veins[vein].name() &&
            hit.to <= path.start_depth)
            return "kicked off behind it";
    if (path.status == tables::HoleStatus::planned) return "planned, passes off the ground modelled";
    if (path.status == tables::HoleStatus::active) {
        // Where a sheet shows no more of it than is drilled, nobody says where the rest passes.
        const bool goes_on = path.end_depth > path.drilled_depth;
        return active_words(path, results.records.frame) +
               (goes_on ? ", passes off the ground modelled" : ", vein not met so far");
    }
    return "passes off the ground modelled";
}

void add_results(LongSectionContent& content, const Results& results, const GradeClasses& classes) {
    const veins::Vein& vein = results.veins[content.vein];
    const std::string name = base::folded(vein.name());
    const auto place = [&](const Eigen::Vector3d& point, std::size_t block) {
        return content.blocks[block].layout.layout_from_world(point);
    };
    for (const intercepts::Intercept& hit : results.intercepts.met) {
        if (base::folded(hit.vein) != name) continue;
        const std::size_t block = vein.block_at(hit.point);
        content.hits.push_back({&hit, block, place(hit.point, block), sign_of(hit, classes, results.records.frame),
                                accumulation_of(hit, classes, results.records.frame)});
    }
    for (const tables::Outcrop& outcrop : results.records.outcrops)
        if (base::folded(outcrop.vein) == name)
            content.outcrops.push_back({&outcrop, place(outcrop.position, vein.block_at(outcrop.position))});
    std::set<std::string> told;
    for (const HitOnPlane& hit : content.hits) told.insert(hit.hit->hole);
    const auto is_silent = [&](const std::string& hole, const std::string& words) {
        const auto same = std::find_if(content.silent.begin(), content.silent.end(),
                                       [&](const SilentHoles& silent) { return silent.words == words; });
        (same != content.silent.end() ? *same : content.silent.emplace_back(SilentHoles{words, {}})).holes.push_back(hole);
    };
    for (const veins::NoVein& none : vein.no_vein()) {
        told.insert(none.hole);
        if (none.is_miss())
            content.misses.push_back({&none, place(none.point, none.block)});
        else if (!is_forecast(results, none.hole, content.vein))
            is_silent(none.hole, words_of_silence(none, results, content.vein));
    }
    for (const paths::Path& path : results.paths) {
        if (!tables::is_drill_hole(path.type) || path.status == tables::HoleStatus::cancelled) continue;
        if (told.count(path.hole) > 0 || is_forecast(results, path.hole, content.vein)) continue;
        is_silent(path.hole, words_of_passing(path, results, content.vein));
    }
}

void add_forecasts(LongSectionContent& content, const Results& results, const Cover& cover) {
    const double far = far_in_step_outs * results.veins[content.vein].summary().step_out;
    for (const forecast::Pierce& pierce : results.pierces) {
        if (pierce.vein_number != content.vein) continue;
        const PlaneLayout& layout = content.blocks[pierce.crossing.block_number].layout;
        PierceOnPlane drawn{
            &pierce, status_of(results, pierce.hole), layout.layout_from_world(pierce.point), {}, sign_of(pierce, results)};
        drawn.ellipse =
            within_planes(layout, ellipse_on_plane(layout, pierce.point, pierce.covariance, ellipse_share, ellipse_points),
                          results.veins[content.vein].blocks().bounds(pierce.crossing.block_number));
        const bool near = !cover.any || cover.outside_by(drawn.place) <= far;
        (near ? content.pierces : content.far_pierces).push_back(std::move(drawn));
    }
}

// Voids in the vein's own intercepts, and those as near to its plane as old workings are drawn.
void add_openings(LongSectionContent& content, const Results& results) {
    for (OpeningInSpace& opening : openings_in_space(results)) {
        const auto in_vein = std::find_if(content.hits.begin(), content.hits.end(), [&](const HitOnPlane& hit) {
            return hit.hit->hole == opening.opened.hole && hit.hit->from <= opening.opened.to &&
                   hit.hit->to >= opening.opened.from;
        });
        const BlockOnPlane& block = content.blocks[results.veins[content.vein].block_at(opening.point)];
        const double off = block.layout.normal.dot(opening.point - block.layout.origin);
        if (in_vein == content.hits.end() && std::abs(off) > near_vein) continue;
        const Eigen::Vector2d place =
            in_vein != content.hits.end() ? in_vein->place : block.layout.layout_from_world(opening.point);
        content.openings.push_back({std::move(opening.opened), place});
    }
}

}  // namespace

bool is_parted(const LongSectionContent& content) {
    return std::count_if(content.blocks.begin(), content.blocks.end(),
                         [](const BlockOnPlane& block) { return !block.edges.empty(); }) > 1;
}

LongSectionContent long_section_content(const Results& results, std::size_t vein, const GradeClasses& classes) {
    const veins::Vein& modelled = results.veins[vein];
    const PlaneLayout layout = lay_out(modelled.mean_plane());
    LongSectionContent content;
    content.vein = vein;
    content.layout = layout;
    content.blocks = blocks_on_plane(results, modelled, layout);
    add_results(content, results, classes);
    add_openings(content, results);

    Cover cover, points;
    for (const HitOnPlane& hit : content.hits) points.add(hit.place);
    for (const MissOnPlane& miss : content.misses) points.add(miss.place);
    for (const OutcropOnPlane& outcrop : content.outcrops) points.add(outcrop.place);
    for (const OpeningOnPlane& opening : content.openings) points.add(opening.place);
    cover = points;
    for (const BlockOnPlane& block : content.blocks)
        for (const veins::EdgeLine& edge : block.edges)
            for (const Eigen::Vector3d& point : edge.points) cover.add(block.layout.layout_from_world(point));
    add_forecasts(content, results, cover);
    for (OffTarget& off : targets_to_show(results)) {
        const bool drawn = std::any_of(content.pierces.begin(), content.pierces.end(),
                                       [&](const PierceOnPlane& pierce) { return pierce.pierce == off.pierce; });
        if (!drawn) continue;
        const PlaneLayout& own = content.blocks[off.pierce->crossing.block_number].layout;
        content.targets.push_back({off, own.layout_from_world(*off.target->point)});
    }
    for (const planning::StepOut& step_out : results.step_outs)
        if (step_out.vein_number == vein)
            content.step_outs.push_back(
                {&step_out, content.blocks[modelled.block_at(step_out.point)].layout.layout_from_world(step_out.point)});
    for (const PierceOnPlane& pierce : content.pierces) {
        points.add(pierce.place);
        for (const Eigen::Vector2d& place : pierce.ellipse) cover.add(place);
    }
    for (const TargetOnPlane& target : content.targets) points.add(target.place);
    for (const TargetOnPlane& target : content.targets) cover.add(target.place);
    if (!points.any) points.add(layout.layout_from_world(layout.origin));
    if (!cover.any) cover = points;
    content.low = cover.low;
    content.high = cover.high;
    content.low_points = points.low;
    content.high_points = points.high;
    return content;
}

}  // namespace selvage::sheets
