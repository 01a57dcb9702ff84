#include "support/example_site.h"

#include "base/text.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <utility>

namespace selvage::made_up {

double ground_of_cold_hythe(double east, double north) {
    return 950.0 + 0.03 * north - 0.02 * east + 4.0 * std::sin(east / 140.0) + 3.0 * std::cos(north / 110.0);
}

namespace {

constexpr auto ground_at = ground_of_cold_hythe;

// Layers that dip gently to the east, folded a little, cut by an upright dyke.
std::string rock_at(const Eigen::Vector3d& point) {
    const double dyke = point.x() + 0.35 * point.y() + 9.0 * std::sin(point.z() / 70.0) + 120.0;
    if (std::abs(dyke) < 11.0) return "diorite";
    const double level = point.z() + 0.16 * point.x() + 9.0 * std::sin(point.x() / 120.0) + 7.0 * std::cos(point.y() / 95.0);
    if (level > 925.0) return "lapilli tuff";
    if (level > 870.0) return "mudstone";
    if (level > 790.0) return "sandstone";
    if (level > 735.0) return "mudstone";
    if (level > 640.0) return "rhyolite";
    return "sandstone";
}

TrueVein vein(base::RandomStream& stream, const Eigen::Vector3d& centre, const base::Attitude& attitude, double sd, double range,
              double thickness_median, double silver_median, double barren) {
    TrueVein out;
    out.centre = centre;
    out.axes = axes_of(attitude);
    const RandomField surface(stream, range, 2.5, 1.6, stream.uniform(0.0, 3.0));
    const RandomField thick(stream, 80.0, 1.5), rich(stream, 90.0, 1.5), window(stream, 80.0, 1.5);
    out.height = [=](const Eigen::Vector2d& place) { return sd * surface.at(place); };
    out.thickness = [=](const Eigen::Vector2d& place) { return thickness_median * std::exp(0.7 * thick.at(place)); };
    out.silver_gpt = [=](const Eigen::Vector2d& place) {
        return silver_median * std::exp(0.9 * rich.at(place) + 0.3 * thick.at(place));
    };
    out.present = [=](const Eigen::Vector2d& place) { return window.at(place) > barren; };
    return out;
}

Site site() {
    base::RandomStream stream("cold hythe", {1});
    Site s;
    s.name = "Cold Hythe";
    s.map_origin = {431000.0, 5214000.0, 0.0};
    s.declination = 11.4;
    s.convergence = -0.62;
    s.ground = ground_at;
    s.rock = rock_at;
    s.vein_names = {"Ouzel", "Merlin"};
    s.veins.push_back(vein(stream, {210.0, 190.0, 800.0}, {base::Angle::degrees(68), base::Azimuth::degrees(230)}, 6.0, 150.0,
                           0.8, 420.0, -0.8));
    s.veins.push_back(vein(stream, {252.0, 225.0, 795.0}, {base::Angle::degrees(75), base::Azimuth::degrees(238)}, 5.0, 170.0,
                           0.45, 230.0, -0.6));
    return s;
}

// Day number to ISO 8601 (proleptic Gregorian; the usual era arithmetic).
std::string iso_day(int day) {
    const int z = day + 719468, era = z / 146097, doe = z - era * 146097;
    const int yoe = (doe - doe / 1460 + doe / 36524 - doe / 146096) / 365, doy = doe - (365 * yoe + yoe / 4 - yoe / 100);
    const int mp = (5 * doy + 2) / 153, d = doy - (153 * mp + 2) / 5 + 1, m = mp < 10 ? mp + 3 : mp - 9;
    return fmt::format("{:04}-{:02}-{:02}", yoe + era * 400 + (m <= 2 ? 1 : 0), m, d);
}

struct Aim {
    double u, v;  // on Ouzel, m from its centre
    std::size_t pad;
    double beyond;  // m drilled past Ouzel
};

}  // namespace

MadeUpProject cold_hythe() {
    const Site s = site();
    const TrueVein& ouzel = s.veins[0];
    MadeUpProject project(s, 7);
    project.add_project_lines(
        "date = 2026-11-20\nowner = \"Cold Hythe Silver (invented)\"\nnumber = \"CH\"\nstatus = \"for meeting\"\n\n"
        "[cut_off]\nanalyte = \"ag_gpt\"\nvalue = 150.0\n");
    const Eigen::Vector3d outward = Eigen::Vector3d(ouzel.axes.row(2).x(), ouzel.axes.row(2).y(), 0.0).normalized();
    std::array<Eigen::Vector3d, 5> pads;
    const std::array<double, 5> along = {-120.0, 0.0, 120.0, -70.0,
                                         70.0};  // three pads near the vein, two further out for the deep holes
    for (std::size_t i = 0; i < pads.size(); ++i) {
        const Eigen::Vector3d at =
            ouzel.centre + Eigen::Vector3d(ouzel.axes.row(0) * along[i]) + outward * (i < 3 ? 55.0 : 140.0);
        pads[i] = {at.x(), at.y(), ground_at(at.x(), at.y())};
        project.add_pad(fmt::format("P{}", i + 1), pads[i]);
    }
    for (const double u : {-120.0, -40.0, 65.0, 130.0})
        project.add_outcrop(0,
                            ouzel.centre + Eigen::Vector3d(ouzel.axes.row(0) * u) + Eigen::Vector3d(ouzel.axes.row(1) * 155.0));
    for (const double u : {-60.0, 80.0})
        project.add_outcrop(
            1, s.veins[1].centre + Eigen::Vector3d(s.veins[1].axes.row(0) * u) + Eigen::Vector3d(s.veins[1].axes.row(1) * 160.0));

    const std::vector<Aim> aims = {
        {-165, 62, 0, 18},  {-115, 70, 0, 95},  {-60, 66, 0, 100}, {-5, 74, 1, 18},   {48, 68, 1, 100},
        {105, 72, 2, 95},   {160, 60, 2, 16},   {-150, 8, 0, 105}, {-100, 14, 0, 18}, {-48, 6, 3, 95},
        {2, 16, 1, 110},    {58, 4, 4, 90},     {112, 10, 2, 110}, {168, 6, 2, 22},   {-122, -46, 3, 90},
        {-70, -52, 3, 95},  {-18, -42, 3, 20},  {34, -56, 4, 95},  {88, -48, 4, 24},  {140, -50, 4, 100},
        {-92, -102, 3, 26}, {-36, -110, 3, 90}, {20, -104, 4, 28}, {74, -112, 4, 95}, {126, -100, 4, 24}};
    int day = 20241;  // 2025-06-02
    std::size_t number = 0;
    const auto plan_for = [&](const Aim& aim, std::size_t i) {
        base::RandomStream stream("collar", {i});
        HolePlan plan;
        plan.name = fmt::format("CH-{:02}", i);
        plan.collar = pads[aim.pad] + Eigen::Vector3d(stream.uniform(-6, 6), stream.uniform(-6, 6), 0.0);
        plan.collar.z() = ground_at(plan.collar.x(), plan.collar.y());
        const Eigen::Vector3d target = ouzel.world({aim.u, aim.v});
        plan.start = aimed(plan.collar, target);
        plan.length = std::round(((target - plan.collar).norm() + aim.beyond) * 10.0) / 10.0;
        plan.core_size = i % 3 == 0 ? "HQ" : "NQ";
        plan.oriented = i % 5 != 2;
        plan.date_started = iso_day(day);
        day += 6 + static_cast<int>(plan.length / 45.0);
        plan.date_finished = iso_day(day);
        day += 9;
        return plan;
    };
    for (const Aim& aim : aims) {
        HolePlan plan = plan_for(aim, ++number);
        plan.assays_back = number < 24;
        if (number == 14) plan.length = std::round((plan.length - 60.0) * 10.0) / 10.0;  // stopped short of the vein
        if (number == 14) plan.status = "abandoned";
        project.drill(plan);
    }
    for (const auto& [parent, kickoff] : {std::pair<std::string, double>{"CH-15", 90.0}, {"CH-21", 120.0}}) {
        HolePlan daughter;
        daughter.name = parent + "W1";
        daughter.parent = parent;
        daughter.kickoff = kickoff;
        daughter.length = parent == "CH-15" ? 330.0 : 300.0;
        daughter.date_started = iso_day(day);
        daughter.date_finished = iso_day(day += 7);
        day += 4;
        project.drill(daughter);
    }
    const std::vector<Aim> planned = {{-185, -40, 3, 30}, {178, -106, 4, 100}, {-8, -165, 3, 40}};
    for (std::size_t i = 0; i < planned.size(); ++i) {
        HolePlan plan = plan_for(planned[i], ++number);
        plan.status = "planned";
        plan.date_started.clear();
        plan.date_finished.clear();
        plan.target = fmt::format("T-{}", i + 1);
        plan.target_vein = "Ouzel";
        plan.target_point = ouzel.world({planned[i].u, planned[i].v});
        project.drill(plan);
    }
    const std::vector<Aim> active = {{-150, -104, 3, 35}, {48, -152, 4, 110}};
    for (std::size_t i = 0; i < active.size(); ++i) {
        HolePlan plan = plan_for(active[i], ++number);
        plan.status = "active";
        plan.drilled = i == 0 ? 150.0 : 90.0;
        plan.date_started = i == 0 ? "2026-11-09" : "2026-11-14";
        plan.date_finished.clear();
        plan.target = fmt::format("T-{}", 4 + i);
        plan.target_vein = "Ouzel";
        plan.target_point = ouzel.world({active[i].u, active[i].v});
        project.drill(plan);
    }
    return project;
}

}  // namespace selvage::made_up
