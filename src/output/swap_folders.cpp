#include "output/swap_folders.h"

#include "base/file.h"

#include <fmt/format.h>

#include <fcntl.h>
#include <cstdio>
#include <string>
#include <system_error>

namespace selvage::output {

namespace {

namespace fs = std::filesystem;

[[noreturn]] void fail(const fs::path& target, const std::error_code& why) {
    throw base::MachineError{fmt::format("{}: the new pack cannot take its place: {}", target.string(), why.message())};
}

bool exchanged(const fs::path& a, const fs::path& b) {
    return renameat2(AT_FDCWD, a.c_str(), AT_FDCWD, b.c_str(), RENAME_EXCHANGE) == 0;
}

// What cannot be removed stays beside until the next run; the pack itself is whole.
void remove_if_possible(const fs::path& folder) {
    std::error_code ignored;
    fs::remove_all(folder, ignored);
}

void swap_by_two_renames(const fs::path& fresh, const fs::path& target) {
    const fs::path aside = aside_of(target);
    std::error_code failed;
    fs::rename(target, aside, failed);
    if (failed) fail(target, failed);
    fs::rename(fresh, target, failed);
    if (failed) {
        std::error_code ignored;
        fs::rename(aside, target, ignored);
        fail(target, failed);
    }
    remove_if_possible(aside);
}

}  // namespace

fs::path aside_of(const fs::path& target) { return target.string() + ".selvage-old"; }

void restore_aside(const fs::path& target) {
    std::error_code ignored;
    if (!fs::exists(aside_of(target), ignored)) return;
    if (fs::exists(target, ignored))
        remove_if_possible(aside_of(target));
    else
        fs::rename(aside_of(target), target, ignored);
}

void swap_folders(const fs::path& fresh, const fs::path& target, SwapWay way) {
    std::error_code failed;
    if (!fs::exists(target, failed)) {
        fs::rename(fresh, target, failed);
        if (failed) fail(target, failed);
    } else if (way == SwapWay::exchange && exchanged(fresh, target)) {
        remove_if_possible(fresh);  // it holds the old pack now
    } else {
        swap_by_two_renames(fresh, target);
    }
}

}  // namespace selvage::output
