#include "base/file.h"
#include "base/text.h"
#include "support/program.h"
#include "support/temporary_folder.h"

#include <gtest/gtest.h>

#include <cctype>
#include <cmath>
#include <cstddef>
#include <filesystem>
#include <functional>
#include <map>
#include <string>
#include <vector>

// Layouts that a vein model finds hard: each run ends, says what it assumed or whose data disagree, and writes no figure that is
// none. The vein is a plane that dips 70 degrees east through (1000, 5000, 1000), drilled from the east; all of it is invented.
namespace selvage {
namespace {

constexpr double dip = 70.0 * 3.14159265358979323846 / 180.0;

class Layout {
public:
    std::string vein_keys;

    // A straight hole towards the west, 50 degrees down, its pick one metre long, `off` metres deeper than the plane. Gives the
    // depth of the pick's middle.
    double drill(const std::string& hole, double east, double north, double off = 0.0, const char* pick = "vein",
                 const char* status = "done") {
        const double down = 50.0 * 3.14159265358979323846 / 180.0, normal_east = std::sin(dip), normal_up = std::cos(dip);
        const double depth = normal_east * (1000.0 - east) / (-normal_east * std::cos(down) - normal_up * std::sin(down)) + off;
        collar(hole, east, north, 1000.0, depth + 30.0, 50.0, status, "core");
        if (std::string(status) == "done") survey_and_log(hole, depth + 30.0, 50.0);
        if (std::string(status) == "done" && *pick != '\0') add_pick(hole, depth, pick);
        return depth;
    }

    // A channel 6 m long across the vein at 900 m elevation.
    void cut_channel(const std::string& name, double north) {
        const double east_of_vein = 3.0, east = 1000.0 + 100.0 / std::tan(dip) + east_of_vein;
        collar(name, east, north, 900.0, 2.0 * east_of_vein, 0.0, "done", "channel");
        survey_and_log(name, 2.0 * east_of_vein, 0.0);
        add_pick(name, east_of_vein, "vein");
    }

    void measure(const std::string& hole, double depth, double alpha, double beta) {
        structures_ += hole + "," + number(depth) + ",contact," + number(alpha) + "," + number(beta) + ",Ousel\n";
    }

    void plan() { drill("PL-1", 1150.0, 5060.0, 0.0, "", "planned"); }

    void write(const std::filesystem::path& folder) const {
        base::write_file(folder / "collars.csv", "hole,east,north,elevation,depth,azimuth,dip,status,hole_type\n" + collars_);
        base::write_file(folder / "surveys.csv", "hole,depth,azimuth,dip\n" + surveys_);
        base::write_file(folder / "picks.csv", "hole,from,to,vein,state,certainty\n" + picks_);
        base::write_file(folder / "geology.csv", "hole,from,to,rock\n" + geology_);
        base::write_file(folder / "structures.csv", "hole,depth,kind,alpha,beta,vein\n" + structures_);
        base::write_file(folder / "project.toml",
                         "[project]\nname = \"Hard layout (invented)\"\n[tables]\ncollars = \"collars.csv\"\nsurveys = "
                         "\"surveys.csv\"\npicks = \"picks.csv\"\ngeology = \"geology.csv\"\nstructures = \"structures.csv\"\n"
                         "[[vein]]\nname = \"Ousel\"\n" +
                             vein_keys);
    }

private:
    static std::string number(double value) { return base::fixed(value, 2); }

    void collar(const std::string& hole, double east, double north, double up, double length, double down, const char* status,
                const char* type) {
        collars_ += hole + "," + number(east) + "," + number(north) + "," + number(up) + "," + number(length) + ",270," +
                    number(down) + "," + status + "," + type + "\n";
    }
    void survey_and_log(const std::string& hole, double length, double down) {
        for (double depth = 0.0; depth < length; depth += 30.0)
            surveys_ += hole + "," + number(depth) + ",270," + number(down) + "\n";
        geology_ += hole + ",0," + number(length) + ",andesite\n";
    }
    void add_pick(const std::string& hole, double depth, const char* state) {
        picks_ += hole + "," + number(depth - 0.5) + "," + number(depth + 0.5) + ",Ousel," + state + ",1\n";
    }

