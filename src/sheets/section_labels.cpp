#include "sheets/section_labels.h"

#include "sheets/paper_choice.h"
#include "sheets/symbols.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace selvage::sheets {

namespace {

// A label's line in the side list; its own words where it has none for it.
std::string listed_words(const drawing::Label& label) {
    std::string text = label.listed_text;
    if (text.empty())
        for (const drawing::LabelLine& line : label.lines) {
            text += (text.empty() ? "" : ", ") + line.text;
            for (const drawing::LabelPart& part : line.rest) text += " " + part.text;
        }
    return text;
}

std::string without_tab(std::string text) {
    if (const std::size_t tab = text.find('\t'); tab != std::string::npos) text[tab] = ' ';
    return text;
}

Marks leader_marks(const WantedLabel& wanted, const drawing::PlacedLabel& placed, const Tools& tools) {
    if (placed.leader.size() < 2) return {};
    // A number's may run over other traces: it breaks none, and a dot tells the one that is meant.
    constexpr double dot_mm = 0.45;
    if (placed.number > 0) {
        const Point &start = placed.leader[0], &end = placed.leader[1];
        const double back = wanted.label.clear_mm / std::hypot(end.x - start.x, end.y - start.y);
        const Point on_trace{start.x - back * (end.x - start.x), start.y - back * (end.y - start.y)};
        return {line_of({on_trace, end}, tools.style.line("leader")), disc(on_trace, dot_mm, plain(tools.style.colour("ink")))};
    }
    return {line_of(placed.leader, tools.style.line("leader_casing")),
            line_of(placed.leader, tools.style.line(wanted.planned ? "planned_leader" : "leader"))};
}

Marks label_marks(const WantedLabel& wanted, const drawing::PlacedLabel& placed, const drawing::LabelRules& rules,
                  const Tools& tools) {
    Marks marks;
    const double halo = tools.style.size_mm("halo");
    bool first = true;
    for (drawing::Text& text : drawing::texts_of(wanted.label, placed, rules, tools.fonts, halo)) {
        if (first) text.link = wanted.link;
        first = false;
        marks.push_back(std::move(text));
    }
    if (wanted.head && placed.placing != drawing::Placing::listed)
        append(marks, hit_symbol(*wanted.head, drawing::head_of(wanted.label, placed, rules, tools.fonts), tools));
    return marks;
}

}  // namespace

DrawnLabels draw_labels(SectionDrawing& drawing) {
    drawing.labels.erase(std::remove_if(drawing.labels.begin(), drawing.labels.end(),
                                        [&](WantedLabel& wanted) { return !keep_within(wanted.label, drawing.tile); }),
                         drawing.labels.end());
    std::vector<drawing::Label> labels;
    for (const WantedLabel& wanted : drawing.labels) labels.push_back(wanted.label);
    const drawing::LabelRules rules =
        label_rules(drawing::grown(drawing.tile.core, -1.0), drawing.results.project, drawing.tools);
    const drawing::PlacedLabels placed = drawing::place_labels(labels, drawing.obstacles, rules, drawing.tools.fonts);
    DrawnLabels drawn;
    drawn.figures = placed.figures;
    Marks leaders, words_and_signs;
    std::vector<std::string> numbered(placed.labels.size() + 1), unnumbered;
    for (const drawing::PlacedLabel& label : placed.labels) {
        const WantedLabel& wanted = drawing.labels[label.label];
        append(leaders, leader_marks(wanted, label, drawing.tools));
        append(words_and_signs, label_marks(wanted, label, rules, drawing.tools));
        drawn.boxes.push_back(drawing::grown(label.box, rules.apart_mm));
        for (std::size_t i = 0; i + 1 < label.leader.size(); ++i)
            drawing.obstacles.lines.push_back({label.leader[i], label.leader[i + 1]});
        if (label.placing != drawing::Placing::listed || !wanted.label.may_be_listed) continue;
        if (label.number == 0)
            unnumbered.push_back(listed_words(wanted.label));
        else
            numbered[label.number] = std::to_string(label.number) + "\t" + without_tab(listed_words(wanted.label));
    }
    drawing.put(Layer::labels, std::move(leaders));
    drawing.put(Layer::labels, std::move(words_and_signs));
    for (std::string& line : numbered)
        if (!line.empty()) drawn.listed.push_back(std::move(line));
    drawn.listed.insert(drawn.listed.end(), unnumbered.begin(), unnumbered.end());
    return drawn;
}

}  // namespace selvage::sheets
