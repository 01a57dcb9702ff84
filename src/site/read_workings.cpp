#include "gis/solids.h"
#include "site/map_file_readers.h"
#include "site/site_checks.h"

#include <algorithm>
#include <utility>

namespace selvage::site {

namespace {

constexpr double least_height = 0.1;  // m: bottom and top nearer than that are one level

std::string named(const std::string& name) { return name.empty() ? "an area without a name" : "\"" + name + "\""; }

// Bottom and top of an area, m on the map: of one level alone `height` above it (a top alone: below it).
std::pair<double, double> heights_of(const gis::Polygon& area, double height) {
    double bottom = area.bottom ? *area.bottom : *area.top - height;
    double top = area.top ? *area.top : bottom + height;
    if (top < bottom) std::swap(top, bottom);
    if (top - bottom < least_height) top = bottom + height;
    return {bottom, top};
}

void add_solid(Workings& workings, MapFile& file, mesh::TriangleMesh mesh, const std::string& name) {
    if (mesh.triangles.empty()) return;
    for (Eigen::Vector3d& point : mesh.points) point -= file.frame().origin;
    Working working{name, {}, std::make_shared<const MinedSolid>(std::move(mesh))};
    if (!working.solid->is_closed)
        file.report(workings_open, (name.empty() ? "its solid" : "the solid of " + named(name)) + " is not closed");
    workings.push_back(std::move(working));
}

void add_area(Workings& workings, MapFile& file, const gis::Polygon& area, double height) {
    const char* const plan_alone = ": it is drawn on the plan, and holes keep no clearance from it";
    Working working{area.name, rings_of(area, file.frame().origin), nullptr};
    if (working.outline.empty()) return;
    if (const std::string at = crossing_words(working.outline, file.frame()); !at.empty()) {
        file.report(ring_crosses_itself, "the outline of " + named(area.name) + " crosses itself at " + at + plan_alone);
    } else if (!area.bottom && !area.top) {
        file.report(workings_depth_unknown, "the elevation of " + named(area.name) + " is not known" + plan_alone);
    } else {
        const auto [bottom, top] = heights_of(area, height);
        working.solid = prism(working.outline, bottom - file.frame().origin.z(), top - file.frame().origin.z());
        if (working.solid == nullptr)
            file.report(ring_crosses_itself,
                        "the rings of " + named(area.name) + " touch each other or hold no area" + plan_alone);
    }
    workings.push_back(std::move(working));
}

void add_shapes(Workings& workings, MapFile& file, const gis::Shapes& shapes, double height) {
    for (const gis::NamedSolid& solid : shapes.solids) add_solid(workings, file, solid.mesh, solid.name);
    for (const gis::Polygon& area : areas_of(shapes)) add_area(workings, file, area, height);
    const auto open =
        std::count_if(shapes.lines.begin(), shapes.lines.end(), [](const gis::Polyline3& line) { return !line.is_closed(); });
    if (open > 0)
        file.report(source_empty,
                    std::to_string(open) + (open == 1 ? " line is" : " lines are") + " neither area nor solid: left out");
}

}  // namespace

Workings read_workings(MapFile& file, const settings::SiteSettings& settings) {
    Workings workings;
    bool readable = true;
    if (gis::is_solid_file(file.path())) {
        std::optional<mesh::TriangleMesh> solid = file.taken(gis::read_solid(file.path(), file.target().metres_per_unit));
        readable = solid.has_value();
        if (solid) add_solid(workings, file, std::move(*solid), "");
    } else {
        const std::optional<gis::Shapes> shapes = file.shapes("elevation");
        readable = shapes.has_value();
        if (shapes) add_shapes(workings, file, *shapes, settings.workings_height);
    }
    if (readable && workings.empty()) file.report(source_empty, "it holds neither areas nor solids: no workings are known");
    return workings;
}

}  // namespace selvage::site
