#include "pdf/truetype.h"

#include "base/file.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <filesystem>
#include <string_view>

namespace selvage::pdf {

namespace {

// Big-endian figures within some bytes; reading past their end is the file's fault.
class Reader {
public:
    Reader(std::string_view bytes, const std::string& file) : bytes_(bytes), file_(file) {}

    unsigned u16(std::size_t at) const { return byte(at) << 8U | byte(at + 1); }
    int i16(std::size_t at) const { return static_cast<std::int16_t>(u16(at)); }
    std::uint32_t u32(std::size_t at) const { return static_cast<std::uint32_t>(u16(at)) << 16U | u16(at + 2); }
    std::string_view part(std::size_t from, std::size_t length) const {
        if (from > bytes_.size() || length > bytes_.size() - from) broken();
        return bytes_.substr(from, length);
    }
    [[noreturn]] void broken() const { throw base::MachineError{"the font file " + file_ + " is no whole TrueType file"}; }

private:
    unsigned byte(std::size_t at) const {
        if (at >= bytes_.size()) broken();
        return static_cast<unsigned char>(bytes_[at]);
    }

    std::string_view bytes_;
    const std::string& file_;
};

std::map<std::string, std::string> tables_of(const Reader& file) {
    constexpr std::size_t directory = 12, record = 16;
    std::map<std::string, std::string> tables;
    const unsigned count = file.u16(4);
    for (unsigned i = 0; i < count; ++i) {
        const std::size_t at = directory + record * i;
        tables[std::string(file.part(at, 4))] = std::string(file.part(file.u32(at + 8), file.u32(at + 12)));
    }
    return tables;
}

// "cmap", format 4: segments of codes with a shift to their glyphs, or a list of these.
void read_segments(const Reader& cmap, std::size_t table, std::vector<std::uint16_t>& glyphs) {
    const std::size_t twice = cmap.u16(table + 6);
    const std::size_t ends = table + 14, starts = ends + twice + 2, shifts = starts + twice, offsets = shifts + twice;
    for (std::size_t segment = 0; segment < twice; segment += 2) {
        const unsigned end = cmap.u16(ends + segment), start = cmap.u16(starts + segment);
        const unsigned shift = cmap.u16(shifts + segment), offset = cmap.u16(offsets + segment);
        for (unsigned code = start; code <= end && code < 0xffffU; ++code) {
            unsigned glyph = code;
            if (offset != 0) glyph = cmap.u16(offsets + segment + offset + 2U * (code - start));
            if (offset == 0 || glyph != 0) glyph = (glyph + shift) & 0xffffU;
            glyphs[code] = static_cast<std::uint16_t>(glyph);
        }
    }
}

std::vector<std::uint16_t> glyphs_by_code(const Reader& cmap) {
    std::vector<std::uint16_t> glyphs(0x10000U, 0);
    const unsigned count = cmap.u16(2);
    for (unsigned i = 0; i < count; ++i) {
        const std::size_t record = 4 + 8U * i;
        const unsigned platform = cmap.u16(record), encoding = cmap.u16(record + 2);
        const std::size_t table = cmap.u32(record + 4);
        const bool unicode = platform == 0 || (platform == 3 && encoding == 1);
        if (!unicode || cmap.u16(table) != 4) continue;
        read_segments(cmap, table, glyphs);
        return glyphs;
    }
    cmap.broken();
}

class FaceReader {
public:
    FaceReader(TrueTypeFace& face, const std::string& file) : face_(face), file_(file) {}

    void read(const std::string& bytes) {
        constexpr std::uint32_t true_type = 0x00010000U;
        const Reader whole(bytes, file_);
        if (whole.u32(0) != true_type) whole.broken();
        face_.tables = tables_of(whole);
        read_head();
        read_widths();
        face_.glyphs = glyphs_by_code(table("cmap"));
        for (std::uint16_t& glyph : face_.glyphs)
            if (glyph >= face_.glyph_count) glyph = 0;
        read_outlines();
        read_style();
    }

private:
    Reader table(const std::string& tag) const {
        const auto at = face_.tables.find(tag);
        if (at == face_.tables.end()) Reader({}, file_).broken();
        return {at->second, file_};
    }

