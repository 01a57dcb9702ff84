#pragma once

#include "base/json.h"
#include "mesh/triangle_mesh.h"

#include <Eigen/Core>

#include <string>
#include <variant>
#include <vector>

namespace selvage::mesh {

struct SceneColour {
    double red = 0.5, green = 0.5, blue = 0.5;  // sRGB, 0 to 1
    double opacity = 1.0;
};
struct SceneLines {
    std::vector<std::vector<Eigen::Vector3d>> lines;  // two points or more each
};
struct ScenePoints {
    std::vector<Eigen::Vector3d> points;
};

// A named thing of a scene, or a group of them.
struct SceneNode {
    std::string name;
    std::variant<std::monostate, TriangleMesh, SceneLines, ScenePoints> shape;  // x east, y north, z up, m from the origin
    SceneColour colour;
    std::vector<SceneNode> children;
    base::JsonObject extras;  // of the node: any figures or words
};

// Bytes of a binary glTF 2.0 file (Khronos, glTF 2.0 specification): single precision, x east, y up, z south, metres, both sides
// of a triangle seen. `extras` stand in the asset: the origin's map coordinates, say. Shapes without points are left out, the
// node stays. Same scene, same bytes.
std::string glb_bytes(const std::vector<SceneNode>& scene, const base::JsonObject& extras);

}  // namespace selvage::mesh
