#include "support/page_words.h"

#include "support/program.h"

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <sstream>

namespace selvage {

namespace {

constexpr double points_per_mm = 72.0 / 25.4;

std::string quoted(const std::filesystem::path& file) { return "'" + file.string() + "'"; }

double attribute(const std::string& line, const std::string& name) {
    const std::size_t at = line.find(name + "=\"");
    return at == std::string::npos ? 0.0 : std::strtod(line.c_str() + at + name.size() + 2, nullptr);
}

std::string plain(std::string text) {
    const std::pair<const char*, const char*> entities[] = {
        {"&lt;", "<"}, {"&gt;", ">"}, {"&quot;", "\""}, {"&#39;", "'"}, {"&amp;", "&"}};
    for (const auto& [entity, letter] : entities)
        for (std::size_t at = text.find(entity); at != std::string::npos; at = text.find(entity, at + 1))
            text.replace(at, std::string(entity).size(), letter);
    return text;
}

// Ascent and descent reach past the ink of most letters: a fifth of the type's height is taken off on every side.
PageWord ink_of(PageWord word) {
    const double by = 0.2 * std::min(word.right - word.left, word.bottom - word.top);
    word.left += by;
    word.right -= by;
    word.top += by;
    word.bottom -= by;
    return word;
}

std::string faults_of_words(const PageText& page, const std::string& where) {
    std::string said;
    if (page.words.empty()) return where + "no text\n";
    std::vector<PageWord> words;
    for (const PageWord& word : page.words) words.push_back(ink_of(word));
    std::stable_sort(words.begin(), words.end(), [](const PageWord& a, const PageWord& b) { return a.left < b.left; });
    const double edge = 3.0 * points_per_mm, least = 0.1 * points_per_mm;
    for (std::size_t i = 0; i < words.size(); ++i) {
        const PageWord& a = words[i];
        if (a.left < edge || a.top < edge || a.right > page.width - edge || a.bottom > page.height - edge)
            said += where + "\"" + a.text + "\" at the edge\n";
        for (std::size_t j = i + 1; j < words.size() && words[j].left < a.right - least; ++j) {
            const PageWord& b = words[j];
            if (std::min(a.right, b.right) - b.left > least && std::min(a.bottom, b.bottom) - std::max(a.top, b.top) > least)
                said += where + "\"" + a.text + "\" on \"" + b.text + "\"\n";
        }
    }
    return said;
}

std::string faults_of_fonts(const std::filesystem::path& pdf) {
    std::istringstream lines(run_program("pdffonts", quoted(pdf)).output);
    std::string line, said;
    int fonts = -2;  // two lines of heads
    while (std::getline(lines, line)) {
        if (++fonts <= 0) continue;
        // "... emb sub uni object ID"
        std::istringstream cells(line);
        std::vector<std::string> words;
        for (std::string word; cells >> word;) words.push_back(word);
        const std::size_t count = words.size();
        if (count < 5 || words[count - 5] != "yes" || words[count - 4] != "yes" || words[count - 3] != "yes")
            said += "font: " + line + "\n";
    }
    return fonts < 1 ? said + "no font\n" : said;
}

}  // namespace

std::string without_blanks(const std::string& text) {
    std::string out;
    for (const char c : text)
        if (c != ' ' && c != '\n' && c != '\t') out += c;
    return out;
}

std::string PageText::joined() const {
    std::string all;
    for (const PageWord& word : words) all += word.text;
    return all;
}

std::vector<PageText> pages_of(const std::filesystem::path& pdf) {
    std::istringstream lines(run_program("pdftotext", "-bbox " + quoted(pdf) + " -").output);
    std::vector<PageText> pages;
    for (std::string line; std::getline(lines, line);) {
        if (line.find("<page ") != std::string::npos) pages.push_back({attribute(line, "width"), attribute(line, "height"), {}});
        const std::size_t word = line.find("<word "), end = line.rfind("</word>");
        if (word == std::string::npos || end == std::string::npos || pages.empty()) continue;
        const std::size_t start = line.find('>', word) + 1;
        pages.back().words.push_back({plain(line.substr(start, end - start)), attribute(line, "xMin"), attribute(line, "yMin"),
                                      attribute(line, "xMax"), attribute(line, "yMax")});
    }
    return pages;
}

std::string faults_of_pages(const std::filesystem::path& pdf) {
    std::string said;
    const std::vector<PageText> pages = pages_of(pdf);
    if (pages.empty()) return "no page can be read\n";
    for (std::size_t i = 0; i < pages.size(); ++i) said += faults_of_words(pages[i], "page " + std::to_string(i + 1) + ": ");
    said += faults_of_fonts(pdf);
    const ProgramRun check = run_program("qpdf", "--check " + quoted(pdf));
    if (check.status != 0) said += check.output;
    return said;
}

}  // namespace selvage
