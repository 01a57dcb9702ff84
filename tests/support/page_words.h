#pragma once

#include <filesystem>
#include <string>
#include <vector>

// What a reader sees of a PDF file, told by Debian's poppler-utils and qpdf.
namespace selvage {

struct PageWord {
    std::string text;
    double left = 0.0, top = 0.0, right = 0.0, bottom = 0.0;  // points, y down, from ascent to descent
};

struct PageText {
    double width = 0.0, height = 0.0;  // points
    std::vector<PageWord> words;
    std::string joined() const;  // without blanks
};

// The words of every page (pdftotext -bbox), those in several pieces joined as the program gives them.
std::vector<PageText> pages_of(const std::filesystem::path& pdf);

// What is wrong with a file's pages, a line each; empty if nothing is: pages without text, words on words, words within 3 mm of
// the edge, words under 6 points, fonts not embedded, not cut down to a subset or without a map to Unicode, and what qpdf --check
// says.
std::string faults_of_pages(const std::filesystem::path& pdf);

// A text without blanks, so that it can be looked for where it may have been broken into lines.
std::string without_blanks(const std::string& text);

}  // namespace selvage
