#include "output/write.h"

#include "base/file.h"
#include "output/swap_folders.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <system_error>

namespace selvage::output {

namespace {

namespace fs = std::filesystem;

// The folder's own name, without a dot, a link or a slash at its end; a link is followed to the folder that it names.
fs::path real_name(const fs::path& folder) {
    std::error_code failed;
    fs::path name = fs::weakly_canonical(fs::absolute(folder), failed);
    if (failed) throw base::MachineError{fmt::format("{}: cannot be found: {}", folder.string(), failed.message())};
    return name.filename().empty() ? name.parent_path() : name;
}

fs::path fresh_of(const fs::path& target) { return target.string() + ".selvage-new"; }

// The files that the record in a folder lists; none where there is no record that can be read.
std::set<std::string> listed_files(const fs::path& folder) {
    std::set<std::string> listed;
    std::error_code failed;
    if (!fs::is_regular_file(folder / "run.json", failed)) return listed;
    try {
        const base::JsonValue record = base::json_from(base::read_file(folder / "run.json"));
        const base::JsonValue* format = base::member(record, "format");
        const base::JsonValue* files = base::member(record, "files");
        if (format == nullptr || files == nullptr || !std::holds_alternative<base::JsonArray>(files->value)) return listed;
        for (const base::JsonValue& file : std::get<base::JsonArray>(files->value))
            if (const auto* name = std::get_if<std::string>(&file.value)) listed.insert(*name);
        listed.insert("run.json");
    } catch (const base::MachineError&) {
        listed.clear();  // unreadable: nothing in the folder is known to be ours
    }
    return listed;
}

void write_all(const fs::path& folder, const std::vector<PackFile>& files) {
    fs::create_directories(folder);
    for (const PackFile& file : files) {
        const fs::path path = folder / file.name;
        fs::create_directories(path.parent_path());
        base::write_file(path, file.bytes);
    }
}

}  // namespace

std::vector<std::string> foreign_files(const fs::path& folder) {
    std::error_code failed;
    const fs::file_status status = fs::status(folder, failed);
    if (!fs::exists(status)) return {};
    if (!fs::is_directory(status)) return {folder.filename().string()};
    const std::set<std::string> ours = listed_files(folder);
    std::vector<std::string> foreign;
    for (auto entry = fs::recursive_directory_iterator(folder, failed); !failed && entry != fs::recursive_directory_iterator();
         entry.increment(failed)) {
        if (entry->is_directory() && !entry->is_symlink()) continue;
        const std::string name = entry->path().lexically_relative(folder).generic_string();
        if (ours.count(name) == 0) foreign.push_back(name);
    }
    if (failed) throw base::MachineError{fmt::format("{}: cannot be listed: {}", folder.string(), failed.message())};
    std::sort(foreign.begin(), foreign.end());
    return foreign;
}

void replace_folder(const fs::path& folder, const std::vector<PackFile>& files) {
    const fs::path target = real_name(folder);
    const fs::path fresh = fresh_of(target);
    try {
        restore_aside(target);
        fs::remove_all(fresh);
        write_all(fresh, files);
        if (const std::vector<std::string> others = foreign_files(target); !others.empty())
            throw base::MachineError{fmt::format("{}: holds {}, which no earlier run wrote", folder.string(), others.front())};
        swap_folders(fresh, target, SwapWay::exchange);
    } catch (const fs::filesystem_error& error) {
        std::error_code ignored;
        fs::remove_all(fresh, ignored);
        throw base::MachineError{fmt::format("{}: the pack cannot be written: {}", folder.string(), error.code().message())};
    } catch (const base::MachineError&) {
        std::error_code ignored;
        fs::remove_all(fresh, ignored);
        throw;
    }
}

}  // namespace selvage::output
