#include "sheets/card_further.h"

#include "sheets/card_depth_dangers.h"

#include <utility>

namespace selvage::sheets {

namespace {

constexpr double danger_row = 5.2;  // mm

std::string danger_line(const planning::Danger& danger, const CardFacts& facts, const base::MapFrame& map) {
    return danger_depths(danger, map) + "  " + danger_words(danger, facts, map);
}

}  // namespace

double Further::height() const {
    const std::size_t rows = danger_rows() + lines.size();
    return rows == 0 ? 0.0 : 7.2 + danger_row * static_cast<double>(rows);
}

Further further_of(const CardPage& page, const CardFacts& facts, const Results& results, const WayRows& front, double room,
                   const Tools& tools) {
    const base::MapFrame& map = results.records.frame;
    Further further;
    for (const std::size_t i : front.others)
        further.dangers.push_back({danger_letter(i), danger_line(facts.dangers[i], facts, map)});
    for (const planning::Danger& danger : facts.further_dangers) further.dangers.push_back({"", danger_line(danger, facts, map)});
    for (const Further::Told& one : further.dangers)
        if (page.width_of(one.words, "card_figure") > page.width() / 2.0 - 8.0) further.abreast = 1;
    for (const std::string& sentence : front.left_out)
        for (std::string& line : drawing::wrapped(tools.fonts, tools.style.text("card_figure"), sentence, page.width()))
            further.lines.push_back(std::move(line));
    std::size_t counted = 0;
    while (further.height() > room && further.dangers.size() > front.others.size()) {
        further.dangers.pop_back();
        if (counted++ > 0) further.lines.pop_back();
        further.lines.push_back("And " + std::to_string(counted) + " further down, for which there is no room: ask.");
    }
    return further;
}

void write_further(CardPage& page, const Further& further) {
    if (further.height() == 0.0) return;
    page.write(page.left(), 4.6, "On the way, continued from the front", "card_caption");
    const double room = page.width() / static_cast<double>(further.abreast);
    for (std::size_t i = 0; i < further.dangers.size(); ++i) {
        const double x = page.left() + room * static_cast<double>(i % further.abreast);
        const double down = 9.8 + danger_row * static_cast<double>(i / further.abreast);
        page.write(x, down, further.dangers[i].letter, "card_mark");
        page.write(x + 5.0, down, further.dangers[i].words, "card_figure", drawing::Anchor::left, room - 8.0);
    }
    double down = 9.8 + danger_row * static_cast<double>(further.danger_rows());
    for (const std::string& line : further.lines) {
        page.write(page.left(), down, line, "card_figure");
        down += danger_row;
    }
    page.end_part(further.height());
}

}  // namespace selvage::sheets
