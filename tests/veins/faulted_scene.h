#pragma once

#include "veins/vein_scene.h"

#include <fmt/format.h>

#include <Eigen/Core>

#include <string>

namespace selvage::veins {

// A vein that a fault parts at u = `at`, its hanging-wall side moved by a slip within the fault.
struct FaultedScene {
    Scene scene;
    faults::Fault fault;

    explicit FaultedScene(const Eigen::Vector3d& slip_in_chart, double at = 75.0, double lean = 0.4) {
        scene.height = [](const Eigen::Vector2d&) { return 0.0; };
        scene.thickness = [](const Eigen::Vector2d&) { return 0.8; };
        const Eigen::Matrix3d world = scene.chart.chart_from_world_rotation.transpose();
        Eigen::Vector3d normal = world * Eigen::Vector3d(1.0, 0.1, lean).normalized();
        const Eigen::Vector3d slip = world * slip_in_chart;
        fault.name = "Cross Fault";
        fault.plane = {scene.chart.world_from_chart({at, 0.0, 0.0}), normal};
        fault.slip = slip - normal * normal.dot(slip);
        fault.slip_given = true;
        scene.settings.events.names = {"Cross Fault"};
        scene.settings.events.faults = {fault};
        scene.settings.events.order = {"North", "Cross Fault"};
    }
    // A hole as Scene::hit makes it, moved with its block: only what lies there counts.
    void hit(const std::string& name, const Eigen::Vector2d& place, double angle, double heading, bool picked = true) {
        if (picked)
            scene.hit(name, place, angle, heading, false);
        else
            scene.hole(name, place, angle, heading);
        const Eigen::Vector3d on_vein = scene.chart.world_from_chart({place.x(), place.y(), scene.height(place)});
        if (base::signed_distance(fault.plane, on_vein) < 0.0) return;
        for (paths::Station& station : scene.paths.back().stations) station.position += fault.slip;
        scene.paths.back().collar += fault.slip;
        if (picked) scene.intercepts.met.back().point += fault.slip;
    }
    // Hits on both sides, 45 m apart or so, square enough to the vein to cross no fault on their way to it.
    void lattice() {
        int number = 0;
        for (const double u : {-70.0, -20.0, 25.0, 125.0, 170.0, 215.0})
            for (const double v : {-60.0, -10.0, 45.0, 90.0}) {
                ++number;
                hit(fmt::format("L-{}", number), {u, v}, 70.0 + number % 5, 90.0);
            }
    }
};

}  // namespace selvage::veins
