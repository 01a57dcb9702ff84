#include "studies/calibration_page.h"

#include "base/text.h"
#include "studies/reliability_chart.h"

#include <algorithm>

namespace selvage::studies {

namespace {

using drawing::Anchor;

constexpr double width = 420.0, height = 297.0, margin = 12.0;  // mm, as all sizes here
constexpr double gutter = 9.0;
constexpr int columns = 3;
constexpr double line_height = 3.5, gap = 4.0;
constexpr double count_width = 9.0, window_width = 9.5, chart_height = 78.0;
constexpr double top_of_tables = height - margin - 20.0;
constexpr double column_width = (width - 2.0 * margin - (columns - 1) * gutter) / columns;

const char* const about =
    "How often the ranges and chances that Selvage says come true. All data are invented: made-up veins, holes, surveys and "
    "grades "
    "whose truth is known. Windows, in grey beside the figures, and seeds were laid down before the studies were run; a figure "
    "outside its window is bold and has a mark (!). The tests of the label reference hold the same figures against the same "
    "windows.";

// Sets words on the sheet from the top of one column down, and goes on to the next.
class Writer {
public:
    Writer(drawing::Sheet& sheet, const drawing::Style& style, const drawing::FontMetrics& fonts)
        : sheet_(sheet), style_(style), fonts_(fonts) {}

    void title(const std::vector<Study>& studies) {
        double all = chart_height;
        for (const Study& study : studies) all += height_of(study);
        share_of_column_ = all / columns;
        at_ = height - margin - 4.0;
        set("Calibration", "title", margin, Anchor::left);
        at_ -= 5.5;
        paragraph(about, "body", margin, width - 2.0 * margin);
        rule(margin, width - margin, at_ + 1.0);
    }

    void study(const Study& study) {
        const auto words = lines_of(study);
        make_room(height_of(study));
        count_right_ = count_width;
        for (const Row& row : study.rows)
            count_right_ =
                std::max(count_right_, count_width + drawing::text_width_mm(fonts_, style_.text("table_text"), row.what));
        set(study.name, "heading", left(), Anchor::left);
        at_ -= line_height;
        for (const std::string& line : words) {
            set(line, "note", left(), Anchor::left);
            at_ -= line_height;
        }
        at_ -= 0.5;
        heads(study);
        for (const Row& row : study.rows) table_row(study, row);
        at_ -= gap;
    }

    void chart(const std::vector<Study>& studies) {
        make_room(chart_height);
        draw_reliability(sheet_, {left(), at_ - chart_height, left() + column_width, at_ + 2.0}, studies, style_);
    }

private:
    double left() const { return margin + column_ * (column_width + gutter); }

    double height_of(const Study& study) const {
        return line_height * static_cast<double>(lines_of(study).size() + study.rows.size() + 2) + gap;
    }

    // On to the next column where more than half would stand below the level to which all columns are filled.
    void make_room(double needed) {
        const bool full = at_ - needed < margin || at_ - needed / 2.0 < top_of_tables - share_of_column_;
        if (column_ >= 0 && (!full || column_ + 1 == columns)) return;
        ++column_;
        at_ = top_of_tables;
    }

    void set(const std::string& words, const std::string& role, double x, Anchor anchor) {
        drawing::Text text;
        text.at = {x, at_};
        text.text = words;
        text.look = style_.text(role);
        text.anchor = anchor;
        sheet_.items.push_back({text, 0, 0});
    }

    void paragraph(const std::string& words, const std::string& role, double x, double wide) {
        for (const std::string& line : drawing::wrapped(fonts_, style_.text(role), words, wide)) {
            set(line, role, x, Anchor::left);
            at_ -= line_height;
        }
    }

    void rule(double from, double to, double y) {
        drawing::Shape shape;
        shape.rings = {{{from, y}, {to, y}}};
        shape.line = style_.line("frame_outer");
        sheet_.items.push_back({shape, 0, 0});
    }

    std::vector<std::string> lines_of(const Study& study) const {
        return drawing::wrapped(fonts_, style_.text("note"), study.worlds + ". Seed: " + study.seed + ".", column_width);
    }

    // Right edge of a figure of one column; its window stands right of it.
    double figure_right(const Study& study, std::size_t column) const {
        const double share = static_cast<double>(column + 1) / static_cast<double>(study.columns.size());
        return left() + count_right_ + share * (column_width - count_right_) - window_width;
    }

    void heads(const Study& study) {
        set("number", "table_head", left() + count_right_, Anchor::right);
        for (std::size_t i = 0; i < study.columns.size(); ++i)
            set(study.columns[i], "table_head", figure_right(study, i), Anchor::right);
        rule(left(), left() + column_width, at_ - 1.0);
        at_ -= line_height + 0.4;
    }

    void table_row(const Study& study, const Row& row) {
        const std::size_t indent = row.what.find_first_not_of(' ');
        const double from = left() + static_cast<double>(indent);
        set(row.what.substr(indent), "table_text", from, Anchor::left);
        set(std::to_string(row.count), "table_text", left() + count_right_, Anchor::right);
        for (std::size_t i = 0; i < row.figures.size(); ++i) {
            if (!row.figures[i]) continue;
            const Figure& figure = *row.figures[i];
            const bool right = is_within(figure);
            set((right ? "" : "! ") + base::fixed(figure.value, study.decimals), right ? "table_text" : "body_strong",
                figure_right(study, i), Anchor::right);
            if (figure.window) set(text_of(*figure.window), "table_head", figure_right(study, i) + 1.0, Anchor::left);
        }
        at_ -= line_height;
    }

    drawing::Sheet& sheet_;
    const drawing::Style& style_;
    const drawing::FontMetrics& fonts_;
    int column_ = -1;
    double at_ = 0.0;               // base line
    double share_of_column_ = 0.0;  // how much of all each column takes, evenly
    double count_right_ = 0.0;      // of the study at hand, from the column's left
};

}  // namespace

drawing::Sheet calibration_page(const std::vector<Study>& studies, const drawing::Style& style,
                                const drawing::FontMetrics& fonts) {
    drawing::Sheet sheet;
    sheet.kind = "calibration";
    sheet.name = "studies";
    sheet.title = "Calibration";
    sheet.width_mm = width;
    sheet.height_mm = height;
    Writer writer(sheet, style, fonts);
    writer.title(studies);
    for (const Study& study : studies) writer.study(study);
    writer.chart(studies);
    return sheet;
}

}  // namespace selvage::studies
