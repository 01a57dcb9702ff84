#include "settings/style_files.h"

#include "base/file.h"
#include "base/text.h"
#include "settings/setting_checks.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <optional>
#include <set>
#include <system_error>
#include <utility>

namespace selvage::settings {

namespace {

namespace fs = std::filesystem;

// The folders of styles that come with the program: beside the installed program, then where it was built from.
std::vector<fs::path> style_folders() {
    std::vector<fs::path> folders;
    std::error_code error;
    const fs::path program = fs::read_symlink("/proc/self/exe", error);
    if (!error) folders.push_back(program.parent_path().parent_path() / "share" / "selvage" / "styles");
    folders.emplace_back(SELVAGE_STYLES_FOLDER);
    return folders;
}

// `beside`: the folder from which a file is looked for.
std::optional<fs::path> file_of(const std::string& name_or_file, const fs::path& beside) {
    std::error_code error;
    if (name_or_file.find('/') == std::string::npos)
        for (const fs::path& folder : style_folders())
            if (const fs::path file = folder / (name_or_file + ".toml"); fs::is_regular_file(file, error)) return file;
    if (const fs::path file = beside / name_or_file; fs::is_regular_file(file, error)) return file;
    return std::nullopt;
}

std::vector<std::string> known_styles() {
    std::set<std::string> names;
    std::error_code error;
    for (const fs::path& folder : style_folders())
        for (const auto& entry : fs::directory_iterator(folder, error))
            if (entry.path().extension() == ".toml") names.insert(entry.path().stem().string());
    return {names.begin(), names.end()};
}

// The file that asks for another, and where.
struct Asked {
    std::string file;
    std::size_t line = 0;
};

base::Finding found(const base::Check& check, const Asked& by, std::string message) {
    return {&check, {"style", by.file, by.line}, "", std::move(message)};
}

std::string there_is_none(const std::string& name_or_file) {
    const std::vector<std::string> known = known_styles();
    return fmt::format("no style \"{}\"; known are {}{}", name_or_file, fmt::join(known, ", "), guess(name_or_file, known));
}

bool stands_among(const std::vector<StyleLayer>& layers, const fs::path& file) {
    std::error_code error;
    return std::any_of(layers.begin(), layers.end(),
                       [&](const StyleLayer& layer) { return fs::equivalent(layer.file, file, error); });
}

}  // namespace

std::string guess(const std::string& typed, const std::vector<std::string>& known) {
    const auto nearest = base::nearest_word(typed, known);
    return nearest ? fmt::format("; did you mean \"{}\"?", *nearest) : std::string();
}

base::Checked<std::vector<StyleLayer>> style_layers(const std::string& name_or_file) {
    std::vector<StyleLayer> layers;  // the style itself first
    std::optional<std::string> next = name_or_file;
    Asked by{name_or_file};
    fs::path beside;
    while (next) {
        const std::optional<fs::path> file = file_of(*next, beside);
        if (!file) return {{}, {found(wrong_value, by, there_is_none(*next))}};
        if (stands_among(layers, *file))
            return {{}, {found(wrong_value, by, fmt::format("\"from\" leads back to {}", file->string()))}};
        try {
            layers.push_back({file->string(), toml::parse(base::read_file(*file), file->string())});
        } catch (const toml::parse_error& error) {
            return {{}, {found(file_syntax, {file->string(), error.source().begin.line}, std::string(error.description()))}};
        }
        const toml::node* from = layers.back().top.get("from");
        next.reset();
        if (from == nullptr) continue;
        by = {file->string(), from->source().begin.line};
        beside = file->parent_path();
        next = from->value_exact<std::string>();
        if (!next || next->empty()) return {{}, {found(wrong_value, by, "\"from\" is not the name or file of a style")}};
    }
    std::reverse(layers.begin(), layers.end());
    return {std::move(layers), {}};
}

}  // namespace selvage::settings