    int thousandths(int units) const {
        return static_cast<int>(std::lround(1000.0 * units / static_cast<double>(face_.units_per_em)));
    }

    void read_head() {
        const Reader head = table("head");
        face_.units_per_em = std::max(head.u16(18), 1U);
        for (std::size_t i = 0; i < 4; ++i) face_.bounds[i] = thousandths(head.i16(36 + 2 * i));
        long_offsets_ = head.i16(50) != 0;
        face_.glyph_count = table("maxp").u16(4);
    }

    void read_widths() {
        const Reader hhea = table("hhea"), hmtx = table("hmtx");
        face_.ascent = thousandths(hhea.i16(4));
        face_.descent = thousandths(hhea.i16(6));
        const unsigned given = hhea.u16(34);  // glyphs after the last one given are as wide as it
        if (given == 0) hhea.broken();
        for (unsigned glyph = 0; glyph < face_.glyph_count; ++glyph)
            face_.advances.push_back(thousandths(static_cast<int>(hmtx.u16(4U * std::min(glyph, given - 1)))));
    }

    void read_outlines() {
        const Reader loca = table("loca");
        const std::size_t size = face_.tables.at("glyf").size();
        for (std::size_t glyph = 0; glyph <= face_.glyph_count; ++glyph) {
            const std::size_t start = long_offsets_ ? loca.u32(4 * glyph) : 2U * loca.u16(2 * glyph);
            if (start > size || (!face_.outlines.empty() && start < face_.outlines.back())) loca.broken();
            face_.outlines.push_back(start);
        }
    }

    void read_style() {
        constexpr unsigned not_to_be_embedded = 0x0002U;
        const Reader os2 = table("OS/2");
        face_.weight = os2.u16(4);
        if ((os2.u16(8) & not_to_be_embedded) != 0)
            throw base::MachineError{"the font " + file_ + " may not be embedded by its licence"};
        face_.cap_height = os2.u16(0) >= 2 ? thousandths(os2.i16(88)) : 0;
        face_.italic_angle = static_cast<double>(static_cast<std::int32_t>(table("post").u32(4))) / 65536.0;
    }

