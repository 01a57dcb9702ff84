#include "support/example_site.h"
#include "support/program.h"
#include "support/temporary_folder.h"

#include <gtest/gtest.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>
#include <string>

// The model files of a whole run, an invented fault added to the example, read by programs of others: volumes of the PLY files by
// VTK (Debian python3-vtk9), the GLB file's bounds by assimp (Debian assimp-utils).
namespace selvage {
namespace {

const std::string python = "/usr/bin/python3", scripts = SELVAGE_SOURCE_FOLDER "/tests/reference/";

class PackModels : public ::testing::Test {
protected:
    PackModels() : folder("pack-models"), project(folder.path() / "project") {
        made_up::cold_hythe().write(project);
        std::ofstream more(project / "project.toml", std::ios::app);
        more << "[[fault]]\nname = \"Gully Fault\"\npoint = [431200.0, 5214150.0, 850.0]\ndip = 80\ndip_direction = 310\n"
                "dip_slip = 9.0\nstrike_slip = 4.0\n";
        more.close();
        std::ifstream file(project / "project.toml");
        std::stringstream text;
        text << "order = [\"Ouzel\", \"Gully Fault\", \"Merlin\"]\n" << file.rdbuf();
        std::ofstream(project / "project.toml") << text.str();
        run = run_program(SELVAGE_PROGRAM, "run " + (project / "project.toml").string());
    }
    std::string model(const std::string& name) const { return (project / "pack" / "model" / name).string(); }

    TemporaryFolder folder;
    std::filesystem::path project;
    ProgramRun run;
};

TEST_F(PackModels, HaveTheVolumesAndBoundsThatOthersRead) {
    ASSERT_EQ(run.status, 0) << run.output;
    std::istringstream figures(run_program(python, scripts + "glb_figures.py '" + model("model.glb") + "'").output);
    std::map<std::string, double> volumes;
    std::string word, vein;
    while (figures >> word && word == "volume") {
        figures >> vein;
        figures >> volumes[vein];
    }
    ASSERT_EQ(volumes.size(), 2u);
    for (const auto& [name, volume] : volumes) {
        const std::string file = model(name == "Ouzel" ? "ouzel.ply" : "merlin.ply");
        const ProgramRun theirs = run_program(python, scripts + "vtk_solid.py '" + file + "' < /dev/null");
        std::istringstream line(theirs.output);
        std::size_t points = 0, triangles = 0;
        double their_volume = 0.0;
        ASSERT_TRUE(line >> points >> triangles >> their_volume) << theirs.output << "needs Debian's python3-vtk9";
        EXPECT_GT(volume, 100.0);
        EXPECT_NEAR(their_volume, volume, 1e-6 * volume) << name;
    }
    const ProgramRun assimp = run_program("assimp", "info '" + model("model.glb") + "'");
    ASSERT_EQ(assimp.status, 0) << assimp.output << "needs Debian's assimp-utils";
    for (const char* words : {"Minimum point", "Maximum point"}) {
        const std::size_t at = assimp.output.find(words);
        ASSERT_NE(at, std::string::npos);
        double x = 0.0, y = 0.0, z = 0.0;
        ASSERT_EQ(std::sscanf(assimp.output.c_str() + at + std::string(words).size(), " (%lf %lf %lf)", &x, &y, &z), 3);
        for (const double theirs : {x, y, z}) {
            double ours = 0.0;
            ASSERT_TRUE(figures >> ours);
            EXPECT_NEAR(theirs, ours, 1e-4) << words;
        }
    }
    for (const char* name : {"Gully Fault", "Ouzel", "Merlin"}) EXPECT_NE(assimp.output.find(name), std::string::npos) << name;
}

}  // namespace
}  // namespace selvage