    std::string collars_, surveys_, picks_, geology_, structures_;
};

void drill_rows(Layout& layout, int holes) {
    for (int i = 0; i < holes; ++i) layout.drill("A-" + std::to_string(i), 1080.0 + 25.0 * (i % 3), 5000.0 + 35.0 * i);
}

const char* const attitude = "dip = 70\ndip_direction = 90\n";
const char* const point = "point = [1000.0, 5000.0, 1000.0]\n";

struct Case {
    const char* name;
    std::function<void(Layout&)> make;
    std::vector<std::string> said;
    bool is_forecast = true;  // the planned hole has a depth
};

const std::vector<Case>& cases() {
    static const std::vector<Case> all = {
        {"TwoIntercepts",
         [](Layout& l) {
             l.vein_keys = attitude;
             drill_rows(l, 2);
         },
         {"Ousel", "2 intercepts", "prior only"}},
        {"TwoInterceptsWithoutAttitude", [](Layout& l) { drill_rows(l, 2); }, {"Ousel", "give its dip and dip_direction"}, false},
        {"OneFence",
         [](Layout& l) {
             for (int i = 0; i < 5; ++i) l.drill("A-" + std::to_string(i), 1060.0 + 30.0 * i, 5000.0);
         },
         {"Ousel", "one fence", "give its dip and dip_direction"},
         false},
        {"OneFenceWithAttitude",
         [](Layout& l) {
             l.vein_keys = attitude;
             for (int i = 0; i < 5; ++i) l.drill("A-" + std::to_string(i), 1060.0 + 30.0 * i, 5000.0);
         },
         {}},
        {"AllAtOnePoint",
         [](Layout& l) {
             for (int i = 0; i < 4; ++i) l.drill("A-" + std::to_string(i), 1100.0, 5000.0);
         },
         {"Ousel", "give its dip and dip_direction"},
         false},
        {"AllAtOnePointWithAttitude",
         [](Layout& l) {
             l.vein_keys = attitude;
             for (int i = 0; i < 4; ++i) l.drill("A-" + std::to_string(i), 1100.0, 5000.0);
         },
         {"prior only"}},
        {"ContradictingAttitudes",
         [](Layout& l) {
             const double alphas[] = {60, 15, 80, 30, 70, 10}, betas[] = {180, 40, 270, 0, 120, 330};
             for (int i = 0; i < 6; ++i) {
                 const std::string hole = "A-" + std::to_string(i);
                 l.measure(hole, l.drill(hole, 1080.0 + 20.0 * (i % 3), 5000.0 + 40.0 * i), alphas[i], betas[i]);
             }
         },
         {"A-0", "A-1", "measured here", "degrees off"}},
        {"OnePickFortyMetresOff",
         [](Layout& l) {
             for (int i = 0; i < 8; ++i)
                 l.drill("A-" + std::to_string(i), 1080.0 + 25.0 * (i % 3), 5000.0 + 35.0 * i, i == 4 ? 40.0 : 0.0);
         },
         {"A-4", "it is kept"}},
        {"AllMisses",
         [](Layout& l) {
             l.vein_keys = std::string(point) + attitude;
             for (int i = 0; i < 6; ++i) l.drill("A-" + std::to_string(i), 1080.0, 5000.0 + 35.0 * i, 0.0, "absent");
         },
         {"Ousel", "no intercept", "prior only"}},
        {"NoMisses", [](Layout& l) { drill_rows(l, 12); }, {}},
        {"TwinHolesThatAgree",
         [](Layout& l) {
             drill_rows(l, 6);
             l.drill("A-2T", 1130.0, 5070.0);
         },
         {}},
        {"TwinHolesThatDisagree",
         [](Layout& l) {
             drill_rows(l, 6);
             l.drill("A-2T", 1131.0, 5071.0, 12.0);
         },
         {"A-2", "A-2T"}},
        {"HolesEightMetresApart",
         [](Layout& l) {
             drill_rows(l, 4);
             for (int i = 0; i < 4; ++i)
                 for (int k = 1; k < 4; ++k)
                     l.drill("A-" + std::to_string(i) + "w" + std::to_string(k), 1080.0 + 25.0 * (i % 3) + 10.0 * k,
                             5000.0 + 35.0 * i);
         },
         {}},
        {"ChannelsTwoMetresApart",
         [](Layout& l) {
             drill_rows(l, 4);
             for (int k = 0; k < 40; ++k) l.cut_channel("C-" + std::to_string(k), 5000.0 + 2.0 * k);
         },
         {}},
        {"AttitudeAlone",
         [](Layout& l) { l.vein_keys = attitude; },
         {"neither an intercept, an outcrop nor a stated point"},
         false},
        {"NoHoleYet", [](Layout& l) { l.vein_keys = std::string(point) + attitude; }, {"no intercept", "prior only"}},
    };
    return all;
}

class HardLayout : public ::testing::TestWithParam<std::size_t> {};

bool has_word(const std::string& text, const std::string& word) {
    for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
        const auto letter = [&](std::size_t i) {
            return i < text.size() && std::isalnum(static_cast<unsigned char>(text[i])) != 0;
        };
        if ((at == 0 || !letter(at - 1)) && !letter(at + word.size())) return true;
    }
    return false;
}

TEST_P(HardLayout, EndsAndSaysWhatItAssumed) {
    const Case& one = cases()[GetParam()];
    const TemporaryFolder folder(std::string("hard-") + one.name);
    Layout layout;
    one.make(layout);
    layout.plan();
    layout.write(folder.path());
    const ProgramRun run = run_program(SELVAGE_PROGRAM, "run " + (folder.path() / "project.toml").string());
    ASSERT_EQ(run.status, 0) << run.output;
    for (const std::string& words : one.said)
        EXPECT_TRUE(run.output.find(words) != std::string::npos) << words << "\n" << run.output;
    const std::map<std::string, std::string> files = bytes_of_folder(folder.path() / "pack");
    EXPECT_EQ(files.count("pack.pdf"), 1U);
    for (const auto& [name, bytes] : files) {
        const bool is_text = name.find(".pdf") == std::string::npos;
        EXPECT_FALSE(is_text && (has_word(bytes, "nan") || has_word(bytes, "inf"))) << name;
    }
    EXPECT_EQ(files.at("tables/pierce_points.csv").find("PL-1,Ousel") != std::string::npos, one.is_forecast);
}

INSTANTIATE_TEST_SUITE_P(Layouts, HardLayout, ::testing::Range(std::size_t{0}, cases().size()),
                         [](const auto& which) { return std::string(cases()[which.param].name); });

}  // namespace
}  // namespace selvage
