#pragma once

#include <cstddef>
#include <cstdint>
#include <cstring>
#include <string>

// Figures as little-endian bytes, whatever the machine; used within this room.
namespace selvage::mesh {

inline void append_little_endian(std::string& out, std::uint64_t value, std::size_t bytes) {
    for (std::size_t i = 0; i < bytes; ++i) out += static_cast<char>((value >> (8U * i)) & 0xffU);
}
inline void append_u32(std::string& out, std::size_t value) { append_little_endian(out, value, 4); }
inline void append_double(std::string& out, double value) {
    std::uint64_t bits = 0;
    std::memcpy(&bits, &value, sizeof bits);
    append_little_endian(out, bits, sizeof bits);
}
inline void append_float(std::string& out, float value) {
    std::uint32_t bits = 0;
    std::memcpy(&bits, &value, sizeof bits);
    append_little_endian(out, bits, sizeof bits);
}

}  // namespace selvage::mesh
