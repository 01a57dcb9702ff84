#include "pdf/truetype.h"

#include "base/file.h"
#include "pdf/document.h"

#include <gtest/gtest.h>

#include <filesystem>

namespace selvage::pdf {
namespace {

const TrueTypeFace& regular() {
    static const TrueTypeFace face = read_face(find_fonts("Open Sans").regular_file);
    return face;
}

// A file in the folder of temporary files, removed at the end.
class TemporaryFile {
public:
    TemporaryFile(const std::string& name, const std::string& bytes) : path_(std::filesystem::temp_directory_path() / name) {
        base::write_file(path_, bytes);
    }
    ~TemporaryFile() { std::filesystem::remove(path_); }
    TemporaryFile(const TemporaryFile&) = delete;
    TemporaryFile& operator=(const TemporaryFile&) = delete;
    std::string name() const { return path_.string(); }

private:
    std::filesystem::path path_;
};

// Ascender 2189, descender -600, unitsPerEm 2048 (tables hhea and head of Debian's fonts-open-sans, read with a few lines of
// Python).
TEST(TrueType, FiguresAreThoseOfTheTables) {
    EXPECT_EQ(regular().units_per_em, 2048u);
    EXPECT_EQ(regular().ascent, 1069);
    EXPECT_EQ(regular().descent, -293);
    EXPECT_EQ(regular().name, "OpenSans-Regular");
    EXPECT_EQ(regular().weight, 400u);
    EXPECT_NE(regular().glyphs['A'], regular().glyphs['B']);
    EXPECT_EQ(regular().glyphs[0x2192], 0);
    EXPECT_LT(lowest_ink(regular(), regular().glyphs['p']), -200);
    EXPECT_EQ(lowest_ink(regular(), regular().glyphs['H']), 0);
}

// The subset has no table of characters: it is read back with that of the whole file put in again.
TEST(TrueType, ASubsetHoldsItsGlyphsWithTheirPartsAndNoOthers) {
    const std::uint16_t accented = regular().glyphs[0xe9], plain = regular().glyphs['e'], other = regular().glyphs['W'];
    const std::string bytes = subset_file(regular(), {accented});
    EXPECT_LT(bytes.size(), 40000u);
    // "glyf" by the directory, and the offsets of "loca", long ones.
    const auto u32 = [&](std::size_t at) {
        std::size_t value = 0;
        for (std::size_t i = 0; i < 4; ++i) value = value << 8U | static_cast<unsigned char>(bytes[at + i]);
        return value;
    };
    std::size_t loca = 0;
    for (std::size_t record = 12; record < 12 + 16 * 10; record += 16)
        if (bytes.substr(record, 4) == "loca") loca = u32(record + 8);
    ASSERT_GT(loca, 0u);
    const auto size_of_glyph = [&](std::uint16_t glyph) { return u32(loca + 4U * glyph + 4U) - u32(loca + 4U * glyph); };
    EXPECT_GT(size_of_glyph(accented), 0u);
    EXPECT_GT(size_of_glyph(plain), 0u);  // é is made of e and an accent
    EXPECT_EQ(size_of_glyph(other), 0u);
    EXPECT_GT(size_of_glyph(0), 0u);
}

TEST(TrueType, ABrokenFileIsRefusedAndNamed) {
    const std::string whole = base::read_file(find_fonts("Open Sans").regular_file);
    for (const std::size_t length : {std::size_t{0}, std::size_t{3}, std::size_t{100}, whole.size() / 2, whole.size() - 5000}) {
        const TemporaryFile cut("selvage_cut_font.ttf", whole.substr(0, length));
        try {
            read_face(cut.name());
            ADD_FAILURE() << length;
        } catch (const base::MachineError& error) {
            EXPECT_NE(error.message.find("selvage_cut_font.ttf"), std::string::npos);
        }
    }
    const TemporaryFile text("selvage_no_font.ttf", std::string(1000, 'x'));
    EXPECT_THROW(read_face(text.name()), base::MachineError);
}

}  // namespace
}  // namespace selvage::pdf
