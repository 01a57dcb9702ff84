#include "sheets/running_text.h"

#include <algorithm>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double tick_side = 3.0, tick_room = 5.4;      // mm
constexpr double strong_gap = 2.5, most_strong = 34.0;  // mm
constexpr double column_gap = 8.0, section_gap = 3.0, heading_gap = 0.8;
constexpr double up_to_base = 3.0;  // mm from a line's top to its base

struct SetParagraph {
    std::vector<std::string> lines;
    double height() const { return reading_step * static_cast<double>(std::max<std::size_t>(lines.size(), 1)); }
};

// Where the words of all paragraphs start, mm from the left.
double indent_of(const std::vector<Paragraph>& paragraphs, const Tools& tools) {
    double indent = 0.0;
    bool ticks = false;
    for (const Paragraph& one : paragraphs) {
        ticks = ticks || one.tick;
        if (!one.strong.empty())
            indent = std::max(indent,
                              drawing::text_width_mm(tools.fonts, tools.style.text("reading_strong"), one.strong) + strong_gap);
    }
    return std::min(indent, most_strong) + (ticks ? tick_room : 0.0);
}

std::vector<SetParagraph> broken(const std::vector<Paragraph>& paragraphs, double width, double indent, const Tools& tools) {
    std::vector<SetParagraph> all;
    for (const Paragraph& one : paragraphs)
        all.push_back({drawing::wrapped(tools.fonts, tools.style.text("reading"), one.text, width - indent)});
    return all;
}

// A line of a column: its words, or the room that it leaves.
struct ColumnLine {
    std::string text;
    bool heading = false;
    double before = 0.0;  // mm over it, but at a column's top
};

std::vector<ColumnLine> lines_of(const std::vector<TextSection>& sections, double width, const Tools& tools) {
    std::vector<ColumnLine> lines;
    for (const TextSection& section : sections) {
        if (section.paragraphs.empty()) continue;
        lines.push_back({section.heading, true, section_gap});
        bool first = true;
        for (const std::string& paragraph : section.paragraphs) {
            double before = first ? heading_gap : paragraph_gap;
            for (std::string& line : drawing::wrapped(tools.fonts, tools.style.text("reading"), paragraph, width)) {
                lines.push_back({std::move(line), false, before});
                before = 0.0;
            }
            first = false;
        }
    }
    return lines;
}

// The number of the first line of each column of that height.
std::vector<std::size_t> column_starts(const std::vector<ColumnLine>& lines, double height) {
    std::vector<std::size_t> starts;
    double down = height + 1.0;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        // A heading needs two lines under it.
        const double with_it = reading_step * (lines[i].heading ? 3.0 : 1.0) + lines[i].before;
        if (down + with_it > height) {
            starts.push_back(i);
            down = reading_step;
            continue;
        }
        down += lines[i].before + reading_step;
    }
    return starts;
}

}  // namespace

double paragraphs_height(const std::vector<Paragraph>& paragraphs, double width_mm, const Tools& tools) {
    double height = 0.0;
    for (const SetParagraph& one : broken(paragraphs, width_mm, indent_of(paragraphs, tools), tools))
        height += one.height() + paragraph_gap;
    return height;
}

SetText set_paragraphs(const std::vector<Paragraph>& paragraphs, const Box& box, const Tools& tools) {
    SetText set;
    const double indent = indent_of(paragraphs, tools);
    const std::vector<SetParagraph> lines = broken(paragraphs, box.width(), indent, tools);
    double top = box.top;
    for (std::size_t i = 0; i < paragraphs.size(); ++i) {
        if (top - lines[i].height() < box.bottom - 1e-9) break;
        double base = top - up_to_base;
        const double left = box.left + (paragraphs[i].tick ? tick_room : 0.0);
        if (paragraphs[i].tick)
            set.marks.push_back(
                box_outline({box.left, base - 0.4, box.left + tick_side, base - 0.4 + tick_side}, tools.style.line("window")));
        if (!paragraphs[i].strong.empty()) {
            const drawing::TextLook& look = tools.style.text("reading_strong");
            drawing::Text strong{{left, base},
                                 drawing::shortened(tools.fonts, look, paragraphs[i].strong, box.left + indent - left - 0.5),
                                 look,
                                 drawing::Anchor::left,
                                 false,
                                 0.0,
                                 paragraphs[i].link};
            set.marks.emplace_back(std::move(strong));
        }
        for (std::size_t k = 0; k < lines[i].lines.size(); ++k) {
            drawing::Text line{{box.left + indent, base},
                               lines[i].lines[k],
                               tools.style.text("reading"),
                               drawing::Anchor::left,
                               false,
                               0.0,
                               k == 0 ? paragraphs[i].link : std::string()};
            set.marks.emplace_back(std::move(line));
            base -= reading_step;
        }
        top -= lines[i].height() + paragraph_gap;
        ++set.count;
    }
    set.bottom = top;
    return set;
}

std::vector<Marks> set_in_columns(const std::vector<TextSection>& sections, const Box& box, std::size_t columns,
                                  const Tools& tools) {
    const double width = (box.width() - column_gap * static_cast<double>(columns - 1)) / static_cast<double>(columns);
    const std::vector<ColumnLine> lines = lines_of(sections, width, tools);
    const auto pages_at = [&](double height) { return (column_starts(lines, height).size() + columns - 1) / columns; };
    double height = box.height();
    const std::size_t pages = pages_at(height);
    while (height > box.height() / 4.0 && pages_at(height - 1.0) == pages) height -= 1.0;
    const std::vector<std::size_t> starts = column_starts(lines, height);
    std::vector<Marks> all(pages);
    for (std::size_t column = 0; column < starts.size(); ++column) {
        const double left = box.left + static_cast<double>(column % columns) * (width + column_gap);
        const std::size_t end = column + 1 < starts.size() ? starts[column + 1] : lines.size();
        double base = box.top - up_to_base;
        for (std::size_t i = starts[column]; i < end; ++i) {
            if (i > starts[column]) base -= lines[i].before + reading_step;
            all[column / columns].push_back(
                words({left, base}, lines[i].text, tools.style.text(lines[i].heading ? "reading_strong" : "reading")));
        }
    }
    return all;
}

}  // namespace selvage::sheets
