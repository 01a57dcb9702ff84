#include "base/text.h"
#include "sheets/card_further.h"
#include "sheets/card_sign_key.h"
#include "sheets/cautions.h"
#include "sheets/drill_site_card.h"
#include "sheets/label_text.h"
#include "sheets/own_plane.h"
#include "sheets/thumbnail.h"

#include <algorithm>
#include <cmath>

namespace selvage::sheets {

namespace {

constexpr double identity_height = 9.5, signature_row = 15.0, clearing_row = 13.0;  // mm
constexpr double caution_step = 4.0, caption_step = 4.0, between_cautions = 0.8, widest_row = 5.0, tightest_row = 4.2,
                 danger_row = 5.2, progress_step = 5.4;
constexpr double least_pictures = 80.0, least_line = 35.0;

void head(CardPage& page, const CardFacts& facts, std::size_t number, std::size_t count, const Results& results) {
    page.write(page.left(), 10.6, facts.collar->hole, "card_angle", drawing::Anchor::left, 42.0,
               destination_of_sheet(hole_section_kind, facts.collar->hole));
    page.write(page.left() + 46.0, 6.8, "Drill-site card, back", "card_name");
    page.write(page.left() + 46.0, 12.2, hole_words(facts, results.records.frame), "card_figure", drawing::Anchor::left, 86.0);
    page.write(page.right(), 6.8, results.project.name, "card_name", drawing::Anchor::right, 44.0);
    page.write(page.right(), 12.2, "card " + std::to_string(number) + " of " + std::to_string(count), "card_figure",
               drawing::Anchor::right);
    page.end_part(15.0);
}

// Both pictures, over `key` mm that their key takes, in a part so high. Gives the signs that they hold.
CardSigns draw_pictures(CardPage& page, const CardFacts& facts, const SectionSet& own, const Results& results, double height,
                        double key, const Tools& tools) {
    constexpr double share = 0.56, gap = 5.0, over = 2.5;
    const double bottom = page.top() - height + key, middle = page.left() + share * page.width();
    CardSigns signs =
        draw_side_view(page, {page.left(), bottom, middle - gap / 2.0, page.top() - over}, facts, own, results, tools);
    signs.merge(draw_view_from_above(page, {middle + gap / 2.0, bottom, page.right(), page.top() - over}, facts, results, tools));
    return signs;
}

// How much their key takes hangs on what they hold, and that on the height that is left to them: tried apart first.
void pictures(CardPage& page, const CardFacts& facts, const SectionSet& own, const Results& results, double height,
              const Tools& tools) {
    const auto key_of = [&](const CardSigns& signs) { return sign_key_height(page, signs, facts, tools) + 1.0; };
    double key = 0.0, needed = key_of({});
    while (needed > key) {
        key = needed;
        CardPage tried = page;
        needed = key_of(draw_pictures(tried, facts, own, results, height, key, tools));
    }
    const CardSigns signs = draw_pictures(page, facts, own, results, height, key, tools);
    write_sign_key(page, height - key + 2.6, signs, facts, tools);
    page.end_part(height);
}

// Active holes: how far they have come.
std::size_t progress_lines(const CardPage& page, const CardFacts& facts, const Results& results, const Tools& tools) {
    std::size_t lines = 0;
    for (const std::string& sentence : progress_words(facts, results))
        lines += drawing::wrapped(tools.fonts, tools.style.text("card_figure"), sentence, page.width()).size();
    return lines;
}

double progress_height(std::size_t lines) { return lines == 0 ? 0.0 : 3.4 + progress_step * static_cast<double>(lines); }

void progress(CardPage& page, const CardFacts& facts, const Results& results) {
    std::size_t lines = 0;
    for (const std::string& sentence : progress_words(facts, results))
        lines += page.write_lines(page.left(), 6.2 + progress_step * static_cast<double>(lines), sentence, "card_figure",
                                  page.width(), progress_step);
    if (lines > 0) page.end_part(progress_height(lines));
}

std::string range_figure(base::Angle middle, base::Angle off, bool azimuth, int side) {
    const base::Angle limit = side < 0 ? middle - off : middle + off;
    return azimuth ? azimuth_figure(base::Azimuth(limit)) : base::fixed(limit.degrees(), 1) + "°";
}

struct LineColumn {
    std::string head;
    double right = 0.0;  // share of the width at which its figures end
};

// The hole's expected direction by depth, and when a reading is off the line: what the tool reads first, beside its limits.
struct LineTable {
    std::vector<ExpectedDirection> rows;
    double row = widest_row;  // mm
    bool all = true;          // else some of its surveys
    std::vector<std::string> caption;

