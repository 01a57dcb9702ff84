#pragma once

#include "faults/fault.h"
#include "mesh/triangle_mesh.h"
#include "site/site.h"
#include "veins/vein.h"

#include <string>
#include <vector>

// Veins as closed bodies.
namespace selvage::veins {

// What the model says at a vertex of the body.
struct SolidFigures {
    std::vector<double> sd;         // of the mid-surface, square to the vein, m
    std::vector<double> presence;   // chance that the vein is there
    std::vector<double> thickness;  // true, drawn, m
};

// The body of a vein in one block: closed, looking outward, without crossings. Its walls pass through every contact there.
struct VeinSolid {
    std::string vein, block;
    mesh::TriangleMesh mesh;  // labels mesh::upper_wall (hanging), lower_wall (foot), rim (where it ends or is cut)
    SolidFigures figures;     // one for each point
    double volume = 0.0;      // m3
};

// The bodies of all veins, in the veins' order, then the blocks'. Each is drawn between its walls over its extent, a little past
// what cuts it, and then cut exactly: by the faults that bound its block, by the veins that happened later, by the ground and
// the property. Where a cut gives no sound body the piece is left uncut and named, where the body itself is not sound it is left
// out and named.
base::Checked<std::vector<VeinSolid>> vein_solids(const std::vector<Vein>& veins, const faults::Events& events,
                                                  const site::Site& site);

}  // namespace selvage::veins
