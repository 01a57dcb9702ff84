#include "sheets/compose.h"

#include "base/parallel.h"
#include "sheets/cross_section.h"
#include "sheets/drill_site_card.h"
#include "sheets/grade_classes.h"
#include "sheets/intercept_table.h"
#include "sheets/key_plan.h"
#include "sheets/level_plan.h"
#include "sheets/long_section.h"
#include "sheets/own_plane.h"
#include "sheets/page.h"
#include "sheets/paper_choice.h"
#include "sheets/plan.h"
#include "sheets/section_set.h"
#include "sheets/step_out_sheet.h"
#include "sheets/stereonet.h"
#include "sheets/strip_log.h"

#include <cstddef>
#include <functional>
#include <utility>

namespace selvage::sheets {

std::vector<drawing::Sheet> compose_pack(const Results& results, const RunFacts& run, const drawing::Style& style,
                                         const drawing::FontMetrics& fonts) {
    const Tools tools{style, fonts};
    const GradeClasses classes = grade_classes(results);
    const SectionSet sections = section_set(results);
    const KeyMap map = key_map(results);

    using Part = std::function<std::vector<drawing::Sheet>()>;
    std::vector<Part> parts;
    for (std::size_t vein = 0; vein < results.veins.size(); ++vein)
        parts.emplace_back(
            [&, vein] { return std::vector<drawing::Sheet>{long_section(results, vein, run, classes, sections, map, tools)}; });
    parts.emplace_back([&] { return cross_sections(results, sections, classes, map, run, tools); });
    parts.emplace_back([&] { return std::vector<drawing::Sheet>{plan(results, run, classes, sections, tools)}; });
    parts.emplace_back([&] { return level_plans(results, run, classes, tools); });
    parts.emplace_back([&] { return intercept_table(results, run, classes, sections, tools); });
    parts.emplace_back([&] { return step_out_sheet(results, run, classes, tools); });
    const std::vector<CardFacts> cards = card_facts(results);
    for (std::size_t i = 0; i < cards.size(); ++i)
        parts.emplace_back([&, i] {
            std::vector<drawing::Sheet> sheets = drill_site_card(cards[i], i + 1, cards.size(), results, run, sections, tools);
            const SectionSet own = own_plane(*cards[i].path, cards[i].to, sections);
            for (drawing::Sheet& sheet : cross_sections(results, own, classes, map, run, tools))
                sheets.push_back(std::move(sheet));
            return sheets;
        });
    const settings::Project desk_project = on_desk_paper(results.project);
    const Results desk{desk_project,      results.records,    results.paths, results.orientations,
                       results.events,    results.intercepts, results.veins, results.pierces,
                       results.step_outs, results.site,       results.solids};
    const std::vector<LoggedHole> logs = logged_holes(results, run);
    for (const LoggedHole& hole : logs) parts.emplace_back([&] { return strip_log(hole, desk, run, tools); });
    const std::vector<PoleGroup> poles = pole_groups(results);
    for (const PoleGroup& group : poles)
        parts.emplace_back([&] { return std::vector<drawing::Sheet>{stereonet(group, desk, run, tools)}; });

    std::vector<std::vector<drawing::Sheet>> made(parts.size());
    base::parallel_for(parts.size(), [&](std::size_t i) { made[i] = parts[i](); });
    std::vector<drawing::Sheet> pack;
    for (std::vector<drawing::Sheet>& sheets : made)
        for (drawing::Sheet& sheet : sheets) pack.push_back(std::move(sheet));
    number_pages(pack, tools);
    return pack;
}

}  // namespace selvage::sheets
