#include "base/text.h"
#include "sheets/emptiest_place.h"
#include "sheets/forecast_drawing.h"
#include "sheets/label_text.h"
#include "sheets/vein_ahead.h"
#include "sheets/way_drawing.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <optional>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double text_width = 58.0, name_gap = 2.5;  // mm
constexpr double group_gap = 2.2;

struct WordsOfVein {
    std::string vein;    // or what else it is
    double depth = 0.0;  // m, where it is likeliest
    std::vector<std::string> lines;
};
struct WordsOfHole {
    std::string heading;
    std::vector<WordsOfVein> veins;  // what else it meets on its way stands first
};

std::vector<std::string> lines_of(const SectionDrawing& drawing, const VeinAhead& ahead) {
    const base::MapFrame& map = drawing.map();
    const drawing::TextLook& look = drawing.tools.style.text("body");
    std::vector<std::string> lines = drawing::wrapped(drawing.tools.fonts, look, ahead_sentence(ahead, map) + ".", text_width);
    std::string call = call_words(call_and_stop(ahead, drawing.results), map);
    if (call.empty()) return lines;
    call.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(call.front())));
    for (std::string& line : drawing::wrapped(drawing.tools.fonts, look, call + ".", text_width))
        lines.push_back(std::move(line));
    return lines;
}

// The veins ahead of a hole that this section does not hold: where, and on which sheet.
std::vector<WordsOfVein> elsewhere(const SectionDrawing& drawing, const std::string& hole) {
    const std::vector<const forecast::Pierce*>& here = drawing.content.pierces;
    std::vector<WordsOfVein> words;
    for (const VeinAhead& ahead : veins_ahead(drawing.results.pierces)) {
        if (ahead.hole != hole || !is_within_reach(ahead)) continue;
        if (std::any_of(ahead.pieces.begin(), ahead.pieces.end(),
                        [&](const forecast::Pierce* piece) { return std::find(here.begin(), here.end(), piece) != here.end(); }))
            continue;
        const forecast::Pierce& piece = ahead.likeliest();
        const std::string sheet = sheet_of(drawing.set, piece.point);
        const std::string at = "at " + length_text(piece.depth, drawing.map(), 0);
        words.push_back({piece.vein, piece.depth, {at + (sheet.empty() ? ", on no section" : ": sheet " + sheet)}});
    }
    return words;
}

std::vector<WordsOfVein> way_of(const SectionDrawing& drawing, const std::string& hole) {
    std::vector<WordsOfVein> way;
    for (const auto& [what, words] : way_words(hole, drawing.results))
        way.push_back({what, 0.0, drawing::wrapped(drawing.tools.fonts, drawing.tools.style.text("body"), words, text_width)});
    return way;
}

std::vector<WordsOfHole> words_of_holes(const SectionDrawing& drawing) {
    std::vector<WordsOfHole> all;
    std::vector<std::string> names;
    for (const VeinAhead& ahead : veins_ahead(drawing.content.pierces, drawing.results.pierces)) {
        const std::size_t number = path_number(drawing.results, ahead.hole);
        if (number >= drawing.results.paths.size()) continue;
        const bool active = drawing.results.paths[number].status == tables::HoleStatus::active;
        const std::string heading = ahead.hole + (active ? ", active" : ", planned") + ": what it should meet";
        if (all.empty() || all.back().heading != heading) {
            all.push_back({heading, {}});
            names.push_back(ahead.hole);
        }
        all.back().veins.push_back({ahead.vein, ahead.likeliest().depth, lines_of(drawing, ahead)});
    }
    for (std::size_t i = 0; i < all.size(); ++i) {
        for (WordsOfVein& vein : elsewhere(drawing, names[i])) all[i].veins.push_back(std::move(vein));
        std::stable_sort(all[i].veins.begin(), all[i].veins.end(),
                         [](const WordsOfVein& a, const WordsOfVein& b) { return a.depth < b.depth; });
        const std::vector<WordsOfVein> way = way_of(drawing, names[i]);
        all[i].veins.insert(all[i].veins.begin(), way.begin(), way.end());
    }
    return all;
}

