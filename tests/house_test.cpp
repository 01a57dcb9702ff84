#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <string>
#include <vector>

// Holds every #include under src/ against the floors: a room includes rooms on lower floors and, on its own floor, only those to
// its left.
namespace {

const std::vector<std::vector<std::string>> floors = {
    {"base", "numerics", "drawing"},  {"mesh", "gis", "pdf"},
    {"settings", "tables", "checks"}, {"paths", "site", "orientation", "faults", "intercepts", "veins", "forecast", "planning"},
    {"history", "sheets", "output"},  {"app", "main.cpp"},
};

// Outside libraries, by the start of the header's name, and the rooms that may know them.
const std::map<std::string, std::set<std::string>> doors = {
    {"CGAL/", {"mesh"}},     {"gdal", {"gis"}},       {"ogr", {"gis"}},         {"cpl_", {"gis"}},         {"proj.h", {"gis"}},
    {"xlsxwriter", {"gis"}}, {"hpdf", {"pdf"}},       {"fontconfig/", {"pdf"}}, {"toml++/", {"settings"}}, {"CLI/", {"app"}},
    {"tbb/", {"base"}},      {"nlohmann/", {"base"}}, {"nettle/", {"base"}},
};

// Costly ones: how many files of the program include them at the most, none of them a header.
const std::map<std::string, std::size_t> few_files = {{"CLI/", 1}, {"tbb/", 1}, {"nlohmann/", 1}, {"nettle/", 1}, {"CGAL/", 3}};

std::pair<std::size_t, std::size_t> place_of(const std::string& room) {
    for (std::size_t floor = 0; floor < floors.size(); ++floor) {
        const auto at = std::find(floors[floor].begin(), floors[floor].end(), room);
        if (at != floors[floor].end()) return {floor, static_cast<std::size_t>(at - floors[floor].begin())};
    }
    ADD_FAILURE() << room << " stands on no floor";
    return {99, 99};
}

struct Include {
    std::string file, room, included;
};

std::vector<Include> includes_of_the_house() {
    const std::filesystem::path source = std::filesystem::path(SELVAGE_SOURCE_FOLDER) / "src";
    const std::regex include(R"(^\s*#\s*include\s*[<"]([^">]+)[">])");
    std::vector<Include> found;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(source)) {
        const std::string extension = entry.path().extension().string();
        if (extension != ".cpp" && extension != ".h") continue;
        const std::filesystem::path relative = std::filesystem::relative(entry.path(), source);
        std::ifstream stream(entry.path());
        for (std::string line; std::getline(stream, line);) {
            std::smatch match;
            if (std::regex_search(line, match, include))
                found.push_back({relative.string(), relative.begin()->string(), match[1]});
        }
    }
    return found;
}

TEST(House, NobodyIncludesUpwardsOrToTheRight) {
    const std::vector<Include> includes = includes_of_the_house();
    ASSERT_GT(includes.size(), 200U);
    for (const Include& i : includes) {
        const std::size_t slash = i.included.find('/');
        if (slash == std::string::npos) continue;
        const std::string room = i.included.substr(0, slash);
        const bool ours = std::filesystem::is_directory(std::filesystem::path(SELVAGE_SOURCE_FOLDER) / "src" / room);
        if (!ours || room == i.room) continue;
        EXPECT_LT(place_of(room), place_of(i.room)) << i.file << " includes " << i.included;
    }
}

TEST(House, OutsideLibrariesStayBehindTheirDoors) {
    std::map<std::string, std::set<std::string>> files;
    const std::vector<Include> all = includes_of_the_house();
    for (const Include& i : all) {
        for (const auto& [start, rooms] : doors) {
            if (i.included.rfind(start, 0) != 0) continue;
            EXPECT_TRUE(rooms.count(i.room) == 1) << i.file << " includes " << i.included;
            files[start].insert(i.file);
            if (std::filesystem::path(i.file).extension() == ".cpp") continue;
            for (const Include& other : all)  // a header that shows it is the room's own
                EXPECT_FALSE(other.included == i.file && other.room != i.room)
                    << other.file << " sees " << i.included << " through " << i.file;
        }
    }
    for (const auto& [start, most] : few_files) {
        EXPECT_LE(files[start].size(), most) << start << " is included by more files";
        for (const std::string& file : files[start])
            EXPECT_EQ(std::filesystem::path(file).extension(), ".cpp") << start << " in " << file;
    }
}

}  // namespace
