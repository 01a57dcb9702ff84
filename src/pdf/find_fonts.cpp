#include "base/file.h"
#include "pdf/document.h"
#include "pdf/truetype.h"

#include <fontconfig/fontconfig.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdlib>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

namespace selvage::pdf {

namespace {

template <auto free>
struct FreeWith {
    template <typename T>
    void operator()(T* object) const {
        free(object);
    }
};
using Configuration = std::unique_ptr<FcConfig, FreeWith<FcConfigDestroy>>;
using FontPattern = std::unique_ptr<FcPattern, FreeWith<FcPatternDestroy>>;
using FontSet = std::unique_ptr<FcFontSet, FreeWith<FcFontSetDestroy>>;
using ObjectSet = std::unique_ptr<FcObjectSet, FreeWith<FcObjectSetDestroy>>;

int integer_of(const FcPattern* font, const char* what, int otherwise) {
    int value = otherwise;
    return FcPatternGetInteger(font, what, 0, &value) == FcResultMatch ? value : otherwise;
}

std::string file_of(const FcPattern* font) {
    FcChar8* file = nullptr;
    return FcPatternGetString(font, FC_FILE, 0, &file) == FcResultMatch ? reinterpret_cast<const char*>(file) : "";
}

// Every single TrueType file of the family; fontconfig's own choice would answer with some other family where it is missing.
FontSet files_of(FcConfig* configuration, const std::string& family) {
    FontPattern wanted(FcPatternCreate());
    FcPatternAddString(wanted.get(), FC_FAMILY, reinterpret_cast<const FcChar8*>(family.c_str()));
    FcPatternAddString(wanted.get(), FC_FONTFORMAT, reinterpret_cast<const FcChar8*>("TrueType"));
    FcPatternAddBool(wanted.get(), FC_VARIABLE, FcFalse);
    ObjectSet asked(FcObjectSetBuild(FC_FILE, FC_WEIGHT, FC_SLANT, FC_WIDTH, FC_INDEX, static_cast<char*>(nullptr)));
    return FontSet(FcFontList(configuration, wanted.get(), asked.get()));
}

// The file nearest to a weight, of normal width, upright or slanting as asked; ties by the file's name.
std::string nearest_file(const FcFontSet& fonts, int weight, int slant) {
    std::optional<std::tuple<int, std::string>> best;
    for (int i = 0; i < fonts.nfont; ++i) {
        const FcPattern* font = fonts.fonts[i];
        const std::string file = file_of(font);
        const bool collection = integer_of(font, FC_INDEX, 0) != 0 || (file.size() > 4 && file.substr(file.size() - 4) == ".ttc");
        if (collection || integer_of(font, FC_WIDTH, FC_WIDTH_NORMAL) != FC_WIDTH_NORMAL ||
            integer_of(font, FC_SLANT, FC_SLANT_ROMAN) != slant)
            continue;
        const std::tuple<int, std::string> found{std::abs(integer_of(font, FC_WEIGHT, FC_WEIGHT_REGULAR) - weight), file};
        if (!best || found < *best) best = found;
    }
    return best ? std::get<1>(*best) : "";
}

// Names of the families that have the letters of English, sorted.
std::vector<std::string> families_with_latin(FcConfig* configuration) {
    FontPattern wanted(FcPatternCreate());
    FcPatternAddString(wanted.get(), FC_LANG, reinterpret_cast<const FcChar8*>("en"));
    ObjectSet asked(FcObjectSetBuild(FC_FAMILY, static_cast<char*>(nullptr)));
    const FontSet found(FcFontList(configuration, wanted.get(), asked.get()));
    std::set<std::string> names;
    for (int i = 0; found && i < found->nfont; ++i) {
        FcChar8* name = nullptr;
        if (FcPatternGetString(found->fonts[i], FC_FAMILY, 0, &name) == FcResultMatch)
            names.insert(reinterpret_cast<const char*>(name));
    }
    return {names.begin(), names.end()};
}

// The advance of every character that the face has, thousandths of the size.
std::vector<int> advances_of(const TrueTypeFace& face) {
    std::vector<int> advances(face.glyphs.size(), 0);
    for (std::size_t code = 0x20; code < face.glyphs.size(); ++code)
        if (face.glyphs[code] != 0) advances[code] = face.advances[face.glyphs[code]];
    return advances;
}

}  // namespace

Fonts find_fonts(const std::string& family) {
    const Configuration configuration(FcInitLoadConfigAndFonts());
    if (!configuration) throw base::MachineError{"fontconfig could not be started"};
    std::vector<std::string> tried{family, "Open Sans", "DejaVu Sans"};
    for (std::string& other : families_with_latin(configuration.get())) tried.push_back(std::move(other));
    FontSet files;
    Fonts fonts;
    for (const std::string& one : tried) {
        files = files_of(configuration.get(), one);
        fonts.family = one;
        fonts.regular_file = files ? nearest_file(*files, FC_WEIGHT_REGULAR, FC_SLANT_ROMAN) : "";
        if (!fonts.regular_file.empty()) break;
    }
    if (fonts.regular_file.empty())
        throw base::MachineError{"neither the font family \"" + family + "\" nor any other is installed as TrueType files"};
    fonts.semibold_file = nearest_file(*files, FC_WEIGHT_DEMIBOLD, FC_SLANT_ROMAN);
    fonts.bold_file = nearest_file(*files, FC_WEIGHT_BOLD, FC_SLANT_ROMAN);
    const std::string italic = nearest_file(*files, FC_WEIGHT_REGULAR, FC_SLANT_ITALIC);
    fonts.italic_file = italic.empty() ? fonts.regular_file : italic;

    const std::array<std::string, 4> face_files{fonts.regular_file, fonts.semibold_file, fonts.bold_file, fonts.italic_file};
    for (std::size_t face = 0; face < face_files.size(); ++face) {
        const auto same = std::find(face_files.begin(), face_files.begin() + static_cast<std::ptrdiff_t>(face), face_files[face]);
        const auto earlier = static_cast<std::size_t>(same - face_files.begin());
        fonts.faces[face] =
            earlier < face ? fonts.faces[earlier] : std::make_shared<const TrueTypeFace>(read_face(face_files[face]));
        fonts.metrics.advances[face] = advances_of(*fonts.faces[face]);
        if (fonts.metrics.advances[face]['?'] <= 0)
            throw base::MachineError{"the font " + face_files[face] + " lacks the Latin letters"};
    }
    const TrueTypeFace& regular = *fonts.faces[0];
    if (regular.cap_height > 0) fonts.metrics.cap_height = regular.cap_height / 1000.0;
    if (const int lowest = lowest_ink(regular, regular.glyphs['p']); lowest < 0) fonts.metrics.descent = -lowest / 1000.0;
    return fonts;
}

}  // namespace selvage::pdf