    TrueTypeFace& face_;
    const std::string& file_;
    bool long_offsets_ = false;
};

std::string_view outline_of(const TrueTypeFace& face, std::uint16_t glyph) {
    return std::string_view(face.tables.at("glyf"))
        .substr(face.outlines[glyph], face.outlines[glyph + 1U] - face.outlines[glyph]);
}

// The glyphs that a composite one is made of ("glyf", composite glyph description).
std::vector<std::uint16_t> parts_of(const TrueTypeFace& face, std::uint16_t glyph) {
    constexpr unsigned words = 0x0001U, one_scale = 0x0008U, more = 0x0020U, two_scales = 0x0040U, matrix = 0x0080U;
    const Reader outline(outline_of(face, glyph), face.name);
    std::vector<std::uint16_t> parts;
    if (outline_of(face, glyph).empty() || outline.i16(0) >= 0) return parts;
    std::size_t at = 10;
    for (unsigned flags = more; (flags & more) != 0;) {
        flags = outline.u16(at);
        if (const unsigned part = outline.u16(at + 2); part < face.glyph_count) parts.push_back(static_cast<std::uint16_t>(part));
        at += 4 + ((flags & words) != 0 ? 4U : 2U);
        at += (flags & one_scale) != 0 ? 2U : (flags & two_scales) != 0 ? 4U : (flags & matrix) != 0 ? 8U : 0U;
    }
    return parts;
}

std::set<std::uint16_t> with_parts(const TrueTypeFace& face, const std::set<std::uint16_t>& wanted) {
    std::set<std::uint16_t> all;
    std::vector<std::uint16_t> open(wanted.begin(), wanted.end());
    open.push_back(0);  // the sign for a missing character must be there
    while (!open.empty()) {
        const std::uint16_t glyph = open.back();
        open.pop_back();
        if (!all.insert(glyph).second) continue;
        for (const std::uint16_t part : parts_of(face, glyph)) open.push_back(part);
    }
    return all;
}

void append_u16(std::string& out, std::size_t value) {
    out += static_cast<char>((value >> 8U) & 0xffU);
    out += static_cast<char>(value & 0xffU);
}
void append_u32(std::string& out, std::size_t value) {
    append_u16(out, value >> 16U);
    append_u16(out, value);
}

std::uint32_t checksum(const std::string& padded) {
    std::uint32_t sum = 0;
    for (std::size_t i = 0; i + 3 < padded.size(); i += 4)
        for (std::size_t k = 0; k < 4; ++k)
            sum += static_cast<std::uint32_t>(static_cast<unsigned char>(padded[i + k])) << (24U - 8U * k);
    return sum;
}

std::string file_of(const std::map<std::string, std::string>& tables) {
    std::string directory, content;
    append_u32(directory, 0x00010000U);
    std::size_t power = 1, exponent = 0;
    for (; 2 * power <= tables.size(); power *= 2) ++exponent;
    append_u16(directory, tables.size());
    append_u16(directory, 16 * power);
    append_u16(directory, exponent);
    append_u16(directory, 16 * (tables.size() - power));
    const std::size_t start = 12 + 16 * tables.size();
    for (const auto& [tag, bytes] : tables) {
        std::string padded = bytes;
        padded.resize((padded.size() + 3) / 4 * 4, '\0');
        directory += tag;
        append_u32(directory, checksum(padded));
        append_u32(directory, start + content.size());
        append_u32(directory, bytes.size());
        content += padded;
    }
    return directory + content;
}

}  // namespace

TrueTypeFace read_face(const std::string& file) {
    TrueTypeFace face;
    face.name = std::filesystem::path(file).stem().string();
    face.name.erase(std::remove_if(face.name.begin(), face.name.end(),
                                   [](unsigned char c) { return !(c == '-' || (c < 0x80U && std::isalnum(c) != 0)); }),
                    face.name.end());
    FaceReader(face, file).read(base::read_file(file));
    return face;
}

int lowest_ink(const TrueTypeFace& face, std::uint16_t glyph) {
    const std::string_view outline = outline_of(face, glyph);
    if (outline.empty()) return 0;
    return static_cast<int>(std::lround(1000.0 * Reader(outline, face.name).i16(4) / static_cast<double>(face.units_per_em)));
}

std::string subset_file(const TrueTypeFace& face, const std::set<std::uint16_t>& glyphs) {
    const std::set<std::uint16_t> kept = with_parts(face, glyphs);
    std::string outlines, locations;
    for (std::size_t glyph = 0; glyph <= face.glyph_count; ++glyph) {
        append_u32(locations, outlines.size());
        if (glyph == face.glyph_count || kept.count(static_cast<std::uint16_t>(glyph)) == 0) continue;
        outlines += outline_of(face, static_cast<std::uint16_t>(glyph));
        outlines.resize((outlines.size() + 3) / 4 * 4, '\0');
    }
    std::map<std::string, std::string> tables;
    for (const char* tag : {"cvt ", "fpgm", "head", "hhea", "hmtx", "maxp", "prep"})
        if (const auto at = face.tables.find(tag); at != face.tables.end()) tables[tag] = at->second;
    tables["glyf"] = outlines;
    tables["loca"] = locations;
    std::string& head = tables["head"];
    head[50] = '\0';  // long offsets in "loca"
    head[51] = '\1';
    return file_of(tables);
}

}  // namespace selvage::pdf
