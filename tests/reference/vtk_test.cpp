#include "base/file.h"
#include "mesh/cut.h"
#include "mesh/ply.h"
#include "mesh/slice.h"
#include "support/made_up_solids.h"
#include "support/temporary_folder.h"

#include <gtest/gtest.h>

#include <cstdio>
#include <fstream>
#include <string>
#include <vector>

// Volumes, areas, sections and cuts of invented solids, against VTK's on the PLY file (Debian python3-vtk9).
namespace selvage::mesh {
namespace {

struct Section {
    double perimeter = 0.0, area = 0.0, volume = 0.0;
};
struct Answer {
    std::size_t points = 0, triangles = 0;
    double volume = 0.0, area = 0.0;
    std::vector<Section> sections;
};

Answer asked_of_script(const TriangleMesh& solid, const std::vector<base::Plane>& planes) {
    const TemporaryFolder folder("vtk");
    const std::string ply = (folder.path() / "solid.ply").string(), input = (folder.path() / "planes").string();
    base::write_file(ply, ply_bytes(solid, {{"sd", std::vector<double>(solid.points.size(), 0.5)}}, {"origin 0 0 0"}));
    std::ofstream file(input);
    file.precision(17);
    for (const base::Plane& plane : planes) file << plane.point.transpose() << ' ' << plane.normal.transpose() << '\n';
    file.close();
    const std::string command =
        "/usr/bin/python3 " SELVAGE_SOURCE_FOLDER "/tests/reference/vtk_solid.py '" + ply + "' < '" + input + "'";
    Answer answer;
    FILE* pipe = popen(command.c_str(), "r");
    if (pipe == nullptr) return answer;
    if (std::fscanf(pipe, "%zu %zu %lf %lf", &answer.points, &answer.triangles, &answer.volume, &answer.area) == 4) {
        Section section;
        while (std::fscanf(pipe, "%lf %lf %lf", &section.perimeter, &section.area, &section.volume) == 3)
            answer.sections.push_back(section);
    }
    pclose(pipe);
    return answer;
}

TEST(Vtk, VolumesAreasSectionsAndCutsOfInventedSolidsAreTheSame) {
    for (std::uint64_t number = 0; number < 20; ++number) {
        const TriangleMesh solid = made_up::walled_solid(number, 30.0).solid;
        std::vector<base::Plane> planes;
        for (std::uint64_t i = 0; i < 5; ++i) planes.push_back({{0, 0, -100}, made_up::random_direction(100 * number + i)});
        const Answer theirs = asked_of_script(solid, planes);
        ASSERT_EQ(theirs.points, solid.points.size()) << "needs Debian's python3-vtk9";
        EXPECT_EQ(theirs.triangles, solid.triangles.size());
        EXPECT_NEAR(theirs.volume, volume(solid), 1e-9 * volume(solid));
        EXPECT_NEAR(theirs.area, area(solid), 1e-9 * area(solid));
        ASSERT_EQ(theirs.sections.size(), planes.size());
        for (std::size_t i = 0; i < planes.size(); ++i) {
            const auto rings = slice(solid, planes[i]);
            double perimeter = 0.0;
            for (const SliceLine& ring : rings) perimeter += length_of(ring);
            EXPECT_NEAR(theirs.sections[i].perimeter, perimeter, 1e-9 * perimeter);
            EXPECT_NEAR(theirs.sections[i].area, area_within(rings, planes[i]), 1e-8 * area(solid));
            const auto parts = cut_by_plane(solid, planes[i], 2);
            ASSERT_TRUE(parts);
            EXPECT_NEAR(theirs.sections[i].volume, volume(parts->inside), 1e-8 * volume(solid));
        }
    }
}

}  // namespace
}  // namespace selvage::mesh
