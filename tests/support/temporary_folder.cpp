#include "support/temporary_folder.h"

#include <unistd.h>

namespace selvage {

TemporaryFolder::TemporaryFolder(const std::string& name)
    : path_(std::filesystem::temp_directory_path() / ("selvage-" + name + "-" + std::to_string(::getpid()))) {
    std::filesystem::remove_all(path_);
    std::filesystem::create_directories(path_);
}

TemporaryFolder::~TemporaryFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
}

}  // namespace selvage
