#include "sheets/side_list.h"

#include <algorithm>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double most_indent = 24.0, strong_gap = 2.0;  // mm

}  // namespace

std::vector<SideLine> set_side_list(const std::vector<std::string>& lines, double width, const Tools& tools) {
    const drawing::TextLook& strong = tools.style.text("body_strong");
    double indent = tools.style.size_mm("column_indent");
    for (const std::string& line : lines)
        if (const std::size_t tab = line.find('\t'); tab != std::string::npos)
            indent = std::max(indent, drawing::text_width_mm(tools.fonts, strong, line.substr(0, tab)) + strong_gap);
    indent = std::min(indent, most_indent);
    std::vector<SideLine> all;
    for (const std::string& line : lines) {
        const std::size_t tab = line.find('\t');
        SideLine set;
        std::string rest = tab == std::string::npos ? line : line.substr(tab + 1);
        if (tab != std::string::npos) {
            // A name too long for its column runs on into its words: nobody's name is cut.
            set.strong = line.substr(0, tab);
            set.indent = indent;
            if (drawing::text_width_mm(tools.fonts, strong, set.strong) > indent) {
                rest = set.strong + "  " + rest;
                set.strong.clear();
            }
        }
        set.rest = drawing::wrapped(tools.fonts, tools.style.text("body"), rest, width - set.indent);
        all.push_back(std::move(set));
    }
    return all;
}

std::vector<std::string> listed_lines(std::vector<ListedLabel> labels) {
    std::stable_sort(labels.begin(), labels.end(), [](const ListedLabel& a, const ListedLabel& b) {
        return a.number != 0 && (b.number == 0 || a.number < b.number);
    });
    std::vector<std::string> lines;
    for (ListedLabel& label : labels)
        if (!label.words.empty())
            lines.push_back(label.number == 0 ? std::move(label.words) : std::to_string(label.number) + "\t" + label.words);
    return lines;
}

std::string left_out_words(const std::vector<std::string>& lines, std::size_t first, LeftOut how) {
    std::vector<std::string> names;
    std::size_t counted = 0;
    for (std::size_t i = first; i < lines.size(); ++i) {
        const std::size_t tab = lines[i].find('\t');
        std::string name = lines[i];
        if (tab != std::string::npos) {
            const bool is_number = tab > 0 && lines[i].find_first_not_of("0123456789") == tab;
            const std::string rest = lines[i].substr(tab + 1);
            name = lines[i].substr(0, tab) + (is_number ? " " + rest.substr(0, rest.find(':')) : "");
        }
        const bool is_named = how == LeftOut::whole_lines || (how == LeftOut::names && tab != std::string::npos);
        if (!is_named)
            ++counted;
        else if (std::find(names.begin(), names.end(), name) == names.end())
            names.push_back(std::move(name));
    }
    std::string words;
    for (const std::string& name : names) words += (words.empty() ? "also " : "; ") + name;
    if (counted > 0) words += (words.empty() ? "and " : "; and ") + std::to_string(counted) + " more";
    return words + ": see the tables";
}

std::size_t rows_of(const std::vector<SideLine>& lines) {
    std::size_t rows = 0;
    for (const SideLine& line : lines) rows += std::max<std::size_t>(line.rest.size(), 1);
    return rows;
}

Marks side_list_marks(const std::vector<SideLine>& lines, const Point& first_base, double step, const Tools& tools) {
    Marks marks;
    double base = first_base.y;
    for (const SideLine& line : lines) {
        if (!line.strong.empty()) marks.push_back(words({first_base.x, base}, line.strong, tools.style.text("body_strong")));
        for (std::size_t i = 0; i < line.rest.size(); ++i)
            marks.push_back(words({first_base.x + line.indent, base - static_cast<double>(i) * step}, line.rest[i],
                                  tools.style.text("body")));
        base -= step * static_cast<double>(std::max<std::size_t>(line.rest.size(), 1));
    }
    return marks;
}

}  // namespace selvage::sheets
