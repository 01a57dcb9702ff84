#include "sheets/column.h"

#include "sheets/side_list.h"
#include "sheets/symbols.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

namespace selvage::sheets {

namespace {

// Heights on paper, mm.
constexpr double heading_down = 5.4;   // base line of a heading under its rule
constexpr double under_heading = 8.0;  // where the block's matter starts under its rule
constexpr double block_foot = 2.2;
constexpr double picture_foot = 4.0;
constexpr double group_gap = 1.6;
constexpr double sign_gap = 2.0;
constexpr double sign_air = 0.2;  // between the signs of two rows
constexpr double least_picture = 26.0, wished_picture = 40.0, most_picture = 62.0;
constexpr double poorest_picture = 14.0;    // where a long legend alone leaves no more
constexpr double tightest_rows = 0.84;      // of the style's row heights, where the column is full
constexpr double tightest_on_slide = 0.66;  // where a long legend leaves nothing else
constexpr double rule_overhang = 4.0;       // rules run the column's whole width, its text does not

bool is_slide(const Tools& tools) { return tools.style.page.layout == drawing::PageLayout::slide; }

double leading(const Tools& tools) { return tools.style.size_mm("leading"); }

// A group of the legend set in a half column: its lines counted.
struct SetGroup {
    const LegendGroup* group;
    std::vector<std::vector<std::string>> words;  // of each entry, broken into lines
    double height = 0.0;
};

// How high a row has to be that its sign, drawn about the row's middle, keeps off the rows above and below, mm.
double sign_room(const LegendEntry& entry, const Tools& tools) {
    const double half_width = tools.style.size_mm("legend_sign_width") / 2.0;
    const double half_height = tools.style.size_mm("legend_sign_height") / 2.0;
    double reach = 0.0;
    for (const Mark& mark : entry.draw({-half_width, -half_height, half_width, half_height})) {
        if (const auto* shape = std::get_if<drawing::Shape>(&mark)) {
            const double half_line = shape->line ? shape->line->width_mm / 2.0 : 0.0;
            for (const std::vector<Point>& ring : shape->rings)
                for (const Point& point : ring) reach = std::max(reach, std::abs(point.y) + half_line);
        } else {
            const Box box = box_of_words(std::get<drawing::Text>(mark), tools.fonts);
            reach = std::max({reach, std::abs(box.bottom), std::abs(box.top)});
        }
    }
    return 2.0 * reach + sign_air;
}

double class_room(const ClassRow& line, double rows, const Tools& tools) {
    return std::max(rows * tools.style.size_mm("class_row"),
                    hit_symbol_width_mm(static_cast<HitSign>(line.number), tools) + sign_air);
}

double entry_height(const LegendEntry& entry, std::size_t lines, double rows, const Tools& tools) {
    const double words = rows * tools.style.size_mm("legend_row") +
                         (static_cast<double>(std::max<std::size_t>(lines, 1)) - 1.0) * (leading(tools) - 0.6);
    return std::max(words, sign_room(entry, tools));
}

// rows: how tight rows are set, 1 as the style says.
std::vector<SetGroup> set_groups(const std::vector<LegendGroup>& groups, double width, double rows, const Tools& tools) {
    std::vector<SetGroup> all;
    const double room = width - tools.style.size_mm("legend_sign_width") - sign_gap;
    for (const LegendGroup& group : groups) {
        if (group.entries.empty()) continue;
        SetGroup set{&group, {}, group.heading.empty() ? 0.0 : rows * tools.style.size_mm("legend_row")};
        for (const LegendEntry& entry : group.entries) {
            set.words.push_back(drawing::wrapped(tools.fonts, tools.style.text("body"), entry.words, room));
            set.height += entry_height(entry, set.words.back().size(), rows, tools);
        }
        all.push_back(std::move(set));
    }
    return all;
}

double height_of(const std::vector<SetGroup>& groups) {
    double sum = 0.0;
    for (std::size_t i = 0; i < groups.size(); ++i) sum += groups[i].height + (i > 0 ? group_gap : 0.0);
    return sum;
}

struct Halves {
    std::vector<SetGroup> left, right;
    double height() const { return std::max(height_of(left), height_of(right)); }
};

// The groups shared out, each half in their order, so that the taller half is lowest; the first goes to the left.
Halves best_halves(const std::vector<SetGroup>& groups) {
    constexpr std::size_t most_groups = 12;  // 2048 ways: enough for any legend; groups beyond go to the right
    const std::size_t free_groups = groups.empty() ? 0 : std::min(groups.size(), most_groups) - 1;
    const auto to_right = [free_groups](std::size_t way, std::size_t i) {
        return i > free_groups || (i > 0 && (way >> (free_groups - i) & 1) != 0);
    };
    std::size_t best_way = 0;
    double least = height_of(groups);
    for (std::size_t way = 1; way < (std::size_t{1} << free_groups); ++way) {
        std::array<double, 2> heights{-group_gap, -group_gap};
        for (std::size_t i = 0; i < groups.size(); ++i) heights[to_right(way, i) ? 1 : 0] += groups[i].height + group_gap;
        if (const double tall = std::max(heights[0], heights[1]); tall < least - 1e-9) {
            least = tall;
            best_way = way;
        }
    }
    Halves best;
    for (std::size_t i = 0; i < groups.size(); ++i) (to_right(best_way, i) ? best.right : best.left).push_back(groups[i]);
    return best;
}

double half_width(const Box& column) { return (column.width() - 3.0) / 2.0; }

double legend_width(const PageContent& content, const Box& column) {
    return content.legend_in_one_column ? column.width() : half_width(column);
}

Halves legend_halves(const PageContent& content, const Box& column, double rows, const Tools& tools) {
    const std::vector<SetGroup> groups = set_groups(content.legend, legend_width(content, column), rows, tools);
    return content.legend_in_one_column ? Halves{groups, {}} : best_halves(groups);
}

double legend_height(const PageContent& content, const Box& column, double rows, const Tools& tools) {
    if (content.legend.empty()) return 0.0;
    return under_heading + legend_halves(content, column, rows, tools).height() + block_foot;
}

double classes_height(const PageContent& content, double rows, const Tools& tools) {
    if (content.classes.empty()) return 0.0;
    double height = under_heading + block_foot;
    for (const ClassRow& line : content.classes) height += class_room(line, rows, tools);
    return height;
}

// Lines of words bear less than rows with signs between them.
double side_leading(double rows, const Tools& tools) { return std::max(rows, tightest_rows) * leading(tools); }

double side_height(const PageContent& content, const Box& column, double rows, const Tools& tools) {
    if (content.side_list.empty()) return 0.0;
    const std::size_t lines = rows_of(set_side_list(content.side_list, column.width(), tools));
    return under_heading + static_cast<double>(lines) * side_leading(rows, tools) + block_foot - 0.6;
}

// The draft of a public figure stands by itself: nobody who sees it has the pack before it.
bool tells_changed(const PageContent& content, const Tools& tools) {
    return content.tells_changed && !tools.style.content.public_draft;
}

double changed_height(const PageContent& content, const Tools& tools) {
    return tells_changed(content, tools) ? under_heading + leading(tools) + block_foot - 0.6 : 0.0;
}

// Writes blocks downwards.
class Column {
public:
    Column(const Box& column, const Tools& tools) : box_(column), tools_(tools), top_(column.top) {}

