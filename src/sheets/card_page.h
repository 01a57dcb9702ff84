#pragma once

#include "sheets/marks.h"

#include <cstddef>
#include <string>
#include <vector>

// One side of a drill-site card: A4 upright, parts one under another with full rules between them, no tint: it survives a wet
// photocopy.
namespace selvage::sheets {

constexpr const char* card_kind = "drill-site-card";

class CardPage {
public:
    // side: "front" or "back"
    CardPage(const std::string& hole, const std::string& side, const Tools& tools);

    double left() const { return frame_.left + indent; }
    double right() const { return frame_.right - indent; }
    double width() const { return right() - left(); }
    double top() const { return top_; }  // of what is still free
    double free() const { return top_ - frame_.bottom; }

    // Base line `down` under the part's top. Text wider than `width` is set smaller, down to 7 pt, then shortened.
    void write(double x, double down, const std::string& text, const std::string& role,
               drawing::Anchor anchor = drawing::Anchor::left, double width = 0.0, const std::string& link = {});
    // The lines of a running text, `step` apart; gives how many there were.
    std::size_t write_lines(double x, double down, const std::string& text, const std::string& role, double width, double step);
    double width_of(const std::string& text, const std::string& role) const;
    void draw(Marks marks) { append(marks_, std::move(marks)); }
    void draw_in_window(std::size_t window, Marks marks) { put(sheet_, Layer::holes, window, std::move(marks)); }
    // A drawing window to scale, by its number.
    std::size_t add_window(const Box& box, double metres_per_mm, base::LengthUnit unit);
    void end_part(double height);  // with a rule under it
    void upright_rule(double x, double height);
    void tick_box(double x, double down, double side);
    // Identity and signature lines at the foot of the page, the last parts.
    void identity(const RunFacts& run, const Results& results);
    void signatures(const std::vector<std::string>& who, double height);

    drawing::Sheet finished() &&;
    static constexpr double indent = 6.0, text_left = 26.0, text_right = 194.0;  // mm; the words' edges on the paper

private:
    drawing::Sheet sheet_;
    Box frame_;
    double top_ = 0.0;
    Marks marks_;
    const Tools& tools_;
};

// "card 3 of 4, sheet 25 of 31": the place of the sheet in the pack, in the identity row.
Mark card_number_mark(std::size_t number, std::size_t count, const Tools& tools);

}  // namespace selvage::sheets
