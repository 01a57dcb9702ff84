#include "sheets/compose.h"

#include "base/parallel.h"
#include "sheets/card_page.h"
#include "sheets/check_sheet.h"
#include "sheets/contents.h"
#include "sheets/cross_section.h"
#include "sheets/drill_site_card.h"
#include "sheets/forecast_sheet.h"
#include "sheets/front_page.h"
#include "sheets/grade_classes.h"
#include "sheets/holes_ahead.h"
#include "sheets/intercept_table.h"
#include "sheets/key_plan.h"
#include "sheets/level_plan.h"
#include "sheets/long_section.h"
#include "sheets/match_lines.h"
#include "sheets/methods_sheet.h"
#include "sheets/news.h"
#include "sheets/overview.h"
#include "sheets/own_plane.h"
#include "sheets/page.h"
#include "sheets/paper_choice.h"
#include "sheets/plan.h"
#include "sheets/section_set.h"
#include "sheets/shown.h"
#include "sheets/step_out_sheet.h"
#include "sheets/stereonet.h"
#include "sheets/strip_log.h"

#include <cstddef>
#include <functional>
#include <optional>
#include <utility>

namespace selvage::sheets {

namespace {

// A part of the pack: sheets of one kind, drawn on a thread of their own.
struct Part {
    const char* kind;
    std::function<std::vector<drawing::Sheet>()> draw;
};

}  // namespace

std::vector<drawing::Sheet> compose_pack(const Results& results, const RunFacts& run, const drawing::Style& style,
                                         const drawing::FontMetrics& fonts) {
    const Tools tools{style, fonts};
    const Shown shown(results, style.content);
    const HolesAhead ahead = holes_ahead(shown.results());
    Results drawn = shown.results();
    drawn.ahead = &ahead;
    const GradeClasses classes = grade_classes(drawn);
    // Sections keep the names that they have where more is shown.
    SectionSet sections = holding_something(section_set(results), drawn);
    const std::optional<NewPlaces> news = drawn.project.sheets.nothing_new ? std::nullopt : new_places(drawn, run);
    if (news) sections = holding_any(std::move(sections), news->points);
    const KeyMap map = key_map(drawn);
    const settings::Project desk_project = on_desk_paper(drawn.project, style),
                            table_project = on_table_paper(drawn.project, style);
    const Results desk = with_project(drawn, desk_project), table = with_project(drawn, table_project);

    std::vector<Part> parts;
    const auto add = [&](const char* kind, std::function<std::vector<drawing::Sheet>()> draw) {
        if (style.draws(kind)) parts.push_back({kind, std::move(draw)});
    };
    drawing::Box contents;
    add(front_page_kind, [&] {
        FrontPage front = front_page(table, run, classes, sections, tools);
        contents = front.contents;
        return std::vector<drawing::Sheet>{std::move(front.sheet)};
    });
    for (std::size_t vein = 0; vein < drawn.veins.size(); ++vein)
        add("long-section", [&, vein] { return long_section(drawn, vein, run, classes, sections, map, tools); });
    add("cross-section", [&] { return cross_sections(drawn, sections, classes, map, run, tools); });
    add("plan", [&] { return plan(drawn, run, classes, sections, tools); });
    add("level-plan", [&] {
        const LevelSet levels = level_set(drawn);
        return level_plans(news ? drawn_at(levels, news->points) : levels, drawn, run, classes, tools);
    });
    add(overview_kind, [&] { return overview(drawn, run, classes, tools); });
    add("intercept-table", [&] { return intercept_table(table, run, classes, sections, tools); });
    add(forecast_sheet_kind, [&] { return forecast_sheet(table, run, classes, sections, tools); });
    add("step-outs", [&] { return step_out_sheet(table, run, classes, tools); });
    const std::vector<CardFacts> cards = style.content.forecasts ? card_facts(drawn) : std::vector<CardFacts>{};
    for (std::size_t i = 0; i < cards.size(); ++i) {
        add(card_kind, [&, i] { return drill_site_card(cards[i], i + 1, cards.size(), drawn, run, sections, tools); });
        add(hole_section_kind,
            [&, i] { return cross_sections(drawn, own_plane(*cards[i].path, cards[i].to, sections), classes, map, run, tools); });
    }
    const std::vector<LoggedHole> logs = logged_holes(drawn, run);
    for (const LoggedHole& hole : logs)
        if (!news || news->holes.count(hole.collar->hole) > 0)
            add(strip_log_kind, [&] { return strip_log(hole, desk, run, tools); });
    const std::vector<PoleGroup> poles = pole_groups(drawn);
    for (const PoleGroup& group : poles)
        add(stereonet_kind, [&] { return std::vector<drawing::Sheet>{stereonet(group, desk, run, tools)}; });
    add(check_sheet_kind, [&] { return check_sheet(table, run, tools); });
    add(methods_sheet_kind, [&] { return methods_sheet(table, run, tools); });

    std::vector<std::vector<drawing::Sheet>> made(parts.size());
    base::parallel_for(parts.size(), [&](std::size_t i) { made[i] = parts[i].draw(); });
    std::vector<drawing::Sheet> pack = joined(std::move(made));
    number_pages(pack, tools);
    number_match_lines(pack);
    if (style.draws(front_page_kind)) write_contents(pack, contents, tools);
    if (style.page.enlarged != 1.0)
        for (drawing::Sheet& sheet : pack)
            if (sheet.kind != card_kind) sheet = drawing::enlarged(std::move(sheet), style.page.enlarged);
    return pack;
}

}  // namespace selvage::sheets