    void block(const std::string& heading, const std::string& note, double height) {
        if (!marks.empty())
            marks.push_back(
                line_of({{box_.left - rule_overhang, top_}, {box_.right + rule_overhang, top_}}, tools_.style.line("rule")));
        marks.push_back(words({box_.left, top_ - heading_down}, heading, tools_.style.text("heading")));
        if (!note.empty())
            marks.push_back(words({box_.right, top_ - heading_down}, note, tools_.style.text("note"), drawing::Anchor::right));
        at_ = top_ - under_heading;
        top_ -= height;
    }
    void end() {
        marks.push_back(
            line_of({{box_.left - rule_overhang, top_}, {box_.right + rule_overhang, top_}}, tools_.style.line("rule")));
    }
    double at() const { return at_; }  // where the block's matter starts
    double top() const { return top_; }

    Marks marks;

private:
    Box box_;
    const Tools& tools_;
    double top_, at_ = 0.0;
};

void add_classes(Column& column, const PageContent& content, const Box& box, double rows, const Tools& tools) {
    const drawing::TextLook& body = tools.style.text("body");
    double top = column.at();
    for (const ClassRow& line : content.classes) {
        const double row = class_room(line, rows, tools), middle = top - row / 2.0;
        const double base = middle - drawing::cap_height_mm(tools.fonts, body) / 2.0;
        const HitSign sign = static_cast<HitSign>(line.number);
        if (line.rule_above)
            column.marks.push_back(
                line_of({{box.left + 7.0, middle + row / 2.0}, {box.right, middle + row / 2.0}}, tools.style.line("rule")));
        append(column.marks, hit_symbol(sign, {box.left + 2.1, middle}, tools, false));
        double text_left = box.left + 7.0;
        if (line.fill_sample) {
            column.marks.push_back(outlined_area({{text_left, middle - 1.4},
                                                  {text_left + 6.5, middle - 1.4},
                                                  {text_left + 6.5, middle + 1.4},
                                                  {text_left, middle + 1.4}},
                                                 plain(class_area_colour(line.number, tools)), tools.style.line("strip_edge")));
            text_left += 8.5;
        }
        column.marks.push_back(words({text_left, base}, line.words, body));
        column.marks.push_back(words({box.right, base}, std::to_string(line.count),
                                     line.count == 0 ? tools.style.text("note") : body, drawing::Anchor::right));
        if (!line.note.empty())
            column.marks.push_back(words({box.right - 7.0, base}, line.note, tools.style.text("note"), drawing::Anchor::right));
        top -= row;
    }
}

void add_half_legend(Column& column, const std::vector<SetGroup>& groups, double left, double rows, const Tools& tools) {
    const drawing::TextLook& body = tools.style.text("body");
    const double row = rows * tools.style.size_mm("legend_row"), half_cap = drawing::cap_height_mm(tools.fonts, body) / 2.0;
    const double sign_width = tools.style.size_mm("legend_sign_width"), sign_height = tools.style.size_mm("legend_sign_height");
    double y = column.at();
    for (std::size_t i = 0; i < groups.size(); ++i) {
        if (i > 0) y -= group_gap;
        if (!groups[i].group->heading.empty()) {
            column.marks.push_back(
                words({left, y - row / 2.0 - half_cap}, groups[i].group->heading, tools.style.text("group_heading")));
            y -= row;
        }
        for (std::size_t k = 0; k < groups[i].group->entries.size(); ++k) {
            const double height = entry_height(groups[i].group->entries[k], groups[i].words[k].size(), rows, tools),
                         middle = y - height / 2.0;
            append(column.marks, groups[i].group->entries[k].draw(
                                     {left, middle - sign_height / 2.0, left + sign_width, middle + sign_height / 2.0}));
            const double line_step = leading(tools) - 0.6;
            double base = middle - half_cap + line_step * (static_cast<double>(groups[i].words[k].size()) - 1.0) / 2.0;
            for (const std::string& line : groups[i].words[k]) {
                column.marks.push_back(words({left + sign_width + sign_gap, base}, line, body));
                base -= line_step;
            }
            y -= height;
        }
    }
}

void add_legend(Column& column, const PageContent& content, const Box& box, double rows, const Tools& tools) {
    const Halves halves = legend_halves(content, box, rows, tools);
    add_half_legend(column, halves.left, box.left, rows, tools);
    add_half_legend(column, halves.right, box.right - half_width(box), rows, tools);
}

double tightest(const Tools& tools) { return is_slide(tools) ? tightest_on_slide : tightest_rows; }

double room_for_picture(const PageContent& content, const PageBoxes& boxes, double rows, const Tools& tools) {
    return boxes.column.height() - changed_height(content, tools) - classes_height(content, rows, tools) -
           legend_height(content, boxes.column, rows, tools) - side_height(content, boxes.column, rows, tools) - under_heading -
           picture_foot;
}

// Without a key plan its block's own height is room as well.
double picture_wanted(const PageContent& content, double height) {
    return content.key_plan ? height : -under_heading - picture_foot;
}

// Rows are set closer, as far as need be, where the key plan would have less than its wished height.
double row_tightness(const PageContent& content, const PageBoxes& boxes, const Tools& tools) {
    double rows = 1.0;
    while (rows > tightest(tools) && room_for_picture(content, boxes, rows, tools) < picture_wanted(content, wished_picture))
        rows -= 0.02;
    return rows;
}

// The content with as much of its side list as the column holds; the last line names whom the others are about or, where there is
// no room even for that, says how many there are.
PageContent fitted(PageContent content, const PageBoxes& boxes, const Tools& tools) {
    const double picture = picture_wanted(content, least_picture);
    const auto fits = [&] { return room_for_picture(content, boxes, tightest(tools), tools) >= picture; };
    if (fits() || content.side_list.empty()) return content;
    const std::vector<std::string> all = content.side_list;
    const auto keep = [&](std::size_t count) {
        content.side_list.assign(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(count));
    };
    constexpr std::size_t most_lines = 150;  // no column of any paper holds more
    std::size_t most = 0;                    // lines that fit by themselves
    for (std::size_t over = std::min(all.size(), most_lines); most + 1 < over;) {
        const std::size_t middle = (most + over) / 2;
        keep(middle);
        (fits() ? most : over) = middle;
    }
    for (const LeftOut how : {LeftOut::whole_lines, LeftOut::names, LeftOut::counted})
        for (std::size_t kept = most + 1; kept-- > 0;) {
            keep(kept);
            content.side_list.push_back(left_out_words(all, kept, how));
            if (fits()) return content;
        }
    return content;
}

// Lines "7, tab, words" belong to points that carry the number alone.
std::string side_note(const PageContent& content) {
    const bool numbered = std::any_of(content.side_list.begin(), content.side_list.end(), [](const std::string& line) {
        const std::size_t tab = line.find('\t');
        return tab != std::string::npos && tab > 0 && line.find_first_not_of("0123456789") == tab;
    });
    return content.side_list_note.empty() && numbered ? "1, 2, 3: numbers on the drawing" : content.side_list_note;
}

}  // namespace

double key_plan_height(PageContent content, const PageBoxes& boxes, const Tools& tools) {
    content.key_plan = [](const Box&) { return Marks{}; };  // the room is asked for before there is one
    content = fitted(std::move(content), boxes, tools);
    return std::clamp(room_for_picture(content, boxes, row_tightness(content, boxes, tools), tools), poorest_picture,
                      most_picture);
}

std::size_t side_list_room(PageContent content, const PageBoxes& boxes, const Tools& tools) {
    while (!content.side_list.empty() && room_for_picture(content, boxes, tightest(tools), tools) < least_picture)
        content.side_list.pop_back();
    return content.side_list.size();
}

bool column_holds(PageContent content, const PageBoxes& boxes, const Tools& tools) {
    if (is_slide(tools)) return true;  // of one size: nothing larger to go to
    content.key_plan = nullptr;
    const double nothing = picture_wanted(content, 0.0);
    return room_for_picture(fitted(std::move(content), boxes, tools), boxes, tightest(tools), tools) >= nothing;
}

ColumnMarks column_marks(PageContent asked, const PageBoxes& boxes, const Tools& tools) {
    // Where there is no room, the key plan goes first; on a slide, which has no larger paper, what changed goes before a line of
    // the side list does.
    PageContent content = fitted(asked, boxes, tools);
    const auto lacks = [&](double picture) { return room_for_picture(content, boxes, tightest(tools), tools) < picture; };
    if (content.key_plan && lacks(is_slide(tools) ? least_picture : poorest_picture)) {
        asked.key_plan = nullptr;
        content = fitted(asked, boxes, tools);
    }
    if (is_slide(tools) && (lacks(picture_wanted(content, 0.0)) || content.side_list != asked.side_list)) {
        asked.tells_changed = false;
        content = fitted(std::move(asked), boxes, tools);
    }
    const Box& box = boxes.column;
    Column column(box, tools);
    ColumnMarks made;
    const double rows = row_tightness(content, boxes, tools);
    if (tells_changed(content, tools)) {
        column.block("Changed since the last pack", "", changed_height(content, tools));
        column.marks.push_back(words({box.left, column.at() - 2.2}, content.changed, tools.style.text("body")));
    }
    if (content.key_plan) {
        const double height = key_plan_height(content, boxes, tools);
        column.block(content.key_plan_heading.empty() ? "Key plan" : content.key_plan_heading, content.key_plan_scale,
                     under_heading + height + picture_foot);
        made.key_plan = {box.left, column.at() - height, box.left + key_plan_width, column.at()};
    }
    if (!content.classes.empty()) {
        column.block(content.classes_heading, content.classes_note, classes_height(content, rows, tools));
        add_classes(column, content, box, rows, tools);
    }
    if (!content.legend.empty()) {
        column.block("Legend", "", legend_height(content, box, rows, tools));
        add_legend(column, content, box, rows, tools);
    }
    if (!content.side_list.empty()) {
        column.block(content.side_list_heading.empty() ? "Side list" : content.side_list_heading, side_note(content),
                     side_height(content, box, rows, tools));
        append(column.marks, side_list_marks(set_side_list(content.side_list, box.width(), tools), {box.left, column.at() - 2.2},
                                             side_leading(rows, tools), tools));
    }
    if (column.top() > box.bottom + 0.5) column.end();
    made.marks = std::move(column.marks);
    return made;
}

}  // namespace selvage::sheets
