#include "sheets/long_section_labels.h"

#include "base/text.h"
#include "paths/locate.h"
#include "sheets/clearance.h"
#include "sheets/forecast_table.h"
#include "sheets/intercept_table.h"
#include "sheets/label_text.h"
#include "sheets/side_list.h"
#include "sheets/starts.h"
#include "sheets/symbols.h"
#include "sheets/vein_ahead.h"

#include <utility>
#include <variant>

namespace selvage::sheets {

namespace {

constexpr int priority_forecast = 4, priority_hit = 3, priority_miss = 2, priority_outcrop = 1;

drawing::TextLook lighter(drawing::TextLook look) {
    look.face = drawing::FontFace::regular;
    return look;
}

NamedLabel named_label(const std::string& owner, const Point& at, double symbol_width, const std::string& name,
                       const std::string& rest, int priority, const Tools& tools) {
    NamedLabel named;
    named.label.owner = owner;
    named.label.at = at;
    named.label.clear_mm = symbol_width / 2.0;
    named.label.priority = priority;
    named.label.lines.push_back({name, tools.style.text("name"), {}});
    named.label.short_line = named.label.lines.front();
    if (!rest.empty()) named.label.lines.front().rest.push_back({rest, lighter(tools.style.text("name")), false});
    return named;
}

// Channels, trenches and faces lie close together; the holes' labels have the better places.
bool is_hole(const Results& results, const std::string& name) {
    const paths::Path* path = paths::path_of(results.paths, name);
    return path == nullptr || tables::is_drill_hole(path->type);
}

}  // namespace

std::string joined_lines(const NamedLabel& named) {
    std::string text;
    for (const drawing::LabelLine& line : named.label.lines) {
        const bool goes_on = text.empty() || text.back() == ':' || text.back() == ';' || text.back() == ',';
        text += (text.empty() ? "" : goes_on ? " " : ", ") + line.text;
        for (const drawing::LabelPart& part : line.rest) text += " " + part.text;
        if (&line == &named.label.lines.front() && named.label.lines.size() > 1) text += ":";
    }
    return text;
}

NamedLabel named_hit(const HitOnPlane& drawn, const Results& results, const GradeClasses& classes, const PaperFrame& frame,
                     const Tools& tools) {
    const intercepts::Intercept& hit = *drawn.hit;
    const std::string figure = accumulation_text(hit, classes, results.records.frame);
    NamedLabel named =
        named_label(hit.hole + " " + hit.vein, frame.paper_from_drawn(drawn.place), hit_symbol_width_mm(drawn.sign, tools),
                    hit.hole, figure, is_hole(results, hit.hole) ? priority_hit : priority_outcrop, tools);
    named.label.lines.push_back({hit_label(hit, results.records, classes.analyte), tools.style.text("body"), {}});
    if (const paths::Path* path = paths::path_of(results.paths, hit.hole); path != nullptr && !is_hole(results, hit.hole))
        named.label.lines.front().rest.push_back({", " + sample_word(path->type), lighter(tools.style.text("name")), false});
    if (const std::string doubt = doubt_words(hit); !doubt.empty())
        named.label.lines.push_back({doubt, tools.style.text("body"), {}});
    named.link = intercept_row_destination(hit.hole, hit.vein);
    return named;
}

NamedLabel named_miss(const MissOnPlane& drawn, const std::string& vein, const base::MapFrame& map, const PaperFrame& frame,
                      const Tools& tools) {
    const veins::NoVein& none = *drawn.none;
    NamedLabel named = named_label(none.hole + " " + vein, frame.paper_from_drawn(drawn.place),
                                   hit_symbol_width_mm(HitSign::no_vein, tools), none.hole, "no vein", priority_miss, tools);
    const std::string how = none.reason == veins::NoVeinReason::absent ? "looked at, absent" : "none logged";
    named.label.lines.push_back({"at " + length_text(none.depth, map, 0) + ", " + how, tools.style.text("body"), {}});
    named.link = intercept_row_destination(none.hole, vein);
    return named;
}

NamedLabel named_pierce(const PierceOnPlane& drawn, const Results& results, const PaperFrame& frame, const Tools& tools) {
    const forecast::Pierce& pierce = *drawn.pierce;
    const double width = tools.style.size_mm("planned_pierce") + 2.0 * tools.style.size_mm("planned_pierce_tick");
    NamedLabel named = named_label(pierce.hole + " " + pierce.vein, frame.paper_from_drawn(drawn.place), width, pierce.hole,
                                   word_of_plan(drawn.status), priority_forecast, tools);
    named.label.lines.front().look = tools.style.text("planned_name");
    named.label.lines.front().rest.front().look = lighter(tools.style.text("planned_name"));
    named.label.short_line = {pierce.hole, tools.style.text("planned_name"), {}};
    // A narrow label finds room nearer to its sign than one with a long line.
    constexpr double most_width = 46.0;  // mm
    const drawing::TextLook &body = tools.style.text("body"), &strong = tools.style.text("body_strong");
    if (const paths::Path* path = paths::path_of(results.paths, pierce.hole); path != nullptr)
        if (const std::string near = too_near_words(near_ahead(*path, results), results.records.frame); !near.empty()) {
            for (std::string& part : drawing::wrapped(tools.fonts, strong, "TOO NEAR " + near, most_width))
                named.label.lines.push_back({std::move(part), strong, {}});
            named.label.short_line.rest = {{" TOO NEAR", strong}};
        }
    named.place_line = named.label.lines.size();
    for (const std::string& line : forecast_lines(pierce, results)) {
        const bool says_place = named.label.lines.size() == named.place_line;  // others add to its end
        for (std::string& part :
             says_place ? std::vector<std::string>{line} : drawing::wrapped(tools.fonts, body, line, most_width))
            named.label.lines.push_back({std::move(part), body, {}});
    }
    named.link = forecast_row_destination(pierce.hole, pierce.vein);
    named.planned = true;
    return named;
}

namespace {

NamedLabel outcrop_of(const OutcropOnPlane& drawn, const Results& results, const GradeClasses& classes, const PaperFrame& frame,
                      std::size_t number, const Tools& tools) {
    const tables::Outcrop& outcrop = *drawn.outcrop;
    std::string words = outcrop.trench ? "trench" : "outcrop";
    if (outcrop.thickness) words += " " + thickness_text(*outcrop.thickness, results.records.frame) + " TW";
    if (classes.analyte < outcrop.values.size() && outcrop.values[classes.analyte].value) {
        const tables::AssayValue& value = outcrop.values[classes.analyte];
        words += " @ " +
                 grade_text({*value.value, value.over_limit, value.below_detection}, results.records.analytes[classes.analyte]);
    }
    NamedLabel named;
    named.label.owner = "outcrop " + std::to_string(number);
    named.label.at = frame.paper_from_drawn(drawn.place);
    named.label.clear_mm = tools.style.size_mm("outcrop") / 2.0;
    named.label.priority = priority_outcrop;
    named.label.lines.push_back({words, tools.style.text("body"), {}});
    return named;
}

NamedLabel target_of(const TargetOnPlane& target, const base::MapFrame& map, const PaperFrame& frame, const Tools& tools) {
    const std::string& hole = target.off.pierce->hole;
    NamedLabel named;
    named.label.owner = hole + " target";
    named.label.at = frame.paper_from_drawn(target.place);
    named.label.clear_mm = target_cross_mm / 2.0;
    named.label.priority = priority_forecast;
    named.label.lines = {
        {"target of " + hole + ", " + length_text(target.off.metres, map, 0) + " off", tools.style.text("planned_text"), {}}};
    named.planned = true;
    return named;
}

}  // namespace

std::string word_of_plan(tables::HoleStatus status) { return status == tables::HoleStatus::active ? "active" : "planned"; }

std::vector<std::string> forecast_lines(const forecast::Pierce& pierce, const Results& results) {
    std::vector<std::string> lines = piece_lines(pierce, vein_ahead_of(pierce, results.pierces), results.records.frame);
    lines.front() = "vein " + lines.front();
    for (std::size_t i = 0; i + 1 < lines.size(); ++i) lines[i] += ";";
    return lines;
}

std::vector<NamedLabel> long_section_labels(const LongSectionContent& content, const Results& results,
                                            const GradeClasses& classes, const PaperFrame& frame, const Tools& tools) {
    const base::MapFrame& map = results.records.frame;
    const std::string& vein = results.veins[content.vein].name();
    std::vector<NamedLabel> labels;
    for (const HitOnPlane& hit : content.hits) labels.push_back(named_hit(hit, results, classes, frame, tools));
    for (const MissOnPlane& miss : content.misses) labels.push_back(named_miss(miss, vein, map, frame, tools));
    for (const PierceOnPlane& pierce : content.pierces) labels.push_back(named_pierce(pierce, results, frame, tools));
    for (const TargetOnPlane& target : content.targets) labels.push_back(target_of(target, map, frame, tools));
    for (std::size_t i = 0; i < content.outcrops.size(); ++i)
        labels.push_back(outcrop_of(content.outcrops[i], results, classes, frame, i + 1, tools));
    for (NamedLabel& named : labels) named.label.listed_text = joined_lines(named);
    return labels;
}

namespace {

// Its line in the side list where its short line, which begins it, stands on the drawing: looked up by that name.
std::string with_name_apart(const drawing::Label& label) {
    const std::string& name = label.short_line.text;
    std::string line = label.listed_text;
    if (line.compare(0, name.size() + 1, name + " ") == 0) line[name.size()] = '\t';
    return line;
}

}  // namespace

Marks label_marks(const NamedLabel& named, const drawing::PlacedLabel& placed, const drawing::LabelRules& rules,
                  const Tools& tools) {
    Marks marks;
    if (placed.leader.size() > 1)
        marks.push_back(line_of(placed.leader, tools.style.line(named.planned ? "planned_leader" : "leader")));
    std::vector<drawing::Text> texts = drawing::texts_of(named.label, placed, rules, tools.fonts, 0.0);
    if (!texts.empty()) texts.front().link = named.link;
    for (drawing::Text& text : texts) marks.emplace_back(std::move(text));
    return marks;
}

PlacedWords placed_words(const std::vector<NamedLabel>& named, const drawing::Obstacles& obstacles,
                         const drawing::LabelRules& rules, const Tools& tools) {
    std::vector<drawing::Label> labels;
    for (const NamedLabel& one : named) labels.push_back(one.label);
    const drawing::PlacedLabels placed = drawing::place_labels(labels, obstacles, rules, tools.fonts);
    PlacedWords words;
    words.counts = placed.figures;
    std::vector<ListedLabel> listed;
    for (const drawing::PlacedLabel& one : placed.labels) {
        for (Mark& mark : label_marks(named[one.label], one, rules, tools)) {
            if (const auto* text = std::get_if<drawing::Text>(&mark))
                words.boxes.push_back(drawing::grown(box_of_words(*text, tools.fonts), tools.style.size_mm("gap_round_words")));
            words.marks.push_back(std::move(mark));
        }
        const drawing::Label& label = named[one.label].label;
        if (one.placing == drawing::Placing::listed && label.may_be_listed)
            listed.push_back({one.number, one.in_short ? with_name_apart(label) : label.listed_text});
        if (one.leader.size() == 2) words.leaders.push_back({one.leader[0], one.leader[1]});
    }
    words.listed = listed_lines(std::move(listed));
    return words;
}

}  // namespace selvage::sheets