    double head() const { return 9.6 + caption_step * static_cast<double>(caption.size()); }
    double height() const { return head() + row * static_cast<double>(rows.size()); }
};

std::vector<std::string> line_caption(bool all, const CardPage& page, const Tools& tools) {
    return drawing::wrapped(tools.fonts, tools.style.text("card_caption"),
                            std::string(all ? "Expected at its surveys" : "Expected at some of its surveys") +
                                ". A reading outside the limits: tell the geologist (2 in 10 are, by chance alone). Within them "
                                "is as expected, not on target.",
                            page.width());
}

// A row a survey, as the front orders them. Of a long hole the next three, where steering costs least, every second, or third and
// so on of those further down, and that at its end.
LineTable line_table(const CardPage& page, const CardFacts& facts, double room, const Tools& tools) {
    LineTable table;
    table.rows = facts.line;
    table.caption = line_caption(false, page, tools);
    const auto fit = [&] {
        table.row = std::min(widest_row, (room - table.head()) / static_cast<double>(table.rows.size()));
        return table.row >= tightest_row;
    };
    constexpr std::size_t next = 3;
    for (std::size_t every = 2; !fit() && table.rows.size() > next + 1; ++every) {
        table.rows.clear();
        for (std::size_t i = 0; i < facts.line.size(); ++i)
            if (i < next || (facts.line.size() - 1 - i) % every == 0) table.rows.push_back(facts.line[i]);
        table.all = false;
    }
    table.row = std::max(table.row, tightest_row);
    table.caption = line_caption(table.all, page, tools);
    return table;
}

void expected_line(CardPage& page, const CardFacts& facts, const Results& results, const LineTable& table) {
    const base::MapFrame& map = results.records.frame;
    const bool magnetic = facts.norths.from_magnetic.has_value();
    for (std::size_t i = 0; i < table.caption.size(); ++i)
        page.write(page.left(), 5.0 + caption_step * static_cast<double>(i), table.caption[i], "card_caption");
    std::vector<LineColumn> columns{{"depth, " + std::string(base::symbol_of(map.unit)), 0.08},
                                    {"dip down", 0.22},
                                    {"flattest", 0.33},
                                    {"steepest", 0.44},
                                    {magnetic ? "azimuth mag." : "azimuth grid", 0.60},
                                    {magnetic ? "leftmost mag." : "leftmost", 0.73},
                                    {magnetic ? "rightmost mag." : "rightmost", magnetic ? 0.87 : 0.86}};
    if (magnetic) columns.push_back({"grid", 1.0});
    const auto x = [&](std::size_t column) { return page.left() + columns[column].right * page.width(); };
    for (std::size_t i = 0; i < columns.size(); ++i)
        page.write(std::max(x(i), page.left() + page.width_of(columns[i].head, "card_caption")), table.head() - 3.0,
                   columns[i].head, "card_caption", drawing::Anchor::right);
    double down = table.head() + 2.2;
    for (const ExpectedDirection& at : table.rows) {
        const base::Angle azimuth = at.expected.azimuth.angle(), dip = at.expected.dip.angle();
        const bool steep = std::abs(dip.degrees()) >= 88.0;
        std::vector<std::string> cells{length_figure(at.depth, map, 0), range_figure(dip, {}, false, 1),
                                       range_figure(dip, at.dip_off, false, -1),
                                       base::fixed(std::min(90.0, (dip + at.dip_off).degrees()), 1) + "°"};
        const std::optional<base::Azimuth> by_needle = three_norths(at.expected.azimuth, results.project.north).from_magnetic;
        const base::Angle read = magnetic ? by_needle->angle() : azimuth;
        cells.push_back(steep ? "any" : range_figure(read, {}, true, 1));
        for (const int side : {-1, 1}) cells.push_back(steep ? "" : range_figure(read, at.azimuth_off, true, side));
        if (magnetic) cells.push_back(steep ? "" : range_figure(azimuth, {}, true, 1));
        for (std::size_t k = 0; k < cells.size(); ++k)
            page.write(x(k), down, cells[k], k == 1 || k == 4 ? "card_mark" : "card_figure", drawing::Anchor::right);
        down += table.row;
    }
    page.end_part(table.height());
}

double cautions_height(const std::vector<std::string>& cautions, double width, const Tools& tools) {
    double height = 3.6;
    for (const std::string& caution : cautions)
        height += between_cautions +
                  caution_step *
                      static_cast<double>(drawing::wrapped(tools.fonts, tools.style.text("card_caution"), caution, width).size());
    return height;
}

void write_cautions(CardPage& page, const std::vector<std::string>& cautions, const Tools& tools) {
    double down = 5.0;
    for (const std::string& caution : cautions)
        down += between_cautions + caution_step * static_cast<double>(page.write_lines(page.left(), down, caution, "card_caution",
                                                                                       page.width(), caution_step));
    page.end_part(cautions_height(cautions, page.width(), tools));
}

}  // namespace

drawing::Sheet card_back(const CardFacts& facts, std::size_t number, std::size_t count, const Results& results,
                         const RunFacts& run, const SectionSet& sections, const Tools& tools) {
    CardPage page(facts.collar->hole, "back", tools);
    head(page, facts, number, count, results);
    const WayRows front = way_on_front(facts, results, tools);
    const std::vector<std::string> cautions = drill_site_cautions(facts.collar->hole, results);
    const double fixed = progress_height(progress_lines(page, facts, results, tools)) +
                         cautions_height(cautions, page.width(), tools) + clearing_row + identity_height + signature_row;
    const double room_for_further = page.free() - fixed - least_pictures - least_line;
    const Further further = further_of(page, facts, results, front, room_for_further, tools);
    const double rest = fixed + further.height();
    const LineTable line = line_table(page, facts, page.free() - rest - least_pictures, tools);
    const double room = page.free() - rest - line.height();
    pictures(page, facts, own_plane(*facts.path, facts.to, sections), results, std::max(least_pictures, room), tools);
    progress(page, facts, results);
    expected_line(page, facts, results, line);
    write_further(page, further);
    write_cautions(page, cautions, tools);
    page.signatures({"permits, access, services cleared", "workings, ground, water cleared", "collar and line surveyed"},
                    clearing_row);
    page.identity(run, results);
    page.signatures({"geologist", "responsible licensed person", "driller has read both sides"}, signature_row);
    return std::move(page).finished();
}

std::vector<drawing::Sheet> drill_site_card(const CardFacts& facts, std::size_t number, std::size_t count, const Results& results,
                                            const RunFacts& run, const SectionSet& sections, const Tools& tools) {
    return {card_front(facts, number, count, results, run, tools),
            card_back(facts, number, count, results, run, sections, tools)};
}

}  // namespace selvage::sheets
