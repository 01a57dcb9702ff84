#include "sheets/section_set.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr std::size_t most_points = 8;  // hits, misses and forecasts of one section: more crowd its labels
// More sheets than that nobody turns over in a meeting; up to twice as many where each is as full as it may be all the same.
constexpr std::size_t most_sections = 40;
constexpr std::array<double, 7> metre_spacings{12.5, 25, 50, 100, 200, 400, 800};
constexpr std::array<double, 7> foot_spacings{50, 100, 200, 400, 800, 1600, 3200};

const veins::Vein* first_vein(const Results& results) {
    for (const veins::Vein& vein : results.veins)
        if (vein.summary().intercepts > 0) return &vein;
    return results.veins.empty() ? nullptr : &results.veins.front();
}

// Along the dip of the first vein; without a vein, along the first hole's azimuth.
base::Azimuth line_azimuth(const Results& results) {
    if (results.project.sections.azimuth) return *results.project.sections.azimuth;
    if (const veins::Vein* vein = first_vein(results))
        return base::Azimuth::degrees(std::floor(vein->summary().attitude.dip_direction.degrees() + 0.5));
    if (!results.paths.empty()) {
        const double azimuth = base::direction_of(results.paths.front().stations.front().tangent).azimuth.degrees();
        return base::Azimuth::degrees(std::floor(azimuth + 0.5));
    }
    return base::Azimuth::degrees(90.0);
}

// What sections are drawn for: hits, misses, forecasts; the ends of holes that have none of these.
std::vector<Eigen::Vector3d> points_of_interest(const Results& results) {
    std::vector<Eigen::Vector3d> points;
    std::set<std::string> told;
    for (const intercepts::Intercept& hit : results.intercepts.met) {
        points.push_back(hit.point);
        told.insert(hit.hole);
    }
    for (const veins::Vein& vein : results.veins)
        for (const veins::NoVein& none : vein.no_vein())
            if (none.is_miss()) {
                points.push_back(none.point);
                told.insert(none.hole);
            }
    for (const forecast::Pierce& pierce : results.pierces) {
        points.push_back(pierce.point);
        told.insert(pierce.hole);
    }
    for (const paths::Path& path : results.paths)
        if (tables::is_drill_hole(path.type) && told.count(path.hole) == 0)
            points.push_back(paths::position_at(path, path.end_depth));
    return points;
}

Eigen::Vector3d middle_of(const Results& results) {
    Eigen::Vector3d sum = Eigen::Vector3d::Zero();
    std::size_t count = 0;
    const veins::Vein* vein = first_vein(results);
    for (const intercepts::Intercept& hit : results.intercepts.met) {
        if (vein && hit.vein != vein->name()) continue;
        sum += hit.point;
        ++count;
    }
    if (count == 0)
        for (const tables::Collar& collar : results.records.collars) {
            sum += collar.position;
            ++count;
        }
    return count == 0 ? sum : Eigen::Vector3d(sum / static_cast<double>(count));
}

Eigen::Vector3d origin_of(const Results& results, double spacing) {
    const base::MapFrame& frame = results.records.frame;
    if (const std::optional<Eigen::Vector2d>& given = results.project.sections.origin)
        return Eigen::Vector3d(given->x() - frame.origin.x(), given->y() - frame.origin.y(), 0.0);
    const double step = frame.length(spacing);
    Eigen::Vector3d map = frame.map_from_project(middle_of(results));
    for (const int i : {0, 1}) map[i] = step * std::floor(map[i] / step + 0.5);
    Eigen::Vector3d origin = frame.project_from_map(map);
    origin.z() = 0.0;
    return origin;
}

std::map<int, std::size_t> counts_by_number(const SectionSet& set, const std::vector<Eigen::Vector3d>& points) {
    std::map<int, std::size_t> counts;
    for (const Eigen::Vector3d& point : points) ++counts[slab_number(set, point)];
    return counts;
}

std::size_t fullest(const std::map<int, std::size_t>& counts) {
    std::size_t most = 0;
    for (const auto& [number, count] : counts) most = std::max(most, count);
    return most;
}

bool are_too_many(std::size_t sections, std::size_t points) {
    return sections > (points >= most_points * sections ? 2 * most_sections : most_sections);
}

