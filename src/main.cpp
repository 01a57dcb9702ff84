#include "app/command_line.h"
#include "app/reference.h"
#include "app/run.h"
#include "base/file.h"
#include "base/memory.h"

#include <cstdio>
#include <exception>
#include <string>
#include <variant>

namespace {

namespace app = selvage::app;

struct Perform {
    int operator()(const app::NoCommand& command) const { return command.status; }
    int operator()(const app::RunCommand& command) const { return app::run(command); }
    int operator()(const app::CheckCommand& command) const { return app::check(command); }
    int operator()(const app::ReferenceCommand&) const {
        const std::string text = app::reference_text();
        return std::fwrite(text.data(), 1, text.size(), stdout) == text.size() && std::fflush(stdout) == 0 ? app::status_done
                                                                                                           : app::status_machine;
    }
};

}  // namespace

int main(int count, char** words) {
    selvage::base::keep_freed_memory();
    try {
        return std::visit(Perform(), app::parse_command_line(count, words));
    } catch (const selvage::base::MachineError& error) {
        std::fprintf(stderr, "selvage: %s\n", error.message.c_str());
    } catch (const std::exception& error) {  // memory, file system
        std::fprintf(stderr, "selvage: the machine failed: %s\n", error.what());
    }
    return app::status_machine;
}
