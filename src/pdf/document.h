#pragma once

#include "drawing/sheet.h"
#include "drawing/text_width.h"

#include <array>
#include <memory>
#include <string>
#include <vector>

// Sheets to PDF bytes. This room alone knows libharu and fontconfig.
namespace selvage::pdf {

struct TrueTypeFace;

// The four faces of a family, found and read once, then shared.
struct Fonts {
    std::string family;  // that was found
    std::string regular_file, semibold_file, bold_file, italic_file;
    std::array<std::shared_ptr<const TrueTypeFace>, 4> faces;  // by drawing::FontFace; a face that the family lacks is another's
    drawing::FontMetrics metrics;
};

// Finds the family's TrueType files and reads their widths; where it is not installed, those of a family that is: Open Sans,
// DejaVu Sans, or the first one by name with the Latin letters. Throws base::MachineError where there is none.
Fonts find_fonts(const std::string& family);

struct DocumentInfo {
    std::string title;
    std::string subject;
    std::string date;  // ISO 8601 day for the creation date; empty: none is written
};

// One document of all sheets: a page and a bookmark each (under a heading where several of a kind follow each other), page
// labels, fonts embedded as subsets, layers by name, links between sheets, a measuring viewport for each window, print scaling
// off. The same sheets give the same bytes. Throws base::MachineError where the library fails.
std::string document_bytes(const std::vector<drawing::Sheet>& sheets, const Fonts& fonts, const DocumentInfo& info);

}  // namespace selvage::pdf
