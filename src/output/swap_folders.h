#pragma once

#include <filesystem>

namespace selvage::output {

// How one folder takes another's place.
enum class SwapWay {
    exchange,     // one rename that exchanges the two, where the file system can; else as two_renames
    two_renames,  // the old one steps aside, the new one takes its name; the old one steps back if that fails
};

// Puts the folder `fresh` in the place of `target` (a folder, or nothing yet) and removes what stood there. Throws
// base::MachineError; then `target` is as it was.
void swap_folders(const std::filesystem::path& fresh, const std::filesystem::path& target, SwapWay way);

// Where `target` steps aside to for the moment between two renames. A run that was killed in that moment left the old pack there:
// `restore_aside` puts it back.
std::filesystem::path aside_of(const std::filesystem::path& target);
void restore_aside(const std::filesystem::path& target);

}  // namespace selvage::output
