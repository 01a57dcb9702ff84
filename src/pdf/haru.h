#pragma once

#include <hpdf.h>

#include <deque>
#include <string>
#include <string_view>

// The doors through libharu: its objects with our own text in them, so that what its calls lack (layers, tiling patterns,
// viewports) can be written all the same. Only this room includes this header.
namespace selvage::pdf {

// The structs behind libharu's handles are used; their layout is that of this version.
static_assert(HPDF_VERSION_ID == 20300, "written for libharu 2.3.0");

class Haru {
public:
    // Throws base::MachineError where there is no memory.
    Haru();
    ~Haru();
    Haru(const Haru&) = delete;
    Haru& operator=(const Haru&) = delete;

    HPDF_Doc document() const { return document_; }

    // An indirect dictionary holding `text` as it stands, between << and >>.
    HPDF_Dict object(std::string text);
    // An indirect compressed stream with those entries.
    HPDF_Dict stream(const std::string& content, std::string entries);
    // "12 0 R"
    static std::string reference(HPDF_Dict object);

    // Throws base::MachineError, saying what was being done, if libharu has failed since the start: it goes dumb on the first
    // error, so one look before the end is enough.
    void check(const std::string& doing) const;
    // The whole document.
    std::string bytes();

private:
    const char* keep(std::string text);

    HPDF_Doc document_;
    std::deque<std::string> texts_;  // libharu writes them when saving
};

// A text string of PDF, UTF-16 in hexadecimal.
std::string text_string(std::string_view utf8);

}  // namespace selvage::pdf
