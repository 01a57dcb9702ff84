#pragma once

#include <filesystem>
#include <string>
#include <string_view>

// Whole files. The machine failing (no such file, disk full) throws MachineError, caught once, in main.
namespace selvage::base {

struct MachineError {
    std::string message;  // what failed, on which file
};

// All bytes of a file.
std::string read_file(const std::filesystem::path& file);

// Writes beside the file, closes, checks, then renames: the file is whole or unchanged.
void write_file(const std::filesystem::path& file, std::string_view bytes);

// SHA-256 of some bytes, 64 hexadecimal digits.
std::string sha256_hex(std::string_view bytes);

}  // namespace selvage::base
