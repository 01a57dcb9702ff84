#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <utility>
#include <vector>

// Invented projects at the edges of what a program of this kind is given: names, sizes, counts and letters that are hard to set.
namespace selvage::made_up {

struct StressProject {
    std::string name;                                       // in letters and digits
    std::map<std::string, std::string> files;               // by name, with project.toml
    std::vector<std::string> holes;                         // in the order of the collar table
    std::vector<std::pair<std::string, std::string>> hits;  // hole and vein, one an intercept
    std::vector<std::string> unknown_letters;               // that the usual font lacks: "U+6771"
};

std::vector<StressProject> stress_projects();

}  // namespace selvage::made_up
