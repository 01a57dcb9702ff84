#include "sheets/stereonet.h"

#include "base/random.h"
#include "base/text.h"
#include "drawing/clipping.h"
#include "numerics/directions.h"
#include "sheets/changed_results.h"
#include "sheets/net_labels.h"
#include "sheets/net_table.h"
#include "sheets/pole_density.h"

#include "settings/read.h"
#include "support/attitudes.h"
#include "support/colour_measures.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>

namespace selvage::sheets {
namespace {

using test::line;

// check-values.md S14: Lambert's equal-area net of radius 1, closed form.
TEST(NetDrawing, LinesStandWhereTheEqualAreaNetHasThem) {
    const Net net{{50.0, 60.0}, 100.0};
    const std::vector<std::pair<double, double>> table{{0, 1},         {10, 0.909039}, {20, 0.811160}, {30, 0.707107},
                                                       {45, 0.541196}, {60, 0.366025}, {75, 0.184592}, {90, 0}};
    for (const auto& [plunge, radius] : table) {
        const Point at = net.paper(line(0.0, plunge));
        EXPECT_NEAR(at.x, 50.0, 1e-9);
        EXPECT_NEAR(at.y, 60.0 + 100.0 * radius, 1e-4) << plunge;
    }
    const Point at = net.paper(line(45.0, 30.0));
    EXPECT_NEAR(at.x, 100.0, 1e-6);
    EXPECT_NEAR(at.y, 110.0, 1e-6);
}

TEST(NetDrawing, PlacesAndLinesAreEachOthersInverse) {
    const Net net{{0.0, 0.0}, 1.0};
    for (const double trend : {0.0, 33.0, 121.0, 260.0})
        for (const double plunge : {0.5, 20.0, 55.0, 89.0}) {
            const Point at = net.paper(line(trend, plunge));
            EXPECT_LT((line_at(at.x, at.y) - line(trend, plunge)).norm(), 1e-9);
        }
}

// Every point of a plane's line is square to its pole, from rim to rim.
TEST(NetDrawing, APlaneIsALineFromRimToRimSquareToItsPole) {
    const Net net{{0.0, 0.0}, 1.0};
    const Eigen::Vector3d pole = line(52.0, 23.0);
    double rims = 0.0;
    for (const std::vector<Point>& piece : cone_on_net(net, pole, base::Angle::degrees(90.0)))
        for (const Point& point : piece) {
            EXPECT_NEAR(line_at(point.x, point.y).dot(pole), 0.0, 2e-3);
            rims += std::abs(std::hypot(point.x, point.y) - 1.0) < 1e-9 ? 1.0 : 0.0;
        }
    EXPECT_GE(rims, 2.0);
}

TEST(NetDrawing, AConeRunsAtItsAngleFromItsAxis) {
    const Net net{{0.0, 0.0}, 1.0};
    const Eigen::Vector3d axis = line(10.0, 3.0);
    for (const std::vector<Point>& piece : cone_on_net(net, axis, base::Angle::degrees(8.0)))
        for (const Point& point : piece)
            EXPECT_NEAR(std::abs(line_at(point.x, point.y).dot(axis)), std::cos(8.0 * 3.14159265358979 / 180.0), 1e-3);
}

// Poles drawn evenly over the hemisphere: their density differs from an even one by chance alone, so over the net its mean is
// about 0 and its spread about 1 (the moments of pole_density.h).
TEST(PoleDensity, OfAnEvenSpreadIsWithinChance) {
    base::RandomStream stream("even poles", {1});
    double sum = 0.0, squares = 0.0, count = 0.0;
    for (int world = 0; world < 40; ++world) {
        std::vector<Eigen::Vector3d> poles;
        while (poles.size() < 60) {
            const Eigen::Vector3d drawn(stream.normal(), stream.normal(), stream.normal());
            poles.push_back(drawn.normalized());
        }
        const drawing::ValueGrid grid = density_grid(poles, std::vector<double>(poles.size(), 1.0), 21);
        for (std::size_t row = 0; row < 21; ++row)
            for (std::size_t column = 0; column < 21; ++column) {
                const double x = grid.first.x + static_cast<double>(column) * grid.step_x,
                             y = grid.first.y + static_cast<double>(row) * grid.step_y;
                if (x * x + y * y > 1.0) continue;
                sum += grid.at(column, row);
                squares += grid.at(column, row) * grid.at(column, row);
                ++count;
            }
    }
    EXPECT_NEAR(sum / count, 0.0, 0.05);
    EXPECT_NEAR(std::sqrt(squares / count), 1.0, 0.12);
}

TEST(PoleDensity, IsHighestAtAClusterAndTheSameForFlippedPoles) {
    std::vector<Eigen::Vector3d> poles;
    for (int i = -2; i <= 2; ++i)
        for (int k = -2; k <= 2; ++k) poles.push_back(line(120.0 + 3.0 * i, 40.0 + 3.0 * k));
    std::vector<Eigen::Vector3d> flipped = poles;
    for (std::size_t i = 0; i < flipped.size(); i += 2) flipped[i] = -flipped[i];
    const std::vector<double> weights(poles.size(), 1.0);
    const drawing::ValueGrid grid = density_grid(poles, weights, 61), same = density_grid(flipped, weights, 61);
    const auto highest = static_cast<std::size_t>(std::max_element(grid.values.begin(), grid.values.end()) - grid.values.begin());
    const double x = grid.first.x + static_cast<double>(highest % 61) * grid.step_x,
                 y = grid.first.y + static_cast<double>(highest / 61) * grid.step_y;
    EXPECT_GT(line_at(x, y).dot(line(120.0, 40.0)), 0.995);
    for (std::size_t i = 0; i < grid.values.size(); ++i) EXPECT_NEAR(grid.values[i], same.values[i], 1e-9);
}

// Even spreads hold gatherings too: few of these are denser at their mean than what is taken for chance, and a gathering of
// twelve poles within 15 degrees among forty is.
TEST(PoleDensity, SetsOfEvenSpreadsAreSeldomTakenForSets) {
    base::RandomStream stream("even sets", {2});
    const auto has_set = [](const std::vector<Eigen::Vector3d>& poles) {
        const std::vector<int> sets = numerics::axis_sets(poles, base::Angle::degrees(30.0), 3);
        for (int number = 0; number <= *std::max_element(sets.begin(), sets.end()); ++number) {
            std::vector<Eigen::Vector3d> members;
            for (std::size_t i = 0; i < sets.size(); ++i)
                if (sets[i] == number) members.push_back(poles[i]);
            const Eigen::Vector3d mean = numerics::axis_mean(members).mean;
            if (density_at(mean, poles, std::vector<double>(poles.size(), 1.0)) >= dense_by_chance) return true;
        }
        return false;
    };
    constexpr int worlds = 200;
    int by_chance = 0, gathered = 0;
    for (int world = 0; world < worlds; ++world) {
        std::vector<Eigen::Vector3d> poles;
        while (poles.size() < 40)
            poles.push_back(Eigen::Vector3d(stream.normal(), stream.normal(), stream.normal()).normalized());
        by_chance += has_set(poles) ? 1 : 0;
        for (std::size_t i = 0; i < 12; ++i)
            poles[i] =
                (line(120.0, 40.0) + 0.1 * Eigen::Vector3d(stream.normal(), stream.normal(), stream.normal())).normalized();
        gathered += has_set(poles) ? 1 : 0;
    }
    EXPECT_LT(by_chance, worlds / 10);
    EXPECT_EQ(gathered, worlds);
}

// A vertical hole meets a flat plane (pole down, the middle) square on and an upright one (pole at the rim) not at all.
TEST(PoleDensity, AHoleIsBlindToThePlanesThatItRunsAlong) {
    const drawing::ValueGrid grid = meeting_grid({-Eigen::Vector3d::UnitZ()}, 101);
    EXPECT_NEAR(grid.at(50, 50), 1.0, 1e-9);
    for (std::size_t i = 0; i < grid.values.size(); ++i) {
        const double x = grid.first.x + static_cast<double>(i % 101) * grid.step_x,
                     y = grid.first.y + static_cast<double>(i / 101) * grid.step_y;
        if (std::abs(std::hypot(x, y) - 1.0) < 0.01) {
            EXPECT_LT(grid.values[i], 0.03);
        }
    }
}

// check-values.md D5 (Brady and Brown, p. 76): the weight is held from 20 degrees down.
TEST(NetTable, TheBlindZoneBeginsWhereTheWeightIsHeld) { EXPECT_NEAR(1.0 / blind_sine(), 2.923804, 1e-6); }

TEST(PoleGroups, AreThoseOfSetsCsvWithTheVeinsFirst) {
    const MadeUpPack& pack = made_up_pack();
    const std::vector<PoleGroup> groups = pole_groups(pack.results());
    std::size_t sets = 0, veins = 0;
    bool others = false;
    for (const PoleGroup& group : groups) {
        sets += group.sets.size() + group.chance_sets;
        veins += group.vein_number ? 1 : 0;
        EXPECT_FALSE(group.vein_number && others) << "a vein after another kind";
        others = others || !group.vein_number;
        for (const orientation::Orientation* row : group.used) {
            EXPECT_EQ(row->kind, group.kind);
            EXPECT_EQ(row->vein, group.vein);
            EXPECT_LT(row->quality, 4);
        }
    }
    EXPECT_EQ(sets, pack.run_results.structure_sets.size());
    EXPECT_EQ(veins, pack.run_results.veins.size());
}

TEST(Stereonet, ShowsEveryPoleAndTheFiguresOfItsSets) {
    const MadeUpPack& pack = made_up_pack();
    const std::vector<PoleGroup> groups = pole_groups(pack.results());
    std::size_t number = 0;
    for (const drawing::Sheet& sheet : pack.sheets) {
        if (sheet.kind != stereonet_kind) continue;
        const PoleGroup& group = groups[number++];
        std::string text;
        std::size_t dots = 0;
        for (const drawing::Item& item : sheet.items) {
            if (const auto* words = std::get_if<drawing::Text>(&item.mark)) text += words->text + "|";
            const auto* shape = std::get_if<drawing::Shape>(&item.mark);
            if (shape == nullptr || !shape->fill || !shape->line || item.layer != static_cast<std::size_t>(Layer::results))
                continue;
            double left = 1e9, right = -1e9;
            for (const Point& point : shape->rings.front()) {
                left = std::min(left, point.x);
                right = std::max(right, point.x);
            }
            dots += std::abs(right - left - 1.5) < 0.02 ? 1 : 0;
        }
        EXPECT_EQ(dots, group.used.size() + group.shown_only.size()) << sheet.title;
        for (const orientation::StructureSet& set : group.sets) {
            EXPECT_NE(text.find("|" + base::significant(set.kappa, 3) + "|"), std::string::npos) << sheet.title;
            EXPECT_NE(text.find("|" + base::fixed(set.cone95.degrees(), 1) + "°|"), std::string::npos) << sheet.title;
        }
        EXPECT_NE(text.find("lower hemisphere, equal area"), std::string::npos);
        EXPECT_NE(text.find("Terzaghi yes"), std::string::npos);
        EXPECT_EQ(text.find("|model|") != std::string::npos, group.vein_number.has_value());
    }
    EXPECT_EQ(number, groups.size());
}

std::string words_of_net(const PoleGroup& group, const Results& results) {
    const MadeUpPack& pack = made_up_pack();
    return all_words({stereonet(group, results, pack.run, pack.tools())});
}

// A fault square to all the poles of a net, then one that lies as they do.
TEST(Stereonet, HoldsModelledFaultsAgainstTheSets) {
    ChangedResults changed;
    faults::Fault fault;
    fault.name = "Made-up Fault";
    for (orientation::Orientation& row : changed.orientations)
        if (row.pole) row.kind = "fault", row.vein = "", row.pole = Eigen::Vector3d::UnitZ();
    fault.plane.normal = Eigen::Vector3d::UnitX();
    changed.events.faults = {fault};
    const std::vector<PoleGroup> groups = pole_groups(changed.results());
    ASSERT_EQ(groups.size(), 1u);
    const std::string apart = words_of_net(groups[0], changed.results());
    EXPECT_TRUE(holds(apart, "Made-up Fault"));
    EXPECT_TRUE(holds(apart, "90° from that of set 1"));
    EXPECT_TRUE(holds(apart, "does not show it"));
    changed.events.faults.front().plane.normal = Eigen::Vector3d::UnitZ();
    const std::string together = words_of_net(pole_groups(changed.results())[0], changed.results());
    EXPECT_TRUE(holds(together, "0° from that of set 1"));
    EXPECT_TRUE(holds(together, "may show it"));
}

// The even spread of a sunflower over the hemisphere: no place is denser than another.
TEST(Stereonet, DrawsNoMeanPlaneOfPolesNoDenserThanChance) {
    ChangedResults changed;
    std::vector<orientation::Orientation*> rows;
    for (orientation::Orientation& row : changed.orientations)
        if (row.pole && row.quality < 4) rows.push_back(&row);
    ASSERT_GT(rows.size(), 10u);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const double z = 1.0 - (static_cast<double>(i) + 0.5) / static_cast<double>(rows.size());
        const double turn = 2.399963 * static_cast<double>(i), level = std::sqrt(1.0 - z * z);
        rows[i]->kind = "joint";
        rows[i]->vein = "";
        rows[i]->pole = Eigen::Vector3d(level * std::cos(turn), level * std::sin(turn), z);
    }
    const std::string cone = "cone of 95 % about the mean";
    const std::vector<PoleGroup> groups = pole_groups(changed.results());
    ASSERT_EQ(groups.size(), 1u);
    EXPECT_TRUE(groups[0].sets.empty());
    EXPECT_GT(groups[0].chance_sets, 0u) << "sets.csv has them still";
    EXPECT_FALSE(holds(words_of_net(groups[0], changed.results()), cone));
    EXPECT_TRUE(holds(words_of_net(groups[0], changed.results()),
                      std::to_string(groups[0].chance_sets) + " in sets.csv, none denser than chance."));
    for (const PoleGroup& group : pole_groups(made_up_pack().results()))
        if (group.vein_number && !group.sets.empty()) {
            EXPECT_TRUE(holds(words_of_net(group, made_up_pack().results()), cone));
        }
}

// check-values.md S14: a pole that plunges 30 degrees, of a plane that dips 60, stands at 0.7071 of the radius.
TEST(Stereonet, SaysTheDipsOfItsCirclesClearOfThePoles) {
    const MadeUpPack& pack = made_up_pack();
    for (const PoleGroup& group : pole_groups(pack.results())) {
        const drawing::Sheet sheet = stereonet(group, pack.results(), pack.run, pack.tools());
        std::vector<Box> poles, dips;
        for (const drawing::Item& item : sheet.items) {
            if (const auto* text = std::get_if<drawing::Text>(&item.mark); text != nullptr && text->text.rfind("dip ", 0) == 0)
                if (text->text == "dip 30°" || text->text == "dip 60°") dips.push_back(box_of_words(*text, pack.fonts.metrics));
            const auto* shape = std::get_if<drawing::Shape>(&item.mark);
            if (shape == nullptr || !shape->fill || !shape->line || item.layer != static_cast<std::size_t>(Layer::results))
                continue;
            Box box{1e9, 1e9, -1e9, -1e9};
            for (const Point& point : shape->rings.front())
                box = {std::min(box.left, point.x), std::min(box.bottom, point.y), std::max(box.right, point.x),
                       std::max(box.top, point.y)};
            if (std::abs(box.width() - 1.5) < 0.02) poles.push_back(box);
        }
        EXPECT_EQ(dips.size(), 2u) << group.kind;
        for (const Box& dip : dips)
            for (const Box& pole : poles) EXPECT_FALSE(drawing::overlap(dip, pole)) << group.kind;
        // Nor does the trace of a mean plane strike them.
        for (const drawing::Item& item : sheet.items) {
            const auto* shape = std::get_if<drawing::Shape>(&item.mark);
            if (shape == nullptr || !shape->line || shape->closed || shape->rings.front().size() < 20) continue;
            if (shape->line->width_mm != pack.style.line("trace").width_mm) continue;
            for (const Box& dip : dips) EXPECT_TRUE(drawing::clipped_line(shape->rings.front(), dip).empty()) << group.kind;
        }
    }
}

// The box of a shape that is a pole's dot; nothing of any other mark.
std::optional<Box> pole_dot(const drawing::Mark& mark) {
    const auto* shape = std::get_if<drawing::Shape>(&mark);
    if (shape == nullptr || !shape->fill || !shape->line) return std::nullopt;
    Box box{1e9, 1e9, -1e9, -1e9};
    for (const Point& point : shape->rings.front())
        box = {std::min(box.left, point.x), std::min(box.bottom, point.y), std::max(box.right, point.x),
               std::max(box.top, point.y)};
    return std::abs(box.width() - 2.0 * pole_half) < 0.02 ? std::optional(box) : std::nullopt;
}

// Thirty poles within some degrees of one another, the mean's sign and its number among them: every pole is seen whole.
TEST(Stereonet, HidesNoPoleUnderSignsOrWords) {
    ChangedResults changed;
    std::size_t number = 0;
    for (orientation::Orientation& row : changed.orientations) {
        if (!row.pole || row.quality >= 4) continue;
        const double out = 0.012 * std::sqrt(static_cast<double>(number)), turn = 2.399963 * static_cast<double>(number);
        ++number;
        row.kind = "joint";
        row.vein = "";
        row.pole =
            (line(120.0, 40.0) + out * (std::cos(turn) * Eigen::Vector3d::UnitX() + std::sin(turn) * Eigen::Vector3d::UnitZ()))
                .normalized();
    }
    ASSERT_GT(number, 20u);
    orientation::StructureSet mean;
    mean.kind = "joint";
    mean.number = 1;
    mean.count = number;
    mean.attitude = base::attitude_of_normal(line(120.0, 40.0));
    std::vector<PoleGroup> groups = pole_groups(changed.results());
    ASSERT_EQ(groups.size(), 1u);
    groups.front().sets = {mean};
    const MadeUpPack& pack = made_up_pack();
    const drawing::Sheet sheet = stereonet(groups.front(), changed.results(), pack.run, pack.tools());
    std::vector<Box> dots;
    std::vector<drawing::Text> texts;
    for (const drawing::Item& item : sheet.items) {
        if (item.layer != static_cast<std::size_t>(Layer::results)) continue;
        if (const std::optional<Box> dot = pole_dot(item.mark)) {
            dots.push_back(*dot);
            continue;
        }
        if (const auto* text = std::get_if<drawing::Text>(&item.mark)) texts.push_back(*text);
        EXPECT_TRUE(dots.empty()) << "something is drawn after the first pole";
    }
    EXPECT_EQ(dots.size(), groups.front().used.size() + groups.front().shown_only.size());
    bool said = false;
    for (const drawing::Text& text : texts) {
        said = said || text.text == "1";
        for (const Box& dot : dots) EXPECT_FALSE(drawing::overlap(dot, box_of_words(text, pack.fonts.metrics))) << text.text;
    }
    EXPECT_TRUE(said);
}

// The project's own rule for grey prints: neighbouring classes lie 12 or more of CIE L* apart, white and the lowest too; and the
// poles keep 3 to 1 against the darkest (WCAG 1.4.11, marks with meaning).
TEST(Stereonet, DensityIsToldApartOnAGreyCopy) {
    const MadeUpPack& pack = made_up_pack();
    for (const char* name : {"default", "grey", "report", "screen"}) {
        const drawing::Style style = settings::read_style(name).value;
        const Tools tools{style, pack.fonts.metrics};
        double above = test::lightness(style.colour("white"));
        for (std::size_t level = 0; level < most_density_levels; ++level) {
            const double lightness = test::lightness(density_fill(level, tools).colour);
            EXPECT_GE(above - lightness, 12.0) << name << " " << level;
            above = lightness;
        }
        EXPECT_GE(test::contrast(style.colour("ink"), density_fill(most_density_levels - 1, tools).colour), 3.0) << name;
    }
}

// Two sets: which of the two planes is whose is written at them; of one set there is no doubt.
TEST(Stereonet, NamesThePlanesOfSeveralSets) {
    const MadeUpPack& pack = made_up_pack();
    std::vector<PoleGroup> groups = pole_groups(pack.results());
    const auto with_sets = std::find_if(groups.begin(), groups.end(), [](const PoleGroup& one) { return one.sets.size() == 1; });
    ASSERT_NE(with_sets, groups.end());
    EXPECT_FALSE(holds(words_of_net(*with_sets, pack.results()), "plane 1"));
    orientation::StructureSet other = with_sets->sets.front();
    other.number = 2;
    other.attitude.dip_direction = base::Azimuth::degrees(other.attitude.dip_direction.degrees() + 90.0);
    with_sets->sets.push_back(other);
    const std::string words = words_of_net(*with_sets, pack.results());
    EXPECT_TRUE(holds(words, "plane 1"));
    EXPECT_TRUE(holds(words, "plane 2"));
}

// The vein's mean and the contacts' mean nearly coincide: no white edge is drawn over an outline of a sign.
TEST(Stereonet, NoSignOfAMeanHidesAnother) {
    const MadeUpPack& pack = made_up_pack();
    for (const PoleGroup& group : pole_groups(pack.results())) {
        if (!group.vein_number || group.sets.empty()) continue;
        bool outlined = false;
        const drawing::LineLook& edge = pack.style.line("symbol_ring");
        for (const drawing::Item& item : stereonet(group, pack.results(), pack.run, pack.tools()).items) {
            const auto* shape = std::get_if<drawing::Shape>(&item.mark);
            if (shape == nullptr || !shape->line || shape->fill || !shape->closed || shape->rings.front().size() != 4 ||
                item.layer != static_cast<std::size_t>(Layer::results))
                continue;
            outlined = outlined || shape->line->width_mm == edge.width_mm;
            EXPECT_FALSE(outlined && shape->line->width_mm > edge.width_mm) << group.vein;
        }
        EXPECT_TRUE(outlined);
    }
}

}  // namespace
}  // namespace selvage::sheets
