#pragma once

#include <cstddef>
#include <string>
#include <variant>

namespace selvage::app {

struct RunCommand {
    std::string project;
    std::string out;       // empty: pack/ beside the project file
    std::string since;     // an earlier output folder, or empty
    std::string style;     // name or file, or empty
    std::size_t jobs = 0;  // 0: as many as the machine has
    bool quiet = false;
};
struct CheckCommand {
    std::string project;
};
struct ReferenceCommand {};
struct NoCommand {  // usage was wrong, or help was asked for and given
    int status = 0;
};

using Command = std::variant<NoCommand, RunCommand, CheckCommand, ReferenceCommand>;

// The command line as a value; says what is wrong on stderr, and help on stdout, itself.
Command parse_command_line(int count, const char* const* words);

}  // namespace selvage::app
