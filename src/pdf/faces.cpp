#include "pdf/faces.h"

#include "base/text.h"
#include "pdf/truetype.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <vector>

namespace selvage::pdf {

namespace {

// A map from the codes in the text (UTF-16) to Unicode, which is the same (9.10.3).
std::string unicode_map(const std::set<unsigned>& codes) {
    constexpr std::size_t most_in_a_block = 100;
    std::string map =
        "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
        "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n"
        "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n";
    const std::vector<unsigned> all(codes.begin(), codes.end());
    for (std::size_t from = 0; from < all.size(); from += most_in_a_block) {
        const std::size_t to = std::min(all.size(), from + most_in_a_block);
        map += fmt::format("{} beginbfchar\n", to - from);
        for (std::size_t i = from; i < to; ++i) map += fmt::format("<{0:04X}> <{0:04X}>\n", all[i]);
        map += "endbfchar\n";
    }
    return map + "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n";
}

// Two bytes a code: its glyph. Up to the highest code used.
std::string glyph_map(const TrueTypeFace& face, const std::set<unsigned>& codes) {
    std::string map(2U * (*codes.rbegin() + 1U), '\0');
    for (const unsigned code : codes) {
        map[2U * code] = static_cast<char>(face.glyphs[code] >> 8U);
        map[2U * code + 1U] = static_cast<char>(face.glyphs[code] & 0xffU);
    }
    return map;
}

std::string widths(const TrueTypeFace& face, const std::set<unsigned>& codes) {
    std::string all;
    for (const unsigned code : codes) all += fmt::format("{} [{}]\n", code, face.advances[face.glyphs[code]]);
    return all;
}

std::string descriptor(const TrueTypeFace& face, const std::string& name, const std::string& file) {
    constexpr unsigned nonsymbolic = 32, italic = 64;
    // No program needs the true width of the stems; this is a usual guess from the weight. From memory.
    const unsigned stem = 50 + face.weight * face.weight / 4225;
    return fmt::format(
        "/Type /FontDescriptor /FontName /{} /Flags {} /FontBBox [{} {} {} {}] /ItalicAngle {} /Ascent {} /Descent {} /CapHeight "
        "{} "
        "/StemV {} /FontFile2 {}",
        name, nonsymbolic + (face.italic_angle != 0.0 ? italic : 0), face.bounds[0], face.bounds[1], face.bounds[2],
        face.bounds[3], base::significant(face.italic_angle, 4), face.ascent, face.descent, face.cap_height, stem, file);
}

// A composite font (ISO 32000-1, 9.7): the codes in the text are UTF-16, mapped to glyphs by a table.
HPDF_Dict add_face(Haru& haru, const TrueTypeFace& face, std::size_t number, const std::set<unsigned>& codes) {
    std::set<std::uint16_t> glyphs;
    for (const unsigned code : codes) glyphs.insert(face.glyphs[code]);
    const std::string file_bytes = subset_file(face, glyphs);
    const HPDF_Dict file = haru.stream(file_bytes, fmt::format("/Length1 {}", file_bytes.size()));
    // A subset's name starts with a tag of six capitals (9.6.4), another for each face of the document.
    const std::string name = fmt::format("SUBSE{}+{}", static_cast<char>('A' + number), face.name);
    const HPDF_Dict described = haru.object(descriptor(face, name, Haru::reference(file)));
    const HPDF_Dict map = haru.stream(glyph_map(face, codes), "");
    const HPDF_Dict glyph_font = haru.object(fmt::format(
        "/Type /Font /Subtype /CIDFontType2 /BaseFont /{} /CIDSystemInfo << /Registry (Adobe) /Ordering (Identity) /Supplement 0 "
        ">>\n/FontDescriptor {} /CIDToGIDMap {} /DW 0 /W [{}]",
        name, Haru::reference(described), Haru::reference(map), widths(face, codes)));
    const HPDF_Dict unicode = haru.stream(unicode_map(codes), "");
    return haru.object(
        fmt::format("/Type /Font /Subtype /Type0 /BaseFont /{} /Encoding /Identity-H /DescendantFonts [{}] /ToUnicode {}", name,
                    Haru::reference(glyph_font), Haru::reference(unicode)));
}

}  // namespace

std::string add_faces(Haru& haru, const Fonts& fonts, const std::array<std::set<unsigned>, 4>& codes) {
    std::string entries;
    for (std::size_t number = 0; number < codes.size(); ++number)
        if (!codes[number].empty())
            entries +=
                fmt::format("/F{} {}\n", number, Haru::reference(add_face(haru, *fonts.faces[number], number, codes[number])));
    return entries;
}

}  // namespace selvage::pdf
