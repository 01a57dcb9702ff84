#include "sheets/card_way.h"

#include "sheets/card_depth_dangers.h"
#include "sheets/clearance.h"
#include "sheets/label_text.h"

#include <algorithm>
#include <cmath>

namespace selvage::sheets {

namespace {

constexpr double head = 8.4;  // mm, over the first row
constexpr double widest_step = 6.2, tightest_step = 5.3;
constexpr double letter_room = 7.0, words_gap = 5.0;

// The words in rows of the width; letter and depths stand before the first.
void add_rows(std::vector<WayRow>& rows, const WayRow& row, double width, const Tools& tools) {
    bool first = true;
    for (std::string& line : drawing::wrapped(tools.fonts, tools.style.text(row.role), row.words, width)) {
        rows.push_back({first ? row.letter : "", row.depths, std::move(line), row.role});
        first = false;
    }
}

double depths_width(const CardFacts& facts, const Results& results, const Tools& tools) {
    double width = 0.0;
    for (const planning::Danger& danger : facts.dangers)
        width = std::max(width, drawing::text_width_mm(tools.fonts, tools.style.text("card_strong"),
                                                       danger_depths(danger, results.records.frame)));
    return width;
}

// What calls for an answer before drilling, in the strong look.
std::vector<WayRow> warnings(const CardFacts& facts, const Results& results, double width, const Tools& tools) {
    const base::MapFrame& map = results.records.frame;
    std::vector<WayRow> rows;
    const auto warn = [&](const std::string& words) { add_rows(rows, {"", "", words, "card_name"}, width, tools); };
    if (facts.leaves_property)
        warn("It leaves the property at " + length_text(*facts.leaves_property, map, 0) + ": not past it.");
    if (const std::string near = too_near_words(facts.near, results.records.frame); !near.empty())
        warn("TOO NEAR, " + length_text(results.project.plan.clearance, map, 0) + " wanted: " + near + ".");
    if (!facts.left_out.empty())
        warn("LEFT OUT by an error in its rows, and as they stand near: " + near_hole_words(facts.left_out, 2, map) +
             ". Ask first.");
    return rows;
}

std::vector<WayRow> danger_rows(const CardFacts& facts, const Results& results, const std::vector<std::size_t>& those,
                                double width, const Tools& tools) {
    const base::MapFrame& map = results.records.frame;
    std::vector<WayRow> rows;
    const double room = width - letter_room - depths_width(facts, results, tools) - words_gap;
    for (const std::size_t i : those)
        add_rows(rows, {danger_letter(i), danger_depths(facts.dangers[i], map), danger_words(facts.dangers[i], facts, map)}, room,
                 tools);
    return rows;
}

// Of what does not stand on the front: the letters that the depth line shows too, and how many more there are. Depths and kind
// stand with as many of the first of them as one line has room for.
std::string more_words(const CardFacts& facts, const std::vector<std::size_t>& others, bool sentences, const base::MapFrame& map,
                       double width, const Tools& tools) {
    const std::size_t further = facts.further_dangers.size();
    if (others.empty() && further == 0) return sentences ? "More: see the back." : "";
    const auto words_of = [&](std::size_t with_kind) {
        const bool bare = with_kind == 0 && others.size() == facts.dangers.size();
        std::string words = bare ? (others.size() + further == 1 ? "Danger " : "Dangers ") : "";
        for (std::size_t i = 0; i < others.size(); ++i) {
            const planning::Danger& danger = facts.dangers[others[i]];
            words += (i == 0 ? "" : ", ") + danger_letter(others[i]);
            if (i < with_kind) words += " " + danger_depths(danger, map) + " " + danger_kind(danger, facts);
        }
        if (further > 0) words += (others.empty() ? "" : " and ") + std::to_string(further) + " more";
        return words + ": see the back.";
    };
    std::size_t with_kind = others.size();
    while (with_kind > 0 && drawing::text_width_mm(tools.fonts, tools.style.text("card_strong"), words_of(with_kind)) > width)
        --with_kind;
    return words_of(with_kind);
}

}  // namespace

WayRows way_rows(const CardFacts& facts, const Results& results, double height, double width, const Tools& tools) {
    const auto room = static_cast<std::size_t>(std::max(0.0, std::floor((height - head) / tightest_step + 1e-9)));
    std::vector<std::string> told;
    if (facts.dangers.empty())
        told.emplace_back("No fault, working or trouble of a hole near by is known; that does not mean there is none.");
    told.push_back(workings_words(facts, results));
    for (const std::string& sentence : {nearest_hole_words(facts, results), beside_words(facts, results.records.frame)})
        if (!sentence.empty()) told.push_back(sentence);
    WayRows way;
    const std::vector<std::size_t> ranked = by_harm(facts.dangers);
    std::size_t count = facts.dangers.size();
    const auto keep_most_telling = [&] {
        const auto last = ranked.begin() + static_cast<std::ptrdiff_t>(count);
        way.dangers.assign(ranked.begin(), last);
        way.others.assign(last, ranked.end());
    };
    keep_most_telling();
    const auto set = [&](bool each_on_its_line) {
        way.rows = warnings(facts, results, width, tools);
        for (WayRow& row : danger_rows(facts, results, way.dangers, width, tools)) way.rows.push_back(std::move(row));
        if (const std::string more = more_words(facts, way.others, !way.left_out.empty(), results.records.frame, width, tools);
            !more.empty())
            way.rows.push_back({"", "", more, "card_strong"});
        std::string sentences;
        for (const std::string& sentence : told) {
            if (each_on_its_line) add_rows(way.rows, {"", "", sentence}, width, tools);
            sentences += (sentences.empty() ? "" : " ") + sentence;
        }
        if (!each_on_its_line && !told.empty()) add_rows(way.rows, {"", "", sentences}, width, tools);
        return way.rows.size() <= room;
    };
    const std::size_t least_told = facts.dangers.empty() ? 2 : 1;  // down to the workings
    // What only tells is left out first: who stands beside the start, the nearest hole; then the dangers that hurt least, and
    // at last the rest.
    while (!set(true) && !set(false)) {
        if (told.size() > least_told || (count == 0 && !told.empty())) {
            way.left_out.insert(way.left_out.begin(), told.back());
            told.pop_back();
        } else if (count > 0) {
            --count;
            keep_most_telling();
        } else {
            break;
        }
    }
    way.step = std::min(widest_step, (height - head) / static_cast<double>(way.rows.size()));
    return way;
}

void way_part(CardPage& page, const WayRows& way, double height) {
    page.write(page.left(), 4.5, "On the way, as modelled faults, workings and neighbouring holes tell", "card_caption");
    double depths = 0.0;
    for (const WayRow& row : way.rows) depths = std::max(depths, page.width_of(row.depths, "card_strong"));
    double down = 10.6;
    for (const WayRow& row : way.rows) {
        const bool of_danger = !row.depths.empty();
        const double x = page.left() + (of_danger ? letter_room + depths + words_gap : 0.0);
        if (!row.letter.empty()) {
            page.write(page.left(), down, row.letter, "card_name");
            page.write(page.left() + letter_room, down, row.depths, "card_strong");
        }
        page.write(x, down, row.words, row.role);
        down += way.step;
    }
    page.end_part(height);
}

}  // namespace selvage::sheets
