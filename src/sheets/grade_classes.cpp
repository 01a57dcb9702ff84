#include "sheets/grade_classes.h"

#include "base/text.h"
#include "sheets/label_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr std::size_t most_breaks = 4;  // five classes: five shapes and five steps of grey can be told apart

// The i-th figure of the ladder ... 0.5, 1, 2, 5, 10, 20, 50 ...; i = 0 is 1.
double ladder(int i) {
    constexpr std::array<double, 3> first{1.0, 2.0, 5.0};
    const int decade = i >= 0 ? i / 3 : -((2 - i) / 3);
    return first[static_cast<std::size_t>(i - 3 * decade)] * std::pow(10.0, decade);
}

int ladder_place_at_or_below(double value) {
    int i = static_cast<int>(std::floor(3.0 * std::log10(value))) - 2;
    while (ladder(i + 1) <= value * (1.0 + 1e-9)) ++i;
    return i;
}

std::vector<double> breaks_from(int first) {
    std::vector<double> breaks;
    for (std::size_t i = 0; i < most_breaks; ++i) breaks.push_back(ladder(first + static_cast<int>(i)));
    return breaks;
}

std::size_t class_number(double value, const std::vector<double>& breaks) {
    std::size_t number = 0;
    while (number < breaks.size() && value >= breaks[number]) ++number;
    return number;
}

// The fullest class holds as few as can be; the lowest start of equals.
std::vector<double> breaks_for(const std::vector<double>& values) {
    if (values.empty()) return breaks_from(ladder_place_at_or_below(50.0));
    const auto [least, most] = std::minmax_element(values.begin(), values.end());
    std::vector<double> best;
    std::size_t best_fullest = values.size() + 1;
    for (int first = ladder_place_at_or_below(*least) - 1; first <= ladder_place_at_or_below(*most) + 1; ++first) {
        const std::vector<double> breaks = breaks_from(first);
        std::vector<std::size_t> counts(most_breaks + 1, 0);
        for (const double value : values) ++counts[class_number(value, breaks)];
        const std::size_t fullest = *std::max_element(counts.begin(), counts.end());
        if (fullest < best_fullest) {
            best_fullest = fullest;
            best = breaks;
        }
    }
    return best;
}

// The ladder round a given cut-off: it takes the place of the ladder's figure nearest to it, second from below.
std::vector<double> breaks_at(double cut_off) {
    int place = ladder_place_at_or_below(cut_off);
    if (std::log(ladder(place + 1) / cut_off) < std::log(cut_off / ladder(place))) ++place;
    std::vector<double> breaks = breaks_from(place - 1);
    breaks[1] = cut_off;
    return breaks;
}

std::string metal_name(const std::string& element) {
    constexpr std::array<std::pair<const char*, const char*>, 5> names{
        {{"Ag", "Silver"}, {"Au", "Gold"}, {"Pb", "Lead"}, {"Zn", "Zinc"}, {"Cu", "Copper"}}};
    for (const auto& [symbol, name] : names)
        if (element == symbol) return name;
    return element;
}

std::optional<double> given_cut_off(const settings::CutOff& cut_off, const base::MapFrame& frame) {
    if (cut_off.accumulation && *cut_off.accumulation > 0.0) return frame.length(*cut_off.accumulation);
    if (cut_off.value && *cut_off.value > 0.0 && cut_off.width_min > 0.0) return *cut_off.value * frame.length(cut_off.width_min);
    return std::nullopt;
}

std::string figure(double value) { return base::significant(value, 4); }

}  // namespace

GradeClasses grade_classes(const Results& results) {
    const std::vector<tables::Analyte>& analytes = results.records.analytes;
    GradeClasses classes;
    const std::optional<std::size_t> leading = tables::leading_analyte(analytes, results.project.cut_off.analyte);
    if (!leading) return classes;
    classes.any = true;
    classes.analyte = *leading;
    const tables::Analyte& analyte = analytes[classes.analyte];
    classes.unit = analyte.unit + "·" + base::symbol_of(results.records.frame.unit);
    classes.quantity = metal_name(analyte.element) + " × true thickness, " + classes.unit;

    std::vector<double> values;
    for (const intercepts::Intercept& hit : results.intercepts.met)
        if (const std::optional<double> value = accumulation_of(hit, classes, results.records.frame); value && *value > 0.0)
            values.push_back(*value);
    if (const std::optional<double> cut_off = given_cut_off(results.project.cut_off, results.records.frame)) {
        classes.breaks = breaks_at(*cut_off);
        classes.cut_off = 1;
        classes.cut_off_given = true;
    } else {
        classes.breaks = breaks_for(values);
    }
    return classes;
}

std::optional<double> accumulation_of(const intercepts::Intercept& hit, const GradeClasses& classes,
                                      const base::MapFrame& frame) {
    if (classes.analyte >= hit.accumulations.size() || !hit.accumulations[classes.analyte]) return std::nullopt;
    return frame.length(*hit.accumulations[classes.analyte]);
}

std::string accumulation_text(const intercepts::Intercept& hit, const GradeClasses& classes, const base::MapFrame& frame) {
    const std::optional<double> value = accumulation_of(hit, classes, frame);
    if (!value) return {};
    const bool graded = classes.analyte < hit.grades.size() && hit.grades[classes.analyte].has_value();
    return (graded ? limit_sign(*hit.grades[classes.analyte]) : std::string()) +
           base::significant(*value, *value < 100.0 ? 2 : 3);
}

HitSign sign_of(const intercepts::Intercept& hit, const GradeClasses& classes, const base::MapFrame& frame) {
    if (const std::optional<double> value = accumulation_of(hit, classes, frame))
        return static_cast<HitSign>(class_number(*value, classes.breaks));
    if (hit.sampled == intercepts::SampledState::pending) return HitSign::pending;
    return HitSign::not_classed;
}

std::vector<ClassRow> class_rows(const GradeClasses& classes, const std::vector<std::size_t>& counts, bool fill_samples) {
    std::vector<ClassRow> rows;
    const std::vector<double>& breaks = classes.breaks;
    const auto count = [&counts](std::size_t i) { return i < counts.size() ? counts[i] : 0; };
    for (std::size_t i = 0; classes.any && i <= breaks.size(); ++i) {
        ClassRow row;
        row.number = static_cast<int>(i);
        row.words = i == 0               ? "below " + figure(breaks[0])
                    : i == breaks.size() ? figure(breaks[i - 1]) + " and over"
                                         : figure(breaks[i - 1]) + " to " + figure(breaks[i]);
        row.count = count(i);
        row.fill_sample = fill_samples;
        if (classes.cut_off_given && i == classes.cut_off + 1) {
            row.note = "from " + figure(breaks[classes.cut_off]) + ": the cut-off";
            row.rule_above = true;
        }
        rows.push_back(row);
    }
    const std::array<std::pair<HitSign, const char*>, 3> others{{{HitSign::pending, "vein met, assays pending"},
                                                                 {HitSign::not_classed, "vein met, not classed"},
                                                                 {HitSign::no_vein, "no vein"}}};
    for (const auto& [sign, text] : others) {
        const std::size_t number = static_cast<std::size_t>(sign);
        if (count(number) == 0) continue;
        ClassRow row;
        row.number = static_cast<int>(number);
        row.words = text;
        row.count = count(number);
        rows.push_back(row);
    }
    return rows;
}

}  // namespace selvage::sheets
