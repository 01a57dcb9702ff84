#include "support/made_up_project.h"

#include "base/file.h"
#include "base/text.h"

#include <fmt/format.h>
#include <Eigen/Geometry>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

namespace selvage::made_up {

namespace {

constexpr double pi = 3.14159265358979323846;
constexpr double degree = pi / 180.0;

const std::map<std::string, std::string>& headers() {
    static const std::map<std::string, std::string> all = {
        {"collars.csv",
         "hole,east,north,elevation,depth,azimuth,dip,status,hole_type,core_size,date_started,date_finished,parent,kickoff,"
         "collar_sd,drilled,target,target_vein,target_east,target_north,target_elevation,target_radius"},
        {"surveys.csv", "hole,depth,azimuth,dip,method"},
        {"picks.csv", "hole,from,to,vein,state,certainty"},
        {"geology.csv", "hole,from,to,rock"},
        {"assays.csv", "hole,from,to,sample,status,ag_gpt,au_gpt,pb_pct,zn_pct"},
        {"structures.csv", "hole,depth,kind,alpha,beta,quality,vein"},
        {"recovery.csv", "hole,from,to,recovery,rqd"},
        {"outcrops.csv", "east,north,elevation,vein,dip,dip_direction,thickness,ag_gpt"},
        {"pads.csv", "pad,east,north,elevation,dip_min,dip_max"}};
    return all;
}

// Turns a direction by small angles: azimuth about the vertical (clockwise) and dip (downwards), radians.
Eigen::Vector3d turned(const Eigen::Vector3d& direction, double clockwise, double downwards) {
    base::Direction d = base::direction_of(direction);
    d.azimuth = base::Azimuth::degrees(d.azimuth.degrees() + clockwise / degree);
    d.dip = base::Dip::degrees(std::min(89.9, d.dip.degrees() + downwards / degree));
    return base::unit_vector(d);
}

Eigen::Vector3d low_side(const Eigen::Vector3d& down_hole) {
    const Eigen::Vector3d down = -Eigen::Vector3d::UnitZ();
    return (down - down.dot(down_hole) * down_hole).normalized();
}

Eigen::Vector3d any_across(const Eigen::Vector3d& axis, double angle) {
    const Eigen::Vector3d a = axis.unitOrthogonal();
    return std::cos(angle) * a + std::sin(angle) * axis.cross(a);
}

std::string position(const Eigen::Vector3d& map) {
    return fmt::format("{},{},{}", base::fixed(map.x(), 2), base::fixed(map.y(), 2), base::fixed(map.z(), 2));
}

// True depth at which `over(depth)` changes sign, from a start; nothing before `deepest`.
template <typename Function>
std::optional<double> first_crossing(const Function& over, double start, double deepest) {
    double last = over(start);
    for (double depth = start + 1.0; depth <= deepest; depth += 1.0) {
        const double now = over(depth);
        if ((last > 0.0) != (now > 0.0)) {
            double low = depth - 1.0, high = depth;
            for (int i = 0; i < 40; ++i) {
                const double middle = (low + high) / 2.0;
                ((over(middle) > 0.0) == (last > 0.0) ? low : high) = middle;
            }
            return (low + high) / 2.0;
        }
        last = now;
    }
    return std::nullopt;
}

}  // namespace

base::Direction aimed(const Eigen::Vector3d& collar, const Eigen::Vector3d& target) {
    return base::direction_of(target - collar);
}

Eigen::Vector3d TruePath::at(double true_depth) const {
    const double last = static_cast<double>(positions.size() - 1);
    const auto index = static_cast<std::size_t>(std::clamp(true_depth, 0.0, last - 1.0));
    const double rest = true_depth - static_cast<double>(index);
    return positions[index] + rest * (positions[index + 1] - positions[index]);
}

Eigen::Vector3d TruePath::direction(double true_depth) const {
    return tangents[static_cast<std::size_t>(std::clamp(std::round(true_depth), 0.0, static_cast<double>(tangents.size() - 1)))];
}

MadeUpProject::MadeUpProject(Site site, std::uint64_t world) : site_(std::move(site)), world_(world) {
    base::RandomStream stream("made-up project", {world_});
    azimuth_common_ = site_.survey_errors.azimuth_common.radians() * stream.normal();
}

TruePath MadeUpProject::drawn_path(const HolePlan& plan, base::RandomStream& stream) const {
    constexpr double beyond_plan = 250.0;  // a path is asked for where the vein lies deeper than the hole ends
    const Deviation& d = site_.deviation;
    const double lift = (d.lift_mean + d.lift_sd * stream.normal()) * degree / 100.0;
    const double swing = (d.swing_mean + d.swing_sd * stream.normal()) * degree / 100.0;
    const double wander = d.wander_sd * degree / 10.0;  // a step of 1 m
    TruePath path;
    const bool daughter = !plan.parent.empty();
    if (daughter) {
        const TruePath& parent = paths_.at(plan.parent);
        const auto kick = static_cast<std::size_t>(plan.kickoff * parent.depth_scale);
        path.positions.assign(parent.positions.begin(), parent.positions.begin() + static_cast<std::ptrdiff_t>(kick) + 1);
        path.tangents.assign(parent.tangents.begin(), parent.tangents.begin() + static_cast<std::ptrdiff_t>(kick) + 1);
        path.depth_scale = parent.depth_scale;
        path.tangents.back() = turned(path.tangents.back(), 2.0 * degree * (stream.uniform() < 0.5 ? -1.0 : 1.0), 1.5 * degree);
    } else {
        path.depth_scale = 1.0 + site_.survey_errors.depth_scale * stream.normal();
        const base::Direction& start = plan.start;
        const double across = std::max(0.2, start.dip.angle().cos());
        path.positions.push_back(plan.collar);
        path.tangents.push_back(turned(base::unit_vector(start), d.start_sd * degree * stream.normal() / across,
                                       d.start_sd * degree * stream.normal()));
    }
    while (static_cast<double>(path.positions.size()) < plan.length + beyond_plan) {
        const Eigen::Vector3d tangent = path.tangents.back();
        const double across = std::max(0.2, std::hypot(tangent.x(), tangent.y()));
        const Eigen::Vector3d next =
            turned(tangent, (swing + wander * stream.normal()) / across, -lift + wander * stream.normal());
        path.positions.push_back(path.positions.back() + (tangent + next).normalized());
        path.tangents.push_back(next);
    }
    return path;
}

void MadeUpProject::drill(const HolePlan& plan) {
    base::RandomStream stream("hole " + plan.name, {world_});
    TruePath path = drawn_path(plan, stream);
    const Eigen::Vector3d collar_error = site_.collar_sd * Eigen::Vector3d(stream.normal(), stream.normal(), stream.normal());
    const Eigen::Vector3d recorded =
        plan.parent.empty() ? Eigen::Vector3d(plan.collar + collar_error) : recorded_collars_.at(plan.parent);
    recorded_collars_[plan.name] = recorded;
    add_collar(plan, recorded);
    const double deepest = plan.status == "planned" ? 0.0 : plan.drilled.value_or(plan.length);
    if (deepest > 0.0) {
        if (plan.surveyed) add_surveys(plan, path, deepest, stream);
        add_geology(plan, path, deepest);
        add_vein_rows(plan, path, deepest, stream);
        add_joints(plan, deepest, stream);
        add_recovery(plan, deepest, stream);
    }
    paths_.emplace(plan.name, std::move(path));
}

std::optional<double> MadeUpProject::true_pierce(const std::string& hole, std::size_t vein, double deepest) const {
    const TruePath& path = paths_.at(hole);
    const double end = std::min(deepest, static_cast<double>(path.positions.size()) - 2.0);
    const auto depth = first_crossing([&](double d) { return site_.veins[vein].over(path.at(d)); }, 0.0, end);
    if (!depth) return std::nullopt;
    return *depth / path.depth_scale;
}

bool MadeUpProject::is_present_at(const std::string& hole, std::size_t vein, double recorded_depth) const {
    const TruePath& path = paths_.at(hole);
    return site_.veins[vein].present(site_.veins[vein].own(path.at(recorded_depth * path.depth_scale)).head<2>());
}

void MadeUpProject::add_collar(const HolePlan& plan, const Eigen::Vector3d& recorded_collar) {
    const Eigen::Vector3d map = recorded_collar + site_.map_origin;
    const bool daughter = !plan.parent.empty();
    std::string target = ",,,,,";
    if (plan.target_point)
        target = fmt::format("{},{},{},15.00", plan.target, plan.target_vein, position(*plan.target_point + site_.map_origin));
    rows_["collars.csv"].push_back(
        fmt::format("{},{},{},{},{},{},core,{},{},{},{},{},{},{},{}", plan.name, position(map), base::fixed(plan.length, 2),
                    daughter ? "" : base::fixed(plan.start.azimuth.degrees(), 1),
                    daughter ? "" : base::fixed(plan.start.dip.degrees(), 1), plan.status, plan.core_size, plan.date_started,
                    plan.date_finished, plan.parent, daughter ? base::fixed(plan.kickoff, 2) : "",
                    base::fixed(site_.collar_sd, 2), plan.drilled ? base::fixed(*plan.drilled, 2) : "", target));
}

void MadeUpProject::add_surveys(const HolePlan& plan, const TruePath& path, double deepest, base::RandomStream& stream) {
    const settings::SurveyErrorSizes& sizes = site_.survey_errors;
    const double azimuth_hole = sizes.azimuth_hole.radians() * stream.normal();
    const double dip_hole = sizes.dip_hole.radians() * stream.normal();
    const double first = plan.parent.empty() ? 0.0 : plan.kickoff + site_.station_spacing / 2.0;
    for (double depth = first; depth <= deepest; depth += site_.station_spacing) {
        const double azimuth_error = azimuth_common_ + azimuth_hole + sizes.azimuth_station.radians() * stream.normal();
        const double dip_error = dip_hole + sizes.dip_station.radians() * stream.normal();
        const base::Direction read =
            base::direction_of(turned(path.direction(depth * path.depth_scale), azimuth_error, dip_error));
        const base::Azimuth magnetic = base::Azimuth::degrees(read.azimuth.degrees() - site_.declination + site_.convergence);
        rows_["surveys.csv"].push_back(fmt::format("{},{},{},{},single shot", plan.name, base::fixed(depth, 2),
                                                   base::fixed(magnetic.degrees(), 2), base::fixed(read.dip.degrees(), 2)));
    }
}

void MadeUpProject::add_geology(const HolePlan& plan, const TruePath& path, double deepest) {
    double from = plan.parent.empty() ? 0.0 : plan.kickoff;
    std::string rock = site_.rock(path.at(from));
    for (double depth = from + 0.5; depth <= deepest + 0.5; depth += 0.5) {
        const bool end = depth > deepest;
        const std::string now = end ? "" : site_.rock(path.at(depth));
        if (now == rock) continue;
        const double to = end ? deepest : depth;
        rows_["geology.csv"].push_back(fmt::format("{},{},{},{}", plan.name, base::fixed(from, 2), base::fixed(to, 2), rock));
        from = to;
        rock = now;
    }
}

void MadeUpProject::add_vein_rows(const HolePlan& plan, const TruePath& path, double deepest, base::RandomStream& stream) {
    const double start = plan.parent.empty() ? 0.0 : plan.kickoff;
    for (std::size_t v = 0; v < site_.veins.size(); ++v) {
        const TrueVein& vein = site_.veins[v];
        const auto over = [&](double depth) { return vein.over(path.at(depth)); };
        const auto mid = first_crossing(over, start, deepest);
        if (!mid) continue;
        const Eigen::Vector2d place = vein.own(path.at(*mid)).head<2>();
        if (!vein.present(place)) continue;
        const double half = vein.thickness(place) / 2.0;
        const bool from_hanging = over(std::max(start, *mid - 5.0)) > 0.0;
        const auto wall = [&](double sign) {
            const auto crossing =
                first_crossing([&](double d) { return over(d) - sign * half; }, std::max(start, *mid - 30.0), *mid + 30.0);
            return crossing.value_or(*mid);
        };
        const double a = wall(from_hanging ? 1.0 : -1.0), b = wall(from_hanging ? -1.0 : 1.0);
        const double shift = 0.1 * stream.normal();  // the geologist's pick along the core
        const double from = std::min(a, b) / path.depth_scale + shift, to = std::max(a, b) / path.depth_scale + shift;
        if (from <= start || to > deepest) continue;
        rows_["picks.csv"].push_back(fmt::format("{},{},{},{},vein,1", plan.name, base::fixed(from, 2),
                                                 base::fixed(std::max(to, from + 0.02), 2), site_.vein_names[v]));
        add_contact(plan, path, from, v, stream);
        add_contact(plan, path, to, v, stream);
        add_samples(plan, from, to, v, place, stream);
    }
}

// Alpha and beta as they are read on the core: the true normal with the contact's small waves, the low side with the tool's tilt.
void MadeUpProject::add_contact(const HolePlan& plan, const TruePath& path, double depth, std::size_t vein,
                                base::RandomStream& stream) {
    const double true_depth = depth * path.depth_scale;
    const Eigen::Vector3d down_hole = path.direction(true_depth);
    const Eigen::Vector2d place = site_.veins[vein].own(path.at(true_depth)).head<2>();
    Eigen::Vector3d normal = site_.veins[vein].normal(place);
    const double wave = site_.contact_wave_sd * degree * std::hypot(stream.normal(), stream.normal());
    normal = Eigen::AngleAxisd(wave, any_across(normal, stream.uniform(0.0, 2.0 * pi))) * normal;
    if (normal.dot(down_hole) < 0.0) normal = -normal;
    const double alpha = std::asin(std::clamp(normal.dot(down_hole), -1.0, 1.0));
    const Eigen::Vector3d low = low_side(down_hole);
    const Eigen::Vector3d ellipse = (down_hole * std::sin(alpha) - normal).normalized();
    const double tilt = 0.3 * degree * stream.normal() / std::max(0.05, std::hypot(down_hole.x(), down_hole.y()));
    const double beta = std::atan2(ellipse.dot(down_hole.cross(low)), ellipse.dot(low)) + 4.0 * degree * stream.normal() + tilt;
    const double alpha_read = std::clamp(alpha / degree + 2.0 * stream.normal(), 1.0, 90.0);
    const std::string beta_read = plan.oriented ? base::fixed(base::Azimuth(base::Angle::radians(beta)).degrees(), 0) : "";
    rows_["structures.csv"].push_back(fmt::format("{},{},contact,{},{},{},{}", plan.name, base::fixed(depth, 2),
                                                  base::fixed(alpha_read, 0), beta_read == "360" ? "0" : beta_read,
                                                  1 + stream.below(3), site_.vein_names[vein]));
}

void MadeUpProject::add_samples(const HolePlan& plan, double from, double to, std::size_t vein, const Eigen::Vector2d& place,
                                base::RandomStream& stream) {
    std::vector<double> edges;
    for (double d = from - stream.uniform(1.5, 3.0); d < from; d += stream.uniform(0.5, 1.0)) edges.push_back(d);
    while (!edges.empty() && from - edges.back() < 0.2) edges.pop_back();
    const auto parts = static_cast<std::size_t>(std::max(1.0, std::ceil((to - from) / 0.8)));
    for (std::size_t i = 0; i <= parts; ++i)
        edges.push_back(from + (to - from) * static_cast<double>(i) / static_cast<double>(parts));
    for (double d = to + 0.7; d < to + 2.5; d += stream.uniform(0.6, 1.0)) edges.push_back(d);
    for (std::size_t i = 0; i + 1 < edges.size(); ++i) {
        const double a = std::round(edges[i] * 100.0) / 100.0, b = std::round(edges[i + 1] * 100.0) / 100.0;
        if (a < 0.0 || b - a < 0.02) continue;
        const bool in_vein = a >= from - 0.011 && b <= to + 0.011;
        const std::string sample = fmt::format("W{}", next_sample_++);
        if (!plan.assays_back) {
            rows_["assays.csv"].push_back(
                fmt::format("{},{},{},{},pending,,,,", plan.name, base::fixed(a, 2), base::fixed(b, 2), sample));
            continue;
        }
        const double spread = std::exp(0.5 * stream.normal());
        const double silver = in_vein ? site_.veins[vein].silver_gpt(place) * spread : 1.2 * spread * spread;
        const auto with_limit = [](double value, double limit, int decimals) {
            return value < limit ? "<" + base::significant(limit, 3) : base::fixed(value, decimals);
        };
        rows_["assays.csv"].push_back(fmt::format("{},{},{},{},final,{},{},{},{}", plan.name, base::fixed(a, 2),
                                                  base::fixed(b, 2), sample, with_limit(silver, 0.5, 1),
                                                  with_limit(silver * 0.0008 * std::exp(0.4 * stream.normal()), 0.005, 3),
                                                  with_limit(silver * 0.004 * std::exp(0.4 * stream.normal()), 0.005, 3),
                                                  with_limit(silver * 0.005 * std::exp(0.4 * stream.normal()), 0.005, 3)));
    }
}

void MadeUpProject::add_recovery(const HolePlan& plan, double deepest, base::RandomStream& stream) {
    for (double from = plan.parent.empty() ? 0.0 : plan.kickoff; from < deepest; from += 3.0)
        rows_["recovery.csv"].push_back(fmt::format("{},{},{},{},{}", plan.name, base::fixed(from, 2),
                                                    base::fixed(std::min(from + 3.0, deepest), 2), 85 + stream.below(16),
                                                    40 + stream.below(60)));
}

void MadeUpProject::add_joints(const HolePlan& plan, double deepest, base::RandomStream& stream) {
    const double start = plan.parent.empty() ? 3.0 : plan.kickoff + 3.0;
    for (double depth = start; depth < deepest; depth += stream.uniform(20.0, 60.0)) {
        const char* kind = stream.uniform() < 0.6 ? "joint" : stream.uniform() < 0.7 ? "foliation" : "fault";
        rows_["structures.csv"].push_back(
            fmt::format("{},{},{},{},{},{},", plan.name, base::fixed(depth, 2), kind, 10 + stream.below(75),
                        plan.oriented ? fmt::format("{}", stream.below(360)) : "", 1 + stream.below(3)));
    }
}

void MadeUpProject::add_outcrop(std::size_t vein, const Eigen::Vector3d& near) {
    base::RandomStream stream("outcrop", {world_, vein, rows_["outcrops.csv"].size()});
    const TrueVein& v = site_.veins[vein];
    Eigen::Vector3d point = near;
    for (int i = 0; i < 200; ++i) {  // to where the vein reaches the ground: down the vein's own surface, then back to the ground
        const Eigen::Vector3d on_vein = v.world(v.own(point).head<2>());
        point = {on_vein.x(), on_vein.y(), site_.ground(on_vein.x(), on_vein.y())};
    }
    const Eigen::Vector2d place = v.own(point).head<2>();
    const base::Attitude attitude = base::attitude_of_normal(v.normal(place));
    const Eigen::Vector3d read = point + Eigen::Vector3d(1.5 * stream.normal(), 1.5 * stream.normal(), 1.0 * stream.normal());
    rows_["outcrops.csv"].push_back(
        fmt::format("{},{},{},{},{},{}", position(read + site_.map_origin), site_.vein_names[vein],
                    base::fixed(std::min(90.0, attitude.dip.degrees() + 5.0 * stream.normal()), 0),
                    base::fixed(base::Azimuth::degrees(attitude.dip_direction.degrees() + 5.0 * stream.normal()).degrees(), 0),
                    base::fixed(std::max(0.03, v.thickness(place) * std::exp(0.15 * stream.normal())), 2),
                    base::fixed(v.silver_gpt(place) * std::exp(0.35 * stream.normal()), 1)));
}

void MadeUpProject::add_pad(const std::string& pad, const Eigen::Vector3d& place) {
    rows_["pads.csv"].push_back(fmt::format("{},{},45,90", pad, position(place + site_.map_origin)));
}

std::map<std::string, std::string> MadeUpProject::files() const {
    std::map<std::string, std::string> out;
    std::string tables;
    for (const auto& [name, rows] : rows_) {
        std::string text = headers().at(name) + "\n";
        for (const std::string& row : rows) text += row + "\n";
        out[name] = text;
        tables += fmt::format("{} = \"{}\"\n", name.substr(0, name.size() - 4), name);
    }
    const settings::SurveyErrorSizes& e = site_.survey_errors;
    std::string veins;
    for (const std::string& name : site_.vein_names) veins += fmt::format("\n[[vein]]\nname = \"{}\"\n", name);
    out["project.toml"] = fmt::format(
        "# {}: an invented project. Place, people, holes, rocks and grades are made up.\n[project]\nname = \"{}\"\n"
        "azimuth_reference = \"magnetic\"\ndeclination = {}\ngrid_convergence = {}\n{}\n[tables]\n{}{}\n[survey_errors]\n"
        "azimuth_common = {}\nazimuth_hole = {}\nazimuth_station = {}\ndip_hole = {}\ndip_station = {}\ndepth_scale = {}\n",
        site_.name, site_.name, base::fixed(site_.declination, 2), base::fixed(site_.convergence, 2), project_lines_, tables,
        veins, base::significant(e.azimuth_common.degrees(), 6), base::significant(e.azimuth_hole.degrees(), 6),
        base::significant(e.azimuth_station.degrees(), 6), base::significant(e.dip_hole.degrees(), 6),
        base::significant(e.dip_station.degrees(), 6), base::significant(e.depth_scale, 6));
    return out;
}

void MadeUpProject::write(const std::filesystem::path& folder) const {
    std::filesystem::create_directories(folder);
    for (const auto& [name, text] : files()) base::write_file(folder / name, text);
}

}  // namespace selvage::made_up
