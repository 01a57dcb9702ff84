#pragma once

#include "settings/project.h"
#include "site/site.h"
#include "veins/model.h"
#include "veins/vein_data.h"

#include <memory>
#include <optional>
#include <vector>

// A vein while it is being modelled, and the steps of that. Private to this room.
namespace selvage::veins {

struct VeinWork {
    const settings::VeinSetting* setting = nullptr;
    std::shared_ptr<const Vein::Model> parent;  // that it splays from; null: none
    std::vector<Evidence> evidence;
    std::vector<SurfaceDatum> surface;               // one for each piece of evidence
    std::vector<std::optional<LogDatum>> thickness;  // likewise
    std::vector<double> windows;                     // likewise: chance of the vein's window there, from all the others
    std::shared_ptr<Vein::Model> model = std::make_shared<Vein::Model>();
    std::vector<base::Finding> findings;
};

// The chart is set: one part for each block of the faults that cut the vein.
void part_by_faults(VeinWork& work);
// The chart of a piece of evidence's block, and its (u, v) there.
const Chart& chart_of(const VeinWork& work, const Evidence& one);
Eigen::Vector2d place_of(const VeinWork& work, const Evidence& one);
// (u, v) of the evidence that is wanted and has a place, of one block or of all.
std::vector<Eigen::Vector2d> places_where(const VeinWork& work, bool (*wanted)(const Evidence&),
                                          std::optional<std::size_t> block = std::nullopt);

// From hits alone: hole spacing, mid-surface, thickness, grades, drawn walls. The chart is set.
void fit_mid_surface(VeinWork& work, const VeinSettings& settings);
// What a vein's data say of the errors of some slips together: their mean in a part, m, in chart axes.
Eigen::Vector3d mean_slip_error(const Vein::Model& model, const BlockPart& part, const std::vector<paths::SourceEffect>& slips);
// What the data of both sides say of the slips, and how well the vein is known in each block. Slips have been found.
void find_mean_slips(VeinWork& work);
void lay_bands(VeinWork& work);
void find_parent_wall(VeinWork& work);
void fit_thickness(VeinWork& work);
void fit_grades(VeinWork& work, const std::vector<std::size_t>& analytes);
void draw_walls(VeinWork& work);

// From hits and misses: presence of the vein as a whole, how far it is modelled, its outline, its figures.
void find_presence(VeinWork& work);
void lay_extent(VeinWork& work, const site::Site& site);
void draw_outline(VeinWork& work);
// How the faults moved it: as given, or as its own data tell.
void find_slips(VeinWork& work);
void lay_mean_plane(VeinWork& work);
void find_fit(VeinWork& work);
void summarise(VeinWork& work);

}  // namespace selvage::veins
