#pragma once

#include "forecast/pierce.h"
#include "pdf/document.h"
#include "settings/read.h"
#include "sheets/compose.h"
#include "sheets/page.h"
#include "veins/faulted_scene.h"

#include <algorithm>
#include <optional>
#include <string>
#include <variant>

namespace selvage::sheets {

// A plane vein that one fault parts, its hanging-wall side moved 8 m away from (gap) or over (overlap) the other, and 20 m off
// the vein's plane; as the sheets get it.
struct FaultedSheets {
    veins::FaultedScene world;
    settings::Project project;
    site::Site site;
    std::vector<veins::Vein> veins;
    std::vector<veins::VeinSolid> solids;
    std::vector<orientation::Orientation> orientations;
    std::vector<forecast::Pierce> pierces;
    std::vector<planning::StepOut> step_outs;
    drawing::Style style = settings::read_style("default").value;
    pdf::Fonts fonts = pdf::find_fonts(style.font_family);
    RunFacts run{"Faulted 0000", "0000", ""};

    // `ground`: elevation of level ground, m; else the plane through the collars.
    explicit FaultedSheets(bool gap, std::optional<double> ground = std::nullopt)
        : world(gap ? Eigen::Vector3d(8.0, 0.0, -20.0) : Eigen::Vector3d(-8.0, 0.0, 20.0)) {
        world.lattice();
        project.name = "Faulted";
        project.veins = world.scene.settings.veins;
        if (ground) {
            world.scene.given_site = site::Site{};
            world.scene.given_site->ground = site::Ground(base::Plane{{0.0, 0.0, *ground}, Eigen::Vector3d::UnitZ()});
        }
        site = world.scene.site();
        veins = world.scene.model();
        solids = veins::vein_solids(veins, world.scene.settings.events, site).value;
        world.scene.intercepts.met = veins::completed_by_models(world.scene.intercepts.met, veins, {});
    }
    // A hole that is not drilled yet, through the vein over (u, v) as it was before the fault.
    void plan_hole(const std::string& name, const Eigen::Vector2d& place, double angle, double heading) {
        world.hit(name, place, angle, heading, false);
        paths::Path& path = world.scene.paths.back();
        path.status = tables::HoleStatus::planned;
        path.surveyed_depth = path.drilled_depth = path.start_depth;
        world.scene.records.collars.back().status = tables::HoleStatus::planned;
        pierces = forecast::forecast_pierces(world.scene.paths, veins, world.scene.intercepts, project.plan).value.pierces;
    }
    Results results() const {
        return {project,
                world.scene.records,
                world.scene.paths,
                orientations,
                world.scene.settings.events,
                world.scene.intercepts,
                veins,
                pierces,
                step_outs,
                site,
                solids};
    }
    Tools tools() const { return {style, fonts.metrics}; }
};

inline bool says(const drawing::Sheet& sheet, const std::string& words) {
    return std::any_of(sheet.items.begin(), sheet.items.end(), [&](const drawing::Item& item) {
        const auto* text = std::get_if<drawing::Text>(&item.mark);
        return text != nullptr && text->text.find(words) != std::string::npos;
    });
}

}  // namespace selvage::sheets
