#include "sheets/title_block.h"

#include "drawing/shortened_name.h"

#include <fmt/format.h>

#include <string>
#include <vector>

namespace selvage::sheets {

namespace {

constexpr double title_height = 17.0, row_height = 7.6, people_height = 12.2;  // mm
constexpr double text_indent = 4.0, field_indent = 2.2;
constexpr double bar_base = 3.0, bar_number_room = 24.0;  // of a slide's bar
constexpr double name_down = 2.7, value_down = 6.0;       // base lines under a row's rule
constexpr std::size_t sheet_row = 2;                      // of the rows under the title
constexpr double sheet_share = 2.0 / 3.0;                 // where its field starts across the block

struct Field {
    std::string name, value;
    double share = 1.0;  // of the block's width
    bool filled_later = false;
};

std::string paper_text(const Paper& paper) {
    const std::string size = fmt::format("{:.0f} × {:.0f} mm", paper.height_mm, paper.width_mm);
    return paper.name.empty() || paper.name.find('x') != std::string::npos ? size : paper.name + ", " + size;
}

std::string given(const std::string& date) { return date.empty() ? "not given" : date; }

std::string identification(const TitleText& title, const settings::TitleBlock& block) {
    return block.number.empty() ? title.identification : block.number + "-" + title.identification;
}

std::vector<std::vector<Field>> fields_of(const TitleText& title, const Paper& paper, const Results& results, const RunFacts& run,
                                          const drawing::ContentLook& content) {
    const settings::Project& project = results.project;
    const settings::TitleBlock& block = project.title_block;
    const std::string unit = base::symbol_of(project.length_unit);
    const std::string crs = (project.crs.empty() ? std::string("system not stated") : project.crs) + ", " + unit;
    const double third = 1.0 / 3.0;
    return {
        {{"legal owner", block.owner, 0.5}, {"document type", title.document_type, 0.5}},
        {{"identification", identification(title, block), third},
         {"date of issue", given(run.date), third},
         {"revision", "", third}},
        {{"scale", title.scale, third}, {"paper", paper_text(paper), third}, {"sheet", "", third, true}},
        {{"coordinates", crs, 0.42},
         {"north used", "grid", 0.2},
         {"status", block.status.empty() && !content.public_draft ? "working document" : block.status, 0.38}},
        {{"run: project, date, input", run.date.empty() ? project.name + ", date not given, " + run.fingerprint : run.run_name}},
        {{"created by", block.created_by, third}, {"checked by", "", third}, {"approved by", block.approved_by, third}}};
}

void add_field(Marks& marks, const Box& box, const Field& field, bool signed_for, const Tools& tools) {
    const double left = box.left + field_indent, right = box.right - field_indent;
    marks.push_back(words({left, box.top - name_down}, field.name, tools.style.text("field_name")));
    if (field.filled_later) return;
    const drawing::TextLook& look = tools.style.text("field_value");
    if (field.value.empty()) {
        const double y = signed_for ? box.bottom + 2.2 : box.bottom + 1.4;
        marks.push_back(line_of({{left, y}, {right, y}}, tools.style.line("signature")));
        return;
    }
    const double y = signed_for ? box.bottom + 3.0 : box.top - value_down;
    marks.push_back(words({left, y}, drawing::shortened_name(tools.fonts, look, field.value, right - left + 1.0), look));
}

}  // namespace

Marks title_block_marks(const Box& box, const TitleText& title, const Paper& paper, const Results& results, const RunFacts& run,
                        const Tools& tools) {
    const drawing::LineLook& rule = tools.style.line("rule");
    const double width = box.width() - 2.0 * text_indent;
    const drawing::TextLook& title_look = tools.style.text("title");
    const drawing::TextLook& subtitle_look = tools.style.text("subtitle");
    Marks marks{line_of({{box.left, box.top}, {box.right, box.top}}, tools.style.line("panel")),
                words({box.left + text_indent, box.top - 7.4},
                      drawing::shortened_name(tools.fonts, title_look, title.title, width), title_look),
                words({box.left + text_indent, box.top - 13.2},
                      drawing::shortened(tools.fonts, subtitle_look, title.subtitle, width), subtitle_look)};
    double top = box.top - title_height;
    const std::vector<std::vector<Field>> rows = fields_of(title, paper, results, run, tools.style.content);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const bool people = i + 1 == rows.size();
        const double bottom = people ? box.bottom : top - row_height;
        marks.push_back(line_of({{box.left, top}, {box.right, top}}, rule));
        double left = box.left;
        for (const Field& field : rows[i]) {
            const double right = left + field.share * box.width();
            if (left > box.left) marks.push_back(line_of({{left, bottom}, {left, top}}, rule));
            add_field(marks, {left, bottom, right, top}, field, people, tools);
            left = right;
        }
        top = bottom;
    }
    return marks;
}

Marks title_bar_marks(const Box& bar, const TitleText& title, const Results& results, const RunFacts& run, const Tools& tools) {
    constexpr double gap = 5.0;
    const drawing::TextLook &title_look = tools.style.text("title"), &subtitle_look = tools.style.text("subtitle");
    const std::string& status = results.project.title_block.status;
    const std::string facts = run.run_name + (status.empty() ? "" : "  ·  " + status);
    const double base = bar.bottom + bar_base, right = bar.right - bar_number_room;
    const double facts_width = drawing::text_width_mm(tools.fonts, subtitle_look, facts);
    const std::string name = drawing::shortened(tools.fonts, title_look, title.title, bar.width() / 2.0);
    const double after = bar.left + text_indent + drawing::text_width_mm(tools.fonts, title_look, name) + gap;
    Marks marks{line_of({{bar.left, bar.bottom}, {bar.right, bar.bottom}}, tools.style.line("panel")),
                words({bar.left + text_indent, base}, name, title_look),
                words({right, base}, facts, subtitle_look, drawing::Anchor::right)};
    if (const double room = right - facts_width - gap - after; room > 0.0)
        marks.push_back(
            words({after, base}, drawing::shortened(tools.fonts, subtitle_look, title.subtitle, room), subtitle_look));
    return marks;
}

Mark bar_number_mark(const Box& bar, std::size_t number, std::size_t count, const Tools& tools) {
    return words({bar.right - text_indent, bar.bottom + bar_base}, fmt::format("{} of {}", number, count),
                 tools.style.text("field_value"), drawing::Anchor::right);
}

Mark sheet_number_mark(const Box& block, std::size_t number, std::size_t count, const Tools& tools) {
    const double top = block.top - title_height - static_cast<double>(sheet_row) * row_height;
    return words({block.left + sheet_share * block.width() + field_indent, top - value_down},
                 fmt::format("{} of {}", number, count), tools.style.text("field_value"));
}

}  // namespace selvage::sheets
