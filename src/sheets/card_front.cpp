#include "base/text.h"
#include "sheets/card_depth_line.h"
#include "sheets/cautions.h"
#include "sheets/drill_site_card.h"
#include "sheets/label_text.h"
#include "sheets/own_plane.h"

#include <algorithm>
#include <cmath>

namespace selvage::sheets {

namespace {

constexpr double step = 6.7;          // mm, base line to base line of 14 pt
constexpr double way_head = 9.2;      // over the first line of what is on the way
constexpr double rule_indent = 33.0;  // from a rule's label to its words
// Heights of the parts that are always the same, mm.
constexpr double frame_height = 277.0, head_height = 21.5, collar_height = 15.0, angles_height = 30.5, key_height = 20.0;
constexpr double survey_height = 17.5, caution_height = 12.0, identity_height = 9.5, signature_height = 15.0;
constexpr double foot_height = survey_height + caution_height + identity_height + signature_height;
constexpr double text_width = 168.0;

void head(CardPage& page, const CardFacts& facts, std::size_t number, std::size_t count, const Results& results) {
    constexpr double room = 46.0;
    page.write(page.left(), 16.6, facts.collar->hole, "card_hole", drawing::Anchor::left, room,
               destination_of_sheet(hole_section_kind, facts.collar->hole));
    const double x = page.left() + room + 5.0, side = 34.0;
    page.write(x, 9.2, "Drill-site card, front", "card_name");
    page.write(x, 16.8, hole_words(facts, results.records.frame), "card_text", drawing::Anchor::left, page.right() - side - x);
    page.write(page.right(), 9.2, results.project.name, "card_name", drawing::Anchor::right, 44.0);
    page.write(page.right(), 16.8, "card " + std::to_string(number) + " of " + std::to_string(count), "card_text",
               drawing::Anchor::right);
    page.end_part(head_height);
}

std::string with_tenths(double value) {
    const double tenths = std::floor(std::abs(value) * 10.0 + 0.5);
    const double whole = std::floor(tenths / 10.0);
    return (value < 0.0 && tenths > 0.0 ? "-" : "") + spaced_thousands(whole) + "." + base::fixed(tenths - 10.0 * whole, 0);
}

void collar(CardPage& page, const CardFacts& facts, const Results& results) {
    const base::MapFrame& map = results.records.frame;
    const Eigen::Vector3d at = map.map_from_project(facts.path->collar);
    const std::string system = results.project.crs.empty() ? "coordinate system not stated" : results.project.crs;
    page.write(page.left(), 4.8, "Collar, " + system + ", " + base::symbol_of(map.unit), "card_caption");
    const std::vector<std::pair<std::string, double>> axes{{"E", at.x()}, {"N", at.y()}, {"elev.", at.z()}};
    for (std::size_t i = 0; i < axes.size(); ++i) {
        const double x = page.left() + page.width() * 0.345 * static_cast<double>(i);
        page.write(x, 11.8, axes[i].first, "card_text");
        page.write(x + page.width_of(axes[i].first, "card_text") + 3.0, 11.8, with_tenths(axes[i].second), "card_strong");
    }
    page.end_part(collar_height);
}

void angles(CardPage& page, const CardFacts& facts, const Results& results) {
    const double x0 = page.left(), part = 34.5, rule = x0 + 3.0 * part + 0.5;
    const std::vector<std::pair<std::string, std::optional<base::Azimuth>>> azimuths{
        {"Azimuth TRUE", facts.norths.from_true}, {"GRID", facts.norths.grid}, {"MAGNETIC", facts.norths.from_magnetic}};
    for (std::size_t i = 0; i < azimuths.size(); ++i) {
        const double x = x0 + part * static_cast<double>(i);
        page.write(x, 5.4, azimuths[i].first, "card_caption_strong");
        const bool said = azimuths[i].second.has_value() && !facts.steep;
        page.write(x, said ? 14.4 : 13.6, facts.steep ? "steep" : azimuth_figure(azimuths[i].second),
                   said ? "card_angle" : "card_strong");
    }
    page.write(rule + 4.0, 5.4, "Dip", "card_caption");
    const std::string dip = base::fixed(facts.start.dip.degrees(), 1) + "°";
    page.write(rule + 4.0, 14.4, dip, "card_angle");
    page.write(rule + 5.5 + page.width_of(dip, "card_angle"), 14.4, "down", "card_caption");
    page.write(page.right(), 5.4, "Length", "card_caption", drawing::Anchor::right);
    page.write(page.right(), 14.4, length_text(facts.path->end_depth, results.records.frame, 0), "card_angle",
               drawing::Anchor::right);
    page.write(x0, 20.0, facts.steep ? "So near to the vertical that no azimuth can be set." : facts.norths.words, "card_caption",
               drawing::Anchor::left, page.width());
    page.write(x0, 27.6, aim_off_words(facts), "card_text", drawing::Anchor::left, page.width());
    page.end_part(angles_height);
}

// Every vein's call, and where to stop if it is not met.
void key_depths(CardPage& page, const CardFacts& facts, const Results& results) {
    const base::MapFrame& map = results.records.frame;
    std::string calls, stops, of;
    for (const VeinDue& due : veins_due(facts, results)) {
        const std::string comma = calls.empty() ? "" : ", ";
        calls += comma + length_figure(due.call, map, 0);
        stops += comma + length_figure(due.stop, map, 0);
        of += comma + due.ahead.vein;
    }
    if (stops.empty()) stops = length_figure(ask_depth(facts, results).depth, map, 0);
    const bool several = calls.find(',') != std::string::npos;
    const double height = key_height, half = page.left() + page.width() / 2.0;
    page.upright_rule(half, height);
    const std::string head = several ? "CALL THE GEOLOGIST AT (" + of + ")" : "CALL THE GEOLOGIST AT";
    page.write(page.left(), 6.0, head, "card_caption_strong", drawing::Anchor::left, half - page.left() - 4.0);
    page.write(page.left(), 16.4, calls.empty() ? "no vein due" : calls + " " + base::symbol_of(map.unit), "card_key",
               drawing::Anchor::left, half - page.left() - 4.0);
    const double room = page.right() - half - 6.0;
    page.write(half + 6.0, 6.0, several ? "NOT MET: STOP AND ASK AT (" + of + ")" : "STOP AND ASK AT", "card_caption_strong",
               drawing::Anchor::left, room);
    page.write(half + 6.0, 16.4, stops + " " + base::symbol_of(map.unit), "card_key", drawing::Anchor::left, room);
    page.end_part(height);
}

double rules_height(const std::vector<StopRule>& rules, double width, const Tools& tools) {
    std::size_t lines = 0;
    for (const StopRule& rule : rules)
        lines += drawing::wrapped(tools.fonts, tools.style.text("card_text"), rule.rule, width - rule_indent).size();
    return 9.2 + step * static_cast<double>(lines);
}

void stop_part(CardPage& page, const CardFacts& facts, const Results& results, const Tools& tools) {
    const std::vector<StopRule> rules = stop_rules(facts, results);
    page.write(page.left(), 4.8, "When to stop", "card_caption");
    double down = 11.6;
    for (const StopRule& rule : rules) {
        page.write(page.left(), down, rule.when, "card_strong", drawing::Anchor::left, rule_indent - 1.5);
        down += step * static_cast<double>(page.write_lines(page.left() + rule_indent, down, rule.rule, "card_text",
                                                            page.width() - rule_indent, step));
    }
    page.end_part(rules_height(rules, page.width(), tools));
}

// Property, workings, other holes. Those that call for an answer before drilling come first, in the strong look.
struct ClosingLine {
    std::string words;
    const char* role = "card_text";
};

std::vector<ClosingLine> closing_lines(const CardFacts& facts, const Results& results) {
    const base::MapFrame& map = results.records.frame;
    std::vector<ClosingLine> lines{{clearance_words(facts, results)}};
    const std::string near = nearest_hole_words(facts, results);
    if (!near.empty() && facts.nearest->distance < results.project.plan.clearance)
        lines.insert(lines.begin(), {near, "card_name"});
    else if (!near.empty())
        lines.push_back({near});
    if (const std::string beside = beside_words(facts, results); !beside.empty()) lines.push_back({beside});
    if (facts.leaves_property)
        lines.insert(
            lines.begin(),
            {"It leaves the property at " + length_text(*facts.leaves_property, map, 0) + ": not past it.", "card_name"});
    return lines;
}

// The lines of the part, and how far apart they stand.
struct WayRow {
    std::string letter, depths, words;
    const char* role = "card_text";
};
struct WayRows {
    std::vector<WayRow> rows;
    std::size_t dangers = 0;  // of the hole's that stand here; the others are on the back
    double step = 0.0;
};

// Of the dangers that do not stand on the front, from the first so many on.
std::string more_words(const CardFacts& facts, std::size_t on_front) {
    const std::size_t more = facts.dangers.size() - on_front, further = facts.further_dangers;
    const std::string not_told = std::to_string(further) + " further off not told";
    if (more == 0) return further == 0 ? "" : not_told + ".";
    const std::string words = std::to_string(more) + (on_front > 0 ? " more: on the back"
                                                      : more == 1  ? " danger: see the back"
                                                                   : " dangers: see the back");
    return words + (further == 0 ? "." : ", " + not_told + ".");
}

// Two lines that only tell become one where there is little room; then dangers go to the back, the last ones first.
WayRows way_rows(const CardFacts& facts, const Results& results, double free) {
    constexpr double tightest = 5.4;
    const auto room = static_cast<std::size_t>(std::max(0.0, std::floor((free - way_head) / step + 1e-9)));
    std::vector<ClosingLine> closing = closing_lines(facts, results);
    const std::size_t told = std::max<std::size_t>(1, facts.dangers.size() + (facts.further_dangers > 0 ? 1 : 0));
    if (told + closing.size() > room && closing.size() > 1 && closing[closing.size() - 2].role == closing.back().role) {
        const std::string last = closing.back().words;
        closing.pop_back();
        closing.back().words += " " + last;
    }
    WayRows way;
    way.dangers = facts.dangers.size();
    if (told + closing.size() > room && way.dangers > 0)
        way.dangers = room > closing.size() + 1 ? std::min(way.dangers, room - closing.size() - 1) : 0;
    for (std::size_t i = 0; i < way.dangers; ++i)
        way.rows.push_back({danger_letter(i), danger_depths(facts.dangers[i], results.records.frame),
                            danger_words(facts.dangers[i], results.records.frame)});
    if (facts.dangers.empty())
        way.rows.push_back({"", "", "Nothing is modelled or told of holes near by; that does not mean that nothing is there."});
    if (const std::string more = more_words(facts, way.dangers); !more.empty()) way.rows.push_back({"", "", more, "card_strong"});
    for (const ClosingLine& line : closing) way.rows.push_back({"", "", line.words, line.role});
    way.step = std::clamp((free - way_head) / static_cast<double>(way.rows.size()), tightest, step);
    return way;
}

void dangers_part(CardPage& page, const WayRows& way) {
    page.write(page.left(), 4.8, "On the way, as modelled faults, workings and neighbouring holes tell", "card_caption");
    double depths = 0.0;
    for (const WayRow& row : way.rows) depths = std::max(depths, page.width_of(row.depths, "card_strong"));
    const double x = page.left() + 7.0;
    double down = 11.6;
    for (const WayRow& row : way.rows) {
        const double words_at = row.depths.empty() ? x : x + depths + 5.0;
        if (!row.letter.empty()) page.write(page.left(), down, row.letter, "card_name");
        if (!row.depths.empty()) page.write(x, down, row.depths, "card_strong");
        page.write(words_at, down, row.words, row.role, drawing::Anchor::left, page.right() - words_at);
        down += way.step;
    }
    page.end_part(page.free() - foot_height);
}

double way_room(const CardFacts& facts, const Results& results, const Tools& tools) {
    return frame_height - head_height - collar_height - angles_height - depth_line_height(facts) - key_height -
           rules_height(stop_rules(facts, results), text_width, tools) - foot_height;
}

void survey_and_core(CardPage& page, const CardFacts& facts, const Results& results) {
    const base::MapFrame& map = results.records.frame;
    const SurveyInterval interval = survey_interval(results.project);
    const std::string first = length_text(interval.first, map, 0), every = length_text(interval.every, map, 0);
    page.write(page.left(), 7.6, "Survey", "card_strong");
    page.write(page.left() + 22.0, 7.6, "at " + first + ", then every " + every + ", and at the end", "card_text");
    page.write(page.left(), 14.4, "Core", "card_strong");
    const double box = 4.4, x = page.right() - page.width_of("all signed", "card_text") - box - 2.5;
    const double core = page.left() + 22.0, clearances = x - 3.0 - page.width_of("Clearances", "card_strong");
    page.write(core, 14.4,
               (facts.collar->core_size.empty() ? "size not given" : facts.collar->core_size) + ", oriented through every vein",
               "card_text", drawing::Anchor::left, clearances - 3.0 - core);
    page.write(clearances, 14.4, "Clearances", "card_strong");
    page.write(page.right(), 14.4, "all signed", "card_text", drawing::Anchor::right);
    page.tick_box(x, 14.4, box);
    page.end_part(survey_height);
}

}  // namespace

std::size_t dangers_on_front(const CardFacts& facts, const Results& results, const Tools& tools) {
    return way_rows(facts, results, way_room(facts, results, tools)).dangers;
}

drawing::Sheet card_front(const CardFacts& facts, std::size_t number, std::size_t count, const Results& results,
                          const RunFacts& run, const Tools& tools) {
    CardPage page(facts.collar->hole, "front", tools);
    head(page, facts, number, count, results);
    collar(page, facts, results);
    angles(page, facts, results);
    draw_depth_line(page, facts, results, tools);
    page.end_part(depth_line_height(facts));
    key_depths(page, facts, results);
    stop_part(page, facts, results, tools);
    dangers_part(page, way_rows(facts, results, way_room(facts, results, tools)));
    survey_and_core(page, facts, results);
    const std::string caution = holes_ahead_caution({facts.collar->hole}, results) + " Full caution and signatures: on the back.";
    // Two lines, or three set close where the hole's name is long.
    const bool close = drawing::wrapped(tools.fonts, tools.style.text("card_caution"), caution, page.width()).size() > 2;
    page.write_lines(page.left(), close ? 4.0 : 5.2, caution, "card_caution", page.width(), close ? 3.4 : 4.2);
    page.end_part(caution_height);
    page.identity(run, results);
    page.signatures({"made by", "checked by", "driller has read this card"}, signature_height);
    return std::move(page).finished();
}

}  // namespace selvage::sheets
