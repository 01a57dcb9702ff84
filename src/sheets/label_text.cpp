#include "sheets/label_text.h"

#include "base/text.h"
#include "sheets/flag_words.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace selvage::sheets {

namespace {

// A thickness: one decimal, two where one would show nothing.
int thickness_decimals(double in_unit) { return in_unit < 0.1 ? 2 : 1; }

std::string thickness_words(const intercepts::Intercept& hit, const base::MapFrame& frame) {
    const double metres = hit.true_thickness.value_or(hit.length());
    return thickness_text(metres, frame) + (hit.true_thickness ? " TW" : " DH");
}

// What must be said of a hole that may be too short, or may cross the vein in another block.
std::string reach_words(const forecast::Pierce& pierce) {
    constexpr double sure = 0.9;
    if (!is_within_reach(pierce)) return "; the hole ends before it";
    if (pierce.crossing.chance < sure)
        return std::string("; chance that the hole crosses it ") + (pierce.crossing.block.empty() ? "" : "there ") +
               chance_text(pierce.chance_reached);
    return pierce.chance_reached >= sure * pierce.crossing.chance
               ? ""
               : "; chance that the hole gets there " + chance_text(pierce.chance_reached);
}

}  // namespace

bool is_by_weight(const std::string& unit) { return unit == "g/t" || unit == "ppm" || unit == "ppb"; }

std::string length_figure(double metres, const base::MapFrame& frame, int decimals) {
    return base::fixed(frame.length(metres), decimals);
}

std::string length_text(double metres, const base::MapFrame& frame, int decimals) {
    return length_figure(metres, frame, decimals) + " " + base::symbol_of(frame.unit);
}

std::string behind_words(double offset, const base::MapFrame& frame) {
    return length_text(std::abs(offset), frame, 0) + (offset < 0.0 ? " in front" : " behind");
}

std::string behind_range_words(double from, double to, const base::MapFrame& frame) {
    const std::string first = behind_words(from, frame), last = behind_words(to, frame);
    if (first == last) return first;
    if ((from < 0.0) != (to < 0.0)) return first + " to " + last;
    const double near = from < 0.0 ? to : from, far = from < 0.0 ? from : to;
    return length_figure(std::abs(near), frame, 0) + " to " + behind_words(far, frame);
}

std::string thickness_figure(double metres, const base::MapFrame& frame) {
    constexpr double hundredths = 100.0, half_up = 1e-6;
    const double length = frame.length(metres);
    const double in_table = std::round(length * hundredths) / hundredths + half_up;
    return base::fixed(in_table, thickness_decimals(length));
}

std::string thickness_text(double metres, const base::MapFrame& frame) {
    return thickness_figure(metres, frame) + " " + base::symbol_of(frame.unit);
}

std::string signed_length(double metres, const base::MapFrame& frame, int decimals) {
    const std::string figure = length_figure(metres, frame, decimals);
    return figure.find_first_of("123456789") != std::string::npos && figure.front() != '-' ? "+" + figure : figure;
}

std::string grade_figure(double value, const std::string& unit) {
    if (!is_by_weight(unit)) return base::significant(value, 3);
    return value >= 9.95 ? base::fixed(value, 0) : base::significant(value, 2);
}

std::string limit_sign(const intercepts::Grade& grade) { return grade.over_limit ? "> " : grade.below_detection ? "< " : ""; }

std::string grade_text(const intercepts::Grade& grade, const tables::Analyte& analyte) {
    return limit_sign(grade) + grade_figure(grade.value, analyte.unit) + " " + analyte.unit + " " + analyte.element;
}

std::string not_assayed_words(const intercepts::Intercept& hit, const tables::Records& records, std::size_t analyte) {
    const bool others = std::any_of(hit.grades.begin(), hit.grades.end(), [](const auto& grade) { return grade.has_value(); });
    if (!others || analyte >= records.analytes.size()) return intercepts::word_of(intercepts::SampledState::not_sampled);
    return records.analytes[analyte].element + " not assayed";
}

std::string hit_label(const intercepts::Intercept& hit, const tables::Records& records, std::size_t analyte) {
    if (hit.state == tables::PickState::open_void) return "void, " + length_text(hit.length(), records.frame) + " DH";
    if (hit.state == tables::PickState::lost) return "core lost, " + length_text(hit.length(), records.frame) + " DH";
    const std::string length =
        hit.state == tables::PickState::structure ? "structure, no fill" : thickness_words(hit, records.frame);
    if (analyte < hit.grades.size() && hit.grades[analyte])
        return length + " @ " + grade_text(*hit.grades[analyte], records.analytes[analyte]);
    if (hit.sampled == intercepts::SampledState::pending) return length + ", assays pending";
    return hit.state == tables::PickState::structure ? length : length + ", " + not_assayed_words(hit, records, analyte);
}

