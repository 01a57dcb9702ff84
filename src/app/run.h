#pragma once

#include "app/command_line.h"

namespace selvage::app {

// Exit statuses of the program.
constexpr int status_done = 0, status_data = 1, status_usage = 2, status_machine = 3;

// The whole way of the data, from the project file to the folder of the pack. Prints findings to stderr; gives the exit status.
// Throws base::MachineError.
int run(const RunCommand& command);

// Reads and checks only.
int check(const CheckCommand& command);

}  // namespace selvage::app
