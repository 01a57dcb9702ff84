#include "mesh/glb.h"

#include "mesh/bytes.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <map>
#include <optional>
#include <utility>

namespace selvage::mesh {

namespace {

// Figures of the glTF 2.0 specification (Khronos): section 3.6 accessors and buffer views, 3.7.2.1 modes, 4.4 the GLB container.
constexpr int array_buffer = 34962, element_array_buffer = 34963, float_component = 5126, unsigned_int_component = 5125;
constexpr int mode_points = 0, mode_line_strip = 3, mode_triangles = 4;
constexpr std::size_t glb_magic = 0x46546C67U, glb_version = 2, json_chunk = 0x4E4F534AU, binary_chunk = 0x004E4942U;

// A base colour is linear; ours are sRGB (IEC 61966-2-1).
double linear(double srgb) { return srgb <= 0.04045 ? srgb / 12.92 : std::pow((srgb + 0.055) / 1.055, 2.4); }

std::array<float, 3> y_up(const Eigen::Vector3d& p) {
    return {static_cast<float>(p.x()), static_cast<float>(p.z()), static_cast<float>(-p.y())};
}

class Writer {
public:
    std::string bytes(const std::vector<SceneNode>& scene, const base::JsonObject& extras) {
        base::JsonArray roots;
        for (const SceneNode& node : scene) roots.emplace_back(add_node(node));
        base::JsonObject asset = {{"version", "2.0"}, {"generator", "selvage"}};
        if (!extras.empty()) asset.emplace_back("extras", extras);
        base::JsonObject document = {{"asset", asset}, {"scene", 0}};
        base::JsonObject first_scene;
        if (!roots.empty()) first_scene.emplace_back("nodes", std::move(roots));
        document.emplace_back("scenes", base::JsonArray{base::JsonValue(std::move(first_scene))});
        const auto add = [&](const char* name, base::JsonArray& list) {
            if (!list.empty()) document.emplace_back(name, std::move(list));
        };
        add("nodes", nodes_);
        add("meshes", meshes_);
        add("materials", materials_);
        add("accessors", accessors_);
        add("bufferViews", views_);
        if (!binary_.empty())
            document.emplace_back("buffers", base::JsonArray{base::JsonValue(base::JsonObject{{"byteLength", binary_.size()}})});
        return container(base::json_text(std::move(document)));
    }

private:
    std::size_t add_node(const SceneNode& node) {
        const std::size_t place = nodes_.size();
        nodes_.emplace_back();
        base::JsonObject out = {{"name", node.name}};
        if (base::JsonArray primitives = std::visit([&](const auto& shape) { return primitives_of(shape, node); }, node.shape);
            !primitives.empty()) {
            out.emplace_back("mesh", meshes_.size());
            meshes_.emplace_back(base::JsonObject{{"name", node.name}, {"primitives", std::move(primitives)}});
        }
        base::JsonArray children;
        for (const SceneNode& child : node.children) children.emplace_back(add_node(child));
        if (!children.empty()) out.emplace_back("children", std::move(children));
        if (!node.extras.empty()) out.emplace_back("extras", node.extras);
        nodes_[place] = std::move(out);
        return place;
    }

    base::JsonArray primitives_of(std::monostate, const SceneNode&) { return {}; }
    base::JsonArray primitives_of(const TriangleMesh& mesh, const SceneNode& node) {
        if (mesh.triangles.empty()) return {};
        const std::size_t positions = add_positions(mesh.points);
        return {primitive(mode_triangles, positions, node.colour, add_indices(mesh.triangles))};
    }
    base::JsonArray primitives_of(const SceneLines& lines, const SceneNode& node) {
        base::JsonArray out;
        for (const auto& line : lines.lines)
            if (line.size() > 1) out.push_back(primitive(mode_line_strip, add_positions(line), node.colour, std::nullopt));
        return out;
    }
    base::JsonArray primitives_of(const ScenePoints& points, const SceneNode& node) {
        if (points.points.empty()) return {};
        return {primitive(mode_points, add_positions(points.points), node.colour, std::nullopt)};
    }