std::string doubt_words(const intercepts::Intercept& hit) {
    const auto percent = [](double share) { return base::fixed(100.0 * share, 0) + " %"; };
    std::string words;
    for (const std::string& flag : hit.flags) {
        std::string word;
        if (flag == "possible") word = "possible pick only";
        if (flag == "part-sampled") word = percent(hit.sampled_share) + " assayed";
        if (flag == "low-recovery" && hit.recovery) word = "recovery " + percent(*hit.recovery);
        if (flag == "low-angle" && hit.angle) word = "hit at " + base::fixed(hit.angle->degrees(), 0) + "°";
        if (flag == "doubtful") word = "doubtful, see the table";
        if (!word.empty()) words += (words.empty() ? "" : ", ") + word;
    }
    return words;
}

std::string depth_range_text(double from, double to, const base::MapFrame& frame) {
    return length_figure(from, frame) + " to " + length_text(to, frame);
}

std::string no_vein_label(const veins::NoVein& none, const base::MapFrame& frame) {
    const std::string at = length_text(none.depth, frame, 0);
    switch (none.reason) {
        case veins::NoVeinReason::absent: return "no vein at " + at;
        case veins::NoVeinReason::not_logged: return "no vein logged at " + at;
        case veins::NoVeinReason::fault_gap: return "faulted out, due at " + at;
        case veins::NoVeinReason::lost_core: return "core lost at " + at;
        case veins::NoVeinReason::stopped_short: return "stopped short of it, due at " + at;
        case veins::NoVeinReason::not_judged: break;
    }
    return "not judged at " + at;
}

bool is_within_reach(const forecast::Pierce& pierce) { return pierce.chance_reached >= 0.02; }

bool has_blocks(const std::vector<veins::Vein>& veins) {
    return std::any_of(veins.begin(), veins.end(), [](const veins::Vein& vein) { return vein.blocks().is_cut(); });
}

std::string block_words(const std::string& block) {
    std::string words;
    for (std::size_t from = 0, at = 0; at < block.size(); ++at) {
        // A fault's name ends at a sign that stands right after it and before a blank or the end.
        const bool sign = block[at] == '+' || block[at] == '-';
        if (!sign || at == from || block[at - 1] == ' ' || (at + 1 < block.size() && block[at + 1] != ' ')) continue;
        words += (words.empty() ? "" : ", ") + std::string(block[at] == '+' ? "hanging wall of " : "foot wall of ") +
                 block.substr(from, at - from);
        from = at + 2;
    }
    return words;
}

bool is_beyond_extent(const forecast::Pierce& pierce) {
    return std::find(pierce.flags.begin(), pierce.flags.end(), "beyond-extent") != pierce.flags.end();
}

std::string place_doubts(const forecast::Pierce& pierce) {
    return (is_beyond_extent(pierce) ? ", " + flag_words("beyond-extent") : "") +
           (may_pass_by(pierce) ? ", " + flag_words("nearest-vein") : "");
}

std::string place_words(const forecast::Pierce& pierce, const base::MapFrame& frame) {
    const int decimals = base::fixed(frame.length(pierce.depth_p10), 0) == base::fixed(frame.length(pierce.depth_p90), 0) ? 1 : 0;
    return "at " + length_text(pierce.depth, frame, decimals) +
           (pierce.crossing.block.empty() ? "" : ", in the " + block_words(pierce.crossing.block)) + "; between " +
           length_figure(pierce.depth_p10, frame, decimals) + " and " + length_figure(pierce.depth_p90, frame, decimals) +
           " in 8 holes of 10";
}

std::string pierce_words(const forecast::Pierce& pierce, const base::MapFrame& frame) {
    return "likely " + place_words(pierce, frame) + "; chance that it is there " + chance_text(pierce.presence) +
           place_doubts(pierce) + reach_words(pierce);
}

std::string chance_text(double chance) {
    const std::string figure = base::fixed(chance, 2);
    return figure == "1.00" && chance < 1.0 ? "over 0.99" : figure == "0.00" ? "under 0.01" : figure;
}

std::string spaced_thousands(double value) {
    std::string digits = base::fixed(std::abs(value), 0);
    for (std::size_t from_end = 3; from_end < digits.size(); from_end += 4) digits.insert(digits.size() - from_end, " ");
    return value < -0.5 ? "-" + digits : digits;
}

std::string coordinates_text(const Eigen::Vector3d& point, const base::MapFrame& frame) {
    const Eigen::Vector3d map = frame.map_from_project(point);
    return "E " + spaced_thousands(map.x()) + "  N " + spaced_thousands(map.y());
}

std::string compass_point(base::Azimuth azimuth) {
    constexpr std::array<const char*, 8> points{"N", "NE", "E", "SE", "S", "SW", "W", "NW"};
    return points[static_cast<std::size_t>(std::floor(azimuth.degrees() / 45.0 + 0.5)) % 8];
}

std::string bearing_text(base::Azimuth azimuth) {
    const std::string whole = base::fixed(std::fmod(std::floor(azimuth.degrees() + 0.5), 360.0), 0);
    return std::string(3 - whole.size(), '0') + whole + "°";
}

}  // namespace selvage::sheets
