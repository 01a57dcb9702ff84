#pragma once

#include <filesystem>
#include <map>
#include <string>

namespace selvage {

struct ProgramRun {
    int status = -1;
    std::string output;  // stdout and stderr
};

// Runs the built program with these words, in an environment with `settings` ("LC_ALL=C TZ=UTC") before it.
ProgramRun run_program(const std::string& program, const std::string& words, const std::string& settings = "");

// Every file below a folder, by its path from there, with its bytes.
std::map<std::string, std::string> bytes_of_folder(const std::filesystem::path& folder);

}  // namespace selvage