    base::JsonValue primitive(int mode, std::size_t positions, const SceneColour& colour, std::optional<std::size_t> indices) {
        base::JsonObject out = {{"attributes", base::JsonObject{{"POSITION", positions}}}};
        if (indices) out.emplace_back("indices", *indices);
        out.emplace_back("material", material(colour));
        out.emplace_back("mode", mode);
        return out;
    }

    std::size_t material(const SceneColour& colour) {
        const std::array key = {colour.red, colour.green, colour.blue, colour.opacity};
        const auto [at, is_new] = materials_by_colour_.try_emplace(key, materials_.size());
        if (!is_new) return at->second;
        base::JsonArray factor;
        for (const double part : {linear(colour.red), linear(colour.green), linear(colour.blue), colour.opacity})
            factor.emplace_back(part);
        base::JsonObject surface = {{"baseColorFactor", std::move(factor)}, {"metallicFactor", 0}, {"roughnessFactor", 1}};
        base::JsonObject out = {{"pbrMetallicRoughness", std::move(surface)}, {"doubleSided", true}};
        if (colour.opacity < 1.0) out.emplace_back("alphaMode", "BLEND");
        materials_.emplace_back(std::move(out));
        return at->second;
    }

    std::size_t add_positions(const std::vector<Eigen::Vector3d>& points) {
        const std::size_t start = binary_.size();
        std::array<float, 3> least = y_up(points.front()), most = least;
        for (const Eigen::Vector3d& point : points) {
            const std::array<float, 3> place = y_up(point);
            for (std::size_t k = 0; k < 3; ++k) {
                least[k] = std::min(least[k], place[k]);
                most[k] = std::max(most[k], place[k]);
                append_float(binary_, place[k]);
            }
        }
        const auto list = [](const std::array<float, 3>& v) {
            base::JsonArray out;
            for (const float part : v) out.emplace_back(static_cast<double>(part));
            return out;
        };
        base::JsonObject accessor = accessor_of(add_view(start, array_buffer), float_component, points.size(), "VEC3");
        accessor.emplace_back("min", list(least));
        accessor.emplace_back("max", list(most));
        accessors_.emplace_back(std::move(accessor));
        return accessors_.size() - 1;
    }

    std::size_t add_indices(const std::vector<std::array<int, 3>>& triangles) {
        const std::size_t start = binary_.size();
        for (const auto& triangle : triangles)
            for (const int point : triangle) append_u32(binary_, static_cast<std::size_t>(point));
        accessors_.emplace_back(
            accessor_of(add_view(start, element_array_buffer), unsigned_int_component, 3 * triangles.size(), "SCALAR"));
        return accessors_.size() - 1;
    }

    static base::JsonObject accessor_of(std::size_t view, int component, std::size_t count, const char* type) {
        return {{"bufferView", view}, {"componentType", component}, {"count", count}, {"type", type}};
    }
    std::size_t add_view(std::size_t start, int target) {
        views_.emplace_back(
            base::JsonObject{{"buffer", 0}, {"byteOffset", start}, {"byteLength", binary_.size() - start}, {"target", target}});
        return views_.size() - 1;
    }

    std::string container(std::string json) const {
        constexpr std::size_t whole_words = 4, header = 12, chunk_header = 8;
        while (json.size() % whole_words != 0) json += ' ';
        const std::size_t binary_part = binary_.empty() ? 0 : chunk_header + binary_.size();
        std::string out;
        append_u32(out, glb_magic);
        append_u32(out, glb_version);
        append_u32(out, header + chunk_header + json.size() + binary_part);
        append_u32(out, json.size());
        append_u32(out, json_chunk);
        out += json;
        if (binary_.empty()) return out;
        append_u32(out, binary_.size());
        append_u32(out, binary_chunk);
        return out + binary_;
    }

    base::JsonArray nodes_, meshes_, materials_, accessors_, views_;
    std::map<std::array<double, 4>, std::size_t> materials_by_colour_;
    std::string binary_;  // all figures are of four bytes: chunks and views stay in whole words
};

}  // namespace

std::string glb_bytes(const std::vector<SceneNode>& scene, const base::JsonObject& extras) {
    return Writer().bytes(scene, extras);
}

}  // namespace selvage::mesh
