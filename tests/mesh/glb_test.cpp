#include "mesh/glb.h"

#include "support/made_up_solids.h"

#include <gtest/gtest.h>

#include <cstdint>
#include <cstring>
#include <string>
#include <variant>

namespace selvage::mesh {
namespace {

std::uint32_t u32(const std::string& bytes, std::size_t at) {
    std::uint32_t value = 0;
    std::memcpy(&value, bytes.data() + at, sizeof value);
    return value;
}
float real(const std::string& bytes, std::size_t at) {
    float value = 0;
    std::memcpy(&value, bytes.data() + at, sizeof value);
    return value;
}

struct Parts {
    base::JsonValue json;
    std::string binary;
};

// The container of the specification's section 4.4: header of 12 bytes, chunk "JSON", chunk "BIN".
Parts parts_of(const std::string& bytes) {
    EXPECT_EQ(bytes.substr(0, 4), "glTF");
    EXPECT_EQ(u32(bytes, 4), 2U);
    EXPECT_EQ(u32(bytes, 8), bytes.size());
    const std::size_t length = u32(bytes, 12);
    EXPECT_EQ(length % 4, 0U);
    EXPECT_EQ(bytes.substr(16, 4), "JSON");
    Parts out{base::json_from(bytes.substr(20, length)), {}};
    if (bytes.size() == 20 + length) return out;
    EXPECT_EQ(bytes.substr(20 + length + 4, 4), std::string("BIN\0", 4));
    out.binary = bytes.substr(28 + length);
    EXPECT_EQ(u32(bytes, 20 + length), out.binary.size());
    return out;
}

const base::JsonArray& list(const base::JsonValue& object, const char* name) {
    return std::get<base::JsonArray>(base::member(object, name)->value);
}
double number(const base::JsonValue& object, const char* name) { return std::get<double>(base::member(object, name)->value); }
std::string word(const base::JsonValue& object, const char* name) {
    return std::get<std::string>(base::member(object, name)->value);
}

std::vector<SceneNode> small_scene() {
    SceneNode solid;
    solid.name = "solid";
    solid.shape = made_up::box({1, 2, 3}, {4, 6, 8});
    solid.colour = {1.0, 0.5, 0.0, 0.5};
    SceneNode traces;
    traces.name = "traces";
    traces.shape = SceneLines{{{{0, 0, 0}, {1, 1, -1}, {2, 2, -3}}, {{5, 5, 5}, {6, 6, 6}}, {{9, 9, 9}}}};
    SceneNode places;
    places.name = "places";
    places.shape = ScenePoints{{{1, 2, 3}, {-1, -2, -3}}};
    places.extras = {{"count", 2}};
    SceneNode group;
    group.name = "all holes";
    group.children = {traces, places};
    return {solid, group};
}

TEST(Glb, NodesHaveNamesAndTheirShapes) {
    const Parts parts = parts_of(glb_bytes(small_scene(), {{"origin", base::JsonArray{577000.0, 6081000.0, 2000.0}}}));
    const auto& nodes = list(parts.json, "nodes");
    ASSERT_EQ(nodes.size(), 4U);
    EXPECT_EQ(word(nodes[0], "name"), "solid");
    EXPECT_EQ(word(nodes[1], "name"), "all holes");
    EXPECT_EQ(list(nodes[1], "children").size(), 2U);
    EXPECT_EQ(number(*base::member(nodes[3], "extras"), "count"), 2.0);
    EXPECT_EQ(list(list(parts.json, "scenes")[0], "nodes").size(), 2U);
    const auto& meshes = list(parts.json, "meshes");
    ASSERT_EQ(meshes.size(), 3U);
    EXPECT_EQ(number(list(meshes[0], "primitives")[0], "mode"), 4.0);  // triangles
    EXPECT_EQ(list(meshes[1], "primitives").size(), 2U);               // a line of one point is none
    EXPECT_EQ(number(list(meshes[1], "primitives")[0], "mode"), 3.0);  // line strip
    EXPECT_EQ(number(list(meshes[2], "primitives")[0], "mode"), 0.0);  // points
    const base::JsonValue& origin = *base::member(*base::member(*base::member(parts.json, "asset"), "extras"), "origin");
    EXPECT_EQ(std::get<double>(std::get<base::JsonArray>(origin.value)[1].value), 6081000.0);
}

TEST(Glb, EastIsXUpIsYSouthIsZ) {
    const Parts parts = parts_of(glb_bytes(small_scene(), {}));
    const auto& accessor = list(parts.json, "accessors")[0];
    const std::array<double, 3> least = {1, 3, -6}, most = {4, 8, -2};
    for (std::size_t k = 0; k < 3; ++k) {
        EXPECT_EQ(std::get<double>(list(accessor, "min")[k].value), least[k]);
        EXPECT_EQ(std::get<double>(list(accessor, "max")[k].value), most[k]);
    }
    EXPECT_EQ(real(parts.binary, 0), 1.0F);
    EXPECT_EQ(real(parts.binary, 4), 3.0F);
    EXPECT_EQ(real(parts.binary, 8), -2.0F);
}

TEST(Glb, ViewsLieWithinTheBufferOneAfterTheOther) {
    const Parts parts = parts_of(glb_bytes(small_scene(), {}));
    double end = 0.0;
    for (const auto& view : list(parts.json, "bufferViews")) {
        EXPECT_EQ(number(view, "byteOffset"), end);
        end += number(view, "byteLength");
    }
    EXPECT_EQ(end, static_cast<double>(parts.binary.size()));
    EXPECT_EQ(number(list(parts.json, "buffers")[0], "byteLength"), end);
}

// Linear light of sRGB 0.5 is 0.21404 (IEC 61966-2-1).
TEST(Glb, ColoursAreLinearAndOneMaterialAColour) {
    const Parts parts = parts_of(glb_bytes(small_scene(), {}));
    const auto& materials = list(parts.json, "materials");
    ASSERT_EQ(materials.size(), 2U);
    const auto& factor = list(*base::member(materials[0], "pbrMetallicRoughness"), "baseColorFactor");
    EXPECT_EQ(std::get<double>(factor[0].value), 1.0);
    EXPECT_NEAR(std::get<double>(factor[1].value), 0.21404, 5e-6);
    EXPECT_EQ(std::get<double>(factor[3].value), 0.5);
    EXPECT_EQ(word(materials[0], "alphaMode"), "BLEND");
    EXPECT_EQ(base::member(materials[1], "alphaMode"), nullptr);
}

TEST(Glb, EmptySceneAndEmptyShapesAreWholeFiles) {
    EXPECT_TRUE(parts_of(glb_bytes({}, {})).binary.empty());
    SceneNode nothing;
    nothing.name = "nothing";
    nothing.shape = TriangleMesh{};
    const Parts parts = parts_of(glb_bytes({nothing}, {}));
    EXPECT_EQ(list(parts.json, "nodes").size(), 1U);
    EXPECT_EQ(base::member(parts.json, "meshes"), nullptr);
}

TEST(Glb, SameBytesTwice) { EXPECT_EQ(glb_bytes(small_scene(), {}), glb_bytes(small_scene(), {})); }

}  // namespace
}  // namespace selvage::mesh
