#include "orientation/core_runs.h"

#include "base/random.h"
#include "orientation/core_angles.h"
#include "support/record_builders.h"

#include <fmt/format.h>
#include "support/attitudes.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace selvage::orientation {
namespace {

// Holes at several azimuths through foliation and two joint sets, each plane off its set by some degrees, ten rows a run, six
// runs a hole. `line_error` turns the line of one run, or mirrors its beta.
struct OrientedCore {
    std::vector<paths::Path> paths;
    std::vector<Orientation> rows;

    explicit OrientedCore(const std::string& wrong_run = "", double turn = 0.0, bool mirrored = false) {
        base::RandomStream stream("core runs", {1});
        const std::vector<std::pair<std::string, Eigen::Vector3d>> sets{{"foliation", test::pole(65, 40)},
                                                                        {"joint", test::pole(80, 310)},
                                                                        {"joint", test::pole(35, 200)},
                                                                        {"joint", test::pole(85, 75)}};
        for (std::size_t hole = 0; hole < 6; ++hole) {
            const base::Direction direction{base::Azimuth::degrees(20.0 + 15.0 * static_cast<double>(hole)),
                                            base::Dip::degrees(55.0)};
            const std::string name = fmt::format("K-{:02}", hole);
            paths.push_back(test::straight_path(name, hole, Eigen::Vector3d::Zero(), direction, 200.0));
            for (int run = 0; run < 6; ++run)
                for (int i = 0; i < 10; ++i)
                    add(name, run, sets[static_cast<std::size_t>(i) % sets.size()], stream, wrong_run, turn, mirrored);
        }
    }

    void add(const std::string& hole, int run, const std::pair<std::string, Eigen::Vector3d>& set, base::RandomStream& stream,
             const std::string& wrong_run, double turn, bool mirrored) {
        Eigen::Vector3d off(stream.normal(), stream.normal(), stream.normal());
        const Eigen::Vector3d true_pole = (set.second + 0.12 * off).normalized();
        Orientation row;
        row.hole = hole;
        row.line = fmt::format("L{}", run);
        row.kind = set.first;
        row.depth = 20.0 + 30.0 * run;
        row.from_core_angles = true;
        const Eigen::Vector3d axis = paths::direction_at(paths.back(), row.depth);
        CoreAngles angles = *core_angles_of(axis, true_pole);
        if (hole + " " + row.line == wrong_run)
            angles.beta = base::Angle::degrees((mirrored ? -1.0 : 1.0) * angles.beta.degrees() + turn);
        const Eigen::Vector3d read = *pole_from_core_angles(axis, angles);
        row.pole = read.z() < 0.0 ? Eigen::Vector3d(-read) : read;
        rows.push_back(row);
    }
};

TEST(CoreRuns, RightLinesAreLeftInPeace) {
    const OrientedCore core;
    EXPECT_TRUE(turned_runs(core.rows, core.paths).empty());
}

TEST(CoreRuns, ATurnedLineIsNamedWithItsTurn) {
    const OrientedCore core("K-03 L2", 180.0);
    const std::vector<TurnedRun> named = turned_runs(core.rows, core.paths);
    ASSERT_EQ(named.size(), 1u);
    EXPECT_EQ(named[0].hole, "K-03");
    EXPECT_EQ(named[0].line, "L2");
    EXPECT_FALSE(named[0].mirrored);
    EXPECT_NEAR(named[0].turned_by.degrees(), 180.0, 20.0);
    const auto findings = audit_core_runs(core.rows, core.paths);
    ASSERT_EQ(findings.size(), 1u);
    EXPECT_NE(findings[0].message.find("core run L2"), std::string::npos);
}

TEST(CoreRuns, AMirroredBetaIsNamed) {
    const OrientedCore core("K-01 L4", 0.0, true);
    const std::vector<TurnedRun> named = turned_runs(core.rows, core.paths);
    ASSERT_EQ(named.size(), 1u);
    EXPECT_EQ(named[0].line, "L4");
    EXPECT_TRUE(named[0].mirrored);
}

TEST(CoreRuns, FourRowsSayNothing) {
    OrientedCore core("K-03 L2", 180.0);
    std::vector<Orientation> few;
    int kept = 0;
    for (const Orientation& row : core.rows)
        if (row.hole != "K-03" || row.line != "L2" || kept++ < 4) few.push_back(row);
    EXPECT_TRUE(turned_runs(few, core.paths).empty());
}

}  // namespace
}  // namespace selvage::orientation
