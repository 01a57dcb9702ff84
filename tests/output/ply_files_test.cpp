#include "output/ply_files.h"

#include "support/made_up_solids.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace selvage::output {
namespace {

veins::VeinSolid invented(const std::string& vein, const std::string& block) {
    veins::VeinSolid solid;
    solid.vein = vein;
    solid.block = block;
    solid.mesh = made_up::box({0, 0, 0}, {10, 10, 1});
    solid.figures.sd.assign(solid.mesh.points.size(), 0.5);
    solid.figures.presence.assign(solid.mesh.points.size(), 0.9);
    solid.figures.thickness.assign(solid.mesh.points.size(), 1.0);
    return solid;
}

// A file a vein, all its blocks in it; names that differ in signs alone do not overwrite each other.
TEST(PlyFiles, AreOneForEachVein) {
    const auto files =
        ply_files({invented("North 1", "F+"), invented("North 1", "F-"), invented("North-1", ""), invented("South", "")}, {});
    std::vector<std::string> names;
    for (const PackFile& file : files) names.push_back(file.name);
    EXPECT_THAT(names, testing::ElementsAre("model/north-1.ply", "model/north-1-2.ply", "model/south.ply"));
    EXPECT_NE(files[0].bytes.find("element vertex 16"), std::string::npos);
    EXPECT_NE(files[1].bytes.find("element vertex 8"), std::string::npos);
}

}  // namespace
}  // namespace selvage::output