double name_width(const SectionDrawing& drawing, const std::vector<WordsOfHole>& holes) {
    double width = 0.0;
    for (const WordsOfHole& hole : holes)
        for (const WordsOfVein& vein : hole.veins)
            width = std::max(width,
                             drawing::text_width_mm(drawing.tools.fonts, drawing.tools.style.text("planned_strong"), vein.vein));
    return width + name_gap;
}

double height_of(const SectionDrawing& drawing, const std::vector<WordsOfHole>& holes) {
    const double leading = drawing.tools.style.size_mm("leading");
    double height = 1.5;
    for (const WordsOfHole& hole : holes) {
        height += leading + 2.0 + group_gap;
        for (const WordsOfVein& vein : hole.veins) height += leading * static_cast<double>(vein.lines.size()) + 0.8;
    }
    return height;
}

void write_words(SectionDrawing& drawing, const std::vector<WordsOfHole>& holes, const Box& box, double indent) {
    const drawing::Style& style = drawing.tools.style;
    const double leading = style.size_mm("leading");
    const drawing::LineLook& rule = style.line("planned_rule");
    drawing::LineLook last_rule = rule;
    last_rule.width_mm = style.line("rule").width_mm;
    // White under the words: the grid gives way.
    Marks marks{box_area(drawing::grown(box, 1.0), plain(style.colour("white")))};
    double y = box.top;
    for (const WordsOfHole& hole : holes) {
        marks.push_back(line_of({{box.left, y}, {box.right, y}}, rule));
        y -= leading + 0.6;
        marks.push_back(words({box.left, y}, hole.heading, style.text("planned_heading")));
        y -= 1.4;
        for (const WordsOfVein& vein : hole.veins) {
            bool first = true;
            for (const std::string& line : vein.lines) {
                y -= leading;
                if (first) marks.push_back(words({box.left, y}, vein.vein, style.text("planned_strong")));
                marks.push_back(words({box.left + indent, y}, line, style.text("body")));
                first = false;
            }
            y -= 0.8;
        }
        y -= group_gap;
    }
    marks.push_back(line_of({{box.left, box.bottom}, {box.right, box.bottom}}, last_rule));
    drawing.put(Layer::forecasts, std::move(marks));
    drawing.obstacles.boxes.push_back(drawing::grown(box, 1.5));
}

}  // namespace

void draw_forecast_words(SectionDrawing& drawing) {
    const std::vector<WordsOfHole> holes = words_of_holes(drawing);
    if (holes.empty()) return;
    const double indent = name_width(drawing, holes);
    // All together, or else hole by hole.
    const auto place = [&](const std::vector<WordsOfHole>& group) {
        const std::optional<Box> box = emptiest_place(drawing, indent + text_width, height_of(drawing, group));
        if (box) write_words(drawing, group, *box, indent);
        return box.has_value();
    };
    if (place(holes)) return;
    for (const WordsOfHole& hole : holes) {
        if (holes.size() > 1 && place({hole})) continue;
        const std::string name = hole.heading.substr(0, hole.heading.rfind(", "));
        for (const auto& [what, words] : way_words(name, drawing.results))
            drawing.side_list.push_back(name + "\t" + what + ": " + words);
        for (const VeinAhead& ahead : veins_ahead(drawing.content.pierces, drawing.results.pierces)) {
            if (ahead.hole != name) continue;
            const std::string call = call_words(call_and_stop(ahead, drawing.results), drawing.map());
            drawing.side_list.push_back(ahead.hole + "\t" + ahead.vein + " " + ahead_sentence(ahead, drawing.map()) +
                                        (call.empty() ? "" : "; " + call));
        }
        for (const WordsOfVein& vein : elsewhere(drawing, name))
            drawing.side_list.push_back(name + "\t" + vein.vein + " " + vein.lines.front());
    }
}

}  // namespace selvage::sheets
