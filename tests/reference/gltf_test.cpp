#include "base/file.h"
#include "mesh/glb.h"
#include "support/made_up_solids.h"
#include "support/program.h"
#include "support/temporary_folder.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <string>

// GLB files read by programs of others: assimp (Debian assimp-utils) and the Khronos group's validator (npm: gltf-validator).
namespace selvage::mesh {
namespace {

std::vector<SceneNode> invented_scene() {
    SceneNode solid, traces, places, group;
    solid.name = "a solid";
    solid.shape = made_up::walled_solid(4, 20.0).solid;
    solid.colour = {0.8, 0.3, 0.1, 0.6};
    traces.name = "traces";
    traces.shape = SceneLines{{{{-300, 0, 0}, {-290, 10, -100}, {-270, 20, -195}}, {{0, 250, 10}, {0, 240, -90}}}};
    places.name = "places \"é\"";
    places.shape = ScenePoints{{{10, 20, 30}, {40, 50, 60}}};
    group.name = "holes";
    group.children = {traces, places};
    return {solid, group};
}

std::string file_of(const TemporaryFolder& folder, const std::vector<SceneNode>& scene) {
    const std::string file = (folder.path() / "scene.glb").string();
    base::write_file(file, glb_bytes(scene, {{"origin", base::JsonArray{577000.0, 6081000.0, 2000.0}}}));
    return file;
}

bool is_there(const std::string& program) { return std::system(("command -v " + program + " > /dev/null 2>&1").c_str()) == 0; }

Eigen::Vector3d figures_after(const std::string& text, const std::string& words) {
    Eigen::Vector3d out = Eigen::Vector3d::Constant(std::nan(""));
    const std::size_t at = text.find(words);
    if (at == std::string::npos) return out;
    EXPECT_EQ(std::sscanf(text.c_str() + at + words.size(), " (%lf %lf %lf)", &out[0], &out[1], &out[2]), 3);
    return out;
}

TEST(Gltf, AssimpReadsTheSameBoundsTrianglesAndNames) {
    ASSERT_TRUE(is_there("assimp")) << "needs Debian's assimp-utils";
    const TemporaryFolder folder("assimp");
    const auto scene = invented_scene();
    const ProgramRun run = run_program("assimp", "info '" + file_of(folder, scene) + "'");
    ASSERT_EQ(run.status, 0) << run.output;
    const auto& solid = std::get<TriangleMesh>(scene[0].shape);
    TriangleMesh all = solid;
    for (const auto& line : std::get<SceneLines>(scene[1].children[0].shape).lines)
        all.points.insert(all.points.end(), line.begin(), line.end());
    for (const auto& point : std::get<ScenePoints>(scene[1].children[1].shape).points) all.points.push_back(point);
    const Bounds box = bounds(all);
    const Eigen::Vector3d least = figures_after(run.output, "Minimum point"), most = figures_after(run.output, "Maximum point");
    const Eigen::Vector3d wanted_least(box.lower.x(), box.lower.z(), -box.upper.y()),
        wanted_most(box.upper.x(), box.upper.z(), -box.lower.y());
    for (int k = 0; k < 3; ++k) {
        EXPECT_NEAR(least[k], wanted_least[k], 1e-4) << run.output;
        EXPECT_NEAR(most[k], wanted_most[k], 1e-4);
    }
    EXPECT_NE(run.output.find("/ " + std::to_string(solid.triangles.size()) + " | triangle]"), std::string::npos) << run.output;
    for (const char* name : {"(a solid)", "(traces", "(places"}) EXPECT_NE(run.output.find(name), std::string::npos) << name;
}

TEST(Gltf, KhronosValidatorFindsNothing) {
    if (!is_there("npm") || !is_there("node")) GTEST_SKIP() << "needs npm and node, to run the Khronos group's glTF validator";
    const TemporaryFolder folder("gltf-validator");
    const std::string there = "cd '" + folder.path().string() + "' && ";
    const std::string install =
        "npm install --no-audit --no-fund --silent --prefix . gltf-validator@2.0.0-dev.3.10 > /dev/null 2>&1";
    if (std::system((there + install).c_str()) != 0) GTEST_SKIP() << "npm could not fetch gltf-validator";
    for (const auto& scene : {invented_scene(), std::vector<SceneNode>{}}) {
        const std::string words = "'" SELVAGE_SOURCE_FOLDER "/tests/reference/gltf_validate.js' '" + file_of(folder, scene) + "'";
        EXPECT_EQ(run_program(there + "node", words).output, "0 0 0 0\n");
    }
}

}  // namespace
}  // namespace selvage::mesh