// So many holes stand on a section that its traces, strips and labels still find room.
constexpr double share_of_hole_spacing = 0.6;

// The round figure nearest, in ratio, to that share of the hole spacing; the lower of equals.
std::size_t first_choice(double hole_spacing, const std::array<double, 7>& ladder, double unit) {
    const double wished = share_of_hole_spacing * hole_spacing;
    std::size_t best = 0;
    for (std::size_t i = 1; i < ladder.size(); ++i)
        if (std::abs(std::log(ladder[i] * unit / wished)) < std::abs(std::log(ladder[best] * unit / wished)) - 1e-9) best = i;
    return best;
}

}  // namespace

int slab_number(const SectionSet& set, const Eigen::Vector3d& point) {
    return static_cast<int>(std::floor(set.base.offset(point) / set.spacing + 0.5));
}

std::string section_name(const SectionSet& set, int number) { return "S" + std::to_string(number - set.first_number + 1); }

std::string sheet_of(const SectionSet& set, const Eigen::Vector3d& point) {
    const SectionSet& pack = set.of_pack == nullptr ? set : *set.of_pack;
    return section_name(pack, slab_number(pack, point));
}

std::string section_names(const SectionSet& set) {
    std::string names;
    for (std::size_t first = 0, last = 0; first < set.sections.size(); first = last + 1) {
        last = first;
        while (last + 1 < set.sections.size() && set.sections[last + 1].number == set.sections[last].number + 1) ++last;
        names += (names.empty() ? "" : ", ") + set.sections[first].name;
        if (last > first) names += (last > first + 1 ? "–" : ", ") + set.sections[last].name;
    }
    return names;
}

std::optional<std::size_t> section_of(const SectionSet& set, const Eigen::Vector3d& point) {
    const int number = slab_number(set, point);
    for (std::size_t i = 0; i < set.sections.size(); ++i)
        if (set.sections[i].number == number) return i;
    return std::nullopt;
}

SectionSet holding_something(SectionSet set, const Results& results) {
    return holding_any(std::move(set), points_of_interest(results));
}

SectionSet holding_any(SectionSet set, const std::vector<Eigen::Vector3d>& points) {
    const std::map<int, std::size_t> numbers = counts_by_number(set, points);
    set.sections.erase(std::remove_if(set.sections.begin(), set.sections.end(),
                                      [&](const Section& section) { return numbers.count(section.number) == 0; }),
                       set.sections.end());
    return set;
}

SectionSet section_set(const Results& results) {
    const settings::Sections& given = results.project.sections;
    const base::Azimuth azimuth = line_azimuth(results);
    const std::vector<Eigen::Vector3d> points = points_of_interest(results);
    const bool feet = results.project.length_unit != base::LengthUnit::metre;
    const double unit = base::metres_per(results.project.length_unit);
    const std::array<double, 7>& ladder = feet ? foot_spacings : metre_spacings;
    const veins::Vein* vein = first_vein(results);
    constexpr double usual_spacing = 40.0;  // m, where there is no vein to tell

    SectionSet set;
    std::map<int, std::size_t> numbers;
    const auto lay_out = [&](double spacing) {
        set.spacing = spacing;
        set.base = section_frame(azimuth, origin_of(results, spacing), given.looking);
        numbers = counts_by_number(set, points);
    };
    if (given.spacing) {
        lay_out(*given.spacing);
    } else {
        std::size_t i = first_choice(vein ? vein->summary().hole_spacing : usual_spacing, ladder, unit);
        lay_out(ladder[i] * unit);
        if (i > 0 && fullest(numbers) > most_points) lay_out(ladder[--i] * unit);
        while (i + 1 < ladder.size() && are_too_many(numbers.size(), points.size())) lay_out(ladder[++i] * unit);
    }
    set.first_number = given.origin || numbers.empty() ? 1 : numbers.begin()->first;
    for (const auto& [number, count] : numbers) {
        Section section;
        section.number = number;
        section.name = section_name(set, number);
        section.frame = set.base;
        section.frame.origin += static_cast<double>(number) * set.spacing * set.base.away;
        section.half_width = set.spacing / 2.0;
        set.sections.push_back(section);
    }
    return set;
}

}  // namespace selvage::sheets
