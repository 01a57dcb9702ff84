#include "sheets/paper_choice.h"

#include "sheets/column.h"

#include <algorithm>
#include <array>
#include <optional>
#include <string>
#include <utility>

namespace selvage::sheets {

namespace {

std::optional<std::string> larger_paper(const std::string& name) {
    constexpr std::array<std::pair<const char*, const char*>, 4> next{
        {{"A4", "A3"}, {"A3", "A2"}, {"A2", "A1"}, {"279x432", "559x864"}}};
    for (const auto& [paper, larger] : next)
        if (name == paper) return larger;
    return std::nullopt;
}

}  // namespace

std::size_t listed_on(const PageContent& page, std::size_t listed, const Results& results, const Tools& tools) {
    const Paper paper = paper_of(results.project, tools.style);
    const PageBoxes boxes = page_boxes(paper.width_mm, paper.height_mm, tools.style.page.layout);
    return column_holds(page, boxes, tools) ? listed : std::max(listed, listed_most + 1);
}

drawing::LabelRules label_rules(const drawing::Box& window, const settings::Project& project, const Tools& tools) {
    constexpr std::size_t hopeless = 5;  // times more than a sheet bears: setting them again in another order saves a few
    drawing::LabelRules rules;
    rules.window = window;
    rules.number_look = tools.style.text("list_number");
    if (larger_paper(paper_of(project, tools.style).name)) rules.give_up_over = hopeless * listed_most;
    return rules;
}

settings::Project on_desk_paper(settings::Project project, const drawing::Style& style) {
    const std::string name = paper_of(project, style).name;
    if (name == "A2" || name == "A1" || name == "A0") project.sheets.paper = "A3";
    if (name == "559x864") project.sheets.paper = "279x432";
    return project;
}

drawing::Sheet on_paper_that_bears(const Results& results, const drawing::Style& style,
                                   const std::function<SheetTrial(const Results&)>& draw) {
    SheetTrial trial = draw(results);
    settings::Project project = results.project;
    while (trial.listed > listed_most) {
        const std::optional<std::string> larger = larger_paper(paper_of(project, style).name);
        if (!larger) break;
        project.sheets.paper = *larger;
        trial = draw({project, results.records, results.paths, results.orientations, results.events, results.intercepts,
                      results.veins, results.pierces, results.step_outs, results.site, results.solids});
    }
    return std::move(trial.sheet);
}

}  // namespace selvage::sheets
