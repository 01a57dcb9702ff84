#include "sheets/side_list.h"

#include "drawing/clipping.h"

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
    bool lists = false;  // a line that is about several holes is no one thing to count
    for (std::size_t i = first; i < lines.size(); ++i) {
        const std::size_t tab = lines[i].find('\t');
        std::string name = lines[i];
        if (tab != std::string::npos) {
            const bool is_number = tab > 0 && lines[i].find_first_not_of("0123456789") == tab;
            const std::string rest = lines[i].substr(tab + 1);
            name = lines[i].substr(0, tab) + (is_number ? " " + rest.substr(0, rest.find(':')) : "");
        }
        const bool is_named = how == LeftOut::whole_lines || (how == LeftOut::names && tab != std::string::npos);
        if (!is_named) {
            ++counted;
            lists = lists || lines[i].find(", ") != std::string::npos;
        } else if (std::find(names.begin(), names.end(), name) == names.end()) {
            names.push_back(std::move(name));
        }
    }
    std::string words;
    for (const std::string& name : names) words += (words.empty() ? "also " : "; ") + name;
    if (counted > 0) words += (words.empty() ? "and " : "; and ") + (lists ? "" : std::to_string(counted) + " ") + "more";
    return words + ": see the tables";
}

std::size_t rows_of(const std::vector<SideLine>& lines) {
    std::size_t rows = 0;
    for (const SideLine& line : lines) rows += std::max<std::size_t>(line.rest.size(), 1);
    return rows;
}

namespace {

constexpr double list_width = 62.0, list_gap = 6.0, list_heading = 5.4;  // mm

// The lines shared out to columns of about the same height, none broken.
std::vector<std::vector<SideLine>> in_columns(const std::vector<SideLine>& lines, std::size_t columns) {
    const std::size_t rows = rows_of(lines);
    std::vector<std::vector<SideLine>> all(columns);
    std::size_t column = 0, filled = 0;
    for (const SideLine& line : lines) {
        if (column + 1 < columns && filled * columns >= rows * (column + 1)) ++column;
        all[column].push_back(line);
        filled += rows_of({line});
    }
    return all;
}

}  // namespace

std::optional<ContinuedList> continued_list(const std::vector<std::string>& lines,
                                            const std::function<std::optional<Box>(double, double)>& place, const Tools& tools) {
    const double leading = tools.style.size_mm("leading");
    const std::vector<SideLine> set = set_side_list(lines, list_width, tools);
    for (const std::size_t count : {std::size_t{1}, std::size_t{2}, std::size_t{3}}) {
        const std::vector<std::vector<SideLine>> columns = in_columns(set, count);
        std::size_t rows = 0;
        for (const std::vector<SideLine>& column : columns) rows = std::max(rows, rows_of(column));
        const double width = static_cast<double>(count) * (list_width + list_gap) - list_gap;
        const std::optional<Box> box = place(width, list_heading + leading * static_cast<double>(rows));
        if (!box) continue;
        Marks marks{box_area(drawing::grown(*box, 1.0), plain(tools.style.colour("white"))),
                    line_of({{box->left, box->top}, {box->right, box->top}}, tools.style.line("rule")),
                    words({box->left, box->top - 3.8}, "Side list, continued", tools.style.text("heading"))};
        for (std::size_t i = 0; i < columns.size(); ++i)
            append(marks,
                   side_list_marks(columns[i],
                                   {box->left + static_cast<double>(i) * (list_width + list_gap), box->top - list_heading - 2.6},
                                   leading, tools));
        return ContinuedList{std::move(marks), *box};
    }
    return std::nullopt;
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
