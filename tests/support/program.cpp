#include "support/program.h"

#include "base/file.h"

#include <sys/wait.h>

#include <array>
#include <cstdio>

namespace selvage {

ProgramRun run_program(const std::string& program, const std::string& words, const std::string& settings) {
    const std::string command = (settings.empty() ? "" : "env " + settings + " ") + program + " " + words + " 2>&1";
    ProgramRun run;
    std::FILE* pipe = ::popen(command.c_str(), "r");
    if (pipe == nullptr) return run;
    std::array<char, 4096> block{};
    while (const std::size_t count = std::fread(block.data(), 1, block.size(), pipe)) run.output.append(block.data(), count);
    const int status = ::pclose(pipe);
    run.status = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    return run;
}

std::map<std::string, std::string> bytes_of_folder(const std::filesystem::path& folder) {
    std::map<std::string, std::string> files;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder))
        if (entry.is_regular_file())
            files[std::filesystem::relative(entry.path(), folder).string()] = base::read_file(entry.path());
    return files;
}

}  // namespace selvage
