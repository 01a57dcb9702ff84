#include "base/file.h"

#include <fmt/format.h>
#include <nettle/sha2.h>

#include <array>
#include <cerrno>
#include <cstdint>
#include <cstdio>
#include <cstring>
#include <memory>
#include <system_error>

namespace selvage::base {

namespace {

struct CloseFile {
    void operator()(std::FILE* file) const { std::fclose(file); }
};
using FileHandle = std::unique_ptr<std::FILE, CloseFile>;

[[noreturn]] void fail(const char* what, const std::filesystem::path& file) {
    throw MachineError{fmt::format("{}: {}: {}", file.string(), what, std::strerror(errno))};
}

}  // namespace

std::string read_file(const std::filesystem::path& file) {
    const FileHandle handle(std::fopen(file.c_str(), "rb"));
    if (!handle) fail("cannot be opened", file);
    constexpr std::size_t block = 1U << 16U;  // where the size is not known beforehand
    std::error_code unknown;
    const std::uintmax_t size = std::filesystem::file_size(file, unknown);
    std::string bytes(unknown ? block : static_cast<std::size_t>(size) + 1, '\0');  // one more, to see the end
    std::size_t filled = 0;
    while (const std::size_t count = std::fread(bytes.data() + filled, 1, bytes.size() - filled, handle.get())) {
        filled += count;
        if (filled == bytes.size()) bytes.resize(filled + block);
    }
    if (std::ferror(handle.get()) != 0) fail("cannot be read", file);
    bytes.resize(filled);
    return bytes;
}

void write_file(const std::filesystem::path& file, std::string_view bytes) {
    const std::filesystem::path beside = file.string() + ".part";
    FileHandle handle(std::fopen(beside.c_str(), "wb"));
    if (!handle) fail("cannot be written", file);
    const bool written = std::fwrite(bytes.data(), 1, bytes.size(), handle.get()) == bytes.size();
    const bool flushed = written && std::fflush(handle.get()) == 0;
    const bool closed = std::fclose(handle.release()) == 0;
    if (!flushed || !closed) {
        std::error_code ignored;
        std::filesystem::remove(beside, ignored);
        fail("cannot be written", file);
    }
    std::error_code failed;
    std::filesystem::rename(beside, file, failed);
    if (failed) throw MachineError{fmt::format("{}: cannot be renamed into place: {}", file.string(), failed.message())};
}

std::string sha256_hex(std::string_view bytes) {
    sha256_ctx context;
    sha256_init(&context);
    sha256_update(&context, bytes.size(), reinterpret_cast<const std::uint8_t*>(bytes.data()));
    std::array<std::uint8_t, SHA256_DIGEST_SIZE> digest{};
    sha256_digest(&context, digest.size(), digest.data());
    std::string hex;
    for (const std::uint8_t byte : digest) hex += fmt::format("{:02x}", byte);
    return hex;
}

}  // namespace selvage::base
