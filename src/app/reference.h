#pragma once

#include <string>

namespace selvage::app {

// Every key of the project file and of a style file, every column of the input tables and of the tables of the pack, every flag
// of an intercept and every check, as plain text with default, unit and meaning: made from the lists that the program itself
// reads. Throws base::MachineError where the style that comes with the program cannot be read.
std::string reference_text();

}  // namespace selvage::app
