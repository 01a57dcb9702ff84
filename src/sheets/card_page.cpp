#include "sheets/card_page.h"

#include "drawing/shortened_name.h"

#include <algorithm>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double paper_width = 210.0, paper_height = 297.0;  // A4, ISO 216
const Box card_frame{20.0, 10.0, 200.0, 287.0};              // margins as on the other sheets
constexpr double identity_height = 9.5, signature_row = 15.0;
constexpr double sheet_share = 0.86;  // where the sheet's number stands across the identity row
constexpr double least_size = 7.0;    // pt

}  // namespace

CardPage::CardPage(const std::string& hole, const std::string& side, const Tools& tools)
    : frame_(card_frame), top_(card_frame.top), tools_(tools) {
    sheet_.kind = card_kind;
    sheet_.name = hole + " " + side;
    sheet_.title = "Drill-site card " + hole + ", " + side;
    sheet_.width_mm = paper_width;
    sheet_.height_mm = paper_height;
    sheet_.layers = layer_names();
    sheet_.destinations.push_back({destination_of_sheet(card_kind, sheet_.name), {0.0, paper_height}});
    marks_.push_back(box_outline(frame_, tools.style.line("frame")));
}

double CardPage::width_of(const std::string& text, const std::string& role) const {
    return drawing::text_width_mm(tools_.fonts, tools_.style.text(role), text);
}

void CardPage::write(double x, double down, const std::string& text, const std::string& role, drawing::Anchor anchor,
                     double width, const std::string& link) {
    drawing::TextLook look = tools_.style.text(role);
    if (width > 0.0)
        if (const double needed = drawing::text_width_mm(tools_.fonts, look, text); needed > width)
            look.size_pt = std::max(std::min(least_size, look.size_pt), look.size_pt * width / needed);
    // What is too long even in the least type keeps its end too: names of holes and veins differ there, and depths stand there.
    const std::string shown = width > 0.0 ? drawing::shortened_name(tools_.fonts, look, text, width + 0.1) : text;
    Mark mark = words({x, top_ - down}, shown, look, anchor);
    std::get<drawing::Text>(mark).link = link;
    marks_.push_back(std::move(mark));
}

std::size_t CardPage::write_lines(double x, double down, const std::string& text, const std::string& role, double width,
                                  double step) {
    const std::vector<std::string> lines = drawing::wrapped(tools_.fonts, tools_.style.text(role), text, width);
    for (std::size_t i = 0; i < lines.size(); ++i) write(x, down + step * static_cast<double>(i), lines[i], role);
    return lines.size();
}

std::size_t CardPage::add_window(const Box& box, double metres_per_mm, base::LengthUnit unit) {
    drawing::Window window;
    window.box = box;
    window.metres_per_mm = metres_per_mm;
    window.unit = base::symbol_of(unit);
    window.units_per_mm = metres_per_mm / base::metres_per(unit);
    sheet_.windows.push_back(window);
    return sheet_.windows.size();
}

void CardPage::end_part(double height) {
    top_ -= height;
    marks_.push_back(line_of({{frame_.left, top_}, {frame_.right, top_}}, tools_.style.line("card_rule")));
}

void CardPage::upright_rule(double x, double height) {
    marks_.push_back(line_of({{x, top_ - height}, {x, top_}}, tools_.style.line("card_rule")));
}

void CardPage::tick_box(double x, double down, double side) {
    const double base = top_ - down;
    marks_.push_back(box_outline({x, base - 0.4, x + side, base - 0.4 + side}, tools_.style.line("panel")));
}

void CardPage::identity(const RunFacts& run, const Results& results) {
    const settings::TitleBlock& block = results.project.title_block;
    const std::string hole = sheet_.name.substr(0, sheet_.name.rfind(' '));
    const std::vector<std::pair<std::string, std::string>> fields{
        {"identification", (block.number.empty() ? "" : block.number + "-") + "CARD-" + hole},
        {"date of issue", run.date.empty() ? "not given" : run.date},
        {"run: project, date, input", run.date.empty() ? results.project.name + ", " + run.fingerprint : run.run_name},
        {"legal owner", block.owner}};
    const std::vector<double> shares{0.0, 0.2, 0.34, 0.62, sheet_share};
    for (std::size_t i = 0; i < fields.size(); ++i) {
        const double x = left() + shares[i] * width(), room = (shares[i + 1] - shares[i]) * width() - 2.0;
        write(x, 3.3, fields[i].first, "field_name");
        if (fields[i].second.empty())
            marks_.push_back(line_of({{x, top_ - 7.4}, {x + room, top_ - 7.4}}, tools_.style.line("signature")));
        else
            write(x, 7.2, fields[i].second, "field_value", drawing::Anchor::left, room);
    }
    write(left() + sheet_share * width(), 3.3, "sheet", "field_name");
    end_part(identity_height);
}

void CardPage::signatures(const std::vector<std::string>& who, double height) {
    const double room = frame_.width() / static_cast<double>(who.size());
    for (std::size_t i = 0; i < who.size(); ++i) {
        const double x = frame_.left + room * static_cast<double>(i);
        if (i > 0) upright_rule(x, height);
        const double start = i == 0 ? left() : x + 2.5;
        write(start, 3.3, who[i], "field_name", drawing::Anchor::left, x + room - start - 2.0);
        marks_.push_back(
            line_of({{start, top_ - height + 2.6}, {x + room - 4.0, top_ - height + 2.6}}, tools_.style.line("signature")));
    }
    top_ -= height;
    if (free() > 1.0) marks_.push_back(line_of({{frame_.left, top_}, {frame_.right, top_}}, tools_.style.line("card_rule")));
}

drawing::Sheet CardPage::finished() && {
    put(sheet_, Layer::page, 0, std::move(marks_));
    return std::move(sheet_);
}

Mark card_number_mark(std::size_t number, std::size_t count, const Tools& tools) {
    const double text_left = card_frame.left + CardPage::indent, room = card_frame.width() - 2.0 * CardPage::indent;
    const double identity_top = card_frame.bottom + signature_row + identity_height;
    return words({text_left + sheet_share * room, identity_top - 7.2}, std::to_string(number) + " of " + std::to_string(count),
                 tools.style.text("field_value"));
}

}  // namespace selvage::sheets
