#include "base/text.h"
#include "sheets/card_depth_line.h"
#include "sheets/card_key_depths.h"
#include "sheets/cautions.h"
#include "sheets/drill_site_card.h"
#include "sheets/label_text.h"
#include "sheets/own_plane.h"

#include <algorithm>
#include <cctype>
#include <cmath>

namespace selvage::sheets {

namespace {

constexpr double step = 6.0;          // mm, base line to base line of 14 pt
constexpr double rule_indent = 33.0;  // from a rule's label to its words
// Heights of the parts that are always the same, mm.
constexpr double frame_height = 277.0, collar_height = 16.0;
constexpr double survey_height = 15.5, caution_height = 10.8, identity_height = 9.5, signature_height = 15.0;
constexpr double foot_height = survey_height + caution_height + identity_height + signature_height;
constexpr double text_width = 168.0;

// Hole, state and pad: one line, or two where a long name asks for it. The core stands with the surveys.
constexpr double words_at = 51.0, beside_words_room = 34.0;  // from the left; to the right of them
std::vector<std::string> hole_lines(const CardFacts& facts, const Results& results, const Tools& tools) {
    const std::string words = hole_words(facts, results.records.frame);
    return drawing::wrapped(tools.fonts, tools.style.text("card_text"), words.substr(0, words.rfind(", core")),
                            text_width - words_at - beside_words_room);
}

double head_height(const CardFacts& facts, const Results& results, const Tools& tools) {
    return 13.5 + step * static_cast<double>(hole_lines(facts, results, tools).size());
}

void head(CardPage& page, const CardFacts& facts, std::size_t number, std::size_t count, const Results& results,
          const Tools& tools) {
    page.write(page.left(), 15.4, facts.collar->hole, "card_hole", drawing::Anchor::left, words_at - 5.0,
               destination_of_sheet(hole_section_kind, facts.collar->hole));
    const double x = page.left() + words_at;
    page.write(x, 8.2, "Drill-site card, front", "card_name");
    double down = 15.2;
    for (const std::string& line : hole_lines(facts, results, tools)) {
        page.write(x, down, line, "card_text");
        down += step;
    }
    page.write(page.right(), 8.2, results.project.name, "card_name", drawing::Anchor::right, 44.0);
    page.write(page.right(), 15.2, "card " + std::to_string(number) + " of " + std::to_string(count), "card_text",
               drawing::Anchor::right);
    page.end_part(head_height(facts, results, tools));
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
    page.write(page.left(), 6.2, "Collar, " + system + ", " + base::symbol_of(map.unit), "card_text", drawing::Anchor::left,
               page.width());
    const std::vector<std::pair<std::string, double>> axes{{"E", at.x()}, {"N", at.y()}, {"elev.", at.z()}};
    for (std::size_t i = 0; i < axes.size(); ++i) {
        const double x = page.left() + page.width() * 0.345 * static_cast<double>(i);
        page.write(x, 12.8, axes[i].first, "card_text");
        page.write(x + page.width_of(axes[i].first, "card_text") + 3.0, 12.8, with_tenths(axes[i].second), "card_strong");
    }
    page.end_part(collar_height);
}

std::vector<std::string> norths_lines(const CardFacts& facts, const Results& results, const Tools& tools) {
    std::string words = facts.steep ? "So near to the vertical that no azimuth can be set." : facts.norths.words;
    if (const std::string start = start_words(facts, results); !start.empty())
        words = start + (std::islower(static_cast<unsigned char>(words.front())) != 0 ? "; " : ". ") + words;
    return drawing::wrapped(tools.fonts, tools.style.text("card_text"), words, text_width);
}

double angles_height(const CardFacts& facts, const Results& results, const Tools& tools) {
    return 25.0 + step * static_cast<double>(norths_lines(facts, results, tools).size());
}

void angles(CardPage& page, const CardFacts& facts, const Results& results, const Tools& tools) {
    const double x0 = page.left(), part = 34.5, dip_at = x0 + 3.0 * part + 4.5;
    const std::vector<std::pair<std::string, std::optional<base::Azimuth>>> azimuths{
        {"Az. TRUE", facts.norths.from_true}, {"GRID", facts.norths.grid}, {"MAGNETIC", facts.norths.from_magnetic}};
    for (std::size_t i = 0; i < azimuths.size(); ++i) {
        const double x = x0 + part * static_cast<double>(i);
        page.write(x, 6.0, azimuths[i].first, "card_strong");
        const bool said = azimuths[i].second.has_value() && !facts.steep;
        page.write(x, 14.8, facts.steep ? "steep" : azimuth_figure(azimuths[i].second), said ? "card_angle" : "card_strong");
    }
    page.write(dip_at, 6.0, "Dip, down", "card_strong");
    page.write(dip_at, 14.8, base::fixed(facts.start.dip.degrees(), 1) + "°", "card_angle");
    page.write(page.right(), 6.0, "Length", "card_strong", drawing::Anchor::right);
    page.write(page.right(), 14.8, length_text(facts.path->end_depth, results.records.frame, 0), "card_angle",
               drawing::Anchor::right);
    double down = 21.6;
    for (const std::string& line : norths_lines(facts, results, tools)) {
        page.write(x0, down, line, "card_text");
        down += step;
    }
    const std::string warning = set_up_warning(facts, results);
    page.write(x0, down, warning.empty() ? aim_off_words(facts) : warning, warning.empty() ? "card_text" : "card_strong",
               drawing::Anchor::left, page.width());
    page.end_part(angles_height(facts, results, tools));
}

double rules_height(const std::vector<StopRule>& rules, double width, const Tools& tools) {
    std::size_t lines = 0;
    for (const StopRule& rule : rules)
        lines += drawing::wrapped(tools.fonts, tools.style.text("card_text"), rule.rule, width - rule_indent).size();
    return 3.4 + step * static_cast<double>(lines);
}

void stop_part(CardPage& page, const CardFacts& facts, const Results& results, const Tools& tools) {
    const std::vector<StopRule> rules = stop_rules(facts, results);
    double down = 6.4;
    for (const StopRule& rule : rules) {
        page.write(page.left(), down, rule.when, "card_strong", drawing::Anchor::left, rule_indent - 1.5);
        down += step * static_cast<double>(page.write_lines(page.left() + rule_indent, down, rule.rule, "card_text",
                                                            page.width() - rule_indent, step));
    }
    page.end_part(rules_height(rules, page.width(), tools));
}

double way_height(const CardFacts& facts, const Results& results, const Tools& tools) {
    return frame_height - head_height(facts, results, tools) - collar_height - angles_height(facts, results, tools) -
           depth_line_height(facts, results, tools) - key_depths_height(facts, results) -
           rules_height(stop_rules(facts, results), text_width, tools) - foot_height;
}

void survey_and_core(CardPage& page, const CardFacts& facts, const Results& results) {
    const base::MapFrame& map = results.records.frame;
    const SurveyInterval interval = survey_interval(results.project);
    const std::string first = length_text(interval.first, map, 0), every = length_text(interval.every, map, 0);
    page.write(page.left(), 6.4, "Survey", "card_strong");
    page.write(page.left() + 22.0, 6.4, "at " + first + ", then every " + every + ", and at the end", "card_text");
    page.write(page.left(), 12.6, "Core", "card_strong");
    const double box = 4.4, x = page.right() - page.width_of("all signed", "card_text") - box - 2.5;
    const double core = page.left() + 22.0, clearances = x - 3.0 - page.width_of("Clearances", "card_strong");
    page.write(core, 12.6, core_words(facts, results), "card_text", drawing::Anchor::left, clearances - 2.0 - core);
    page.write(clearances, 12.6, "Clearances", "card_strong");
    page.write(page.right(), 12.6, "all signed", "card_text", drawing::Anchor::right);
    page.tick_box(x, 12.6, box);
    page.end_part(survey_height);
}

}  // namespace

WayRows way_on_front(const CardFacts& facts, const Results& results, const Tools& tools) {
    return way_rows(facts, results, way_height(facts, results, tools), text_width, tools);
}

drawing::Sheet card_front(const CardFacts& facts, std::size_t number, std::size_t count, const Results& results,
                          const RunFacts& run, const Tools& tools) {
    CardPage page(facts.collar->hole, "front", tools);
    head(page, facts, number, count, results, tools);
    collar(page, facts, results);
    angles(page, facts, results, tools);
    draw_depth_line(page, facts, results, tools);
    page.end_part(depth_line_height(facts, results, tools));
    key_depths(page, facts, results);
    stop_part(page, facts, results, tools);
    way_part(page, way_on_front(facts, results, tools), way_height(facts, results, tools));
    survey_and_core(page, facts, results);
    const std::string caution = position_caution({facts.collar->hole}, results) + " Full caution and signatures: on the back.";
    // Two lines, or three set close where the hole's name is long.
    const bool close = drawing::wrapped(tools.fonts, tools.style.text("card_caution"), caution, page.width()).size() > 2;
    page.write_lines(page.left(), close ? 3.6 : 4.6, caution, "card_caution", page.width(), close ? 3.1 : 4.1);
    page.end_part(caution_height);
    page.identity(run, results);
    page.signatures({"made by", "checked by", "driller has read this card"}, signature_height);
    return std::move(page).finished();
}

}  // namespace selvage::sheets
